"""Mass of the metal in conductors: area by length by density, with the increment for stranding."""
from typing import NamedTuple

from curtilage.values import lines as u
from curtilage.values.method import method

IN2_PER_CMIL: u.in2_per_cmil = 0.7853981633974483e-6     # a circle one mil across: pi/4 of its square
IN_PER_FT: u.in_per_ft = 12.0
KG_PER_LB: u.kg_per_lb = 0.45359237
WHOLE: u.percent = 100.0


class Mass(NamedTuple):
    """Metal alone: no insulation, no raceway."""

    pounds: u.lb
    kilograms: u.kg


@method
def conductor_mass(n: u.count, size: u.size, L: u.ft, m):
    """Metal of n stranded conductors of one size, L feet long; `m` is a view of an edition ("al-pvc").

    Not for: solid wire (it has no increment for the lay, so it is 2 % lighter), insulation, raceways, compact strands made below
    the nominal area. Errors: a size without an area. Source: ASTM B8 and B496 (copper), B231 (aluminium); areas NFPA 70 Ch. 9
    Table 8.
    """
    A_metal: u.in2 = m.cmil[size] * IN2_PER_CMIL
    pounds: u.lb("ASTM B8, B231: increment of mass for the lay") = (
        n * A_metal * L * IN_PER_FT * m.density * (1 + m.lay_increment / WHOLE))
    kilograms: u.kg = pounds * KG_PER_LB
    return Mass(pounds, kilograms)


@method
def run_mass(sets: u.count, size: u.size, neutral: u.size, ground: u.size, L: u.ft, m):
    """Metal of a single-phase three-wire run: in each set two lines, a neutral and an equipment ground, of one metal.

    Source: as `conductor_mass`.
    """
    n_lines: u.count = 2 * sets
    lines = conductor_mass(n_lines, size, L, m)
    middle = conductor_mass(sets, neutral, L, m)
    earth = conductor_mass(sets, ground, L, m)
    pounds: u.lb = lines.pounds + middle.pounds + earth.pounds
    kilograms: u.kg = lines.kilograms + middle.kilograms + earth.kilograms
    return Mass(pounds, kilograms)


@method
def feeder_mass(f, m):
    """Metal of the conductors of a feeder; `f` has sets, size, neutral, ground and length, as the record of its wires.

    Source: as `conductor_mass`.
    """
    all_of_it = run_mass(f.sets, f.size, f.neutral, f.ground, f.length, m)
    return all_of_it


@method
def two_wire_mass(f, m):
    """Metal of a run without a neutral: in each set two lines and an equipment ground; `f` is as for `feeder_mass`.

    Source: as `conductor_mass`.
    """
    n_lines: u.count = 2 * f.sets
    lines = conductor_mass(n_lines, f.size, f.length, m)
    earth = conductor_mass(f.sets, f.ground, f.length, m)
    pounds: u.lb = lines.pounds + earth.pounds
    kilograms: u.kg = lines.kilograms + earth.kilograms
    return Mass(pounds, kilograms)
