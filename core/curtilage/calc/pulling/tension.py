"""Tension along a way and pressure in its bends.

T is the tension in lb, W the weight of everything pulled in lb/ft, w the weight correction factor, f the coefficient of
friction. Weight and force are both counted in lb, as the trade does.
"""
from math import exp

from curtilage.calc.pulling.records import Trail
from curtilage.calc.pulling.refusals import too_steep, too_tight
from curtilage.values import lines as u
from curtilage.values.method import method

DEG_PER_RAD: u.deg_per_rad = 57.29577951308232
IN_PER_FT: u.in_per_ft = 12.0
SLACK: u.lb = 0.0
NO_PRESSURE: u.lb_per_ft = 0.0
THERE: u.ratio = 1.0
BACK: u.ratio = -1.0


@method
def straight(T_in: u.lb, L: u.ft, h: u.ft, W: u.lb_per_ft, w: u.ratio, f: u.ratio):
    """Tension at the end of a straight step of L feet that climbs h feet: friction on the level part, weight on the climb.

    In lb. A steep fall can need no pull at all: then it is 0, and somebody must hold back.
    Errors: a climb of more than its length.
    Source: published pulling equations (utilities' appendices, makers' guides): T + L W (f cos + sin) with w beside f.
    """
    if h * h > L * L:
        raise too_steep(L, h)
    level: u.ft = (L * L - h * h) ** 0.5
    T: u.lb("friction and climb") = max(T_in + W * (w * f * level + h), SLACK)
    return T


@method
def bend(T_in: u.lb, angle: u.deg, w: u.ratio, f: u.ratio):
    """Tension at the end of a bend: it grows with the power of the angle, whatever the radius.

    In lb. The weight of what lies in the bend is left out. Source: capstan equation with w beside f (makers' guides).
    """
    theta: u.rad = angle / DEG_PER_RAD
    T: u.lb("capstan equation") = T_in * exp(w * f * theta)
    return T


@method
def level_bend(T_in: u.lb, angle: u.deg, R: u.ft, W: u.lb_per_ft, w: u.ratio, f: u.ratio):
    """The same for a level bend with the weight of what lies in it: the full form, for slack pulls with wide sweeps.

    In lb; T cosh(w f a) + sinh(w f a) sqrt(T^2 + (W R)^2). Source: makers' guides, horizontal bend; derived from statics.
    """
    theta: u.rad = angle / DEG_PER_RAD
    grows: u.ratio = exp(w * f * theta)
    cosh: u.ratio = (grows + 1 / grows) / 2
    sinh: u.ratio = (grows - 1 / grows) / 2
    T: u.lb("level bend with weight") = T_in * cosh + sinh * (T_in * T_in + W * R * (W * R)) ** 0.5
    return T


@method
def pressure(T: u.lb, radius: u.inch, D: u.inch, k: u.ratio):
    """Pressure of the conductor that bears most on the inside wall of a bend; T is the tension that comes out of it.

    In lb/ft; D is the inside diameter of the raceway, k the part that presses. Errors: a radius within half the diameter.
    Source: makers' guides, sidewall pressure on the inside radius.
    """
    if radius <= D / 2:
        raise too_tight(radius, D)
    R: u.ft("to the inside of the bend") = (radius - D / 2) / IN_PER_FT
    P: u.lb_per_ft = k * T / R
    return P


@method
def least_radius(T: u.lb, P: u.lb_per_ft, k: u.ratio):
    """The least radius to the inside of a bend, for a tension that comes out of it and a pressure that is allowed.

    In ft; k is the part that presses. Source: `pressure`, solved for the radius.
    """
    R: u.ft("sidewall pressure, solved for the radius") = k * T / P
    return R


@method
def along(steps, way: u.ratio, T_feed: u.lb, W: u.lb_per_ft, D: u.inch, R_least: u.inch, lie, f: u.ratio):
    """Tension at the end of some steps and the most pressure in their bends; `way` is -1 where they are walked from their end.

    A bend without a radius is taken with the least one the code allows.

    Source: `straight`, `bend`, `pressure`.
    """
    T: u.lb = T_feed
    P_most: u.lb_per_ft = NO_PRESSURE
    for s in steps:
        if s.bend:
            T: u.lb = bend(T, s.angle, lie.factor, f)
            R: u.inch = s.radius if s.radius > 0 else R_least
            P: u.lb_per_ft = pressure(T, R, D, lie.pressing)
            P_most: u.lb_per_ft = max(P_most, P)
        else:
            h: u.ft = -way * s.rise if s.back else way * s.rise
            T: u.lb = straight(T, s.length, h, W, lie.factor, f)
    return Trail(T, P_most)
