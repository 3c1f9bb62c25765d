"""Weighing the ways of feeding a long run: drop, far-end fault, clearing, energy lost in a year, metal."""
from curtilage.calc.alternatives.records import LocalRun, LongRun, ToGround, Weighed
from curtilage.calc.fault.chain import TO_NEUTRAL, bolted, there_and_back
from curtilage.calc.fault.records import Impedance
from curtilage.values import lines as u
from curtilage.values.method import method

WHOLE: u.percent = 100.0
YEAR: u.h = 8760.0
DAY: u.h = 24.0
DAYS: u.count = 365
W_PER_KW: u.W_per_kW = 1000.0
VA_PER_KVA: u.VA_per_kVA = 1000.0


@method
def long_run(r, ed):
    """Whether a feeder is so long for its load that its size follows the drop alone; `r` is a `Run`.

    Source: common practice, as cited beside the two figures.
    """
    product: u.A_ft = r.length * r.current
    share: u.ratio = r.current / r.ampacity
    offered: u.flag = product >= ed.long_product and share <= ed.light_share
    return LongRun(product, share, offered)


@method
def loss_factor(f_load: u.ratio, ed):
    """Mean of the squared load over the square of its peak, from the load factor: mean load over peak.

    Between the square of the load factor (a steady load) and the load factor itself (on or off).
    Source: Buller and Woodrow's form, as in Gonen, Electric Power Distribution System Engineering.
    """
    f_loss: u.ratio = ed.loss_linear * f_load + (1 - ed.loss_linear) * f_load * f_load
    return f_loss


@method
def weigh(o, ed):
    """One way of feeding a run, weighed; `o` is an `Option`, `ed` an edition.

    The peak is taken as the calculated load, which is more than will flow, and the mean as a share of it; so the energy is an
    upper estimate, and good for comparing ways that carry the same load. The neutral is taken to carry nothing.
    Not for: prices, losses of the load itself. Source: Ohm's law; loss factor as `loss_factor`.
    """
    I_run: u.A = o.va / o.volts
    f_loss: u.ratio = loss_factor(ed.mean_load, ed)
    P_line: u.W = 2 * o.r_line * I_run * I_run
    P_mean: u.W = o.no_load + f_loss * (P_line + o.winding)
    losses: u.kWh = P_mean * YEAR / W_PER_KW
    drop: u.percent = o.drop + o.regulation
    spare: u.percent = WHOLE * (1 - o.minimum / o.device)
    multiple: u.ratio = o.fault / o.device
    drop_ok: u.flag = drop <= o.drop_limit
    clears: u.flag("a time of 0: no trip is promised at so little current") = o.time > 0 and o.time <= o.time_limit
    grows: u.flag = spare >= o.growth
    ok: u.flag = drop_ok and clears and grows
    return Weighed(drop, losses, spare, o.fault, multiple, o.time, o.kilograms, drop_ok, clears, grows, ok)


@method
def far_fault(w):
    """The fault to ground at the far end of a run whose midpoint is grounded; `w` is a `Way`. Warm conductors.

    Source: Ohm's law; the whole current comes back on the equipment ground.
    """
    V_n: u.V = w.volts * TO_NEUTRAL
    z = there_and_back(Impedance(w.r_ln, w.x_ln), w.r_line, w.x_line, w.r_ground, w.x_ground)
    I_lg: u.A = bolted(V_n, z.r, z.x)
    return ToGround(I_lg)


@method
def local_source(x, ed):
    """Sun and battery beside the load in place of a run; `x` is a `Local`.

    An energy balance and nothing more: the mean load of a day, the sun of a winter day, days without sun. Not for: snow, shade,
    the peak that an inverter must carry, cold batteries, chargers; heat by resistance makes it large.
    Source: common practice, as cited beside the figures.
    """
    S: u.kVA = ed.mean_load * x.va / VA_PER_KVA
    P: u.kW = S * x.pf
    energy: u.kWh = P * DAY
    solar: u.kW = energy / (ed.winter_sun * ed.solar_yield)
    storage: u.kWh = energy * ed.days_dark / ed.battery_usable
    losses: u.kWh = energy * DAYS * (1 - ed.battery_round_trip)
    return LocalRun(energy, solar, storage, losses)
