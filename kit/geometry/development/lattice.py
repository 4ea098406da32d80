"""Right rulings between any two curves: the cheapest way through the lattice of point pairs.

Every pair of sample points is a possible ruling; its cost is the square of the angle between its two tangent planes.
A strip is a way through the lattice that goes forward along one curve, the other, or both. Dynamic programming finds
the way whose cost, added up over the edge length passed, is least. Round a free end of an open curve the surface turns
for nothing (a fan); where a fan round an end of the one curve runs up against a fan round an end of the other, the
surface is creased, and the crease costs.
"""

from bisect import bisect_right
from dataclasses import dataclass

import numpy as np

from kit.geometry.development.arrays import Floats, Ints, norm
from kit.geometry.development.convex import inside
from kit.geometry.development.crossing import common_ends
from kit.geometry.development.curves import Curve
from kit.geometry.development.roots import roots
from kit.geometry.development.tangency import Tangents, defects, planes_apart
from kit.geometry.remembered import remembered
from kit.geometry.ties import first_least, first_least_each

STEPS = 160  # of the lattice along each curve
NEVER = 1e3  # rad², a cost above that of any way
CREASE = 0.05  # share of both edges over which a crease costs as a twist of the same angle
SHORT = 1e-4  # rad², weight of the ruling's length: decides only where tangent planes agree, on flat parts


@dataclass(frozen=True)
class Costs:
    """What each ruling costs, (n, m) rad², on steps along a alone, b alone and both, and what passing it costs once."""

    along_a: Floats
    along_b: Floats
    both: Floats
    once: Floats

    def chosen(self, rows: Ints, columns: Ints) -> "Costs":
        """Return the costs of some samples, in their order."""
        pick = np.ix_(rows, columns)
        return Costs(self.along_a[pick], self.along_b[pick], self.both[pick], self.once[pick])


def lattice_costs(a: Curve, t: Floats, b: Curve, s: Floats) -> Costs:
    """Return the costs of the rulings between all samples of a (n,) and of b (m,)."""
    i, j = np.divmod(np.arange(len(t) * len(s)), len(s))
    on_a, on_b = Tangents.through(a, t), Tangents.through(b, s)
    every_a = Tangents(on_a.at[i], on_a.before[i], on_a.after[i])
    every_b = Tangents(on_b.at[j], on_b.before[j], on_b.after[j])
    length = norm(every_b.at - every_a.at)
    short = (SHORT * (length / length.max()) ** 2).reshape(len(t), len(s))
    twist = (defects(every_a, every_b) ** 2).reshape(len(t), len(s))
    once = np.zeros_like(twist)
    begin, end = common_ends(a, b)
    if not (a.closed or b.closed or begin or end):
        row, column = np.indices(twist.shape)
        edge = float(a.lengths.sum() + b.lengths.sum())
        for away in (np.maximum(row, column[:, ::-1]), np.maximum(row[::-1], column)):
            once += np.where(away == 0, CREASE * edge * twist, 0.0)
            # A fold that is shared out over the few facets beside that corner is no less a fold.
            twist = twist * np.maximum(1.0, CREASE * STEPS / (1.0 + away))
    along_a, along_b = twist.copy(), twist.copy()
    for k, together in ((0, begin), (-1, end)):
        if not (a.closed or b.closed):
            along_a[:, k] = along_b[k, :] = 0.0  # a fan round an end
        if together:  # which has no width about a common point
            for cost in (along_a, along_b, twist):
                cost[k, :] = cost[:, k] = NEVER
    return Costs(along_a + short, along_b + short, twist + short, once)


def cheapest_way(cost: Costs, step_a: Floats, step_b: Floats) -> tuple[Ints, Ints]:
    """Return the nodes (k,), (k,) of the cheapest way from corner to corner of a lattice of costs (n, m).

    step_a (n - 1,), step_b (m - 1,): the edge lengths between neighboring samples, mm.
    """
    n, m = cost.both.shape
    # What the step to each node costs, with a border that no way comes from; a diagonal of the lattice is one slice.
    steps = np.zeros((3, n + 1, m + 1))
    steps[0, 2:, 1:] = (cost.along_a[:-1] + cost.along_a[1:]) / 2 * step_a[:, None]
    steps[1, 1:, 2:] = (cost.along_b[:, :-1] + cost.along_b[:, 1:]) / 2 * step_b
    steps[2, 2:, 2:] = (cost.both[:-1, :-1] + cost.both[1:, 1:]) / 2 * (step_a[:, None] + step_b)
    steps = steps.reshape(3, -1)
    total = np.full((n + 1) * (m + 1), np.inf)
    total[m + 2] = 0.0
    once = np.pad(cost.once, ((1, 0), (1, 0))).ravel()
    back = (m + 1, 1, m + 2)  # along a, along b, along both
    for level in range(1, n + m - 1):
        begin, end = (k * m + level + m + 2 for k in (max(0, level - m + 1), min(n - 1, level)))
        along_a, along_b, both = (
            total[begin - k : end - k + 1 : m] + step[begin : end + 1 : m] for k, step in zip(back, steps, strict=True)
        )
        total[begin : end + 1 : m] = np.minimum(np.minimum(along_a, along_b), both) + once[begin : end + 1 : m]
    node = np.arange(m + 2, len(total))
    came = np.zeros((n + 1, m + 1), dtype=np.int64)
    came.ravel()[node] = first_least_each(np.stack([total[node - k] for k in back]) + steps[:, node])
    came = came[1:, 1:]
    nodes = [(n - 1, m - 1)]
    while nodes[-1] != (0, 0):
        p, q = nodes[-1]
        nodes.append((p - int(came[p, q] != 1), q - int(came[p, q] != 0)))
    found = np.array(nodes[::-1])
    return found[:, 0], found[:, 1]


def lattice_rulings(a: Curve, b: Curve, t: Floats, s: Floats) -> tuple[Floats, Floats]:
    """Return pairs of parameters (k,) of the right rulings that touch samples t (n,) of a and s (m,) of b.

    Both curves closed or both open. On a closed pair the way begins and ends at the cheapest ruling of all. The
    lattice finds the way; each ruling is then moved, within the lattice's step, to where the planes agree.
    """
    way_a, way_b = _way(a, b)
    begin, end = common_ends(a, b)
    pairs = [_ends(a, b, way_a, way_b)]
    for after in (True, False):
        mine = _within(t, way_a[0], a, after)
        pairs.append((mine, _met(a, mine, way_a, b, way_b, after)))
        mine = _within(s, pairs[0][1][0], b, after)
        pairs.append((_met(b, mine, way_b, a, way_a, after), mine))
    (begin_a, end_a), (begin_b, end_b) = pairs[0]
    t_pair = np.clip(np.concatenate([pair[0] for pair in pairs]), begin_a, end_a)
    s_pair = np.clip(np.concatenate([pair[1] for pair in pairs]), begin_b, end_b)
    fan = (begin & ((t_pair <= begin_a) | (s_pair <= begin_b))) | (end & ((t_pair >= end_a) | (s_pair >= end_b)))
    fan[:2] = False
    return _settled(a, t_pair[~fan], b, s_pair[~fan])


@remembered(most=64)
def _way(a: Curve, b: Curve) -> tuple[Floats, Floats]:
    """Return the parameters (k,), (k,) of the way through the lattice of two curves, which no chord error concerns."""
    steps_a, steps_b = a.even_grid(STEPS), b.even_grid(STEPS)
    cost = lattice_costs(a, steps_a, b, steps_b)
    if a.closed and b.closed:
        at_corner = a.at_corner(steps_a)[:, None] | b.at_corner(steps_b)  # a fan is no place to begin
        start = np.where(at_corner, np.inf, cost.both)[:-1, :-1]
        first = np.unravel_index(first_least(start.ravel()), start.shape)
        rows, columns = (np.r_[k : n - 1, 0 : k + 1] for k, n in zip(first, cost.both.shape, strict=True))
        cost = cost.chosen(rows, columns)
        steps_a, steps_b = _from(steps_a, int(first[0]), a.end), _from(steps_b, int(first[1]), b.end)
    i, j = cheapest_way(cost, norm(np.diff(a.at(steps_a), axis=0)), norm(np.diff(b.at(steps_b), axis=0)))
    return steps_a[i], steps_b[j]


def _settled(a: Curve, t: Floats, b: Curve, s: Floats) -> tuple[Floats, Floats]:
    """Make rulings cross no other: those on which the planes agree lead, the others fit in between or are left out.

    One that disagrees is left out if one that agrees is close by.
    """
    agree = defects(Tangents.of(a, t), Tangents.of(b, s)) < 1e-6
    agree[:2] = True  # the first and the last ruling stay
    lead = np.flatnonzero(agree)
    lead = lead[np.lexsort((np.round(s[lead], 9), np.round(t[lead], 9)))]
    lead = lead[longest_rise(np.round(s[lead], 9))]
    t_lead, s_lead = t[lead], s[lead]
    low = s_lead[np.maximum(np.searchsorted(t_lead, t - 1e-9) - 1, 0)]
    high = s_lead[np.minimum(np.searchsorted(t_lead, t + 1e-9), len(lead) - 1)]
    along, sure = t / a.end + s / b.end, np.sort(t_lead / a.end + s_lead / b.end)
    place = np.searchsorted(sure, along)
    gap = np.minimum(
        np.abs(along - sure[np.maximum(place - 1, 0)]), np.abs(along - sure[np.minimum(place, len(sure) - 1)])
    )
    keep = gap > min(4 / STEPS, 2 / len(lead))  # the average step of those that lead
    keep[lead] = True
    return t[keep], np.clip(s, low, high)[keep]


def longest_rise(values: Floats) -> Ints:
    """Return the numbers of the longest subsequence of values (n,) that never falls, by patience sorting."""
    tops: list[float] = []  # the least last value of a rise of each length, and where it is
    where: list[int] = []
    before = np.full(len(values), -1)
    for k, value in enumerate(values.tolist()):
        length = bisect_right(tops, value)
        before[k] = where[length - 1] if length else -1
        tops[length : length + 1] = [value]
        where[length : length + 1] = [k]
    chain = [where[-1]]
    while before[chain[-1]] >= 0:
        chain.append(int(before[chain[-1]]))
    return np.array(chain[::-1])


def _from(t: Floats, first: int, end: float) -> Floats:
    """Return the samples of a closed curve run through from another start."""
    return np.concatenate([t[first:-1], t[: first + 1] + end])


def _ends(a: Curve, b: Curve, way_a: Floats, way_b: Floats) -> tuple[Floats, Floats]:
    """Return the first and the last ruling; on a closed pair the same one, a whole turn later."""
    if not (a.closed and b.closed):
        return way_a[[0, -1]], way_b[[0, -1]]
    step = 2 * np.diff(np.unique(way_b)).max()
    met = _agreeing(a, way_a[:1], b, way_b[:1], (way_b[:1] - step, way_b[:1] + step), True)
    return way_a[0] + np.array([0.0, a.end]), met + np.array([0.0, b.end])


def _within(t: Floats, begin: float, curve: Curve, after: bool) -> Floats:
    """Count the samples of a closed curve from the begin of the way on; the begin itself is also its end."""
    if not curve.closed:
        return t
    if after:
        return np.asarray(begin + np.mod(t - begin, curve.end))
    return np.asarray(begin + curve.end - np.mod(begin + curve.end - t, curve.end))


def _met(curve: Curve, mine: Floats, my_way: Floats, other: Curve, their_way: Floats, after: bool) -> Floats:
    """Return the parameters of the other curve to which rulings from samples of this one go, shape (n,)."""
    on_way = np.interp(mine, my_way, their_way)
    # Where the way stands still on this curve (a fan) it leaves the fan at its end, or enters it at its begin.
    node = np.searchsorted(my_way, mine, side="right" if after else "left")
    standing = np.clip(node - 1 if after else node, 0, len(my_way) - 1)
    on_way = np.where(np.abs(my_way[standing] - mine) < 1e-12, their_way[standing], on_way)
    # Two steps of the lattice about the way, on both curves: beside a fan a small step here is a long one there.
    step, my_step = (2 * np.diff(np.unique(way)).max() for way in (their_way, my_way))
    low = np.minimum(on_way - step, np.interp(mine - my_step, my_way, their_way))
    high = np.maximum(on_way + step, np.interp(mine + my_step, my_way, their_way))
    if not other.closed:
        low, high = np.maximum(low, 0.0), np.minimum(high, other.end)
    return _agreeing(curve, mine, other, on_way, (low, high), after)


def _agreeing(
    curve: Curve, mine: Floats, other: Curve, on_way: Floats, between: tuple[Floats, Floats], after: bool
) -> Floats:
    """Return where on the other curve, within given bounds, the ruling's tangent planes agree, shape (n,).

    That is a root, or a corner of the other curve; where neither is there, the way's own ruling.
    """
    low, high = between
    tangent = curve.derivative(mine, after)
    fixed = Tangents(curve.at(mine), tangent, tangent)
    x, found = roots(lambda x: planes_apart(fixed, Tangents.ahead(other, x)), *inside(low, high))
    x = np.where(found, x, on_way)
    joint = np.rint(x)
    beside = other.at_corner(joint) & (np.abs(x - joint) < 1e-6)
    x = np.where(beside, joint, x)
    joint = np.rint(on_way)
    corner = np.where((joint >= low) & (joint <= high) & other.at_corner(joint), joint, on_way)
    candidates = [on_way, x, corner]
    # Of those on which the planes agree, the nearest to the way; else the one on which they disagree least.
    scores = []
    for candidate in candidates:
        miss = defects(fixed, Tangents.of(other, candidate))
        scores.append(np.where(miss < 1e-7, 1e-3 * np.abs(candidate - on_way) / (high - low), 1e-3 + miss))
    return np.asarray(np.choose(np.argmin(scores, axis=0), candidates))
