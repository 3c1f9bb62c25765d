"""Four shapes of rule: a constant, tiers, bands, a ladder of sizes; and rows of a table with an exact key.

`plain()` gives what whole designs use: a bare function or dictionary. `note(x)` says what the shape did with x.
"""
from __future__ import annotations

from bisect import bisect_left

from curtilage.values.told import Cite, Told, value


class Tiers:
    """[(up_to, factor), ...]; the last limit is infinity."""

    def __init__(self, steps):
        self.steps = tuple((float(up_to), factor) for up_to, factor in steps)

    def parts(self, x: float) -> list[tuple[float, float]]:
        low, out = 0.0, []
        for up_to, factor in self.steps:
            if x > low:
                out.append((min(x, up_to) - low, factor))
            low = up_to
        return out

    def plain(self):
        steps = self.steps

        def tiers(x):
            low = total = 0.0
            for up_to, factor in steps:
                if x <= up_to:
                    return total + (x - low) * factor
                total += (up_to - low) * factor
                low = up_to
        return tiers

    def note(self, x: float) -> str:
        return " + ".join(f"{amount:g} at {100 * factor:g} %" for amount, factor in self.parts(x))


class Bands:
    """The value of the first band whose upper limit is not below x."""

    def __init__(self, limits, values):
        self.limits, self.values = tuple(limits), tuple(values)

    def plain(self):
        limits, values = self.limits, self.values
        return lambda x: values[bisect_left(limits, x)]

    def note(self, x: float) -> str:
        i = bisect_left(self.limits, x)
        low = f"over {self.limits[i - 1]:g} " if i else ""
        return f"{x:g} falls in the row {low}up to {self.limits[i]:g}"


class Ladder:
    """The next standard size at or above x."""

    def __init__(self, sizes):
        self.sizes = tuple(sizes)

    def plain(self):
        sizes = self.sizes
        return lambda x: sizes[bisect_left(sizes, x)]

    def note(self, x: float) -> str:
        i = bisect_left(self.sizes, x)
        smaller = f"; {self.sizes[i - 1]:g} is below {x:g}" if i else ""
        return f"next at or above {x:g} is {self.sizes[i]:g}{smaller}"


class Rows(dict):
    """Exact-match rows."""

    def plain(self):
        return dict(self)

    def note(self, key) -> str:
        return f"row {key}"


class Telling:
    """A shape that answers with its clause; one node for one answer, however often it is read."""

    def __init__(self, name: str, shape, unit: str, cite: Cite):
        self.name, self.shape, self.plain, self.unit, self.cite = name, shape, shape.plain(), unit, cite
        self._nodes: dict = {}

    def _node(self, key, result, text: str) -> Told:
        mark = id(key) if isinstance(key, Told) else key
        if mark not in self._nodes:
            inputs = (key,) if isinstance(key, Told) else ()
            self._nodes[mark] = Told(text, result, self.unit, "rule", inputs, self.cite, self.shape.note(value(key)))
        return self._nodes[mark]

    def told(self, x) -> Told:
        return self._node(x, self.plain(value(x)), f"{self.name}({value(x):g})")

    __call__ = told

    def __getitem__(self, key) -> Told:
        return self._node(key, self.plain[value(key)], f"{self.name}[{value(key)}]")
