"""Household cooking by the table of demand loads, with its notes."""
from math import floor

from curtilage.calc.demand.records import KVA, NO_KVA, NONE, VA_PER_KVA, Row
from curtilage.calc.demand.results import Cooking, CookingUnit
from curtilage.errors import CurtilageError
from curtilage.values import lines as u
from curtilage.values.method import method

NO_UNITS: u.count = 0.0
ONE: u.count = 1.0
HALF: u.count = 0.5
TWO: u.count = 2.0
LEGS: u.count = 3.0


@method
def cooking_unit(x, ed):
    """One row of cooking units, sorted into the columns of the table by the rating of one unit (kW taken as kVA).

    Column A from over 1.75 kW to under 3.5 kW, B to 8.75 kW, C above; at or below 1.75 kW the table does not apply and the
    nameplate counts. Source: Table 220.55 and its note 3.
    Raises CurtilageError for a rating of zero, and above 27 kW, where the table ends.
    """
    S_each: u.VA = x.va / x.qty
    P_each: u.kVA = S_each / VA_PER_KVA
    S_least: u.VA = max(S_each, ed.range_base * VA_PER_KVA)
    if P_each <= NO_KVA:
        raise CurtilageError(f"{x.id} va: a cooking unit needs a rating above 0 kW; give its nameplate, or take the row out")
    if P_each > ed.range_most:
        raise CurtilageError(f"{x.id} va: the table of household cooking ends at 27 kW a unit; "
                             "give the rating of one unit, or count the unit at its nameplate outside cooking")
    inside: u.flag = P_each > ed.range_least
    in_a: u.flag = inside and P_each < ed.range_b_from
    in_b: u.flag = inside and P_each >= ed.range_b_from and P_each <= ed.range_b_to
    in_c: u.flag = inside and P_each > ed.range_b_to
    n_a: u.count = x.qty if in_a else NO_UNITS
    n_b: u.count = x.qty if in_b else NO_UNITS
    n_c: u.count = x.qty if in_c else NO_UNITS
    S_a: u.VA = n_a * S_each
    S_b: u.VA = n_b * S_each
    S_c: u.VA = n_c * S_least
    S_all: u.VA = (n_a + n_b + n_c) * S_least
    S_rest: u.VA = NONE if inside else x.va
    return CookingUnit(n_a, n_b, n_c, S_a, S_b, S_c, S_all, S_rest)


@method
def column_c(n: u.count, K_sum: u.kVA, ed):
    """Maximum demand of `n` units in column C, with the increase for an average rating above its base.

    `K_sum`: their ratings together, each taken at least at the base of 12 kW. The
    increase is 5 % for each kW, or major fraction of one, of the average above 12 kW, on the whole value of the column; a
    fraction counts from one half. Source: Table 220.55 column C, notes 1 and 2.
    """
    D_table: u.kVA = ed.range_demand(n)
    P_avg: u.kVA = K_sum / n
    n_over: u.count("kW or major fraction above the base") = floor((P_avg - ed.range_base) / KVA + HALF)
    f_over: u.ratio = 1 + ed.range_step * KVA * n_over
    D_column: u.kVA = D_table * f_over
    return D_column


@method
def small_columns(K_a: u.kVA, K_b: u.kVA, n_a: u.count, n_b: u.count, ed):
    """Small units at the factors of columns A and B, read in the rows `n_a` and `n_b`. Source: Table 220.55 note 3."""
    if K_a > NO_KVA:
        D_a: u.kVA = K_a * ed.range_factor_a(n_a)
    else:
        D_a: u.kVA = NO_KVA
    if K_b > NO_KVA:
        D_b: u.kVA = K_b * ed.range_factor_b(n_b)
    else:
        D_b: u.kVA = NO_KVA
    D_small: u.kVA = D_a + D_b
    return D_small


@method
def cooking_load(rows, ed):
    """Household cooking on a feeder or service: the least of the results that the table permits.

    Permitted are column C for every unit, or the small ones by columns A and B and only the larger in C (note 3). For the
    rows of A and B the text says "the given number of appliances"; used here is each column counted by itself, because its
    last sentence applies the factors of each column to the appliances of that column; the other reading, all small units
    counted together, is shown beside it and flagged where it would give less. kVA.
    Source: 220.55, Table 220.55, notes 1 to 3. Not for: branch circuits (note 4), cooking in commercial kitchens.
    """
    units = tuple(cooking_unit(x, ed) for x in rows)
    n_a: u.count = sum(c.n_a for c in units)
    n_b: u.count = sum(c.n_b for c in units)
    n_c: u.count = sum(c.n_c for c in units)
    n_small: u.count = n_a + n_b
    n_all: u.count = n_small + n_c
    K_a: u.kVA = sum(c.a for c in units) / VA_PER_KVA
    K_b: u.kVA = sum(c.b for c in units) / VA_PER_KVA
    K_rest: u.kVA = sum(c.rest for c in units) / VA_PER_KVA
    if n_all > NO_UNITS:
        K_units: u.kVA = sum(c.all for c in units) / VA_PER_KVA
        D_c: u.kVA = column_c(n_all, K_units, ed)
    else:
        D_c: u.kVA = NO_KVA
    if n_c > NO_UNITS:
        K_large: u.kVA = sum(c.c for c in units) / VA_PER_KVA
        D_large: u.kVA = column_c(n_c, K_large, ed)
    else:
        D_large: u.kVA = NO_KVA
    D_apart: u.kVA = small_columns(K_a, K_b, n_a, n_b, ed)
    D_joint: u.kVA = small_columns(K_a, K_b, n_small, n_small, ed)
    D_columns: u.kVA("note 3, each column by its own number") = D_apart + D_large
    D_together: u.kVA("note 3, small units counted together") = D_joint + D_large
    D_used: u.kVA("the least that the table permits") = min(D_c, D_columns) + K_rest
    D_other: u.kVA = min(D_c, D_together) + K_rest
    differ: u.flag = D_other < D_used
    return Cooking(D_used, D_c, D_columns, D_together, K_rest, D_other, differ)


@method
def cooking_branch(cooktop, ovens, ed):
    """One branch circuit for a counter-mounted cooking unit and up to two wall ovens in one room: added, then one range.

    kVA. A single wall oven or cooking unit alone on its circuit counts at nameplate instead. Source: Table 220.55 note 4.
    Raises CurtilageError for none, or for more than two ovens.
    """
    if sum(x.qty for x in ovens) < ONE or sum(x.qty for x in ovens) > TWO:
        raise CurtilageError(f"{cooktop.id}: note 4 joins one cooking unit and one or two wall ovens on a circuit; "
                             "put other units on circuits of their own")
    S_joined: u.VA = cooktop.va + sum(x.va for x in ovens)
    one = Row(cooktop.id, S_joined)
    c = cooking_unit(one, ed)
    K_branch: u.kVA = c.all / VA_PER_KVA
    D_branch: u.kVA = column_c(ONE, K_branch, ed)
    return D_branch


@method
def cooking_three_phase(n: u.count, P: u.kVA, ed):
    """Alike single-phase ranges on a three-phase, four-wire feeder: three-phase equivalent, kVA.

    Spread evenly, so that the most between two lines is a third, rounded up; twice that number is read in column C, half of
    the value is the load of one line, three of these the equivalent. Source: 220.55; worked so in the examples, D5(a).
    """
    n_pair: u.count("most units between two lines") = ceil_thirds(n)
    n_read: u.count = TWO * n_pair
    K_read: u.kVA = n_read * max(P, ed.range_base)
    D_read: u.kVA = column_c(n_read, K_read, ed)
    D_three: u.kVA = LEGS * D_read / TWO
    return D_three


@method
def ceil_thirds(n: u.count):
    """How many of `n` units the fullest of three pairs of lines carries."""
    n_pair: u.count = -floor(-n / LEGS)
    return n_pair
