"""The line of a method as a formula: pieces that know what they are, so that a terminal, a page and a text file each
set them in their own way. Numbers and operators of the line are kept; a test evaluates what is printed.
"""
from __future__ import annotations

import ast
from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import cache, lru_cache
from html import escape
import re
from typing import Any, NamedTuple

from curtilage.look import text as signs
from curtilage.report.numbers import digits
from curtilage.values.told import Items, Told, is_leaf, value

OR, AND, NOT, COMPARE, SUM, PRODUCT, SIGN, POWER, ATOM = range(9)
BINARY: dict[type[ast.operator], tuple[str, int]] = {
    ast.Add: ("+", SUM), ast.Sub: ("-", SUM), ast.Mult: ("*", PRODUCT), ast.Div: ("/", PRODUCT), ast.Mod: ("mod", PRODUCT),
    ast.FloorDiv: ("//", PRODUCT), ast.Pow: ("**", POWER),
}
RELATIONS: dict[type[ast.cmpop], str] = {
    ast.Lt: "<", ast.LtE: "<=", ast.Gt: ">", ast.GtE: ">=", ast.Eq: "=", ast.NotEq: "!=", ast.In: "in", ast.NotIn: "not in",
}
OPPOSITE = {"<": ">=", "<=": ">", ">": "<=", ">=": "<", "=": "!=", "!=": "=", "in": "not in", "not in": "in"}
SIGNS = {"*": signs.TIMES, "-": signs.MINUS, "<=": signs.AT_MOST, ">=": signs.AT_LEAST, "!=": signs.UNEQUAL, "sqrt": signs.ROOT,
         "**": "^", "//": "div"}
PLAIN = {v: k for k, v in SIGNS.items()} | {"\u221e": "inf", "\u00b2": "2", "\u00b0": "deg ", "\u2019": "'"}
SUBSCRIPTED = re.compile(r"([A-Za-z]{1,2})_(\w+)")


@cache
def written(node: ast.expr) -> str:
    """The text of a part of a line. Lines live as long as their methods, so each is written out once."""
    return ast.unparse(node)


class Piece(NamedTuple):
    """A part of a formula: `kind` is name, number, sign (an operator) or word."""

    kind: str
    text: str


Formula = tuple[Piece, ...]
Leaf = Callable[[str, Any], Formula]
OPEN, CLOSE, COMMA = Piece("word", "("), Piece("word", ")"), Piece("word", ", ")


def name(text: str) -> Formula:
    return (Piece("name", text),)


def word(text: str) -> Formula:
    return (Piece("word", text),)


def number(x: Any) -> Formula:
    """A value as a piece; an empty text is something that was not stated."""
    if x == "":
        return word("not stated")
    text = digits(x)
    return (Piece("sign", "-"), Piece("number", text[1:])) if text.startswith("-") and len(text) > 1 else (Piece("number", text),)


def join(parts: Iterable[Formula], between: Piece) -> Formula:
    """Formulas one after another, with a piece between them."""
    out: list[Piece] = []
    for i, part in enumerate(parts):
        out += [between, *part] if i else part
    return tuple(out)


def bracketed(part: Formula) -> Formula:
    return (OPEN, *part, CLOSE)


def as_symbol(key: str, x: Any) -> Formula:
    """A leaf by its name, without the record that it was read from; a constant of the method by its number."""
    if isinstance(x, Told):
        return name(x.symbol)
    if key.isupper() and isinstance(x, int | float | str):
        return number(x)
    return name(key.rsplit(".", 1)[-1]) if re.fullmatch(r"[\w.]+", key) else name(key)


def as_number(key: str, x: Any) -> Formula:
    """A leaf by its value."""
    return number(value(x))


class _Setter:
    """Sets one expression, with everything that was read for it."""

    def __init__(self, seen: Mapping[str, Any], leaf: Leaf) -> None:
        self.seen, self.leaf, self.filled = seen, leaf, leaf is as_number

    def set(self, node: ast.expr) -> tuple[Formula, int]:
        """The formula and how tightly it holds together."""
        key = written(node)
        if key in self.seen and (is_leaf(node) or isinstance(node, ast.Call)):
            return self.known(key, self.seen[key])
        if isinstance(node, ast.Constant):
            return self.negative(number(node.value))
        if isinstance(node, ast.BinOp):
            return self.binary(node)
        if isinstance(node, ast.UnaryOp):
            return self.unary(node)
        if isinstance(node, ast.BoolOp):
            return self.boolean(node)
        if isinstance(node, ast.Compare):
            return self.relation(node)
        if isinstance(node, ast.IfExp):
            return self.set(self.taken(node))
        if isinstance(node, ast.Call):
            return self.call(node)
        return name(key), ATOM

    def known(self, key: str, x: Any) -> tuple[Formula, int]:
        if self.filled and isinstance(x, tuple):
            return self.items([self.leaf(key, i) for i in x]), ATOM
        return self.negative(self.leaf(key, x))

    @staticmethod
    def negative(part: Formula) -> tuple[Formula, int]:
        return part, SIGN if part and part[0].text == "-" else ATOM

    def inside(self, node: ast.expr, level: int) -> Formula:
        part, holds = self.set(node)
        return bracketed(part) if holds < level else part

    def binary(self, node: ast.BinOp) -> tuple[Formula, int]:
        text, level = BINARY[type(node.op)]
        if level == POWER and isinstance(node.right, ast.Constant) and node.right.value == 0.5:
            return (Piece("sign", "sqrt"), *bracketed(self.set(node.left)[0])), ATOM
        left = self.inside(node.left, level if level != POWER else ATOM)
        right = self.inside(node.right, level + (0 if isinstance(node.op, ast.Add | ast.Mult) else 1))
        if level != POWER and right and right[0].text == "-":
            right = bracketed(right)
        return (*left, Piece("sign", f" {text} "), *right), level

    def unary(self, node: ast.UnaryOp) -> tuple[Formula, int]:
        if isinstance(node.op, ast.Not):
            return (Piece("word", "not "), *self.inside(node.operand, COMPARE)), NOT
        return (Piece("sign", "-"), *self.inside(node.operand, POWER)), SIGN

    def boolean(self, node: ast.BoolOp) -> tuple[Formula, int]:
        """What was not reached is not printed."""
        reached = [v for v in node.values if written(v) in self.seen] or node.values
        if len(reached) == 1:
            return self.set(reached[0])
        word_, level = ("and", AND) if isinstance(node.op, ast.And) else ("or", OR)
        return join([self.inside(v, level + 1) for v in reached], Piece("word", f" {word_} ")), level

    def relation(self, node: ast.Compare, turned: bool = False) -> tuple[Formula, int]:
        out = self.inside(node.left, SUM)
        for op, right in zip(node.ops, node.comparators, strict=True):
            text = RELATIONS[type(op)]
            out = (*out, Piece("sign", f" {OPPOSITE[text] if turned else text} "), *self.inside(right, SUM))
        return out, COMPARE

    def taken(self, node: ast.IfExp) -> ast.expr:
        """The side of `x if test else y` that was taken."""
        return node.body if value(self.seen[written(node.test)]) else node.orelse

    def call(self, node: ast.Call) -> tuple[Formula, int]:
        called = written(node.func).rsplit(".", 1)[-1]
        default = next((k.value for k in node.keywords if k.arg == "default"), None)
        if len(node.args) == 1:
            over = written(node.args[0])
            held = self.seen.get(over)
            if isinstance(held, Items):
                return self.set(default) if self.filled and default is not None and not held else self.each(called, held)
            if isinstance(held, tuple):
                return self.several(called, over, held)
        args = [self.set(a)[0] for a in node.args]
        if called in ("max", "min") and any(isinstance(self.seen.get(written(a)), Items) for a in node.args):
            return self.mixed(called, node)
        return (Piece("sign" if called == "sqrt" else "word", called), *bracketed(join(args, COMMA))), ATOM

    def mixed(self, called: str, node: ast.Call) -> tuple[Formula, int]:
        """The larger (or smaller) of lists and single values together."""
        parts: list[Formula] = []
        for a in node.args:
            held = self.seen.get(written(a))
            if not isinstance(held, Items):
                parts.append(self.set(a)[0])
            elif self.filled:
                parts += [self.within(i, held.element, OR) for i in held]
            else:
                parts.append(self.each("each", held)[0])
        return (Piece("word", called), *bracketed(join(parts, COMMA))), ATOM

    def several(self, called: str, key: str, held: tuple[Any, ...]) -> tuple[Formula, int]:
        """A function of a list: "sum of heat", "5000 + 3000"."""
        if not self.filled:
            return (*word(f"{'number' if called == 'len' else called} of "), *self.leaf(key, held)), SUM
        return self.of(called, [self.leaf(key, i) for i in held])

    def each(self, called: str, held: Items) -> tuple[Formula, int]:
        """A function of something of each item: "sum of max(load, dryer_min) over dryers"."""
        over = held.over.rsplit(".", 1)[-1]
        if self.filled:
            return self.of(called, [self.within(i, held.element, PRODUCT + 1 if called == "sum" else OR) for i in held])
        one = self.within(held[0], held.element, PRODUCT) if held else word(f"each of {over}")
        return (*word(f"{called} of "), *one, *(word(f" over {over}") if held else ())), SUM

    def within(self, item: Mapping[str, Any], element: ast.expr, level: int) -> Formula:
        return _Setter({**self.seen, **item}, self.leaf).inside(element, level)

    def of(self, called: str, parts: Sequence[Formula]) -> tuple[Formula, int]:
        if called == "len":
            return (*word("number of "), *self.items(parts)), ATOM
        if called != "sum" and len(parts) == 1:
            return parts[0], SUM
        if called != "sum":
            return (Piece("word", called), *bracketed(join(parts, COMMA))), ATOM
        if not parts:
            return (Piece("number", "0"),), ATOM
        counted = list(_runs(parts))
        out = join(counted, Piece("sign", " + "))
        return out, SUM if len(counted) > 1 else PRODUCT if len(parts) > 1 else ATOM

    def items(self, parts: Sequence[Formula]) -> Formula:
        return (Piece("word", "["), *join(parts, COMMA), Piece("word", "]"))


def _runs(parts: Sequence[Formula]) -> Iterable[Formula]:
    """Equal summands that stand together, counted: 720 + 720 + 720 is 3 * 720."""
    i = 0
    while i < len(parts):
        j = i
        while j < len(parts) and parts[j] == parts[i]:
            j += 1
        yield parts[i] if j - i == 1 else (Piece("number", str(j - i)), Piece("sign", " * "), *parts[i])
        i = j


def symbols(x: Told) -> Formula:
    """The line with the names of what it read; of a choice between two sides, the side taken."""
    return () if x.line is None else _Setter(x.seen, as_symbol).set(x.line)[0]


def numbers(x: Told) -> Formula:
    """The line with numbers put in."""
    return () if x.line is None else _Setter(x.seen, as_number).set(x.line)[0]


def stated(test: ast.expr, seen: Mapping[str, Any], holds: bool, leaf: Leaf) -> Formula:
    """A test as a true statement: where it did not hold, its opposite."""
    setter = _Setter(seen, leaf)
    if isinstance(test, ast.Compare) and len(test.ops) == 1:
        return setter.relation(test, turned=not holds)[0]
    if isinstance(test, ast.UnaryOp) and isinstance(test.op, ast.Not):
        return stated(test.operand, seen, not holds, leaf)
    if is_leaf(test) or isinstance(test, ast.Call):
        return (*_Setter(seen, as_symbol).set(test)[0], Piece("word", f" is {'yes' if holds else 'no'}"))
    return setter.set(test)[0] if holds else (Piece("word", "not "), *bracketed(setter.set(test)[0]))


# ------------------------------------------------------------------------------------------------------- setting
def ascii_text(f: Formula) -> str:
    """As a terminal shows it that has no signs of its own: * / >= and so on."""
    return "".join(p.text.replace("\u221e", "inf") if p.kind == "number" else p.text for p in f)


def plain_text(f: Formula) -> str:
    """With proper signs."""
    return "".join(_sign(p.text) if p.kind == "sign" else p.text for p in f)


def html(f: Formula) -> str:
    """For a page: names with their subscripts, proper signs, everything escaped."""
    return "".join(map(_html, f))


@lru_cache(maxsize=16_384)
def _html(p: Piece) -> str:
    """One piece; the same few thousand come again and again on a page."""
    return _html_name(p.text) if p.kind == "name" else escape(_sign(p.text) if p.kind == "sign" else p.text)


def _sign(text: str) -> str:
    bare = text.strip()
    return text.replace(bare, SIGNS[bare]) if bare in SIGNS else text


def _html_name(text: str) -> str:
    found = SUBSCRIPTED.fullmatch(text)
    if found:
        return f"{escape(found[1])}<sub>{escape(found[2].replace('_', ' '))}</sub>"
    return escape(text if "[" in text or "(" in text else text.replace("_", " "))
