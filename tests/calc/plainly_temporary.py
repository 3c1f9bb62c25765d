"""Temporary power, written a second time: load by load, watt by watt, the gas from its line, sound by the square of distance."""
from math import log10


def season(parts, share, volts=240.0):
    """[(one, number, volts, kind, continuous)]: connected, load, minimum."""
    connected = load = lasting = tools = 0.0
    biggest = neutral = 0.0
    for one, number, at, kind, continuous in parts:
        size = one * number
        connected += size
        if at < volts:
            neutral += size
        if kind == "tool":
            tools += size
            biggest = max(biggest, one)
            continue
        load += size
        if kind in ("heater", "drying") or continuous:
            lasting += size
    load += max(share * tools, biggest)
    return {"connected": connected, "va": load, "minimum_va": load + lasting / 4, "current": load / volts,
            "minimum": (load + lasting / 4) / volts, "neutral_va": min(neutral, load)}


def gas(days, hours_a_week, kilowatts, mean, use=14.35, heat=1000.0):
    """Hours, kWh, cubic feet: full load and no load are two points, the mean lies between them on a line."""
    hours = days / 7 * hours_a_week
    full, nothing = use * kilowatts, 0.327 * use * kilowatts
    an_hour = (nothing + (full - nothing) * mean / 100) * 1000 / heat
    return hours, kilowatts * mean / 100 * hours, an_hour * hours


def gallons(kilobtu):
    """A gallon of propane holds 91.333 kBtu (Federal Register, 21 March 2007)."""
    return kilobtu / 91.333


def sound(level, at, line):
    """Intensity falls with the square of the distance."""
    return 10 * log10(10 ** (level / 10) * (at / line) ** 2)


def cord(amps, feet, ohms, reactance, pf, volts):
    return 100 * 2 * feet / 1000 * amps * (ohms * pf + reactance * (1 - pf * pf) ** 0.5) / volts
