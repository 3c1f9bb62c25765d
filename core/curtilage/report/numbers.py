"""How each number is shown: label, decimals, unit. One rule per field, so that terminal, page and notebook print alike.

Numbers are rounded for show only; standard sizes are chosen on the unrounded values (caution C42).
"""
from __future__ import annotations

import math
import re
from typing import Any, NamedTuple

from curtilage.units import displayed

LENGTHS = ("ft", "ft2", "VA/ft2")        # units that the reader may want in metres
WORDS = ("size", "yes/no", "text")      # units of values that are words
DECIMALS = {"A": 1, "V": 1, "VA": 0, "kVA": 1, "kW": 1, "%": 2, "": 3, "count": 0, "ft": 0, "ft2": 0, "degC": 1, "cmil": 0,
            "m": 1, "m2": 1, "degF": 0, "mm2": 1, "VA/m2": 1, "lb": 0, "kg": 0, "kWh": 0, "kBtu": 0, "h": 0, "dBA": 0,
            "ft3": 0, "ft3/h": 0, "gal": 0, "W": 0, "s": 2, "A ft": 0, "hp": 2, "ohm": 4, "ohm/kft": 4, "VA/ft2": 1, "deg": 1,
            "lb/ft": 2, "in3": 2}
UNITS = {"ft2": "ft²", "m2": "m²", "mm2": "mm²", "degC": "°C", "degF": "°F", "count": "", "size": "", "yes/no": "", "text": "",
         "ohm/kft": "ohm/kft", "VA/ft2": "VA/ft²", "VA/m2": "VA/m²", "in3": "in³"}


class Field(NamedTuple):
    """What a field is called, and its decimals where they are not those of its unit."""

    label: str
    decimals: int | None = None


FIELDS = {
    # circuits, feeders, mains and service
    "current": Field("calculated current"), "minimum": Field("minimum, continuous at 125 %"),
    "device_least": Field("smallest standard device that will do", 0), "device_most": Field("largest device allowed", 0),
    "device": Field("overcurrent device", 0), "device_margin": Field("device over minimum", 0),
    "rating": Field("rating", 0), "rating_least": Field("smallest rating that will do", 0),
    "required": Field("ampacity that is asked for"), "ampacity": Field("ampacity where it lies"),
    "ampacity_margin": Field("ampacity over what is asked for", 0), "spare": Field("spare over the load", 1),
    "spare_minimum": Field("spare over the minimum", 1), "spare_amperes": Field("spare"),
    "sets": Field("sets in parallel"), "base": Field("smallest size by the ordinary table"),
    "carries": Field("smallest size that carries"), "size": Field("size"), "egc_table": Field("equipment ground by the device"),
    "egc": Field("equipment ground"), "egc_from_83": Field("equipment ground from the 83 % size"),
    "drop_dc": Field("drop, direct-current resistance"), "drop": Field("voltage drop"),
    "drop_exact": Field("drop, phasor solution"),
    "drop_margin": Field("limit less drop"), "volts_far": Field("voltage at the far end"),
    "neutral_current": Field("neutral current"), "neutral_least": Field("smallest neutral"), "neutral": Field("neutral"),
    "dwelling_rule": Field("83 % rule open"), "dwelling_reason": Field("83 % rule"), "rule": Field("rule that protects"),
    # motors
    "breaker": Field("inverse-time breaker", 0), "breaker_most": Field("largest breaker, if it does not start", 0),
    "fuse": Field("nontime-delay fuse", 0), "fuse_most": Field("largest nontime-delay fuse, if it does not start", 0),
    "dual": Field("dual-element fuse", 0), "dual_most": Field("largest dual-element fuse, if it does not start", 0),
    "instant": Field("instantaneous trip set to"), "instant_most": Field("instantaneous trip set to at most"),
    "overload": Field("overload protection"), "overload_most": Field("overload protection, if it does not start"),
    "carries_ok": Field("carries the load"), "protected": Field("protected by its device"), "device_ok": Field("device will do"),
    "rating_ok": Field("rating will do"), "parallel_ok": Field("sets may stand in parallel"),
    "drop_ok": Field("drop within its limit"),
    "neutral_ok": Field("neutral carries"), "mains": Field("number of mains"), "mains_ok": Field("not more than six mains"),
    "one": Field("one unit"), "row": Field("all units of the row"),
    # the way from the transformer
    "service_volts": Field("voltage at the service"), "outlet_volts": Field("voltage at the farthest outlet"),
    "feeders": Field("feeders in series"), "total": Field("total"), "from_transformer": Field("from the transformer"),
    # load calculations
    "general": Field("general lighting, small appliance, laundry"), "appliances": Field("fastened appliances"),
    "cooking": Field("cooking"), "dryers": Field("dryers"), "climate": Field("heating or cooling"), "motors": Field("motors"),
    "vehicles": Field("vehicle supply"), "managed": Field("held by a manager"), "loads": Field("everything else"),
    "lighting": Field("lighting"), "receptacles": Field("receptacles"), "groups": Field("non-coincident groups"),
    "welders": Field("welders"), "rv": Field("recreational vehicles"), "largest_motor": Field("a quarter of the largest motor"),
    "amperes": Field("calculated load"), "minimum_amperes": Field("minimum, continuous at 125 %"),
    "connected": Field("connected"), "inside": Field("vehicle supply inside the tiers"),
    "outside": Field("vehicle supply beside the tiers"), "vehicles_apart": Field("vehicle supply beside the tiers"),
    "unbalanced": Field("unbalanced load"), "continuous": Field("of it continuous"),
    # pulls, boxes, terminals, framing
    "weight": Field("weight of what is pulled"), "lie": Field("lies"), "factor": Field("weight correction factor"),
    "stretches": Field("stretches between pull points"), "bends": Field("most bends between pull points"),
    "there": Field("tension, pulled with the feeder"), "back": Field("tension, pulled against it"),
    "tension": Field("tension from the better end"), "allowed": Field("tension allowed, strict reading"),
    "usual": Field("tension allowed, usual reading"), "pressure": Field("pressure in a bend"),
    "wire_fill": Field("taken by conductors", 2), "box_fill": Field("taken in the box", 2),
    "radius_least": Field("least radius of a bend", 2),
    "length_least": Field("least length", 2), "width_least": Field("least width", 2), "depth_least": Field("least depth", 2),
    "apart_least": Field("least distance of entries", 2), "space_least": Field("bending space wanted", 2),
    "hole_most": Field("largest hole", 2), "notch_most": Field("deepest notch", 2),
    "edge_least": Field("wood left at the edge", 2), "nail_least": Field("distance without a plate", 2),
    "kw": Field("expected peak"), "kva": Field("expected peak"),
    "low_kw": Field("expected peak, low"), "low_kva": Field("expected peak, low"),
    "high_kw": Field("expected peak, high"), "high_kva": Field("expected peak, high"),
    # raceways and trenches
    "bore": Field("inside diameter", 3), "whole": Field("cross-section", 3), "wires": Field("conductors", 0),
    "conductors": Field("area of conductors", 3), "share": Field("part that may be filled", 0), "fill": Field("filled", 1),
    "fill_ok": Field("not too full"), "below": Field("next smaller trade size"), "below_fill": Field("its fill", 1),
    "three": Field("mean of the three largest", 3), "jam": Field("jam ratio", 2), "jam_in_bend": Field("jam ratio in bends", 2),
    "jam_ok": Field("three cannot jam"), "carrying": Field("current-carrying conductors", 0), "cover": Field("cover", 1),
    "deeper": Field("deeper than asked", 1), "cover_ok": Field("deep enough"), "ribbon_wanted": Field("warning ribbon wanted"),
    "ribbon_ok": Field("warning ribbon where wanted"), "swing": Field("swing of temperature", 0), "change": Field("movement", 2),
    "fitting_ok": Field("expansion fitting where wanted"), "comm": Field("for communication", 0), "empty": Field("empty", 0),
    "needed": Field("ducts needed", 0), "ducts": Field("ducts", 0), "left": Field("ducts left", 0),
    "ducts_ok": Field("ducts enough"), "straight": Field("in a straight line", 0), "beyond": Field("over the straight line", 0),
    "length_ok": Field("not shorter than the straight line"), "apart": Field("earth wanted between power and communication", 0),
    "parted": Field("earth between power and communication", 0), "apart_ok": Field("far enough apart"),
    # transformer, wires, faults, clearing
    "ll": Field("line to line, largest", 0), "ln": Field("line to neutral, largest", 0), "largest": Field("larger of the two", 0),
    "ll_least": Field("line to line, least", 0), "ln_least": Field("line to neutral, least", 0),
    "lg": Field("line to ground, least", 0), "fault": Field("fault to ground", 0), "multiple": Field("times the device", 1),
    "sure": Field("instantaneous trip sure from, times the device", 1), "wanted": Field("instantaneous trip sure from", 0),
    "loop": Field("whole loop that gives it"), "fits": Field("device for which it is sure", 0),
    "time": Field("clears in at most"),
    "by": Field("bounded by"), "open": Field("only the curve would decide"), "basis": Field("source"),
    "interrupting": Field("rating", 0), "withstands": Field("rating will do"),
    "stronger": Field("letter above the nameplate"), "impedance_least": Field("impedance that is enough"),
    "rating_most": Field("largest transformer", 0), "enough": Field("part of the impedance that is enough"),
    "r_full": Field("R of the whole secondary", 6), "x_full": Field("X of the whole secondary", 6),
    "r_half": Field("R of one half", 6), "x_half": Field("X of one half", 6), "r_source": Field("R before it, at one half", 6),
    "x_source": Field("X before it, at one half", 6), "r_line": Field("R of a line", 5), "x_line": Field("X of a line", 5),
    "r_neutral": Field("R of the neutral", 5), "x_neutral": Field("X of the neutral", 5),
    "r_ground": Field("R of the equipment ground", 5), "x_ground": Field("X of the equipment ground", 5),
    "r_ll": Field("R, line to line", 5), "x_ll": Field("X, line to line", 5), "r_ln": Field("R, line to neutral", 5),
    "x_ln": Field("X, line to neutral", 5), "r_lg": Field("R, line to ground", 5), "x_lg": Field("X, line to ground", 5),
    # the exact solution of the network
    "volts_a": Field("L1 to neutral"), "volts_b": Field("L2 to neutral"), "volts_ab": Field("L1 to L2"),
    "current_a": Field("current in L1"), "current_b": Field("current in L2"),
    "lowest": Field("lowest voltage of a leg, of nominal"),
    "lost": Field("lost in conductors"), "lost_part": Field("lost, of what the source gives"),
    "on_base": Field("voltage on a base of 120 V, lower leg"), "on_other": Field("the same on the other leg"),
    "in_range_other": Field("within the range on the other leg"), "part": Field("part of the connected load that is drawn", 3),
    "p_1": Field("real power on L1"), "q_1": Field("reactive power on L1"), "p_2": Field("real power on L2"),
    "q_2": Field("reactive power on L2"), "p_12": Field("real power between the lines"),
    "q_12": Field("reactive power between the lines"), "solved": Field("told as it was solved"), "rounds": Field("rounds"),
    "i_1re": Field("current in L1, along", 2), "i_1im": Field("current in L1, across", 2),
    "i_2re": Field("current in L2, along", 2), "i_2im": Field("current in L2, across", 2),
    "v_1re": Field("voltage of L1, along", 2), "v_1im": Field("voltage of L1, across", 2),
    "v_2re": Field("voltage of L2, along", 2), "v_2im": Field("voltage of L2, across", 2),
}


def digits(x: Any) -> str:
    """A value with six figures and no exponent, as it stands in a working; words as they are."""
    if isinstance(x, bool):
        return "yes" if x else "no"
    if isinstance(x, tuple):
        return f"[{', '.join(map(digits, x))}]"
    if not isinstance(x, int | float):
        return str(x)
    if math.isinf(x):
        return "\u221e" if x > 0 else "-\u221e"
    text = f"{x:.6g}"
    return text if "e" not in text else f"{x:.0f}" if abs(x) >= 1 else f"{x:.12f}".rstrip("0").rstrip(".")


def rounded(x: float, decimals: int) -> str:
    """Fixed decimals, thousands parted, and no minus before a zero."""
    text = f"{x:,.{decimals}f}"
    return text.removeprefix("-") if re.fullmatch(r"-[0.,]+", text) else text


def shown(value: Any, unit: str, field: str = "") -> str:
    """A result as a page prints it, without its unit."""
    if unit in WORDS or isinstance(value, bool) or not isinstance(value, int | float):
        return digits(value)
    own = FIELDS[field].decimals if field in FIELDS else None
    return rounded(value, DECIMALS.get(unit, 3) if own is None else own)


def in_system(value: Any, unit: str, system: str) -> tuple[Any, str]:
    """A result and its unit in the display system of the reader: "us" or "si"."""
    return displayed(float(value), unit, system) if isinstance(value, int | float) and unit in LENGTHS else (value, unit)


def unit_shown(unit: str) -> str:
    """The unit as a page prints it."""
    return UNITS.get(unit, unit)


def label(field: str) -> str:
    """What a field is called in words."""
    return FIELDS[field].label if field in FIELDS else field.replace("_", " ")


def with_unit(value: Any, unit: str, field: str = "") -> str:
    """A result with its unit."""
    return f"{shown(value, unit, field)} {unit_shown(unit)}".strip()
