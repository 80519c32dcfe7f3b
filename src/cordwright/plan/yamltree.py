"""From YAML text to plain values that know their places, in bounded time and memory.

The parser's events are put together here, one by one, so that depth, size, aliases, tags and
doubled keys are refused before anything large is built. Scalars are read by the core schema of
YAML 1.2: decimal numbers, ``true``, ``false``, ``null``; everything else is text.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Final

from cordwright.errors import Place, PlanError
from cordwright.plan.marks import MarkedDict, MarkedFloat, MarkedInt, MarkedList, MarkedStr
from cordwright.plan.problems import raise_all, shortened

if TYPE_CHECKING:
    from ruamel.yaml.error import YAMLError
    from ruamel.yaml.events import Event, ScalarEvent

MOST_BYTES: Final = 1_000_000
MOST_DEPTH: Final = 200
MOST_NODES: Final = 100_000
MOST_KEPT: Final = 100_000
"""Characters of a text whose events are kept; they take some hundred times as much memory."""

_INT = re.compile(r"[-+]?[0-9]{1,15}")
_FLOAT = re.compile(r"[-+]?(\.[0-9]+|[0-9]+\.[0-9]*|[0-9]+)([eE][-+]?[0-9]{1,3})?")
_WORDS: Final = {
    **dict.fromkeys(("true", "True", "TRUE"), True),
    **dict.fromkeys(("false", "False", "FALSE"), False),
    **dict.fromkeys(("", "~", "null", "Null", "NULL"), None),
}


@dataclass(slots=True)
class _Built:
    """A finished value with how many nodes it has and how deep it goes."""

    value: Any
    place: Place
    nodes: int = 1
    depth: int = 1
    text: str | None = None


@dataclass(slots=True)
class _Open:
    """A mapping or list that is still being read."""

    value: MarkedDict | MarkedList
    place: Place
    anchor: str | None
    nodes: int = 1
    depth: int = 1
    key: _Built | None = None
    doubled: bool = False


@dataclass(slots=True)
class _Builder:
    file: str
    open: list[_Open] = field(default_factory=list)
    anchors: dict[str, _Built] = field(default_factory=dict)
    unfinished: set[str] = field(default_factory=set)
    nodes: int = 0
    documents: int = 0
    root: _Built | None = None
    errors: list[PlanError] = field(default_factory=list)

    def place(self, event: Event) -> Place:
        mark = event.start_mark
        return Place(self.file, mark.line + 1, mark.column + 1)

    def take(self, event: Event) -> None:
        from ruamel.yaml import events

        match event:
            case events.ScalarEvent():
                self.refuse_tag(event)
                self.add(_scalar(event, self.file), event.anchor)
            case events.AliasEvent():
                self.add(self.alias(event), None)
            case events.MappingStartEvent():
                self.begin(event, MarkedDict())
            case events.SequenceStartEvent():
                self.begin(event, MarkedList())
            case events.MappingEndEvent() | events.SequenceEndEvent():
                self.end()
            case events.DocumentStartEvent():
                self.documents += 1
                if self.documents > 1:
                    raise PlanError(
                        "The file holds more than one plan.",
                        remedy="keep one plan in a file; take out the line ---",
                        place=self.place(event),
                    )
            case _:
                pass

    def refuse_tag(self, event: Any) -> None:
        if event.tag is not None:
            raise PlanError(
                f"The tag '{shortened(event.tag)}' has no place in a plan.",
                remedy="put a text that starts with ! in quotes",
                place=self.place(event),
            )

    def alias(self, event: Any) -> _Built:
        name = str(event.anchor)
        if name in self.anchors:
            return self.anchors[name]
        what = "stands inside itself" if name in self.unfinished else "is not defined above"
        raise PlanError(
            f"*{shortened(name)} {what}.",
            remedy="define it with & before it is used, or plan a motif; put * in quotes",
            place=self.place(event),
        )

    def begin(self, event: Any, value: MarkedDict | MarkedList) -> None:
        self.refuse_tag(event)
        place = self.place(event)
        value.place = place
        if isinstance(value, MarkedDict):
            value.places, value.key_places = {}, {}
        else:
            value.places = []
        self.open.append(_Open(value, place, event.anchor))
        self.check_depth(0, place)
        if event.anchor is not None:
            self.anchors.pop(event.anchor, None)
            self.unfinished.add(event.anchor)

    def check_depth(self, more: int, place: Place) -> None:
        if len(self.open) + more > MOST_DEPTH:
            raise PlanError(
                f"The plan is nested more than {MOST_DEPTH} levels deep.",
                remedy="plan motifs instead of steps inside steps",
                place=place,
            )

    def end(self) -> None:
        done = self.open.pop()
        if done.anchor is not None:
            self.unfinished.discard(done.anchor)
        self.nodes -= done.nodes  # counted again, as a whole, where it is added
        self.add(_Built(done.value, done.place, done.nodes, done.depth), done.anchor)

    def add(self, built: _Built, anchor: str | None) -> None:
        if anchor is not None:
            self.anchors[anchor] = built
        self.nodes += built.nodes
        if self.nodes > MOST_NODES:
            raise PlanError(
                f"The plan has more than {MOST_NODES} parts, its aliases (*) counted in full.",
                remedy="use repeat or motifs instead of aliases or copies",
                place=built.place,
            )
        if not self.open:
            self.root = built
            return
        parent = self.open[-1]
        self.check_depth(built.depth - 1, built.place)
        parent.nodes += built.nodes
        parent.depth = max(parent.depth, built.depth + 1)
        if isinstance(parent.value, MarkedList):
            parent.value.append(built.value)
            parent.value.places.append(built.place)
        elif parent.key is None:
            self.take_key(parent, built)
        else:
            self.set_key(parent, parent.value, parent.key, built)

    def take_key(self, parent: _Open, key: _Built) -> None:
        if key.text is None:
            raise PlanError(
                "A group or list stands where a key belongs.",
                remedy="start the line with a plain word and a colon; put {…} texts in quotes",
                place=key.place,
            )
        if key.text == "<<":
            raise PlanError(
                "<< cannot merge keys in a plan.",
                remedy="write the keys out, or plan a motif",
                place=key.place,
            )
        parent.key = key

    def set_key(self, parent: _Open, into: MarkedDict, key: _Built, built: _Built) -> None:
        text = key.text or ""
        parent.key = None
        if text in into:
            first = into.key_places[text]
            self.errors.append(
                PlanError(
                    f"The key '{shortened(text)}' stands twice; first in line {first.line}.",
                    remedy="keep one of the two",
                    place=key.place,
                )
            )
            return
        into[text] = built.value
        into.places[text] = built.place
        into.key_places[text] = key.place


def _scalar(event: ScalarEvent, file: str) -> _Built:
    text = joined(str(event.value))
    start, end = event.start_mark, event.end_mark
    plain = event.style in (None, "")
    inside = 0 if plain else 1
    column = start.column + 1 + inside if start.line == end.line else None
    place = Place(file, start.line + 1, start.column + 1)
    value = read_plain(text) if plain else MarkedStr(text)
    if isinstance(value, (MarkedStr, MarkedInt, MarkedFloat)):
        value.place = Place(file, start.line + 1, column)
    return _Built(value, place, text=text)


_HALVES = re.compile("[\ud800-\udfff]")


def joined(text: str) -> str:
    """Text in which the two halves of a character, written as JSON escapes, are one.

    Raises:
        UnicodeDecodeError: a half stands alone.
    """
    if not _HALVES.search(text):
        return text
    return text.encode("utf-16-le", "surrogatepass").decode("utf-16-le")


def read_plain(text: str) -> MarkedStr | MarkedInt | MarkedFloat | bool | None:
    """What a scalar without quotes means, by YAML's core schema."""
    if text in _WORDS:
        return _WORDS[text]
    if _INT.fullmatch(text):
        return MarkedInt(text)
    if len(text) <= 40 and _FLOAT.fullmatch(text) and abs(float(text)) < 1e300:
        number = MarkedFloat(text)
        number.text = text
        return number
    return MarkedStr(text)


def yaml_events(text: str) -> Iterator[Event]:
    """The parser's events; a ``YAMLError`` comes where the text stops being YAML.

    Those of the last text are kept: a change of a plan reads it twice, for its layout and for its
    values, and parsing takes most of the time of both.
    """
    kept = _KEPT.get(text)
    if kept is not None:
        yield from kept
        return
    from ruamel.yaml import YAML

    found: list[Event] = []
    for event in YAML(typ="safe", pure=True).parse(text):
        found.append(event)
        yield event
    if len(text) <= MOST_KEPT:
        _KEPT.clear()
        _KEPT[text] = tuple(found)


_KEPT: Final[dict[str, tuple[Event, ...]]] = {}


def read_tree(text: str, file: str) -> Any:
    """The one document in the text, as marked values.

    Raises:
        PlanError: not YAML, empty, too large, too deep, too many aliases, tags, doubled keys.
    """
    from ruamel.yaml.error import YAMLError

    if len(text) > MOST_BYTES or len(text.encode("utf-8", "surrogatepass")) > MOST_BYTES:
        raise PlanError(
            "The plan is larger than 1 MB.",
            remedy="use repeat and motifs; keep pictures and notes elsewhere",
            place=Place(file),
        )
    builder = _Builder(file)
    try:
        for event in yaml_events(text.removeprefix("\ufeff")):
            builder.take(event)
    except YAMLError as error:
        builder.errors.append(_not_yaml(error, file))
    except (ValueError, OverflowError) as error:  # an escape such as \UFFFFFFFF in quotes
        builder.errors.append(
            PlanError(
                f"The text holds a character that does not exist: {shortened(error)}.",
                remedy="look for a backslash inside double quotes",
                place=Place(file),
            )
        )
    raise_all(builder.errors)
    if builder.root is None:
        raise PlanError(
            "The plan is empty.",
            remedy="start from an example plan: cordwright: 1, then title:, cords:, mount:, work:",
            place=Place(file, 1, 1),
        )
    return builder.root.value


_REWORDED: Final = (
    ("'\\t'", "A tab stands where spaces are needed.", "indent with spaces"),
    (
        "mapping values are not allowed",
        "A colon stands where it does not fit.",
        "check the indentation; put a text with a colon in it in quotes",
    ),
    (
        "could not find expected ':'",
        "A key has no colon.",
        "write key: value, with a space after the colon",
    ),
    ("expected ',' or ']'", "A list [ ] is not closed.", "separate with commas and close with ]"),
    ("expected ',' or '}'", "A group { } is not closed.", "separate with commas and close with }"),
    (
        "unexpected end of stream",
        "A quotation mark is not closed.",
        "close the text with the mark it starts with",
    ),
    (
        "expected <block end>",
        "The indentation does not fit the lines above.",
        "start keys and dashes of one group in the same column",
    ),
    ("unknown escape", "A backslash stands inside double quotes.", "use single quotes"),
    ("cannot start any token", "A sign stands where it does not fit.", "put the text in quotes"),
)


def _not_yaml(error: YAMLError, file: str) -> PlanError:
    mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    place = Place(file, mark.line + 1, mark.column + 1) if mark is not None else Place(file)
    said = str(getattr(error, "problem", None) or getattr(error, "reason", None) or error)
    for part, what, remedy in _REWORDED:
        if part in said:
            return PlanError(what, remedy=remedy, place=place)
    return PlanError(
        f"This is not YAML that can be read: {shortened(said, 120)}.",
        remedy="compare with an example plan; check indentation, colons and quotes",
        place=place,
    )
