"""The way from the transformer to the farthest outlet: drops in series, and the voltage at every node."""
from curtilage.calc.conductors.records import Node, PathRun
from curtilage.values import lines as u
from curtilage.values.method import method

BASE: u.V = 120.0                # the voltage of range A and B is told on this base
WHOLE: u.percent = 100.0
NOTHING: u.percent = 0.0


@method
def node(name, source: u.V, drop: u.percent, lost: u.percent, m):
    """The end of one stretch: `drop` percent down to where it starts, `lost` percent on it.

    On a 120 V base; percentages are of nominal voltage, so stretches at 240 V and at 120 V add. Range A is that of utilization.
    Source: ANSI C84.1, range A.
    """
    total: u.percent = drop + lost
    volts: u.V = source - BASE * total / WHOLE
    in_range: u.flag = volts >= m.utilization_least and volts <= m.utilization_most
    return Node(name, total, volts, in_range)


@method
def along(p, start: u.percent, m):
    """The nodes along the feeders of a path, in order; `start` is the drop of the service conductors, in percent.

    Source: as `node`.
    """
    drop: u.percent = start
    nodes = ()
    for f in p.feeders:
        at = node(f.id, p.source, drop, f.drop, m)
        drop: u.percent = at.drop
        nodes = (*nodes, at)                 # type: ignore[assignment]
    return nodes


@method
def path(p, m):
    """Drops from the transformer terminals to the farthest outlet; `p` is a `Path`, `m` an edition or a view of one.

    The recommendations of 3 % on feeders together, 3 % on the branch circuit and 5 % on both together are held against the path
    without the service conductors; with them, the voltage is held against range A. Each drop is that of its own load, and they
    are added as percentages: on the safe side, since not all peaks come at once.
    Not for: a code violation; all of this is recommendation (210.19, 215.2 informational notes) and supply standard.
    Source: NFPA 70 210.19(A) and 215.2(A) informational notes; ANSI C84.1, range A.
    """
    V_service: u.V = p.source - BASE * p.lateral / WHOLE
    service_ok: u.flag = V_service >= m.service_voltage_least and V_service <= m.service_voltage_most
    feeders: u.percent = sum(f.drop for f in p.feeders)
    feeders_ok: u.flag = feeders <= p.feeder_limit
    branch_ok: u.flag = p.branch <= p.branch_limit
    total: u.percent = feeders + p.branch
    total_ok: u.flag = total <= p.total_limit
    from_transformer: u.percent = p.lateral + total
    V_outlet: u.V = p.source - BASE * from_transformer / WHOLE
    outlet_ok: u.flag = V_outlet >= m.utilization_least and V_outlet <= m.utilization_most
    nodes = along(p, p.lateral, m)
    return PathRun(V_service, service_ok, feeders, feeders_ok, branch_ok, total, total_ok, from_transformer, V_outlet, outlet_ok,
                   nodes)
