"""A one-line diagram: a tree of nodes in, one deterministic drawing out.

Power runs down. A trunk stands in the middle of what it feeds; panels that feed nothing further hang from a comb under
the panel that feeds them, so that an estate of thirty panels stays readable. Symbols are plain strokes after the manner
of IEEE 315 / IEC 60617 (from memory: not claimed to conform). Text widths are known before anything is drawn, columns
are made wide enough, and `clashes` proves that no text meets another text or a conductor.
"""
from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from curtilage.draw import svg as s
from curtilage.draw.svg import Words
from curtilage.look.marks import MARKS

LINE, GAP, SYM, TOOTH = 15, 18, 20, 30      # px: line pitch, gap of columns, half width of a symbol, tooth of a comb
LEAST = 0.68                                # of its size: what is drawn smaller cannot be read, so the page scrolls
ARROW = 27                                  # px: from the middle of a symbol to the tail of the arrow of a second supply
HEIGHT = {"utility": 32, "transformer": 38, "meter": 30, "gear": 12, "bus": 12, "main": 12, "transfer": 46, "generator": 34,
          "inverter": 30, "battery": 30, "panel": 34}
BARS = ("gear", "bus", "main")
SHAPES = {
    "utility": '<circle cx="0" cy="16" r="15"/><path d="M-9 16c4-9 6-9 9 0s5 9 9 0"/>',
    "transformer": '<path d="M0 0V9M0 29V38M-15 14a5 5 0 0 1 10 0a5 5 0 0 1 10 0a5 5 0 0 1 10 0'
                   'M-15 24a5 5 0 0 0 10 0a5 5 0 0 0 10 0a5 5 0 0 0 10 0"/>',
    "meter": '<circle cx="0" cy="15" r="14"/>',
    "transfer": '<path d="M0 0V11M0 36V46M0 36L0 14"/><circle cx="0" cy="13" r="2.6" fill="{ground}"/>'
                '<circle cx="-14" cy="14" r="2.6" fill="{ground}"/><circle cx="0" cy="35" r="2.6" fill="{ink}"/>'
                '<path d="M-5 30Q-11 25-12.5 19" stroke-dasharray="2 2"/>',
    "generator": '<circle cx="0" cy="17" r="16"/>',
    "inverter": '<path d="M-15 0H15V30H-15ZM-15 30L15 0M-11 7h9M-11 11h9M2 23c2-4 4-4 5 0s3 4 5 0"/>',
    "battery": '<path d="M0 0V7M-13 7H13M-6 13H6M-13 19H13M-6 25H6M0 25v5"/>',
    "panel": '<path d="M-11 0H11V34H-11Z"/><path d="M-11 8H11" stroke-width="1"/>',
}
LETTERS = {"meter": ("M", 19.5), "generator": ("G", 22.0)}


@dataclass(frozen=True)
class Node:
    """One thing on the power path. `feed` describes the run that reaches it; `alternate` is a transfer switch's second source."""

    kind: str                                   # a key of HEIGHT
    title: str
    lines: Sequence[Words] = ()
    feed: Sequence[Words] = ()
    breaker: bool = False
    children: Sequence[Node] = ()
    alternate: Node | None = None
    grounded: bool = False
    flag: str = ""                              # an outcome, whose mark stands beside the title
    second: bool = False                        # whether another supply reaches it, too: a dashed arrow from the left


@dataclass
class _Ink:
    """What has been put on the sheet: the drawing itself, and where texts and conductors are."""

    ink: str
    ground: str
    body: list[str] = field(default_factory=list)
    texts: list[tuple[float, float, float, float, str]] = field(default_factory=list)
    wires: list[tuple[float, float, float, float]] = field(default_factory=list)
    low: float = 0.0

    def text(self, x: float, y: float, t: Words, bold: bool = False) -> None:
        said = s.said(t)
        self.texts.append((x, y - 10, x + s.width(said), y + 3, said))
        self.body.append(s.text(x, y, t, self.ink, bold))
        self.low = max(self.low, y + 6)

    def path(self, d: str, extra: str = "") -> None:
        self.body.append(f'<path d="{d}"{extra}/>')

    def wire(self, x: float, y1: float, y2: float, breaker: bool = False, by: float = 0) -> None:
        """A conductor down; an air circuit breaker is a gap bridged by an arc."""
        self.wires.append((x, y1, x, y2))
        if breaker:
            self.path(f"M{s.n(x)} {s.n(y1)}V{s.n(by + 6)}M{s.n(x)} {s.n(by + 22)}V{s.n(y2)}M{s.n(x - 3)} {s.n(by + 5)}q13 9 0 18")
        else:
            self.path(f"M{s.n(x)} {s.n(y1)}V{s.n(y2)}")

    def tooth(self, x: float, y: float, breaker: bool) -> None:
        """A conductor to the right, from a comb to the box of a panel."""
        self.wires.append((x, y, x + TOOTH, y))
        if breaker:
            self.path(f"M{s.n(x)} {s.n(y)}h6m16 0h{s.n(TOOTH - 22)}M{s.n(x + 5)} {s.n(y + 3)}q9-13 18 0")
        else:
            self.path(f"M{s.n(x)} {s.n(y)}h{TOOTH}")

    def symbol(self, kind: str, x: float, y: float) -> None:
        shape = SHAPES[kind].replace("{ink}", self.ink).replace("{ground}", self.ground)
        if kind in LETTERS:
            letter, base = LETTERS[kind]
            shape += s.text(0, base, letter, self.ink, bold=True, anchor="middle")
        self.body.append(f'<g transform="translate({s.n(x)} {s.n(y)})">{shape}</g>')
        self.low = max(self.low, y + HEIGHT[kind] + 4)

    def panel(self, node: Node, x: float, y: float) -> None:
        """The symbol of a node, with the arrow of its second supply."""
        self.symbol(node.kind, x, y)
        if node.second:
            foot = y + HEIGHT[node.kind] - 6
            self.wires.append((x - ARROW, foot, x - 11, foot))
            self.path(f"M{s.n(x - ARROW)} {s.n(foot)}h{ARROW - 17}", ' stroke-dasharray="3 2"')
            self.path(f"M{s.n(x - 17)} {s.n(foot - 4)}l6 4l-6 4z", f' fill="{self.ink}" stroke="none"')

    def block(self, node: Node, x: float, y: float, lines: Sequence[Words]) -> None:
        """Title and lines of a node, with the mark of its outcome."""
        if node.flag:
            place = f'x="{s.n(x)}" y="{s.n(y + 1)}" width="13" height="13" viewBox="0 0 16 16"'
            self.body.append(f"<svg {place}>{MARKS[node.flag]}</svg>")
        self.text(x + (18 if node.flag else 0), y + 12, node.title, bold=True)
        for i, line in enumerate(lines):
            self.text(x, y + 12 + LINE * (i + 1), line)


def _widest(node: Node, *parts: Sequence[Words]) -> float:
    lines = [s.width(s.said(t)) for part in parts for t in part]
    return max([s.width(node.title) + (20 if node.flag else 0), *lines])


def _combed(node: Node) -> bool:
    """Whether what a panel feeds hangs from a comb: panels only, on whatever level."""
    plain = all(c.kind == "panel" and not c.alternate and not c.grounded for c in node.children)
    return node.kind == "panel" and bool(node.children) and plain and all(_combed(c) for c in node.children if c.children)


def _comb_width(node: Node) -> float:
    """Room to the right of a comb's back."""
    return TOOTH + 30 + max(max(_widest(c, c.lines, c.feed), _comb_width(c) - 19 if c.children else 0) for c in node.children)


class _Sheet:
    def __init__(self, root: Node, ink: str, ground: str) -> None:
        self.on = _Ink(ink, ground)
        self.feed_h: dict[int, float] = {}
        self.node_h: dict[int, float] = {}
        self._spans: dict[int, tuple[float, float]] = {}
        self._rows(root, 0)
        self.top = {0: 8.0}
        for d in range(len(self.node_h)):
            self.top[d + 1] = self.top[d] + self.feed_h[d] + self.node_h[d]
        self.width = self._place(root, 0, 8.0) + 8
        self.height = self.on.low + 6

    def _rows(self, node: Node, d: int) -> None:
        """Heights of the rows: what the fullest node of each depth needs."""
        feed = max(LINE * len(node.feed) + 12 if node.feed else 0, 34 if node.breaker else 14 if d else 0)
        if node.alternate:
            feed = max(feed, LINE * (1 + len(node.alternate.lines)) + 10, HEIGHT[node.alternate.kind] + 10)
        self.feed_h[d] = max(self.feed_h.get(d, 0), feed)
        text = LINE * (1 + len(node.lines))
        own = text + HEIGHT[node.kind] + 8 if node.kind in BARS else max(text, HEIGHT[node.kind]) + 10
        self.node_h[d] = max(self.node_h.get(d, 0), own)
        for c in () if _combed(node) else node.children:
            self._rows(c, d + 1)

    def _left(self, node: Node) -> float:
        least = ARROW + 3 if node.second else SYM
        return max(least, SYM + _widest(node.alternate, node.alternate.lines) + GAP + SYM + 8 if node.alternate else 0)

    def _span(self, node: Node) -> tuple[float, float]:
        """Extent of the subtree to the left and right of its own trunk."""
        if id(node) not in self._spans:
            self._spans[id(node)] = self._measure(node)
        return self._spans[id(node)]

    def _measure(self, node: Node) -> tuple[float, float]:
        left, right = self._left(node), SYM + _widest(node, node.lines, node.feed) + GAP
        if _combed(node):
            return left, max(right, _comb_width(node) + GAP)
        if node.children:
            spans = [self._span(c) for c in node.children]
            total = sum(a + b for a, b in spans)
            mid = (spans[0][0] + total - spans[-1][1]) / 2
            left, right = max(left, mid + (24 if node.grounded else 0)), max(right, total - mid)
        return left, right

    def _place(self, node: Node, d: int, x0: float) -> float:
        """Draw a subtree whose left edge is at x0; returns its right edge."""
        left, right = self._span(node)
        x = x0 + left
        self._draw(node, d, x)
        if _combed(node):
            y = self.top[d] + self.feed_h[d]
            self._comb(node, x, y + HEIGHT["panel"], y + max(HEIGHT["panel"], LINE * (1 + len(node.lines))) + 10)
        elif node.children:
            self._children(node, d, x)
        return x0 + left + right

    def _children(self, node: Node, d: int, x: float) -> None:
        spans = [self._span(c) for c in node.children]
        cx = x - (spans[0][0] + sum(a + b for a, b in spans) - spans[-1][1]) / 2
        trunks, y = [], self.top[d] + self.feed_h[d] + self._port(node, d)
        for c, (a, b) in zip(node.children, spans, strict=True):
            trunks.append(cx + a)
            self.on.wire(cx + a, y, self.top[d + 1] + self.feed_h[d + 1], c.breaker, self.top[d + 1] + 4)
            self._place(c, d + 1, cx)
            cx += a + b
        if len(trunks) > 1 or node.kind in BARS:
            self._bar(node, min(*trunks, x - 14), max(*trunks, x + 14), y)

    def _bar(self, node: Node, lo: float, hi: float, y: float) -> None:
        """A bus, with its earth electrode where it has one."""
        self.on.path(f"M{s.n(lo)} {s.n(y)}H{s.n(hi)}", ' stroke-width="5"')
        self.on.wires.append((lo, y, hi, y))
        if node.grounded:
            self.on.path(f"M{s.n(lo)} {s.n(y)}H{s.n(lo - 22)}v14m-10 0h20m-16.5 4h13m-9.5 4h6")
            self.on.low = max(self.on.low, y + 26)

    def _comb(self, node: Node, x: float, y: float, at: float) -> float:
        """Panels one under another, each with its own run named beside it; returns where the next one may stand.

        The back of the comb goes down from y; the first panel stands at `at`.
        """
        last = y
        for c in node.children:
            lines = (*c.feed, *c.lines)
            last, box = at + HEIGHT["panel"] / 2, x + TOOTH + 11
            self.on.tooth(x, last, c.breaker)
            self.on.panel(c, box, at)
            self.on.block(c, x + TOOTH + 30, at, lines)
            foot = at + max(LINE * (1 + len(lines)), HEIGHT["panel"]) + 12
            at = self._comb(c, box, at + HEIGHT["panel"], foot) if c.children else foot
        self.on.wire(x, y, last)
        return at

    def _port(self, node: Node, d: int) -> float:
        """Where conductors leave, measured from the top of the symbol."""
        return self.node_h[d] - 8 if node.kind in BARS else float(HEIGHT[node.kind])

    def _draw(self, node: Node, d: int, x: float) -> None:
        y = self.top[d] + self.feed_h[d]
        for i, line in enumerate(node.feed):
            self.on.text(x + SYM, self.top[d] + 16 + LINE * i, line)
        if node.alternate:                       # the second source stands to the left, its conductor comes in from the side
            ax, ay = x - SYM - _widest(node.alternate, node.alternate.lines) - GAP - 8, self.top[d]
            foot = ay + HEIGHT[node.alternate.kind]
            self.on.symbol(node.alternate.kind, ax, ay)
            self.on.block(node.alternate, ax + SYM, ay, node.alternate.lines)
            self.on.wires += [(ax, foot, ax, y + 14), (ax, y + 14, x - 16, y + 14)]
            self.on.path(f"M{s.n(ax)} {s.n(foot)}V{s.n(y + 14)}H{s.n(x - 16)}")
        if node.kind in BARS:
            self.on.wire(x, y, y + self._port(node, d))
            self.on.block(node, x + SYM, y + 2, node.lines)
        else:
            self.on.panel(node, x, y)
            self.on.block(node, x + SYM, y + max(0.0, (HEIGHT[node.kind] - LINE * (1 + len(node.lines))) / 2), node.lines)


def walk(root: Node) -> Iterator[tuple[int, Node]]:
    """The tree in drawing order, with depth."""
    stack = [(0, root)]
    while stack:
        d, m = stack.pop()
        yield d, m
        stack += [(d + 1, c) for c in reversed([*([m.alternate] if m.alternate else []), *m.children])]


def sentence(node: Node) -> str:
    """What the drawing says of one node."""
    return ", ".join([node.title, *(s.said(t) for t in (*node.lines, *node.feed))])


def words(root: Node) -> str:
    """The drawing in words, one line for each node, indented by two spaces for each step away from the source."""
    return "\n".join("  " * d + sentence(m) for d, m in walk(root))


def svg(root: Node, title: str, ink: str = "#15202B", ground: str = "#FFFFFF") -> str:
    """The drawing as SVG; all text escaped, viewBox fixed, attributes only, description inside."""
    drawn = _Sheet(root, ink, ground)
    body = [part.replace("var(--k-ground,#fff)", ground) for part in drawn.on.body]
    return s.sheet(drawn.width, drawn.height, title, words(root), body, ink, kind="k-pic k-tree", least=LEAST * drawn.width)


def clashes(root: Node) -> list[tuple[str, str]]:
    """Every pair of texts that overlap, and every text that a conductor crosses; empty on a good drawing."""
    on, bad = _Sheet(root, "", "").on, []
    for i, (a0, b0, a1, b1, t) in enumerate(on.texts):
        bad += [(t, u) for c0, d0, c1, d1, u in on.texts[i + 1 :] if a0 < c1 and c0 < a1 and b0 < d1 and d0 < b1]
        bad += [(t, "conductor") for x0, y0, x1, y1 in on.wires
                if a0 < max(x0, x1) and min(x0, x1) < a1 and b0 < max(y0, y1) and min(y0, y1) < b1]
    return bad
