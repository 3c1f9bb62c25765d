"""What the methods of raceways refuse, each in one sentence: what was given, what is allowed, how to mend it."""
from curtilage.errors import CurtilageError
from curtilage.values.told import value


def no_area(c) -> CurtilageError:
    kind = f"compact {value(c.insulation)}" if value(c.compact) else str(value(c.insulation)) or "no stated insulation"
    return CurtilageError(f"{c.id}: no table gives the size of a conductor with {kind}; "
                          "known are thwn-2, xhhw-2 (both also compact), rhw-2, rhw-2 uncovered and bare; state its diameter")


def nothing_fits(r, area) -> CurtilageError:
    return CurtilageError(f"{r.id}: {value(area):.4g} in2 of conductors fit into no trade size of this kind of raceway; "
                          "take more raceways, or conductors in parallel")


def nothing_inside(r) -> CurtilageError:
    return CurtilageError(f"{r.id}: nothing lies in it and its trade size is not stated; write its size or its members")


def not_a_length(what: str, x) -> CurtilageError:
    return CurtilageError(f"{what}: {value(x):g} is not above 0")
