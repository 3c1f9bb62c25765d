"""Load of a board or a temporary service in one season, and the drop to the working face."""
from curtilage.calc.conductors.drop import losses
from curtilage.calc.temporary.records import DRYING, HEATER, TOOL, FaceRun, HeldRun, SeasonRun
from curtilage.values import lines as u
from curtilage.values.method import method

NONE_OF_IT: u.VA = 0.0
WHOLE: u.percent = 100.0
ONE_CORD: u.count = 1


@method
def all_of(p):
    """Apparent power of alike loads."""
    S: u.VA = p.va * p.number
    return S


@method
def heat_of(p):
    """What of it is heat or drying."""
    S: u.VA = all_of(p) if p.kind == HEATER or p.kind == DRYING else NONE_OF_IT
    return S


@method
def tools_of(p):
    """What of it are tools."""
    S: u.VA = all_of(p) if p.kind == TOOL else NONE_OF_IT
    return S


@method
def tool_of(p):
    """The size of one tool."""
    S: u.VA = p.va if p.kind == TOOL else NONE_OF_IT
    return S


@method
def continuous_of(p):
    """What of it runs for three hours or more: heat and drying always, tools never."""
    lasts: u.flag = p.kind == HEATER or p.kind == DRYING or (p.continuous and p.kind != TOOL)
    S: u.VA = all_of(p) if lasts else NONE_OF_IT
    return S


@method
def neutral_of(p, V: u.V):
    """What of it stands between a line and the neutral."""
    S: u.VA = all_of(p) if p.volts < V else NONE_OF_IT
    return S


@method
def season_load(s, ed):
    """Load of one season on a board or a temporary service; `s` is a `Season`.

    Tools run by turns: a share of them at once, not below the largest one. Heaters and drying run all day, so they count whole
    and at 125 % for conductors and devices; everything else counts whole.
    Not for: cranes, welders, elevators of the construction. The share is common practice, not a demand factor of the code.
    Source: NFPA 70 590.2, 590.4(A) (the rules of the code hold), 215.2(A)(1), 215.3.
    """
    everything = tuple(all_of(p) for p in s.parts)
    heating = tuple(heat_of(p) for p in s.parts)
    tooling = tuple(tools_of(p) for p in s.parts)
    each = tuple(tool_of(p) for p in s.parts)
    lasting = tuple(continuous_of(p) for p in s.parts)
    between = tuple(neutral_of(p, s.volts) for p in s.parts)
    connected: u.VA = sum(everything)
    heat: u.VA = sum(heating)
    all_tools: u.VA = sum(tooling)
    S_tool: u.VA = max(each, default=NONE_OF_IT)
    tools: u.VA = max(s.share * all_tools, S_tool)
    others: u.VA = connected - heat - all_tools
    S: u.VA = heat + tools + others
    S_lasting: u.VA = sum(lasting)
    S_min: u.VA = S + (ed.continuous_factor - 1) * S_lasting
    I: u.A = S / s.volts
    I_min: u.A = S_min / s.volts
    S_between: u.VA = sum(between)
    S_neutral: u.VA = min(S_between, S)
    return SeasonRun(connected, heat, tools, others, S, S_min, I, I_min, S_neutral)


@method
def held(h):
    """A temporary service against the minimum of a season; `h` is a `Held`."""
    spare: u.percent = WHOLE * (1 - h.minimum / h.rating)
    ok: u.flag = h.minimum <= h.rating
    return HeldRun(h.minimum, h.rating, spare, ok)


@method
def face(x, m):
    """The drop to the working face, over feeder and cord, with one tool of full current at its end; `x` is a `Face`.

    `m` is a view of an edition: a cord of copper in no metal. The resistance of stranded conductors in PVC stands for that of the
    cord. Not for: cords on reels, several tools on one cord. Source: as `losses`; the limit is advice, not a rule.
    """
    I: u.A = x.va / x.volts
    lost = losses(ONE_CORD, x.size, I, x.cord, x.pf, x.volts, m)
    cord: u.percent = lost.drop
    total: u.percent = x.drop + cord
    V_face: u.V = x.volts * (1 - total / WHOLE)
    ok: u.flag = total <= x.limit
    return FaceRun(cord, total, V_face, ok)
