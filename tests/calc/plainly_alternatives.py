"""Ways of feeding a long run, written a second time: efficiencies typed in, impedances as complex numbers."""
import cmath

EFFICIENCY = {15: 97.7, 25: 98.0, 37.5: 98.2, 50: 98.3, 75: 98.5, 100: 98.6, 167: 98.7, 250: 98.8}    # 10 CFR 431.196(a)(2)
RATINGS = [15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350, 400, 450, 500, 600,
           700, 800, 1000, 1200, 1600]


def losses(kva):
    """Iron, and copper at full load, in watts: equal at the load at which the efficiency is stated."""
    out = 350 * kva
    both = out / (EFFICIENCY[kva] / 100) - out
    return both / 2, both / 2 / 0.35 ** 2


def pair(va, pf, kva, drop_limit, supply):
    """240 to 480 V and back: devices, losses, drop, and what a fault to ground sees at the start of the run."""
    iron, copper = losses(kva)
    base = 480 ** 2 / (1000 * kva)
    r = copper / (1000 * kva)
    z = complex(r, (0.04 ** 2 - r ** 2) ** 0.5) * base
    current = va / 480 * cmath.exp(-1j * cmath.acos(pf))
    drop = 2 * 100 * (z * current).real / 480
    half = complex(1.5 * z.real, 1.2 * z.imag) / 4
    device = [next(x for x in RATINGS if x >= round(1.25 * 1000 * kva / v, 9)) for v in (240, 480)]
    return {"loading": va / 10 / kva, "primary": device[0], "device": device[1], "no_load": 2 * iron,
            "winding": 2 * copper * (va / 1000 / kva) ** 2, "regulation": drop, "drop_left": drop_limit - drop,
            "r_ln": (half + supply).real, "x_ln": (half + supply).imag}     # (480/240)^2 / 4 of the supply


def year(no_load, winding, r_line, amps, mean=0.3):
    """kWh in a year, the loss factor typed in again."""
    factor = 0.3 * mean + 0.7 * mean ** 2
    return 8760 / 1000 * (no_load + factor * (winding + r_line * amps ** 2 + r_line * amps ** 2))


def far(volts, start, line, ground):
    return volts / 2 / abs(start + line + ground)


def sun(va, pf):
    day = 24 * 0.3 * va * pf / 1000
    return {"energy": day, "solar": day / 3 / 0.75, "storage": 3 * day / 0.9, "losses": 365 * 0.15 * day}
