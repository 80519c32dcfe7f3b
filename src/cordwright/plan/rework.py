"""Changes a plan's text in its structure, and leaves every other character of it as it is.

Five moves are enough: put a value at a key, take something out, add an item to a list, move one,
copy one. Comments and blank lines above an item of a list are its own and go with it. Each move
gives a text that reads as just that change, or an error and nothing; whether the changed text is a
plan is for the reader (`cordwright.plan.read`) to say.
"""

from __future__ import annotations

import copy as copies
from collections.abc import Callable
from typing import Any

from cordwright.errors import PlanError
from cordwright.plan import lines
from cordwright.plan.flow import fits_one_line, flow_text
from cordwright.plan.layout import BOM, Item, Layout, Node, Path, layout, read_path, written
from cordwright.plan.problems import shortened


def put(text: str, path: str, value: Any) -> str:
    """Give a key of a group, or an item of a list, another value; a new key is added.

    Args:
        text: a plan.
        path: where, as in ``sizes.arm`` or ``work.1.times``; list items count from 0. A size
            that is written with its bounds keeps them.
        value: texts, numbers, groups (dict) and lists of such.

    Raises:
        PlanError: there is no such group, or the text there cannot be rewritten.
    """

    def edit(now: Layout, where: Path) -> str:
        parent = now.node(where[:-1])
        found = parent.item(where[-1])
        if found is not None:
            return _replaced(now, where, found, value)
        if parent.kind != "group" or not isinstance(where[-1], str):
            now.node(where)  # says what there is
            raise PlanError(f"'{written(where[:-1])}' takes no keys.")
        return _with_key(now, parent, where, value)

    def expected(tree: Any, where: Path) -> None:
        _at(tree, where[:-1])[where[-1]] = copies.deepcopy(value)

    where = _bounded_size(text, read_path(path), value)
    return _checked(text, where, edit, expected)


def remove(text: str, path: str) -> str:
    """Take an item out of a list, or a key and its value out of a group.

    Comments right above it go with it.

    Raises:
        PlanError: there is no such thing, or the text there cannot be rewritten.
    """

    def edit(now: Layout, where: Path) -> str:
        node, parent = now.node(where), now.node(where[:-1])
        if node.fixed.endswith("(&)"):
            raise _cannot(where, node.fixed)
        return _without(now, parent, where)

    def expected(tree: Any, where: Path) -> None:
        del _at(tree, where[:-1])[where[-1]]

    return _checked(text, read_path(path), edit, expected)


def add(text: str, path: str, index: int, value: Any) -> str:
    """Put a new item into a list.

    Args:
        text: a plan.
        path: the list, as in ``work.1.work``.
        index: the item's place afterwards, from 0 to the list's length.
        value: as in `put`.

    Raises:
        PlanError: there is no such list or place, or the text there cannot be rewritten.
    """

    def edit(now: Layout, where: Path) -> str:
        into = _list(now, where, index)
        if into.flow and (into.items or lines.in_flow(now, where)):
            return lines.into_flow(now, into, index, flow_text(value))
        indent = lines.dash_column(now, into, where)
        return lines.into_block(now, into, where, index, lines.item_lines(value, indent))

    def expected(tree: Any, where: Path) -> None:
        _at(tree, where).insert(index, copies.deepcopy(value))

    return _checked(text, read_path(path), edit, expected)


def move(text: str, path: str, to: str, index: int) -> str:
    """Take an item out of a list and put it elsewhere.

    Args:
        text: a plan.
        path: the item, as in ``work.2``.
        to: the list it goes to, as in ``work.1.work``, as the plan is before; not within the item.
        index: its place there when it is done, from 0.

    Raises:
        PlanError: there is no such item, list or place, or the text there cannot be rewritten.
    """
    where, goal = read_path(path), read_path(to)
    if goal[: len(where)] == where:
        raise PlanError("Nothing can be moved into itself.", remedy="move it elsewhere")

    def edit(now: Layout, where: Path) -> str:
        _item(now, where)
        if goal == where[:-1]:
            return _shifted(now, now.node(goal), int(where[-1]), index)
        return _carried(now, where, goal, index)

    def expected(tree: Any, where: Path) -> None:
        into = _at(tree, goal)
        item = _at(tree, where[:-1]).pop(where[-1])
        into.insert(index, item)

    return _checked(text, where, edit, expected)


def copy(text: str, path: str, to: str, index: int) -> str:
    """Put a copy of an item into a list; arguments as in `move`.

    Raises:
        PlanError: there is no such item, list or place, or the text there cannot be rewritten.
    """
    goal = read_path(to)

    def edit(now: Layout, where: Path) -> str:
        _item(now, where)
        return _inserted(now, where, goal, index)

    def expected(tree: Any, where: Path) -> None:
        _at(tree, goal).insert(index, copies.deepcopy(_at(tree, where)))

    return _checked(text, read_path(path), edit, expected)


def _checked(
    text: str,
    where: Path,
    edit: Callable[[Layout, Path], str],
    expected: Callable[[Any, Path], None],
) -> str:
    """The edited text, if it reads as what was meant."""
    if not where:
        raise PlanError("The whole plan is no part of itself.", remedy="name a key of it")
    mark = BOM if text.startswith(BOM) else ""
    now = layout(text.removeprefix(BOM))
    changed = edit(now, where)
    meant = copies.deepcopy(now.root.plain)
    expected(meant, where)
    if not _same(_read(changed), meant):
        raise _cannot(where, "is written in a way that cannot be changed from here")
    return mark + changed


def _read(text: str) -> Any:
    try:
        return layout(text).root.plain
    except PlanError:
        return None


def _same(a: Any, b: Any) -> bool:
    """Equal, in kind too: 1 is not true, and "4" is not 4."""
    if isinstance(a, dict) and isinstance(b, dict):
        return a.keys() == b.keys() and all(_same(a[k], b[k]) for k in a)
    if isinstance(a, (list, tuple)) and isinstance(b, (list, tuple)):
        return len(a) == len(b) and all(_same(x, y) for x, y in zip(a, b, strict=True))
    kinds = (bool, str, (int, float), type(None))
    return any(isinstance(a, k) and isinstance(b, k) for k in kinds) and bool(a == b)


def _at(tree: Any, path: Path) -> Any:
    for part in path:
        tree = tree[part]
    return tree


def _cannot(where: Path, why: str) -> PlanError:
    return PlanError(
        f"What stands at '{shortened(written(where))}' {why}.", remedy="change it in the text"
    )


def _bounded_size(text: str, where: Path, value: Any) -> Path:
    """A size's own value, where the size is written with its bounds."""
    if len(where) == 2 and where[0] == "sizes" and not isinstance(value, dict):
        sizes = layout(text.removeprefix(BOM)).root.item("sizes")
        size = sizes.value.item(where[1]) if sizes else None
        if size is not None and size.value.kind == "group":
            return (*where, "value")
    return where


def _item(now: Layout, where: Path) -> Node:
    """An item of a list."""
    node = now.node(where)
    if now.node(where[:-1]).kind != "list":
        raise PlanError(
            f"'{shortened(written(where))}' is no item of a list.", remedy="name a step or cord"
        )
    if node.fixed.endswith("(&)"):
        raise _cannot(where, node.fixed)
    return node


def _list(now: Layout, where: Path, index: int, fewer: int = 0) -> Node:
    """A list that something is put into, and the place in it."""
    into = now.node(where)
    if into.kind != "list":
        raise PlanError(
            f"'{shortened(written(where))}' is no list.", remedy="name a list, as in work"
        )
    most = len(into.items) - fewer
    if not 0 <= index <= most:
        raise PlanError(
            f"There is no place {index} in '{shortened(written(where))}'.",
            remedy=f"its places are 0 to {most}",
        )
    return into


def _replaced(now: Layout, where: Path, item: Item, value: Any) -> str:
    node, text = item.value, now.text
    if node.fixed and not node.fixed.startswith("runs"):
        raise _cannot(where, node.fixed)
    if node.kind == "value" and node.start == node.end:
        return lines.filled(now, item, value)
    inside = lines.in_flow(now, where)
    if isinstance(value, (dict, list)) and not (inside or node.flow or fits_one_line(value)):
        column = now.column(node.start)
        return text[: node.start] + lines.block_text(value, column) + text[node.end :]
    if node.flow or node.kind == "value":
        return text[: node.start] + flow_text(value) + text[node.end :]
    return lines.on_the_key_line(now, where, item, flow_text(value))


def _with_key(now: Layout, parent: Node, where: Path, value: Any) -> str:
    key = flow_text(str(where[-1]))
    if parent.flow:
        return lines.into_flow(now, parent, len(parent.items), f"{key}: {flow_text(value)}")
    return lines.new_key(now, parent, key, value)


def _without(now: Layout, parent: Node, where: Path) -> str:
    index = next(i for i, item in enumerate(parent.items) if item.key == where[-1])
    if parent.flow:
        return lines.out_of_flow(now, parent, index)
    if parent.kind == "list":
        return lines.out_of_block(now, parent, where[:-1], index)
    return lines.key_taken_out(now, parent, where[:-1], index)


def _shifted(now: Layout, within: Node, start: int, end: int) -> str:
    """An item moved within its list."""
    if not 0 <= end < len(within.items):
        raise PlanError(
            f"There is no place {end} in that list.",
            remedy=f"its places are 0 to {len(within.items) - 1}",
        )
    order = [i for i in range(len(within.items)) if i != start]
    order.insert(end, start)
    if within.flow:
        return lines.reordered_flow(now, within, order)
    return lines.reordered_block(now, within, order)


def _carried(now: Layout, where: Path, goal: Path, index: int) -> str:
    """An item moved to another list: put in there, and taken out here."""
    after = layout(_inserted(now, where, goal, index))
    old = _pushed(where, goal, index)
    return _without(after, after.node(old[:-1]), old)


def _pushed(where: Path, goal: Path, index: int) -> Path:
    """A path after an item was put into a list: items behind it have moved on."""
    depth = len(goal)
    if where[:depth] != goal or len(where) <= depth:
        return where
    place = where[depth]
    if isinstance(place, int) and place >= index:
        return (*goal, place + 1, *where[depth + 1 :])
    return where


def _inserted(now: Layout, where: Path, goal: Path, index: int) -> str:
    """A text with one of its items once more, elsewhere."""
    into, parent = _list(now, goal, index), now.node(where[:-1])
    if into.flow and into.items and not parent.flow:
        spread = lines.as_block(now, into, goal)
        if spread is not None:
            return _inserted(layout(spread), where, goal, index)
    if into.flow and (into.items or lines.in_flow(now, goal)):
        return lines.into_flow(now, into, index, flow_text(now.node(where).plain))
    indent = lines.dash_column(now, into, goal)
    if parent.flow:
        block = lines.item_lines(now.node(where).plain, indent)
    else:
        block = lines.taken(now, parent, int(where[-1]), indent)
    return lines.into_block(now, into, goal, index, block)
