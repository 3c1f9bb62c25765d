"""What the conductor methods refuse, each in one sentence: where, what was given, what is allowed, how to mend it."""
from curtilage.errors import CurtilageError
from curtilage.values.told import value


def not_a_column(what: str, rating) -> CurtilageError:
    return CurtilageError(f"{what}: {value(rating):g} degC is no column of the ampacity table; "
                          "insulation is 60, 75 or 90 degC, terminals are 60 or 75 degC")


def not_a_power_factor(pf) -> CurtilageError:
    return CurtilageError(f"power factor {value(pf):g} is not above 0 and not above 1; write for example 0.95 (lagging)")


def too_long(where: str, I, largest) -> CurtilageError:
    return CurtilageError(f"{where}: no single conductor up to {value(largest)} keeps the drop at {value(I):.4g} A; "
                          "raise the largest size or the limit, shorten the run, or feed the load from a nearer panel")


def none_carries(where: str, I, rating) -> CurtilageError:
    return CurtilageError(f"{where}: no single conductor of the tables carries {value(I):.4g} A where it lies and is protected "
                          f"by a device of {value(rating):g} A; state another device, lay it cooler or apart, or split the load")


def too_many_sets(where: str, I, largest, most) -> CurtilageError:
    return CurtilageError(f"{where}: {value(most):g} sets up to {value(largest)} do not carry {value(I):.4g} A within the drop; "
                          "raise the number of sets, the largest size or the limit, or split the load")


def size_without_sets(where: str, size) -> CurtilageError:
    return CurtilageError(f"{where}: size {value(size)} is stated and the number of sets is not; write sets: 1 or more, "
                          "or leave the size out to have both chosen")


def nameplate_closed(where: str, mca, mocp) -> CurtilageError:
    return CurtilageError(f"{where}: no standard device lies between the nameplate's {value(mca):g} A (mca) and "
                          f"{value(mocp):g} A (mocp); read the nameplate again, or state the device")


def nothing_left(I, L, V) -> CurtilageError:
    return CurtilageError(f"{value(I):.4g} A over {value(L):g} ft leaves nothing of {value(V):g} V; "
                          "check the length and its unit, the load, and the size")


def collapses(S, most) -> CurtilageError:
    return CurtilageError(f"voltage collapse: {value(S):.6g} VA cannot be delivered over this impedance; at most "
                          f"{value(most):.6g} VA can, at this power factor")


def no_neutral(where: str, I) -> CurtilageError:
    return CurtilageError(f"{where}: no neutral size carries {value(I):.4g} A; use more sets or check the neutral load")
