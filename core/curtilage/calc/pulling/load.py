"""What hangs on the rope: weight, thickness, how it lies, what tension it takes."""
from curtilage.calc.pulling.records import Lie, Load
from curtilage.calc.pulling.refusals import does_not_go_in, nothing_pulled
from curtilage.calc.raceways.fill import lie
from curtilage.values import lines as u
from curtilage.values.method import method

IN2_PER_CMIL: u.in2_per_cmil = 0.7853981633974483e-6     # a circle one mil across: pi/4 of its square
IN_PER_FT: u.in_per_ft = 12.0
WHOLE: u.percent = 100.0
NO_TENSION: u.lb = 0.0
NO_WEIGHT: u.lb_per_ft = 0.0
NO_WIDTH: u.inch = 0.0
NO_WIRES: u.count = 0
COPPER: u.text = "cu"
THWN: u.text = "thwn-2"
SINGLE: u.text = "single"
TRIANGULAR: u.text = "triangular"
CRADLED: u.text = "cradled"
COMPLEX: u.text = "complex"
TWO: u.count = 2
THREE: u.count = 3
SIDE_BY_SIDE: u.ratio = 2.0
TRIANGLE: u.ratio = 2.1547005383792515                   # of three circles in a ring: 1 + 2 / sqrt(3)


@method
def wire_weight(w, each: u.in2, m):
    """Weight of one conductor with its insulation, an estimate: metal with the lay of the strands, and a sleeve around it.

    In lb/ft; `each` is its cross-section with insulation. Not for: armour, jackets, shields: state the maker's weight.
    Source: ASTM B231, B496 (metal); densities of insulation common practice.
    """
    rho_metal: u.lb_per_in3 = m.density_cu if w.material == COPPER else m.density_al
    W_metal: u.lb_per_ft("metal with its lay") = (
        m.cmil[w.size] * IN2_PER_CMIL * IN_PER_FT * rho_metal * (1 + m.lay_increment / WHOLE))
    rho_sleeve: u.lb_per_in3 = m.density_pvc if w.insulation == THWN else m.density_xlpe
    W: u.lb_per_ft = W_metal + (each - m.bare_area[w.size]) * IN_PER_FT * rho_sleeve
    return W


@method
def wire_tension(w, m):
    """Tension that the metal of one conductor takes on a pulling eye. In lb. Source: ICEA study, as makers quote it."""
    stress: u.lb_per_cmil = m.pull_stress_cu if w.material == COPPER else m.pull_stress_al
    T: u.lb = stress * m.cmil[w.size]
    return T


@method
def wires(some, m):
    """Weight, number, thickness of some conductors, and the tension that their metal takes together.

    Source: `wire_weight`, `wire_tension`.
    """
    W: u.lb_per_ft = NO_WEIGHT
    n: u.count = NO_WIRES
    d: u.inch = NO_WIDTH
    T: u.lb = NO_TENSION
    for w in some:
        one = lie(w, m)
        W_w: u.lb_per_ft = wire_weight(w, one.each, m)
        T_w: u.lb = wire_tension(w, m)
        W: u.lb_per_ft = W + w.count * W_w
        n: u.count = n + w.count
        d: u.inch = max(d, one.diameter)
        T: u.lb = T + w.count * T_w
    return Load(W, n, d, T, T)


@method
def cables(some):
    """The same of cables, by their makers' figures; each is taken to bear no more than the weakest of them."""
    W: u.lb_per_ft = NO_WEIGHT
    n: u.count = NO_WIRES
    d: u.inch = NO_WIDTH
    for c in some:
        W: u.lb_per_ft = W + c.count * c.weight
        n: u.count = n + c.count
        d: u.inch = max(d, c.diameter)
    T_one: u.lb("the weakest of them") = min((c.tension for c in some), default=NO_TENSION)
    T: u.lb = n * T_one
    return Load(W, n, d, T, T)


@method
def hanging(p, m):
    """Everything that is pulled together; only line conductors carry the tension, or cables where there are no lines.

    By a basket grip no more than the grip allows. Errors: nothing that carries. Source: EC&M; makers' pulling guides; ICEA study.
    """
    a = wires(p.lines, m)
    g = wires(p.grounds, m)
    c = cables(p.cables)
    W: u.lb_per_ft = a.weight + g.weight + c.weight
    n: u.count = a.count + g.count + c.count
    d: u.inch = max(a.diameter, g.diameter, c.diameter)
    bears: u.count = a.count if a.count > 0 else c.count
    T_all: u.lb = a.allowed if a.count > 0 else c.allowed
    if T_all <= 0:
        raise nothing_pulled(p.id)
    T_strict: u.lb = m.pull_share(bears) * T_all
    T_usual: u.lb = m.pull_share_usual(bears) * T_all
    allowed: u.lb = min(T_strict, m.grip_tension) if p.grip else T_strict
    usual: u.lb = min(T_usual, m.grip_tension) if p.grip else T_usual
    return Load(W, n, d, allowed, usual)


@method
def lie_of(n: u.count, d: u.inch, D: u.inch, m):
    """How n conductors of diameter d lie in a raceway of inside diameter D: weight correction and pressing part.

    Conductors of several thicknesses are taken as thick as the thickest. Three between a triangle and a cradle are taken cradled,
    which weighs more. Errors: they do not fit.
    Source: makers' pulling guides (cabledatasheet.com, and a second table that agrees).
    """
    if (n == TWO and D <= SIDE_BY_SIDE * d) or (n == THREE and D <= TRIANGLE * d):
        raise does_not_go_in(n, d, D)
    if n < TWO:
        name: u.text = SINGLE
        w: u.ratio = 1
        k: u.ratio = 1
    elif n == TWO or (n == THREE and D < m.triangular_below * d):
        name: u.text = TRIANGULAR
        x: u.ratio = d / (D - d)
        w: u.ratio("weight correction, triangular") = 1 / (1 - x * x) ** 0.5
        k: u.ratio = w / 2
    elif n == THREE:
        name: u.text = CRADLED
        x: u.ratio = d / (D - d)
        w: u.ratio("weight correction, cradled") = 1 + 4 * x * x / 3
        k: u.ratio = (3 * w - 2) / 3
    else:
        name: u.text = COMPLEX
        w: u.ratio = m.weight_complex
        k: u.ratio("the largest of the printed forms for four") = w / 2
    return Lie(name, w, k)
