"""Grounding electrode conductors and bonding jumpers, by the area of the conductors that supply."""
from curtilage.calc.conductors.neutral_size import bonding_area
from curtilage.calc.conductors.records import CHOOSE_SIZE
from curtilage.calc.grounding.records import BondingRun, ElectrodeRun, SupplyRun
from curtilage.calc.grounding.refusals import no_electrode, no_equal
from curtilage.calc.handbook import size_of_area
from curtilage.values import lines as u
from curtilage.values.method import method

ENCASED: u.text = "concrete-encased"
ROD: u.text = "rod"
PLATE: u.text = "plate"
RING: u.text = "ring"
WATER: u.text = "water pipe"
STEEL: u.text = "structural metal"
COPPER: u.text = "cu"
ALUMINIUM: u.text = "al"
ONE_SET: u.count = 1


@method
def sole_conductor(kind: u.text, wire: u.size, material: u.text, A: u.cmil, m):
    """Grounding electrode conductor that ends at one electrode: by the table, but not larger than its kind needs.

    A in cmil of the supply. A ring without a stated wire, and aluminium to a ring or into concrete, get the table's size.
    Errors: an unknown kind. Source: NFPA 70 250.66(A), (B), (C), Table 250.66.
    """
    if material == COPPER:
        table: u.size = m.gec_in_cu(A)
    else:
        table: u.size = m.gec_in_al(A)
    if kind == ROD or kind == PLATE:
        enough: u.size = m.gec_rod if material == COPPER else m.gec_rod_al
    elif kind == ENCASED and material == COPPER:
        enough: u.size = m.gec_encased
    elif kind == RING and material == COPPER and wire != CHOOSE_SIZE:
        enough: u.size("as large as the ring") = wire
    elif kind == ENCASED or kind == RING or kind == WATER or kind == STEEL:
        enough: u.size = table
    else:
        raise no_electrode(kind)
    if m.cmil[enough] < m.cmil[table]:
        own: u.size = enough
    else:
        own: u.size = table
    return own


@method
def supply(x, m):
    """What the conductors that feed a structure ask of its grounding electrode conductors; `x` is a `Supply`.

    Parallel sets enter the table by the sum of their areas. `m` is the view of the supply's conductors ("al-pvc").
    Errors: a size that is not in the tables. Source: NFPA 70 250.66 with its notes, 250.32(E) for separate structures.
    """
    A: u.cmil = x.sets * m.cmil[x.size]
    copper: u.size("the whole of the table") = sole_conductor(WATER, CHOOSE_SIZE, COPPER, A, m)
    aluminium: u.size("the whole of the table") = sole_conductor(WATER, CHOOSE_SIZE, ALUMINIUM, A, m)
    return SupplyRun(A, copper, aluminium)


@method
def electrode_conductor(x, m):
    """The conductor of one electrode, or of several alike; `x` is an `Electrode`.

    What a rod or a concrete-encased electrode lets one save holds where the conductor ends there. Where it runs on to
    another electrode, it is as large as that one asks. A stated size is held against that.
    Not for: bonding jumpers between electrodes of two structures; conductors of busbar.
    Source: NFPA 70 250.66, 250.53(C), 250.64(F).
    """
    own: u.size = sole_conductor(x.kind, x.wire, x.material, x.area, m)
    least: u.size = own
    for e in x.beyond:
        other: u.size = sole_conductor(e.kind, e.wire, x.material, x.area, m)
        if m.cmil[other] > m.cmil[least]:
            least: u.size("NFPA 70 250.66: it runs on to a kind that asks for more") = other
    if x.conductor == CHOOSE_SIZE:
        size: u.size = least
    else:
        size: u.size("stated") = x.conductor
    ok: u.flag = m.cmil[size] >= m.cmil[least]
    return ElectrodeRun(own, least, size, ok)


@method
def assumed_size(size: u.size, metal: u.text, material: u.text, m):
    """The conductor of the jumper's metal that would take the place of a supply conductor, by ampacity at 75 degC.

    Errors: none of the tables has the ampacity. Source: NFPA 70 Table 250.102(C)(1) note 2; which column is meant is not said
    there (common practice: that of the terminals).
    """
    if metal == material:
        assumed: u.size = size
    elif material == COPPER:
        for s in m.sizes:
            if m.ampacity75_cu[s] >= m.ampacity75_al[size]:
                assumed: u.size = s
                break
        else:
            raise no_equal(size, material)
    else:
        for s in m.from_size[size]:
            if m.ampacity75_al[s] >= m.ampacity75_cu[size]:
                assumed: u.size = s
                break
        else:
            raise no_equal(size, material)
    return assumed


@method
def bonding_jumper(n: u.count, size: u.size, metal: u.text, material: u.text, m):
    """Smallest bonding jumper on the supply side for n conductors of one size in parallel.

    By the table up to its end, by their sum; above it a share of the area of conductors assumed in the jumper's metal.
    Errors: no conductor is large enough. Source: NFPA 70 250.102(C)(1) and (2), its table with notes 1 and 2; 250.28(D)(1).
    """
    A: u.cmil = n * m.cmil[size]
    if A > m.bond_from:
        assumed: u.size = assumed_size(size, metal, material, m)
        A_j: u.cmil = m.bond_share * n * m.cmil[assumed]
        jumper: u.size = size_of_area(A_j, m)
    elif material == COPPER:
        jumper: u.size = m.bond_in_cu(A)
    else:
        jumper: u.size = m.bond_in_al(A)
    return jumper


@method
def bonding(x, m):
    """Bonding jumpers and the least neutral of a service or of another source; `x` is a `Bonding`, `m` the supply's view.

    The main or system bonding jumper goes by all sets together; supply-side jumpers go by the set in their own raceway,
    or one common jumper by all. The neutral of each raceway is not smaller than its set's entry, and in parallel
    not below the least size of parallel conductors.
    Not for: several sets in one raceway; service disconnects in enclosures of their own, whose jumpers go by their conductors.
    Source: NFPA 70 250.24 (grounded conductor), 250.28(D), 250.30(A), 250.102(C), 310.10(G).
    """
    A: u.cmil = x.sets * m.cmil[x.size]
    least: u.size = bonding_jumper(x.sets, x.size, x.metal, x.material, m)
    if x.jumper == CHOOSE_SIZE:
        jumper: u.size = least
    else:
        jumper: u.size("stated") = x.jumper
    jumper_ok: u.flag = m.cmil[jumper] >= m.cmil[least]
    each: u.size = bonding_jumper(ONE_SET, x.size, x.metal, x.material, m)
    A_one: u.cmil = bonding_area(x.size, m)
    A_n: u.cmil = max(A_one, m.parallel_least) if x.sets > ONE_SET else A_one
    neutral_ok: u.flag = m.cmil[x.neutral] >= A_n
    return BondingRun(A, least, jumper, jumper_ok, each, A_n, neutral_ok)
