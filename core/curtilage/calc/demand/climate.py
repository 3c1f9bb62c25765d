"""Heating against cooling: the larger season by the standard method, the six selections of the optional one."""
from curtilage.calc.demand.motors import motor_load
from curtilage.calc.demand.records import NONE
from curtilage.calc.demand.results import ClimateLoad, Paired, Season, SixCases
from curtilage.values import lines as u
from curtilage.values.method import method


@method
def heat_pump(h, ed):
    """A heat pump, with the supplementary heat that its controls keep off while the compressor runs.

    Cooling: the compressor. Heating: the larger of compressor and locked-out heat, since they never run together. VA.
    Source: 220.60; for the optional method 220.82(C)(3).
    """
    m = motor_load(h.pump, ed)
    S_locked: u.VA = sum(x.va for x in h.locked)
    S_pair: u.VA = max(m.load, S_locked)
    S_optional: u.VA = max(h.pump.va, ed.optional_supplementary * S_locked)
    return Paired(m.load, S_pair, S_optional, S_locked, m.one)


@method
def climate_load(c, ed):
    """Heating and cooling of a structure, each season by itself, and what runs in both.

    Fixed electric space heating counts at 100 %. Supplementary heat counts with the compressors unless it is locked out.
    A heat pump counts in both seasons. VA. Which season rules is decided with the largest motor of the whole feeder.
    Source: 220.51, 220.60, 220.50.
    """
    pumps = tuple(heat_pump(h, ed) for h in c.heat_pumps)
    cooling = tuple(motor_load(x, ed) for x in c.cooling)
    always = tuple(motor_load(x, ed) for x in c.always)
    S_resistance: u.VA = (sum(x.va for x in c.supplementary) + sum(x.va for x in c.heat) + sum(x.va for x in c.zone_heat)
                          + sum(x.va for x in c.storage))
    S_heating: u.VA = sum(p.heating for p in pumps) + S_resistance
    S_cooling: u.VA = sum(p.cooling for p in pumps) + sum(m.load for m in cooling)
    S_always: u.VA = sum(m.load for m in always)
    P_both: u.VA = max(max((p.one for p in pumps), default=NONE), max((m.one for m in always), default=NONE))
    P_cooling: u.VA = max(P_both, max((m.one for m in cooling), default=NONE))
    return ClimateLoad(S_heating, S_cooling, S_always, P_both, P_cooling)


@method
def season(c, P_base: u.VA, ed):
    """The season that rules, decided with the largest motor of the whole feeder, and the quarter added for that motor.

    `c`: heating and cooling as `climate_load` gives them; `P_base`: largest motor among the loads of no season. Each
    season is taken with its own largest motor and the larger sum rules. `most` is the quarter of the largest motor of
    either season: some read the rule so that an omitted motor still adds its quarter. VA. Source: 220.60, 220.50, 430.24.
    """
    M_heating: u.VA = ed.largest_motor * max(P_base, c.heating_motor)
    M_cooling: u.VA = ed.largest_motor * max(P_base, c.cooling_motor)
    S_winter: u.VA = c.heating + M_heating
    S_summer: u.VA = c.cooling + M_cooling
    heats: u.flag("the larger season, each with its largest motor") = S_winter >= S_summer
    S_season: u.VA = c.heating if heats else c.cooling
    M_largest: u.VA = M_heating if heats else M_cooling
    M_most: u.VA = max(M_heating, M_cooling)
    return Season(S_season, M_largest, M_most, S_winter, S_summer, heats)


@method
def six_cases(c, ed):
    """The six selections for heating and cooling in the optional method, side by side, and the largest.

    (1) air conditioning, (2) heat pumps without supplementary heat, (3) compressors with part of the supplementary heat,
    (4) fewer than four separately controlled heating units, (5) four or more, (6) storage heat. VA. Nameplates.
    Air handlers and whatever runs in both seasons are added at 100 % (so that no selection loses them).
    The text asks for the largest selection, and that is used. Where one dwelling has several kinds of heating, all of which
    run on a cold day, the letter of the text leaves some of it out; `together` is all heating that can run at once, each
    kind with its factor, or cooling if that is more. They differ only with several kinds of heating, and then it is a
    matter to ask about. Source: 220.82(C).
    """
    pumps = tuple(heat_pump(h, ed) for h in c.heat_pumps)
    S_pumps: u.VA = sum(h.pump.va for h in c.heat_pumps)
    S_locked: u.VA = sum(p.locked for p in pumps)
    S_extra: u.VA = sum(x.va for x in c.supplementary)
    S_1: u.VA = S_pumps + sum(x.va for x in c.cooling)
    if S_locked + S_extra > NONE:
        S_2: u.VA = NONE
        S_3: u.VA = sum(p.optional for p in pumps) + ed.optional_supplementary * S_extra
    else:
        S_2: u.VA = S_pumps
        S_3: u.VA = NONE

    n_zones: u.count = sum(x.qty for x in c.zone_heat)
    S_zones: u.VA = sum(x.va for x in c.zone_heat)
    S_central: u.VA = sum(x.va for x in c.heat)
    if n_zones < ed.optional_many_from:
        S_4: u.VA = ed.optional_few * (S_central + S_zones)
        S_5: u.VA = NONE
    else:
        S_4: u.VA = ed.optional_few * S_central
        S_5: u.VA = ed.optional_many * S_zones
    S_6: u.VA = sum(x.va for x in c.storage)

    S_largest: u.VA = max(S_1, S_2, S_3, S_4, S_5, S_6)
    S_together: u.VA = max(S_1, S_2 + S_3 + S_4 + S_5 + S_6)
    S_always: u.VA = sum(x.va for x in c.always)
    S_climate: u.VA = S_largest + S_always
    return SixCases(S_1, S_2, S_3, S_4, S_5, S_6, S_largest, S_together, S_climate)
