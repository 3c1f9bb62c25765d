"""The source's own path: step by step, with its roundings and its errors."""
from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from curtilage.errors import CurtilageError
from curtilage.reference import arithmetic
from curtilage.reference.engine import Calculation, calculate
from curtilage.reference.example import Case, Example, Step
from curtilage.reference.kinds import Method
from curtilage.reference.problems import Problems
from curtilage.reference.quantities import convert


class Stepped(NamedTuple):
    """A step with its value, and the steps before it that it stands on."""
    step: Step
    value: float
    unit: str
    stands_on: tuple[Step, ...]

    @property
    def differs(self) -> tuple[Step, ...]:
        """The steps on the way here at which the source differs."""
        return tuple(s for s in (*self.stands_on, self.step) if s.differs)


Steps = Mapping[str, Stepped]


def walk(case: Case, ours: Calculation, example: Example, methods: Mapping[str, Method], note: Problems) -> Steps:
    """The value of each step; a later step of a name stands in place of an earlier one, and of our result."""
    known = {**ours.given, **{n: x for n in ours.results if (x := ours.number(n)) is not None}}
    done: dict[str, Stepped] = {}
    for step in case.steps:
        try:
            done[step.name] = stepped = _step(step, case, ours, example, methods, note, known, done)
            known[step.name] = stepped.value
        except CurtilageError as e:
            note.add(example.line(step.path), f"path '{step.name}'", str(e))
            break
    return done


def _step(step: Step, case: Case, ours: Calculation, example: Example, methods: Mapping[str, Method], note: Problems,
          known: Mapping[str, float], done: Steps) -> Stepped:
    result = ours.method.result(step.name)
    reads = arithmetic.names(step.formula) if step.formula else (step.name,)
    if step.result:
        x, unit = _again(step, case, ours, example, methods, note)
        reads = ()
    elif step.formula and step.formula.strip() not in known:
        x, unit = arithmetic.value(step.formula, known), step.unit or (result.unit if result else "")
    else:                                                      # one number alone, in the unit that it has
        name = reads[0]
        if name not in known:
            raise CurtilageError(f"'{name}' is no result of {ours.method.name}; write with 'is' how the source gets it")
        x, unit = known[name], _unit(name, ours, done)
    if step.unit and step.unit != unit:
        x, unit = convert(x, unit, step.unit), step.unit
    if step.rounding is not None:
        x = step.rounding(x)
    before = [s for name in reads if name in done for s in (*done[name].stands_on, done[name].step)]
    return Stepped(step, x, unit, tuple({s.path: s for s in before}.values()))


def _unit(name: str, ours: Calculation, done: Steps) -> str:
    if name in done:
        return done[name].unit
    result = ours.method.result(name)
    return result.unit if result else next((k.unit for k in ours.method.keys if k.name == name), "")


def _again(step: Step, case: Case, ours: Calculation, example: Example, methods: Mapping[str, Method],
           note: Problems) -> tuple[float, str]:
    """A method run again on the source's inputs; those of the same method are laid over what is given."""
    method = methods[step.method or case.method]
    same = method.name == case.method
    given = {**case.given, **step.given} if same else dict(step.given)
    at = {**(case.given_at if same else {}), **{k: (*step.path, "given", k) for k in step.given}}
    again = calculate(method, given, at, case.edition, example, note, step.path)
    x = again.number(step.result) if again is not None else None
    result = method.result(step.result)
    if x is None or result is None:
        raise CurtilageError(f"{method.name} gives no number '{step.result}' here")
    return x, result.unit
