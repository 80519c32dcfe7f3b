"""Where everything of a plan stands in its text: groups, lists and values with their extents.

For those who change a text and leave the rest of it alone (`cordwright.plan.rework`). The tree is
built from the parser's events. A block ends where its last value ends: blank lines and comments
after it belong to what comes next.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import lru_cache
from typing import TYPE_CHECKING, Any, Final, Literal

from cordwright.errors import Place, PlanError
from cordwright.plan.problems import nearest, shortened
from cordwright.plan.yamltree import MOST_DEPTH, joined, read_plain, yaml_events

if TYPE_CHECKING:
    from ruamel.yaml.events import Event

Path = tuple[str | int, ...]
NodeKind = Literal["group", "list", "value", "alias"]
BOM: Final = "\ufeff"
KEPT: Final = 32
"""Layouts that are kept: of the texts at work and those before them."""


@dataclass(frozen=True, slots=True)
class Item:
    """One item of a group or list.

    Args:
        key: its key; its index, from 0, in a list.
        start: where its key begins; in a list, where its value does.
        value: what it is.
    """

    key: str | int
    start: int
    value: Node


@dataclass(frozen=True, slots=True)
class Node:
    """A group, a list or a single value.

    Args:
        kind: which of them; an alias stands for another node.
        start: index in the text of its first character (of a block list: its first dash).
        end: index after its last one.
        flow: whether it is written in { } or [ ], or on one line as values are.
        fixed: why it cannot be rewritten; empty if it can.
        items: of a group or list.
        plain: the value itself.
    """

    kind: NodeKind
    start: int
    end: int
    flow: bool
    fixed: str = ""
    items: tuple[Item, ...] = ()
    plain: Any = None

    def item(self, key: str | int) -> Item | None:
        """The item of a key or index, None if there is none."""
        return next((i for i in self.items if i.key == key), None)


@dataclass(frozen=True, slots=True)
class Layout:
    """A text and its tree.

    Args:
        text: all of it, without a byte order mark.
        root: the outermost group.
        starts: index of the first character of every line.
    """

    text: str
    root: Node
    starts: tuple[int, ...]

    def line(self, index: int) -> int:
        """Line of a character, from 0."""
        return bisect_right(self.starts, index) - 1

    def column(self, index: int) -> int:
        """Column of a character, from 0."""
        return index - self.starts[self.line(index)]

    def node(self, path: Path) -> Node:
        """What stands at a path.

        Raises:
            PlanError: there is nothing.
        """
        node = self.root
        for done, part in enumerate(path):
            item = node.item(part)
            if item is None:
                raise self._nothing_at(path, path[:done], node)
            node = item.value
        return node

    def _nothing_at(self, path: Path, parent: Path, node: Node) -> PlanError:
        known = [written((*parent, i.key)) for i in node.items]
        return PlanError(
            f"The plan has nothing at '{shortened(written(path))}'.",
            remedy=nearest(written(path), known) if known else "look at the plan as it is now",
        )


def read_path(path: str) -> Path:
    """A path from its text: ``work.1.each`` is ``("work", 1, "each")``.

    >>> read_path("work.1.each"), read_path("")
    (('work', 1, 'each'), ())
    """
    return tuple(int(p) if p.isascii() and p.isdecimal() else p for p in path.split(".") if p)


def written(path: Path) -> str:
    """A path as text.

    >>> written(("work", 1, "each"))
    'work.1.each'
    """
    return ".".join(map(str, path))


@dataclass(slots=True)
class _Open:
    """A group or list that is still being read."""

    start: int
    flow: bool
    fixed: str
    anchor: str | None
    group: bool
    items: list[Item] = field(default_factory=list)
    key: tuple[str, int] | None = None


@dataclass(slots=True)
class _Builder:
    text: str
    open: list[_Open] = field(default_factory=list)
    anchors: dict[str, Any] = field(default_factory=dict)
    root: Node | None = None

    def take(self, event: Event) -> None:
        from ruamel.yaml import events

        match event:
            case events.ScalarEvent():
                self._scalar(event)
            case events.AliasEvent():
                start, end = event.start_mark.index, event.end_mark.index
                if event.anchor not in self.anchors:
                    raise PlanError(f"*{shortened(event.anchor)} is not defined above.")
                plain = self.anchors[event.anchor]
                self._add(Node("alias", start, end, True, "is an alias (*) of another", (), plain))
            case events.MappingStartEvent() | events.SequenceStartEvent():
                group = isinstance(event, events.MappingStartEvent)
                anchor = event.anchor
                fixed = "is used again elsewhere (&)" if anchor else ""
                at = event.start_mark.index
                self.open.append(_Open(at, bool(event.flow_style), fixed, anchor, group))
                if len(self.open) > MOST_DEPTH:
                    raise PlanError(f"The plan is nested more than {MOST_DEPTH} levels deep.")
            case events.MappingEndEvent() | events.SequenceEndEvent():
                self._end(event.end_mark.index)
            case _:
                pass

    def _scalar(self, event: Any) -> None:
        start, end = event.start_mark.index, event.end_mark.index
        text, parent = joined(str(event.value)), self.open[-1] if self.open else None
        if parent is not None and parent.group and parent.key is None:
            parent.key = (text, start)
            return
        plain = read_plain(text) if event.style in (None, "") else text
        fixed = ""
        if event.style in ("|", ">"):
            end = start + len(self.text[start:end].rstrip())
        if event.style in ("|", ">") or event.start_mark.line != event.end_mark.line:
            fixed = "runs over several lines"
        if event.anchor is not None:
            fixed = "is used again elsewhere (&)"
            self.anchors[event.anchor] = plain
        self._add(Node("value", start, end, True, fixed, (), plain))

    def _end(self, end: int) -> None:
        done = self.open.pop()
        if not done.flow:
            end = max((i.value.end for i in done.items), default=done.start)
        plain: Any = (
            {i.key: i.value.plain for i in done.items}
            if done.group
            else [i.value.plain for i in done.items]
        )
        if done.anchor is not None:
            self.anchors[done.anchor] = plain
        kind: NodeKind = "group" if done.group else "list"
        self._add(Node(kind, done.start, end, done.flow, done.fixed, tuple(done.items), plain))

    def _add(self, node: Node) -> None:
        if not self.open:
            self.root = node
            return
        parent = self.open[-1]
        if not parent.group:
            parent.items.append(Item(len(parent.items), node.start, node))
        elif parent.key is not None:
            key, start = parent.key
            end = max(node.end, start + len(key))  # an empty value stands where its key ends
            if end > node.end:
                node = Node(node.kind, end, end, node.flow, node.fixed, node.items, node.plain)
            parent.items.append(Item(key, start, node))
            parent.key = None
        else:
            raise PlanError("A group or list stands where a key belongs.")


@lru_cache(maxsize=KEPT)
def layout(text: str) -> Layout:
    """The layout of a text.

    Args:
        text: YAML, without a byte order mark.

    Raises:
        PlanError: it is not YAML whose outermost part is a group.
    """
    from ruamel.yaml.error import YAMLError

    builder = _Builder(text)
    try:
        for event in yaml_events(text):
            builder.take(event)
    except (YAMLError, ValueError, OverflowError):
        builder.root = None
    if builder.root is None or builder.root.kind != "group":
        raise PlanError(
            "The text is no plan, so nothing in it can be changed from outside.",
            remedy="mend it in the text first",
            place=Place("<text>"),
        )
    return Layout(text, builder.root, tuple(_line_starts(text)))


def _line_starts(text: str) -> Iterator[int]:
    yield 0
    at = text.find("\n")
    while at >= 0:
        yield at + 1
        at = text.find("\n", at + 1)
