"""Motors, written a second time by the handbook: tables read from the CSV files, impedances as complex numbers.

It shares no code with the package; only the numbers must be the same.
"""
import csv
from pathlib import Path

import curtilage

TABLES = Path(curtilage.__file__).parent / "data" / "tables"


def rows(name):
    with open(TABLES / f"{name}.csv", encoding="utf-8") as f:
        return list(csv.DictReader(f))


def value(text):
    """"7-1/2" is 7.5."""
    whole, _, part = text.rpartition("-") if "/" in text else (text, "", "")
    return (float(whole) if whole else 0.0) + (float(part.split("/")[0]) / float(part.split("/")[1]) if part else 0.0)


ONE = {value(r["hp"]): r for r in rows("nec_430_248_flc_1ph")}
THREE = {value(r["hp"]): r for r in rows("nec_430_250_flc_3ph")}
LOCKED_ONE = {value(r["hp"]): r for r in rows("nec_430_251A_lrc_1ph")}
LETTERS = {r["letter"]: (float(r["kva_hp_min"]), float(r["kva_hp_max"] or "nan")) for r in rows("nec_430_7B_code_letters")}
RATINGS = sorted({float(r["rating_A"]) for r in rows("nec_240_6A_standard_ratings")})
HEADS = {120: "a115", 208: "a208", 240: "a230", 480: "a460"}
PERCENT = {"fuse": (3.00, 4.00), "dual": (1.75, 2.25), "breaker": (2.50, 4.00)}    # Table 430.52, exceptions


def up(amps):
    return next(r for r in RATINGS if r >= amps)


def below(amps):
    return max((r for r in RATINGS if r <= amps), default=0.0)


def full_load(hp, volts, phases):
    return float((ONE if phases == 1 else THREE)[hp][HEADS[volts]])


def devices(hp, volts, phases):
    """Kind -> (standard, most)."""
    amps, out = full_load(hp, volts, phases), {}
    for kind, (share, most) in PERCENT.items():
        if kind == "breaker" and amps > 100:
            most = 3.0
        standard = up(round(share * amps, 9))
        if kind == "breaker" and phases == 1 and amps <= 6:
            standard = max(standard, 20 if volts == 120 else 15)
        out[kind] = standard, max(standard, below(round(most * amps, 9)))
    return out


def overload(plate, factor, cool=False):
    """430.32(A)(1) and (C)."""
    return (1.25 * plate, 1.40 * plate) if factor >= 1.15 or cool else (1.15 * plate, 1.30 * plate)


def locked(hp, volts, plate=0.0, letter=""):
    """Low and high end."""
    if plate:
        return plate, plate
    if letter:
        return tuple(k * 1000 * hp / (volts * 115 / 120) for k in LETTERS[letter])
    amps = float(LOCKED_ONE[hp][HEADS[volts]])
    return amps, amps


def feeder(motors):
    """[(amperes, device)]: least ampacity and largest device."""
    amps = [a for a, _ in motors]
    return sum(amps) + max(amps) / 4, below(round(max(d for _, d in motors) + sum(amps) - max(amps), 9))


def dips(volts, inrush, pf, stretches):
    """[(name, complex ohms of the loop)]: a voltage divider, percent lost at the end of each stretch."""
    motor = volts * 115 / 120 / inrush * complex(pf, (1 - pf * pf) ** 0.5)
    current = volts / (motor + sum(z for _, z in stretches))
    out, passed = {}, 0j
    for name, z in stretches:
        passed += z
        out[name] = 100 * (1 - abs(volts - current * passed) / volts)
    return abs(current), out


def elevators(number, kva, volts, efficiency, demand, controller):
    """Annex D10: the transformers with their demand factor, the controllers at 125 %."""
    one = kva * 1000 / (3 ** 0.5 * volts * efficiency)
    return one, number * one * demand + number * controller * 5 / 4
