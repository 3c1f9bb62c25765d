"""What the methods of pulling refuse, each in one sentence."""
from curtilage.errors import CurtilageError
from curtilage.values.told import value


def too_steep(L, h) -> CurtilageError:
    return CurtilageError(f"a straight step of {value(L):g} ft cannot climb {value(h):g} ft; "
                          "its length is measured along the raceway")


def too_tight(R, D) -> CurtilageError:
    return CurtilageError(f"a bend of {value(R):g} in to the middle of a raceway {value(D):.4g} in wide has no inside; "
                          "state the radius to the middle")


def does_not_go_in(n, d, D) -> CurtilageError:
    return CurtilageError(f"{value(n):g} conductors of {value(d):.3g} in do not lie side by side in a raceway of "
                          f"{value(D):.4g} in; take a larger one")


def nothing_pulled(where) -> CurtilageError:
    return CurtilageError(f"{where}: nothing that could carry a tension is pulled; "
                          "state conductors, or the weight and tension of cables")
