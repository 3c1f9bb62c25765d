"""Device boxes: volume against what is in them, and depth behind the device."""
from curtilage.calc.boxes.records import DeviceBoxRun
from curtilage.values import lines as u
from curtilage.values.method import method

NO_VOLUME: u.in3 = 0.0
NO_DEPTH: u.inch = 0.0
NO_WIRES: u.count = 0


@method
def largest_allowance(cables, m):
    """Allowance of the largest conductor that enters. In3. Source: NFPA 70 Table 314.16(B)."""
    V: u.in3 = NO_VOLUME
    for c in cables:
        V: u.in3 = max(V, m.box_allowance[c.size])
    return V


@method
def ground_fill(cables, m):
    """Grounds: one allowance of the largest for the first few together, a part of one for each further one. In3.

    Source: NFPA 70 314.16(B)(5).
    """
    n: u.count = NO_WIRES
    V_one: u.in3 = NO_VOLUME
    for c in cables:
        if c.ground:
            n: u.count = n + c.count
            V_one: u.in3 = max(V_one, m.box_allowance[c.size])
    further: u.count = max(n - m.ground_fill_first, NO_WIRES)
    V: u.in3 = V_one * (1 + m.ground_fill_share * further)
    return V


@method
def yoke_depth(y, m):
    """Depth that a device asks of its box. In.

    Not for: devices on 8 AWG and larger, and those that reach more than 1-7/8 in. into a box of their own kind.
    Source: NFPA 70 314.24(B).
    """
    large: u.flag = m.cmil[y.size] >= m.box_depth_from
    deep: u.inch = m.device_deep if large else m.device_deep_small
    least: u.inch = m.box_depth_large if large else m.box_depth_small
    with_gap: u.inch = y.depth + m.device_gap if y.depth > deep else NO_DEPTH
    depth: u.inch = max(least, with_gap)
    return depth


@method
def device_box(b, m):
    """A device box; `b` is a `DeviceBox`.

    Every insulated conductor that enters counts once, each width of a device twice the largest conductor on it; clamps, every
    kind of support fitting and every terminal block count once, of the largest conductor.
    Not for: conductors that pass through coiled or in loops of a foot, isolated grounds, domed covers, conduit bodies.
    Errors: a size without an allowance; a name that is no standard box. Source: NFPA 70 314.16, 314.24(B).
    """
    V_wires: u.in3 = sum(c.count * c.wires * m.box_allowance[c.size] for c in b.cables)
    V_devices: u.in3 = sum(m.device_fill * y.gangs * m.box_allowance[y.size] for y in b.yokes)
    V_largest: u.in3 = largest_allowance(b.cables, m)
    V_clamps: u.in3 = V_largest if b.clamps else NO_VOLUME
    V_others: u.in3 = (b.fittings + b.blocks) * V_largest
    V_grounds: u.in3 = ground_fill(b.cables, m)
    V_fill: u.in3 = V_wires + V_devices + V_clamps + V_others + V_grounds
    V_box: u.in3 = b.volume if b.volume > NO_VOLUME else m.box_volume[b.standard]
    V_spare: u.in3 = V_box - V_fill
    fill_ok: u.flag = V_spare >= NO_VOLUME
    depth: u.inch = NO_DEPTH
    for y in b.yokes:
        depth_y: u.inch = yoke_depth(y, m)
        depth: u.inch = max(depth, depth_y)
    depth_ok: u.flag = b.depth >= depth
    ok: u.flag = fill_ok and depth_ok
    return DeviceBoxRun(V_wires, V_devices, V_clamps, V_others, V_grounds, V_fill, V_box, V_spare, fill_ok, depth, depth_ok, ok)
