"""What the server tells of pieces: documents, what they come to, history; all lengths in mm."""

from __future__ import annotations

from base64 import b64encode
from typing import TYPE_CHECKING, Literal, Self

from pydantic import Field

from cordwright.bench.wire import Mm, PieceName, PlanPath, Revision, Wire
from cordwright.hang.fitanswer import FitReport  # noqa: TC001 - pydantic reads it at run time
from cordwright.hang.loadanswer import LoadReport  # noqa: TC001 - pydantic reads it at run time
from cordwright.piece.answer import CutReport  # noqa: TC001 - pydantic reads it at run time

if TYPE_CHECKING:
    from cordwright.draw.scene_poses import Poses

Kind = Literal[
    "count", "length", "amount", "mass", "volume", "force", "number", "places", "choice", "cord",
    "motif", "name", "text", "other",
]  # fmt: skip
"""What a value is: a whole number; a length with its unit; either; other measures with a unit; a
number; strands by place; one of a few words; one of the plan's cords or motifs; a new name; free
text; anything else."""


class Problem(Wire):
    """Something that is wrong with a plan, or that its maker should know, and where it is."""

    level: Literal["error", "warning"] = Field(description="Errors leave it without numbers.")
    what: str = Field(description="One sentence that says what is wrong.")
    remedy: str = Field(description="What to try; may be empty.")
    line: int | None = Field(description="Line in the text, from 1; null if at no one place.")
    column: int | None = Field(description="Column in it, from 1.")
    path: PlanPath | None = Field(description="The step or value that it stands in, if known.")


class Value(Wire):
    """One value of a plan that can be changed in place."""

    path: PlanPath
    key: str = Field(description="Its key, as in times.")
    text: str = Field(description="As it is written.")
    kind: Kind
    number: float | None = Field(
        description="What it comes to: a whole number, or a length in mm; null for words."
    )
    uses: list[str] = Field(description="Names of sizes in it: change these instead, or as well.")
    choices: list[str] = Field(description="The words that it may be, for a choice.")
    about: str = Field(description="What the key means.")


class Part(Wire):
    """A step of the plan; a section is the step ``section``, and has its steps within it."""

    path: PlanPath
    verb: str = Field(description="tie, rows, gather, section, repeat …")
    name: str = Field(description="A section's name, or the verb's own value: square-knot, 1-4.")
    note: str = Field(description="The maker's note; may be empty.")
    first_line: int = Field(description="First line of its text, from 1.")
    last_line: int = Field(description="Last line of its text.")
    values: list[Value] = Field(description="What can be changed in it, in the order written.")
    missing: list[Value] = Field(
        description="Keys that could be added, with what they are if left out."
    )
    parts: list[Part] = Field(description="Steps within it.")
    knots: int = Field(description="Knots that it ties, those of its parts included.")
    shapes: list[str] = Field(
        description="Tight shapes that a single step ties, by their names in the knot room."
    )
    top_mm: Mm | None = Field(description="Depth of its highest knot below the top, as it adds up.")
    bottom_mm: Mm | None = Field(description="Depth of its lowest end, as it adds up.")
    used_mm: Mm | None = Field(description="Cord used in a section and those within it; else null.")


class Size(Wire):
    """A named length or count of the plan."""

    name: str
    path: PlanPath = Field(description="Where its value is set.")
    kind: Literal["count", "length"]
    text: str = Field(description="As it is written.")
    number: float = Field(description="What it comes to: mm, or the count.")
    least: float | None = Field(description="Its lower bound, mm or count; null if it has none.")
    most: float | None = Field(description="Its upper bound.")
    uses: list[str] = Field(description="Other sizes that it is made of; empty if it stands alone.")
    used_by: list[PlanPath] = Field(description="Values that use it.")
    about: str


class Cord(Wire):
    """One of the plan's cords."""

    name: str
    path: PlanPath
    fibre: str
    diameter: str = Field(description="As it is written.")
    diameter_mm: Mm
    build: str
    colour: str = Field(description="In words; may be empty.")
    rgb: str = Field(description="What it is drawn in: #rrggbb.")
    weight: str = Field(description="As it is written, g/m; may be empty.")
    strength: str = Field(description="As it is written; may be empty.")
    shelf: str = Field(description="Its name on the maker's shelf; may be empty.")


class Group(Wire):
    """A group of the plan that is changed value by value: the mount, what is held."""

    path: PlanPath
    kind: str = Field(description="ring, rod, cord, nothing; pot, bowl, sphere, box.")
    values: list[Value]


class MountedCords(Wire):
    """Equal cords side by side on the mount, or a run that is repeated."""

    path: PlanPath
    values: list[Value]
    run: list[MountedCords] = Field(description="The cords of a repeated run; else empty.")


class Motif(Wire):
    """Work that is planned once and used in several places."""

    name: str
    path: PlanPath
    takes: list[Value]
    parts: list[Part]


class Outline(Wire):
    """What a plan is made of, for lists and forms."""

    title: str
    about: str
    parts: list[Part] = Field(description="The work, from top to bottom.")
    sizes: list[Size]
    cords: list[Cord]
    mount: Group
    mounted: list[MountedCords]
    holds: Group | None
    hang: list[Value] = Field(description="The other values of hang: hook, clear, place …")
    motifs: list[Motif]
    strands: int = Field(description="Strands that hang from the mount.")


class Document(Wire):
    """A piece as it stands. Text is the truth; all else follows from it."""

    name: PieceName
    revision: Revision
    text: str
    title: str = Field(description="The plan's title; the piece's name where it is no plan.")
    good: bool = Field(description="Whether the text is a plan that can be worked.")
    good_revision: Revision | None = Field(
        description="The last state that could be worked: numbers and pictures are of it."
    )
    problems: list[Problem]
    outline: Outline | None = Field(description="Of the last state that could be worked.")
    can_undo: bool
    can_redo: bool
    saved_at: str = Field(description="When, ISO 8601 in UTC.")


class PieceCard(Wire):
    """A piece in the folder."""

    name: PieceName
    title: str
    revision: Revision | None = Field(description="Null if it was never opened here.")
    changed_at: str = Field(description="When its file was changed, ISO 8601 in UTC.")
    problem: str = Field(description="Why it cannot be opened; empty if it can.")


class Example(Wire):
    """A plan that comes with Cordwright."""

    name: str
    title: str
    about: str


class Pieces(Wire):
    """All that can be opened, and what can be begun from."""

    folder: str = Field(description="The maker's folder, as shown to them.")
    pieces: list[PieceCard]
    deleted: list[PieceCard] = Field(description="Deleted, and can be restored.")
    examples: list[Example]


class State(Wire):
    """One state in a piece's history."""

    revision: Revision
    at: str = Field(description="When, ISO 8601 in UTC.")
    what: str = Field(description="What was done, in words.")
    present: bool = Field(description="Whether it is how the piece stands now.")


class History(Wire):
    """A piece's states, the newest first; ``more`` says that there are older ones."""

    name: PieceName
    states: list[State]
    more: bool


class Extent(Wire):
    """How large the piece comes out; mm."""

    length_mm: Mm = Field(description="From the top to the deepest end, by adding up.")
    width_mm: Mm | None = Field(description="Of flat work, as it is worked; null in the round.")
    height_mm: Mm | None = Field(description="Of flat work, as it is worked; null in the round.")


class Mass(Wire):
    """A weight in g with the range that it may lie in."""

    g: float
    low_g: float
    high_g: float


class Amount(Wire):
    """A sum of money."""

    currency: str = Field(description="Code of ISO 4217.")
    amount: str = Field(description="Decimal number, with the currency's decimals.")


class Unpriced(Wire):
    """A cord whose price is not known."""

    cord: str = Field(description="The plan's name of it.")
    why: Literal["not from the shelf", "no price"] = Field(
        description="The plan does not name a cord on the shelf, or that one has no price there."
    )


class Cost(Wire):
    """What the cord that is cut costs, at the shelf's prices by the metre."""

    amounts: list[Amount] = Field(description="By currency; empty if nothing has a price.")
    unpriced: list[Unpriced] = Field(description="Cords that are not in it.")


class Numbers(Wire):
    """What follows at once from a plan: what to cut, how large and how heavy it comes out."""

    name: PieceName
    revision: Revision = Field(description="The state that these numbers are of.")
    trying: int | None = Field(
        description="Number of the try that they answer, if the change was not saved; else null."
    )
    cut: CutReport
    extent: Extent
    cord_mass: Mass | None = Field(description="Of the cord that is cut; null where not known.")
    cost: Cost
    parts: dict[PlanPath, tuple[Mm | None, Mm | None]] = Field(
        description="Depths of top and bottom of every part, as they add up."
    )
    ms: float = Field(description="How long it took to work out, milliseconds.")


class Hanging(Wire):
    """What follows from the shape in which the piece hangs."""

    name: PieceName
    revision: Revision
    load: LoadReport | None = Field(description="Null where it hangs from nothing.")
    fit: FitReport | None = Field(description="Null where it holds nothing, or is flat.")
    problems: list[Problem] = Field(description="Why there is no answer, or not a whole one.")
    ms: float = Field(description="How long it took to work out, milliseconds.")


class Stretch(Wire):
    """Where a part of the plan is in the picture: heights in the scene, metres, y upwards."""

    top: float
    bottom: float


class Skin(Wire):
    """What one of the plan's cords looks like."""

    name: str
    surface: str = Field(description="Name of its surface, one of the scene's parts.")
    colour: tuple[float, float, float] = Field(description="Linear red, green and blue, 0 to 1.")


class PosedThing(Wire):
    """What the piece hangs on or holds."""

    key: str = Field(description="Its key among the scene's parts.")
    at: tuple[float, float, float] = Field(description="Where its origin is, metres.")


class ScenePoses(Wire):
    """Where everything of a scene is; metres, y up, the front towards +z."""

    shapes: list[str] = Field(description="Keys of the shapes of knots among the scene's parts.")
    skins: list[Skin] = Field(description="What the plan's cords look like.")
    things: list[PosedThing]
    strands: list[str] = Field(description="Names of the strands.")
    skin: list[int] = Field(description="Which of ``skins`` each strand has.")
    knots: int = Field(description="How many knots there are.")
    cords: int = Field(description="How many free lengths there are.")
    numbers: str = Field(
        description="Little-endian 32-bit floats in base64. Of every knot: which of ``shapes`` it "
        "has, its number in the piece (from 0), how many strands, x, y, z, the unit quaternion x, "
        "y, z, w, the length of one diameter d, and its strands by place. Then of every free "
        "length: its strand, its cut ends (1 the first, 2 the last, 3 both), its thickness, the "
        "length after which its surface repeats, how many cubic Bézier curves it has, and their "
        "points, x, y, z each; a curve begins at the last one's end."
    )

    @classmethod
    def of(cls, poses: Poses) -> Self:
        """The poses of a scene."""
        return cls(
            shapes=list(poses.shapes),
            skins=[Skin(name=s.name, surface=s.surface, colour=s.colour) for s in poses.skins],
            things=[PosedThing(key=t.key, at=t.at) for t in poses.things],
            strands=list(poses.strands),
            skin=list(poses.skin),
            knots=poses.knots,
            cords=poses.cords,
            numbers=b64encode(poses.numbers).decode("ascii"),
        )


class Picture(Wire):
    """A picture is ready: where everything is in it."""

    name: PieceName
    revision: Revision
    trying: int | None = Field(description="Number of the try that it shows; null if saved.")
    scene: str = Field(
        description="Where the scene's parts are, for whoever has not got all of them: a path on "
        "this server, to which ``&detail=low`` or ``&detail=high`` is added."
    )
    poses: ScenePoses
    parts: dict[PlanPath, Stretch] = Field(description="Where every part is in the scene.")
    steps: list[PlanPath] = Field(description="Steps that tie knots.")
    knots: list[int] = Field(
        description="For every knot of the scene ('knot 1' is the first): which of ``steps`` ties "
        "it; -1 for knots of the mount."
    )
    balanced: bool = Field(description="Whether the shape came to rest.")
    ms: float = Field(description="How long it took to make, milliseconds.")


class Conflict(Wire):
    """The piece was changed elsewhere meanwhile: this is how it stands now."""

    what: str
    document: Document


class Trouble(Wire):
    """What was asked for could not be done, and nothing was changed."""

    what: str
    remedy: str
    problems: list[Problem]
