"""Equipment grounding conductor of a circuit or feeder: by the device, then in proportion where the conductors were increased."""
from typing import NamedTuple

from curtilage.values import lines as u
from curtilage.values.method import method


class Ground(NamedTuple):
    """Equipment grounding conductor, in each raceway where there are several."""

    table: u.size                # by the device alone
    size: u.size


@method
def equipment_ground(D: u.A, base: u.size, size: u.size, m):
    """Smallest equipment grounding conductor of the same material as the conductors, for a device of rating D.

    `base` is the smallest size with sufficient ampacity by the ordinary table, after factors and terminals, protected by the
    device, in the same number of sets; `size` is what is laid. Where `size` is larger, the ground grows in the same proportion of
    circular mils. Nothing is rounded: a size that is one circular mil short fails. Never larger than the conductors themselves.
    In parallel raceways each holds the full size. The proportion may also be replaced by a qualified person's calculation of the
    fault path (exception to (B)); that is not done here.
    Not for: metal raceways as the ground, feeder taps, motors with instantaneous-trip devices.
    Source: NFPA 70 250.122(A), 250.122(B), 250.122(F), Table 250.122; areas Ch. 9 Table 8.
    """
    table: u.size = m.egc(D)
    if m.cmil[size] > m.cmil[base]:
        A_g: u.cmil("NFPA 70 250.122(B): in proportion to the larger conductors") = m.cmil[table] * m.cmil[size] / m.cmil[base]
        for s in m.from_size[table]:
            if m.cmil[s] >= A_g:
                grown: u.size = s
                break
        else:
            grown: u.size = size
    else:
        grown: u.size = table
    if m.cmil[grown] > m.cmil[size]:
        ground: u.size("NFPA 70 250.122(A): need not be larger than the conductors") = size
    else:
        ground: u.size = grown
    return Ground(table, ground)
