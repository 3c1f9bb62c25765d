"""Bonds between neutral and ground: one for each island of neutrals that has a source, in every mode of operation."""
from curtilage.calc.grounding.records import IslandRun, ModeRun
from curtilage.values import lines as u
from curtilage.values.method import method


@method
def island_bonds(i, ed):
    """Bonds in one island of neutrals; `i` is an `Island`.

    None leaves a fault without its low-impedance way back; a second one puts neutral current on grounding conductors and metal.
    Source: NFPA 70 250.6(A), 250.24(A), 250.30(A), 250.142(B).
    """
    bonds: u.count = sum(b.bonded for b in i.bonds)
    ok: u.flag = bonds == ed.neutral_bonds
    return IslandRun(bonds, ok)


@method
def one_bond_each(x, ed):
    """Whether every island of one mode has its one bond; `x` is a `Mode`.

    An isolated source that has its own bond is an island of its own and counts as right.
    Not for: the utility's own bond at its transformer (250.24(A)(2)), which is not counted; impedance-grounded systems.
    Source: NFPA 70 250.24(A), 250.30(A), 250.142(B).
    """
    each = tuple(island_bonds(i, ed) for i in x.islands)
    counts = tuple(i.bonds for i in each)
    rights = tuple(i.ok for i in each)
    islands: u.count = len(counts)
    bonds: u.count = sum(counts)
    fewest: u.count = min(counts)
    most: u.count = max(counts)
    ok: u.flag = all(rights)
    return ModeRun(islands, bonds, fewest, most, ok)
