"""What the methods of grounding refuse, each in one sentence."""
from curtilage.errors import CurtilageError
from curtilage.values.told import value


def no_equal(size: str, material: str) -> CurtilageError:
    return CurtilageError(f"no {value(material)} conductor of the tables has the ampacity of {value(size)}; "
                          "above the table, a bonding jumper goes by conductors assumed in its own metal; use the other metal")


def no_electrode(kind: str) -> CurtilageError:
    return CurtilageError(f"{value(kind)} is no kind of electrode; allowed: concrete-encased, rod, ring, plate, water pipe, "
                          "structural metal")


def nothing_of(what: str, x: float) -> CurtilageError:
    return CurtilageError(f"{what} is {value(x):g}; it must be above 0")


def too_thick(L: float, d: float) -> CurtilageError:
    return CurtilageError(f"a rod of {value(L):g} ft and {value(d):g} in is not slender; the formula holds for rods much longer "
                          "than thick; check the units of length and diameter")
