"""The grammar of sums: from text to a small tree.

    sum     = product (("+" | "-") product)*
    product = signed (("*" | "/" | "//" | "%") signed)*
    signed  = ("-" | "+")* atom
    atom    = length | number | name | function "(" sum ("," sum)* ")" | "(" sum ")"

There are no powers, attributes, calls of other things, indexes or strings, a sum has at most 300
characters and nests at most 30 deep, so a sum is read and worked out in bounded time.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from cordwright.errors import UnitsError
from cordwright.units.length import UNITS_MM, match_length

MOST_CHARACTERS = 300
MOST_DEPTH = 30
FUNCTIONS = ("min", "max", "round", "floor", "ceil")
RESERVED = frozenset({"end", "all", "to", *FUNCTIONS, *(u for u in UNITS_MM if u.isalpha())})

Operator = Literal["+", "-", "*", "/", "//", "%"]


class SumError(Exception):
    """A sum cannot be read: what is wrong, what to try, and where in the text (from 0)."""

    def __init__(self, what: str, remedy: str, at: int = 0) -> None:
        super().__init__(what)
        self.what = what
        self.remedy = remedy
        self.at = at


@dataclass(frozen=True, slots=True)
class Number:
    """A pure number."""

    value: float
    at: int


@dataclass(frozen=True, slots=True)
class Measure:
    """A length with its unit, in mm."""

    mm: float
    at: int


@dataclass(frozen=True, slots=True)
class Name:
    """A named size, a parameter or a counter."""

    name: str
    at: int


@dataclass(frozen=True, slots=True)
class Negative:
    """The part below, with its sign turned."""

    part: Node
    at: int


@dataclass(frozen=True, slots=True)
class Binary:
    """Two parts and what is done with them; ``at`` is where the operator stands."""

    operator: Operator
    left: Node
    right: Node
    at: int


@dataclass(frozen=True, slots=True)
class Call:
    """One of ``FUNCTIONS`` of one or more parts."""

    function: str
    parts: tuple[Node, ...]
    at: int


Node = Number | Measure | Name | Negative | Binary | Call


def walk(node: Node) -> Iterator[Node]:
    """The node and everything under it."""
    waiting = [node]
    while waiting:
        here = waiting.pop()
        yield here
        match here:
            case Negative(part=part):
                waiting.append(part)
            case Binary(left=left, right=right):
                waiting += (right, left)
            case Call(parts=parts):
                waiting += reversed(parts)
            case _:
                pass


@dataclass(frozen=True, slots=True)
class _Token:
    kind: Literal["number", "measure", "name", "sign", "end"]
    text: str
    value: float
    at: int


_PIECE = re.compile(
    r"[ \t\n]*(?:(?P<number>[0-9]+(?:\.[0-9]+)?|\.[0-9]+)|(?P<name>[A-Za-z][A-Za-z0-9_]*)"
    r"|(?P<sign>\*\*|//|[-+*/%(),])|(?P<end>$)|(?P<other>.))",
    re.DOTALL,
)
_BLANK = re.compile(r"[ \t\n]*")


def _measure(text: str, at: int) -> _Token | None:
    try:
        found = match_length(text, at)
    except UnitsError as error:
        raise SumError(error.what, error.remedy, at) from None
    if found is None:
        return None
    return _Token("measure", text[at : found[1]], found[0], at)


def _tokens(text: str) -> Iterator[_Token]:
    at = 0
    while True:
        blank = _BLANK.match(text, at)
        at = blank.end() if blank else at
        measure = _measure(text, at)
        if measure is not None:
            yield measure
            at += len(measure.text)
            continue
        piece = _PIECE.match(text, at)
        if piece is None or piece.lastgroup is None or piece.lastgroup == "end":
            yield _Token("end", "", 0.0, at)
            return
        found = piece[piece.lastgroup]
        if piece.lastgroup == "other":
            raise SumError(f"'{found}' has no meaning in a sum.", "use + - * / ( ) and names", at)
        if found == "**":
            raise SumError("There are no powers in sums.", "write n * n", at)
        if piece.lastgroup == "number":
            if len(found) > 15:
                raise SumError("A number has more than 15 digits.", "write a smaller one", at)
            yield _Token("number", found, float(found), at)
        else:
            yield _Token("name" if piece.lastgroup == "name" else "sign", found, 0.0, at)
        at = piece.end()


class _Parser:
    """One pass over the tokens; ``depth`` counts open brackets and signs."""

    def __init__(self, text: str) -> None:
        self.tokens = list(_tokens(text))
        self.index = 0
        self.depth = 0

    @property
    def here(self) -> _Token:
        return self.tokens[self.index]

    def takes(self, *signs: str) -> _Token | None:
        token = self.here
        if token.kind == "sign" and token.text in signs:
            self.index += 1
            return token
        return None

    def whole(self) -> Node:
        tree = self.sum()
        token = self.here
        if token.kind == "end":
            return tree
        if token.text == ",":
            raise SumError(
                "A comma stands in the middle of the sum.",
                "write decimals with a point: 3.5 cm",
                token.at,
            )
        if token.text == ")":
            raise SumError("A bracket closes that was not opened.", "take the ) out", token.at)
        raise SumError(
            f"'{token.text}' follows with nothing in between.",
            "put + - * or / between, for example 2 * arm",
            token.at,
        )

    def sum(self) -> Node:
        left = self.product()
        while token := self.takes("+", "-"):
            operator: Operator = "+" if token.text == "+" else "-"
            if self.here.text in ("-", "+"):
                raise SumError("Two signs follow each other.", "take one of them out", self.here.at)
            left = Binary(operator, left, self.product(), token.at)
        return left

    def product(self) -> Node:
        left = self.signed()
        while token := self.takes("*", "/", "//", "%"):
            operator = next(o for o in ("*", "/", "//", "%") if o == token.text)
            left = Binary(operator, left, self.signed(), token.at)
        return left

    def signed(self) -> Node:
        self.depth += 1
        if self.depth > MOST_DEPTH:
            raise SumError("The sum is nested too deep.", "name a part of it", self.here.at)
        token = self.takes("-", "+")
        if token is not None and self.here.text in ("-", "+"):
            raise SumError("Two signs follow each other.", "take one of them out", self.here.at)
        if token is None:
            node = self.atom()
        else:
            part = self.signed()
            node = Negative(part, token.at) if token.text == "-" else part
        self.depth -= 1
        return node

    def atom(self) -> Node:
        token = self.here
        self.index += 1
        match token.kind:
            case "number":
                return Number(token.value, token.at)
            case "measure":
                return Measure(token.value, token.at)
            case "name":
                return self.named(token)
            case "sign" if token.text == "(":
                node = self.sum()
                self.close(token)
                return node
            case _:
                what = (
                    f"A value is missing before '{token.text}'."
                    if token.text
                    else "A value is missing at the end."
                )
                raise SumError(what, "complete the sum, for example arm + 2 cm", token.at)

    def named(self, token: _Token) -> Node:
        opening = self.takes("(")
        if opening is None:
            if token.text in RESERVED and token.text != "end":
                raise SumError(
                    f"'{token.text}' is not a value by itself.",
                    "write a number before a unit, as in 5 cm",
                    token.at,
                )
            return Name(token.text, token.at)
        if token.text not in FUNCTIONS:
            known = ", ".join(FUNCTIONS)
            raise SumError(f"'{token.text}' is not a function.", f"there are {known}", token.at)
        parts = [self.sum()]
        while self.takes(","):
            parts.append(self.sum())
        self.close(opening)
        if token.text in ("round", "floor", "ceil") and len(parts) > 2:
            raise SumError(
                f"{token.text} takes a value and, if need be, a step.",
                f"write {token.text}(arm, 1 cm)",
                token.at,
            )
        return Call(token.text, tuple(parts), token.at)

    def close(self, opening: _Token) -> None:
        if not self.takes(")"):
            raise SumError("A bracket is not closed.", "add the missing )", opening.at)


def parse_tree(text: str) -> Node:
    """Read a sum.

    Raises:
        SumError: it cannot be read; ``at`` says where in the text.

    >>> parse_tree("2 * arm")
    Binary(operator='*', left=Number(value=2.0, at=0), right=Name(name='arm', at=4), at=2)

    """
    if len(text) > MOST_CHARACTERS:
        raise SumError(
            f"The sum has {len(text)} characters; {MOST_CHARACTERS} is the most.",
            "name a part of it under sizes",
        )
    return _Parser(text).whole()
