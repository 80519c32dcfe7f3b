"""Lines of a plan's text put in, taken out and moved: the hands of `cordwright.plan.rework`.

In a block list, an item's lines are those after the item before it: comments and blank lines above
an item are its own, comments below it that stand further in than its dash too. So moving an item
and moving it back gives the same text.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from cordwright.errors import PlanError
from cordwright.plan.flow import block_lines, fits_one_line, flow_text

if TYPE_CHECKING:
    from cordwright.plan.layout import Item, Layout, Node, Path

Lines = list[str]
Tile = tuple[int, int]
"""First line and the line after the last, from 0."""

LAST_KEYS = ("motifs", "work")
"""New keys stand above these; those of a group within the plan above its cords too."""

_COMMENT = re.compile(r"([ \t]*)#")
_BLANK = re.compile(r"[ \t\r]*")


def in_flow(now: Layout, where: Path) -> bool:
    """Whether something stands in { } or [ ]."""
    node, found = now.root, False
    for part in where:
        found = found or node.flow
        item = node.item(part)
        if item is None:
            return found
        node = item.value
    return found


def item_lines(value: Any, indent: int) -> Lines:
    """A new item of a block list whose dash stands in a column."""
    first, *rest = block_lines(value)
    pad = " " * indent
    return [f"{pad}- {first}", *(f"{pad}  {line}" for line in rest)]


def block_text(value: Any, indent: int) -> str:
    """A value as a block in a column; its first line without indentation."""
    return f"\n{' ' * indent}".join(block_lines(value))


def dash_column(now: Layout, into: Node, where: Path) -> int:
    """The column in which items of a block list have their dash."""
    if into.items and not into.flow:
        return now.column(into.start)
    item = _own(now, where)
    return now.column(item.start) + 2


def tiles(now: Layout, within: Node) -> list[Tile]:
    """The lines of every item of a block list.

    Raises:
        PlanError: items share lines with something else.
    """
    lines, column = now.text.split("\n"), now.column(within.start)
    first = now.line(within.start)
    while first > 0 and _is_loose(lines[first - 1]):
        first -= 1
    found: list[Tile] = []
    for item in within.items:
        last = _deeper(lines, _last_line(now, item) + 1, column)
        found.append((first, last))
        first = last
    for (start, end), item in zip(found, within.items, strict=True):
        dash = _dash_line(now, lines, item, column)
        if not start <= dash < end or lines[dash][:column].strip():
            raise PlanError(
                "Items of this list share a line with something else.",
                remedy="write each on a line of its own, or change it in the text",
            )
    return found


def _dash_line(now: Layout, lines: Sequence[str], item: Item, column: int) -> int:
    """The line of an item's dash: its own first line, or one above it."""
    line = now.line(item.value.start)
    while line > 0 and lines[line][column : column + 1] != "-":
        line -= 1
    return line


def _is_loose(line: str) -> bool:
    """Whether a line is blank or a comment."""
    return bool(_COMMENT.match(line) or _BLANK.fullmatch(line))


def _deeper(lines: Sequence[str], line: int, column: int) -> int:
    """The line after comments that stand further in than a column."""
    at = end = line
    while at < len(lines) and _is_loose(lines[at]):
        comment = _COMMENT.match(lines[at])
        if comment is not None:
            if len(comment[1]) <= column:
                break
            end = at + 1
        at += 1
    return end


def _last_line(now: Layout, item: Item) -> int:
    value = item.value
    return now.line(item.start if value.start == value.end else value.end - 1)


def reordered_block(now: Layout, within: Node, order: Sequence[int]) -> str:
    """The text with the items of a block list in another order."""
    lines, found = now.text.split("\n"), tiles(now, within)
    middle = [line for i in order for line in lines[slice(*found[i])]]
    return "\n".join([*lines[: found[0][0]], *middle, *lines[found[-1][1] :]])


def reordered_flow(now: Layout, within: Node, order: Sequence[int]) -> str:
    """The text with the items of a list in [ ] in another order."""
    text, items = now.text, within.items
    parts = [text[i.start : i.value.end] for i in items]
    found, at = [], within.start
    for item, i in zip(items, order, strict=True):
        found += [text[at : item.start], parts[i]]
        at = item.value.end
    return text[: within.start] + "".join(found) + text[at:]


def taken(now: Layout, parent: Node, index: int, indent: int) -> Lines:
    """The lines of an item of a block list, for a dash in another column."""
    lines = now.text.split("\n")[slice(*tiles(now, parent)[index])]
    by = indent - now.column(parent.start)
    if by >= 0:
        return [line if _BLANK.fullmatch(line) else " " * by + line for line in lines]
    return [line[min(-by, len(line) - len(line.lstrip(" "))) :] for line in lines]


def into_block(now: Layout, into: Node, where: Path, index: int, block: Lines) -> str:
    """The text with lines put into a block list; an empty list [ ] becomes a block."""
    text = now.text
    lines = text.split("\n")
    if text.count("\r\n") * 2 > len(lines):
        block = [line if line.endswith("\r") else f"{line}\r" for line in block]
    if into.items:
        found = tiles(now, into)
        at = found[index][0] if index < len(found) else found[-1][1]
        return "\n".join([*lines[:at], *block, *lines[at:]])
    return _below_its_key(now, into, where, block)


def _below_its_key(now: Layout, into: Node, where: Path, block: Lines) -> str:
    """The text with a list in [ ] as lines below its key instead."""
    text, start = now.text, into.start - (now.text[into.start - 1] == " ")
    lines = (text[:start] + text[into.end :]).split("\n")
    at = now.line(_own(now, where).start) + 1
    return "\n".join([*lines[:at], *block, *lines[at:]])


def as_block(now: Layout, into: Node, where: Path) -> str | None:
    """The text with a list in [ ] as a block, so that items may have comments.

    None where it has to stay, because it stands in { } itself or runs over several lines.
    """
    if in_flow(now, where) or "\n" in now.text[into.start : into.end]:
        return None
    pad = " " * dash_column(now, into, where)
    items = [f"{pad}- {now.text[i.start : i.value.end]}" for i in into.items]
    return _below_its_key(now, into, where, items)


def out_of_block(now: Layout, within: Node, where: Path, index: int) -> str:
    """The text without an item of a block list; the list that is left may be [ ]."""
    lines, found = now.text.split("\n"), tiles(now, within)
    first, last = found[index]
    if len(found) == 1:
        own = _own(now, where)
        line, colon = now.line(own.start), _colon(now, own)
        at = colon + 1 - now.starts[line]
        lines[line] = f"{lines[line][:at]} []{lines[line][at:]}"
    return "\n".join([*lines[:first], *lines[last:]])


def into_flow(now: Layout, into: Node, index: int, part: str) -> str:
    """The text with something put into { } or [ ]."""
    text, items = now.text, into.items
    if not items:
        return f"{text[: into.start + 1]}{part}{text[into.end - 1 :]}"
    if index < len(items):
        at = items[index].start
        return f"{text[:at]}{part}, {text[at:]}"
    at = items[-1].value.end
    return f"{text[:at]}, {part}{text[at:]}"


def out_of_flow(now: Layout, within: Node, index: int) -> str:
    """The text without one item of { } or [ ]."""
    text, items = now.text, within.items
    if len(items) == 1:
        return text[: within.start + 1] + text[within.end - 1 :]
    if index < len(items) - 1:
        return text[: items[index].start] + text[items[index + 1].start :]
    return text[: items[index - 1].value.end] + text[items[index].value.end :]


def key_taken_out(now: Layout, within: Node, where: Path, index: int) -> str:
    """The text without a key of a block group, and without the comments right above it."""
    text, items = now.text, within.items
    if len(items) == 1:
        return f"{text[: within.start]}{{}}{text[within.end :]}"
    lines, own = text.split("\n"), items[index]
    first, column = now.line(own.start), now.column(own.start)
    if lines[first][:column].strip():  # the first key, beside the dash of a list's item
        return text[: own.start] + text[items[index + 1].start :]
    last = _deeper(lines, _last_line(now, own) + 1, column)
    while (where or index) and first > 0 and (found := _COMMENT.match(lines[first - 1])):
        if len(found[1]) != column:
            break
        first -= 1
    return "\n".join([*lines[:first], *lines[last:]])


def new_key(now: Layout, within: Node, key: str, value: Any) -> str:
    """The text with another key in a block group: above its steps, or else as the last."""
    items = within.items
    last_keys = LAST_KEYS if within is now.root else (*LAST_KEYS, "cords")
    steps = [i for i, item in enumerate(items) if item.key in last_keys]
    after = items[max(0, (steps[0] if steps else len(items)) - 1)]
    pad = " " * now.column(items[0].start)
    if fits_one_line(value) or not value:
        block = [f"{pad}{key}: {flow_text(value)}"]
    else:
        block = [f"{pad}{key}:", *(f"{pad}  {line}" for line in block_lines(value))]
    lines = now.text.split("\n")
    at = _deeper(lines, _last_line(now, after) + 1, now.column(items[0].start))
    if "\r" in lines[at - 1]:
        block = [f"{line}\r" for line in block]
    return "\n".join([*lines[:at], *block, *lines[at:]])


def on_the_key_line(now: Layout, where: Path, item: Item, part: str) -> str:
    """The text with a block beside its key: ``key: part`` instead of lines below it."""
    text, node = now.text, item.value
    if isinstance(where[-1], int):
        return text[: node.start] + part + text[node.end :]
    colon = _colon(now, item)
    rest = text[colon + 1 :].split("\n", 1)[0]
    return f"{text[: colon + 1]} {part}{rest}{text[node.end :]}"


def filled(now: Layout, item: Item, value: Any) -> str:
    """The text with a value at a key that had none."""
    text = now.text
    if isinstance(item.key, int):
        raise PlanError("This item of a list is empty.", remedy="change it in the text")
    colon = _colon(now, item)
    return f"{text[: colon + 1]} {flow_text(value)}{text[colon + 1 :]}"


def _own(now: Layout, where: Path) -> Item:
    """The item that a list is the value of.

    Raises:
        PlanError: it stands in a list itself.
    """
    item = now.node(where[:-1]).item(where[-1])
    if item is None or isinstance(item.key, int):
        raise PlanError("Lists in lists cannot be changed so.", remedy="change it in the text")
    return item


def _colon(now: Layout, item: Item) -> int:
    """Index of the colon after a key."""
    return now.text.index(":", item.start + len(str(item.key)))
