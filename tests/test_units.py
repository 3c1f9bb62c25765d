"""Units at the door: factors against pint and the published definitions, the grammar, the ranges, and the way out again."""
from __future__ import annotations

import math
from typing import get_args

from curtilage import units
from curtilage.units import FACTORS, QuantityError, SplitVoltage, Unit, displayed, quantity, show, split_voltage, stored
from hypothesis import given
from hypothesis import strategies as st
import pint
import pytest

U = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
PINT = {
    "VA": "volt * ampere", "kVA": "kilovolt * ampere", "MVA": "megavolt * ampere", "hp": "electrical_horsepower", "%": "percent",
    "°C": "degC", "°F": "degF", "in": "inch", "ft2": "ft ** 2", "ft²": "ft ** 2", "m2": "m ** 2", "m²": "m ** 2", "h": "hour",
    "days": "day", "weeks": "week", "mohm": "milliohm", "ohm-m": "ohm * m", "MBH": "kBtu_it / hour", "kBtu/h": "kBtu_it / hour",
    "Btu/h": "Btu_it / hour", "ft3/h": "ft ** 3 / hour", "cfh": "ft ** 3 / hour", "m3/h": "m ** 3 / hour", "kcmil": "kcmil",
    "ft3/kWh": "ft ** 3 / kWh", "m3/kWh": "m ** 3 / kWh", "Btu/ft3": "Btu_it / ft ** 3", "MJ/m3": "MJ / m ** 3", "mm2": "mm ** 2",
    "inH2O": "inH2O", "in2": "inch ** 2", "in3": "inch ** 3", "cm3": "cm ** 3", "VA/ft2": "volt * ampere / ft ** 2",
    "VA/m2": "volt * ampere / m ** 2", "deg": "degree", "dBA": "", "starts/h": "1 / hour", "starts/day": "1 / day"}
U.define("inH2O = 2.54 * cmH2O")                             # of water of 1 kg/l: the conventional one
U.define("kcmil = 1000 * pi / 4 * thou ** 2")                  # a circle of one mil across, a thousand times
PAIRS = [(to, unit) for to, row in FACTORS.items() for unit in row]
KINDS = sorted({m for a in vars(units).values() for m in get_args(a) if isinstance(m, Unit)},
               key=lambda u: (u.unit, u.lo, u.hi))


@pytest.mark.parametrize("to,unit", PAIRS, ids=lambda x: x)
def test_every_factor_is_what_pint_derives(to: str, unit: str) -> None:
    a, b = FACTORS[to][unit]
    for x in (0.0, 1.0, 37.5):
        there = U.Quantity(x, U.parse_units(PINT.get(unit, unit))).to(U.parse_units(PINT.get(to, to))).magnitude
        assert a * x + b == pytest.approx(there, rel=1e-12, abs=1e-12), (to, unit)


@pytest.mark.parametrize("to,unit,value", [
    # NIST SP 811 (2008), appendix B.8: conversion factors; bold ones are exact
    ("ft", "m", 1 / 0.3048), ("in", "mm", 1 / 25.4), ("ft2", "m2", 1 / 9.290304e-2), ("psi", "kPa", 1 / 6.894757),
    ("MBH", "kW", 1 / 0.2930711), ("hp", "W", 1 / 746), ("in2", "mm2", 1 / 645.16), ("in3", "cm3", 1 / 16.387064),
    ("kcmil", "mm2", 1 / 0.5067075), ("ft3/h", "m3/h", 1 / 2.831685e-2), ("Btu/ft3", "MJ/m3", 1 / 0.03725895),
])
def test_factors_as_printed(to: str, unit: str, value: float) -> None:
    assert FACTORS[to][unit][0] == pytest.approx(value, rel=2e-7)


def test_the_first_unit_of_a_row_is_the_one_that_is_stored() -> None:
    for to, row in FACTORS.items():
        assert next(iter(row)) == to and row[to] == (1.0, 0.0)


FT, C = Unit("ft", "a length", 0, 1e4), Unit("degC", "a temperature", -50, 100)
PC, AMP = Unit("%", "a percentage", 0.2, 15), Unit("A", "a current", 0, 1e4)


@pytest.mark.parametrize("unit,text,value", [
    (FT, "185 ft", 185.0), (FT, "185ft", 185.0), (FT, "  1,240 ft ", 1240.0), (FT, "55 m", 180.446194226), (FT, "30 in", 2.5),
    (FT, "1.5e2 ft", 150.0), (FT, ".5 ft", 0.5), (FT, "+3 ft", 3.0), (FT, "-0 ft", 0.0), (C, "94 degF", 34.4444444444),
    (C, "75 degC", 75.0), (C, "167 °F", 75.0), (C, "-9 degF", -22.7777777778), (PC, "3 %", 3.0), (PC, "3%", 3.0),
    (FT, "185\u00a0ft", 185.0), (FT, "185\u202fft", 185.0), (AMP, "65 kA", None), (AMP, "2.5 kA", 2500.0),
])
def test_what_is_read(unit: Unit, text: str, value: float | None) -> None:
    if value is None:
        with pytest.raises(QuantityError, match="too large"):
            unit.parse(text)
    else:
        assert unit.parse(text) == value == unit.parse(text)   # the second time from memory


def test_no_negative_zero() -> None:
    assert math.copysign(1, FT.parse("-0 ft")) == 1


REFUSED = ["", " ", "ft", "185", "185 ft 6 in", "1 2 ft", "185 ft x", "10**10 ft", "1_000 ft", "1,00 ft", "12,34 ft", "0x10 ft",
           "1e400 ft", "nan ft", "inf ft", "-inf ft", "Infinity m", "NaN", "١٢ ft", "\uff11\uff12 ft", "½ ft", "185 ft\n",
           "1" * 80 + " ft", "185 FT", "185 yd", "185 kVA", "185 V", "--3 ft", "3 - ft", "3 ft²", None, True, [],
           {}, 185, 18.5, math.nan, math.inf, b"185 ft"]


@pytest.mark.parametrize("text", REFUSED, ids=repr)
def test_what_is_refused(text: object) -> None:
    with pytest.raises(QuantityError):
        FT.parse(text)


@given(st.text(max_size=30) | st.text("0123456789.,eE+-naif tmk%'\"", max_size=12))
def test_nothing_gets_through_by_accident(text: str) -> None:
    """What is read is a number and a unit that a person would read the same way, and nothing hangs or crashes."""
    try:
        value = FT.parse(text)
    except QuantityError as e:
        assert str(e)
        return
    number = text.strip(" \t").rstrip("ftincmk").strip(" \t").replace(",", "")
    assert float(number) >= 0 and 0 <= value <= 1e4


@pytest.mark.parametrize("unit", KINDS, ids=lambda u: f"{u.unit} {u.lo:g} to {u.hi:g}")
def test_every_kind_of_field_reads_what_it_writes(unit: Unit) -> None:
    for x in unit.only or [unit.hi, unit.lo + (unit.hi - unit.lo) / 3, *([] if unit.above else [unit.lo])]:
        assert unit.parse(unit.write(x)) == pytest.approx(x, rel=1e-12)
    assert unit.parse(unit.example()) is not None
    for beyond in (unit.hi * 1.01 + 1, unit.lo - abs(unit.lo) * 0.01 - 1, *([unit.lo] if unit.above else [])):
        with pytest.raises(QuantityError):
            unit.parse(unit.write(beyond))


@given(st.floats(0, 1e4))
def test_writing_and_reading_give_the_same_float(x: float) -> None:
    text = FT.write(x)
    if "e" not in text and len(text) < 20:
        assert FT.parse(text) == x


def message(unit: Unit, given: object) -> str:
    with pytest.raises(QuantityError) as e:
        unit.parse(given)
    return str(e.value)


def test_messages_say_what_to_write() -> None:
    assert message(FT, 185) == ("185 has no unit; expected a length in ft, in, m, cm, mm or km; "
                                "write '185 ft' if that is what it is")
    assert message(FT, "185 ft 6 in") == ("'185 ft 6 in' is two quantities; expected a length in ft, in, m, cm, mm or km; "
                                          "write '185.5 ft'")
    assert message(FT, "12 feet") == "the unit feet is not read; accepted: ft, in, m, cm, mm or km; write '12 ft'"
    assert message(C, "94 F") == "the unit F is not read; accepted: degC or degF; write '94 degF'"
    assert message(C, "300 degF") == "300 degF is too large; allowed: -58 to 212 degF"
    assert message(AMP, "65 kA") == "65 kA is too large; allowed: 0 to 10 kA"
    assert message(PC, 0.03) == "0.03 has no unit; expected a percentage in %; a fraction is not a percentage: write '3 %'"
    assert message(PC, "0.03 %") == "0.03 % is less than 0.2 %; if a fraction was meant, write '3 %'; allowed: 0.2 to 15 %"
    assert message(FT, None) == "is empty; expected a length in ft, in, m, cm, mm or km; write for example '10 ft'"
    only = Unit("degC", "a temperature rating", 60, 90, only=(60, 75, 90))
    assert message(only, "80 degC") == "80 degC is not a temperature rating; allowed: 60, 75 or 90 degC"
    assert only.parse("194 degF") == 90.0


def test_the_voltage_of_a_service() -> None:
    assert split_voltage("120/240 V") == SplitVoltage(120, 240) and str(SplitVoltage(120, 240)) == "120/240 V"
    for text in ("208Y/120 V", "120/208 V", "277/480 V", "480 V"):
        with pytest.raises(QuantityError, match="three-phase"):
            split_voltage(text)
    for text in ("240 V", "240/120 V", "120/240", "12/24 V", "120-240 V", 240, None, "१२०/२४० V"):
        with pytest.raises(QuantityError, match="write '120/240 V'"):
            split_voltage(text)


# --------------------------------------------------------------------------------------------------------- out again, and in


@pytest.mark.parametrize("unit", FACTORS)
@pytest.mark.parametrize("system", ["us", "si"])
def test_a_form_gives_back_what_it_shows(unit: str, system: str) -> None:
    for x in (0.25, 34.0, 1240.0):
        number, _ = displayed(x, unit, system)
        assert stored(number, unit, system) == pytest.approx(x, rel=1e-11)


def test_what_is_shown() -> None:
    assert show(265, "ft") == "265 ft" and show(265, "ft", "si") == "80.77 m" and show(9150, "ft2", "si", 3) == "850 m2"
    assert show(34.4444, "degC", "us", 3) == "94 degF" and show(34.4444, "degC", "si", 3) == "34.4 degC"
    assert show(120, "A", "si") == "120 A"
    with pytest.raises(units.CurtilageError, match="'imperial' is not a display system; allowed: us or si"):
        show(1, "ft", "imperial")


def test_a_quantity_in_any_unit() -> None:
    assert units.read("12 m", "ft") == 39.3700787402 and units.read("-40 degF", "degC") == -40.0


@pytest.mark.parametrize("unit", FACTORS)
def test_values_can_be_handed_to_pint(unit: str) -> None:
    there = quantity(12.5, unit)
    assert there.to_base_units().magnitude == pytest.approx(
        U.Quantity(12.5, U.parse_units(PINT.get(unit, unit))).to_base_units().magnitude, rel=1e-12)
