"""How deep a raceway must lie, and the ribbon above service conductors."""
from curtilage.calc.raceways.records import Covered
from curtilage.values import lines as u
from curtilage.values.method import method


@method
def cover(b, ed):
    """Cover over a raceway or cable up to 1,000 V, by what it is and where it lies; `b` is a `Buried`.

    Not for: solid rock, airport runways, circuits with less cover by their small voltage or device, pools.
    Source: NFPA 70 300.5(A), Table 300.5; 300.5(D)(3) for the warning ribbon over service conductors.
    """
    least: u.inch = ed.cover(b.location, b.column)
    cover_ok: u.flag = b.cover >= least
    deeper: u.inch = b.cover - least
    wanted: u.flag("NFPA 70 300.5(D)(3)") = b.service and b.cover >= ed.ribbon_from
    ribbon_ok: u.flag = not wanted or b.ribbon >= ed.ribbon_above
    return Covered(b.cover, least, cover_ok, deeper, wanted, ribbon_ok)
