"""How much a plastic raceway in the open becomes longer and shorter."""
from curtilage.calc.raceways.records import Moved
from curtilage.calc.raceways.refusals import not_a_length
from curtilage.values import lines as u
from curtilage.values.method import method

IN_PER_FT: u.in_per_ft = 12.0


@method
def expansion(x, ed):
    """Change of length of a straight run of rigid PVC between fixed ends, and whether it wants a fitting; `x` is an `Exposed`.

    The change of temperature is that of the raceway itself: sunlight adds to the air's warmth. Not for: runs in the ground,
    other plastics. Errors: a length or a change that is not above 0. Source: NFPA 70 352.44, Table 352.44.
    """
    if x.length <= 0:
        raise not_a_length("length of the exposed run", x.length)
    swing: u.degC = x.warmest + x.sun - x.coldest
    if swing <= 0:
        raise not_a_length("change of temperature", swing)
    moved: u.inch("NFPA 70 Table 352.44") = ed.expansion_pvc * x.length * IN_PER_FT * swing
    wanted: u.flag = moved >= ed.expansion_from
    fitting_ok: u.flag = not wanted or x.fitted
    return Moved(swing, moved, wanted, fitting_ok)
