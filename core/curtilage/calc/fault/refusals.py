"""What the fault methods refuse, each in one sentence: what was given, what is allowed, how to mend it."""
from curtilage.errors import CurtilageError
from curtilage.values.told import value


def no_impedance(R, X) -> CurtilageError:
    return CurtilageError(f"a fault behind {value(R):g} + j {value(X):g} ohm has no current that could be named; "
                          "state the transformer's rating and impedance, or the utility's letter")


def no_primary_volts(I) -> CurtilageError:
    return CurtilageError(f"{value(I):g} A on the primary side says nothing without the voltage there; state "
                          "service.transformer.primary_volts, or leave the primary out (infinite)")


def letter_above_lateral(I, R, X) -> CurtilageError:
    return CurtilageError(f"the letter's {value(I):g} A at the service gear is more than the service conductors let through "
                          f"({value(R):.3g} + j {value(X):.3g} ohm are left for the transformer); ask whether it is meant at the "
                          "transformer's terminals, and for its ratio of reactance to resistance")


def least_above_largest(least, most) -> CurtilageError:
    return CurtilageError(f"the letter's least current, {value(least):g} A, is above its available current, {value(most):g} A; "
                          "read the letter again")


def need_not_trip(D, m) -> CurtilageError:
    return CurtilageError(f"{value(m):.2f} times the rating of {value(D):g} A: below 135 % a breaker need not trip at all; "
                          "a larger equipment ground, a smaller device, or a nearer source")
