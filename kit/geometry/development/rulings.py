"""Which points of two edge curves the rulings join: the right ones, or (to show what goes wrong) equal parameters."""

from dataclasses import dataclass
from typing import Literal

import numpy as np

from kit.core.errors import KitError
from kit.geometry.development.arrays import Floats, norm
from kit.geometry.development.convex import convex_rulings, is_convex, stands_apart, touching
from kit.geometry.development.crossing import refuse_crossing
from kit.geometry.development.curves import Curve
from kit.geometry.development.lattice import lattice_rulings
from kit.geometry.remembered import remembered

Method = Literal["hull", "lattice", "equal"]


@dataclass(frozen=True)
class Rulings:
    """Rulings from a at t (n,) to b at s (n,), both never running back; a closed strip ends where it began."""

    a: Curve
    b: Curve
    t: Floats
    s: Floats
    closed: bool
    method: Method


def rulings(a: Curve, b: Curve, t: Floats, s: Floats, method: Method | None = None) -> Rulings:
    """Return the rulings through samples t (n,) of curve a and s (m,) of curve b.

    method: "hull" (two convex plane loops), "lattice" (any two curves) or "equal" (equal share of the parameter);
    without it, the hull where it holds and the lattice elsewhere. A loop that runs the other way is reversed.
    Raises: KitError when one curve is open and the other closed, when the curves meet, or the hull does not hold.
    """
    b, turned, fits_hull = _matched(a, b)
    a_closed = (b if a.is_point else a).closed
    if turned:
        s = b.end - s[::-1]
    chosen: Method = method or ("hull" if fits_hull else "lattice")
    if a.is_point or b.is_point:
        return _cone(a, b, t, s, a_closed)
    if chosen == "equal":
        share = np.unique(np.concatenate([t / a.end, s / b.end]))
        return Rulings(a, b, share * a.end, share * b.end, a_closed, chosen)
    if chosen == "lattice":
        found = lattice_rulings(a, b, t, s)
        return _in_order(a, b, *found, a_closed, chosen)
    if not fits_hull:
        raise KitError(
            f"The hull of the {a.name} and the {b.name} is not their surface: both must be convex plane loops, each "
            "on one side of the other's plane; use the lattice"
        )
    first = float(touching(a, np.zeros(1), b, after=True)[0])
    t_pair, s_pair = _from_first(*convex_rulings(a, b, t, s), first, a.end, b.end)
    t_pair, s_pair = np.append(t_pair, [0.0, a.end]), np.append(s_pair, [first, first + b.end])
    return _in_order(a, b, t_pair, s_pair, True, chosen)


@remembered(most=64)
def _matched(a: Curve, b: Curve) -> tuple[Curve, bool, bool]:
    """Return curve b run through as a is, whether it was turned for that, and whether the hull of both holds.

    Raises: KitError as `rulings`, where no method joins the curves.
    """
    a_closed, b_closed = a.closed or a.is_point, b.closed or b.is_point
    if a.is_point or b.is_point:
        a_closed = b_closed = (a if b.is_point else b).closed
    if a.is_point and b.is_point:
        raise KitError(f"The {a.name} and the {b.name} are both points; one of them must be a curve")
    if a_closed != b_closed:
        open_one, closed_one = (b, a) if a_closed else (a, b)
        raise KitError(
            f"The {open_one.name} is open but the {closed_one.name} is closed; close the one or split the other"
        )
    refuse_crossing(a, b)
    turned = False
    if a_closed:
        turned = _runs_against(a, b)
    elif not a.is_point and not b.is_point:
        ends_a, ends_b = a.at(np.array([0.0, a.end])), b.at(np.array([0.0, b.end]))
        turned = bool(norm(ends_a - ends_b).sum() > norm(ends_a - ends_b[::-1]).sum())
    if turned:
        b = b.reversed()
    return b, turned, a_closed and is_convex(a) and is_convex(b) and stands_apart(a, b)


def _cone(a: Curve, b: Curve, t: Floats, s: Floats, closed: bool) -> Rulings:
    """Return the rulings between a point and a curve: one to every sample."""
    still = np.zeros_like(s if a.is_point else t)
    pair = (still, s) if a.is_point else (t, still)
    return Rulings(a, b, *pair, closed, "hull")


def _runs_against(a: Curve, b: Curve) -> bool:
    """Whether two loops, seen along the line between their middles, run round it in opposite directions."""
    if a.is_point or b.is_point:
        return False
    loops = [curve.at(curve.even_grid(128)[:-1]) for curve in (a, b)]
    arms = [loop - loop.mean(axis=0) for loop in loops]
    turns = [np.cross(arm, np.roll(arm, -1, axis=0)).sum(axis=0) for arm in arms]
    axis = loops[1].mean(axis=0) - loops[0].mean(axis=0)
    along = [turn @ axis for turn in turns]
    return bool(along[0] * along[1] < 0) if min(map(abs, along)) > 0 else bool(turns[0] @ turns[1] < 0)


def _from_first(t: Floats, s: Floats, first: float, end_a: float, end_b: float) -> tuple[Floats, Floats]:
    """Count parameters of loops from the ruling (0, first) on; what lies on both sides of it goes by the other loop."""
    t, s = np.mod(t, end_a), np.mod(s - first, end_b)
    near_t = np.minimum(t, end_a - t) < 1e-9
    near_s = np.minimum(s, end_b - s) < 1e-9
    t = np.where(near_t, np.where(s > end_b / 2, end_a, 0.0), t)
    s = np.where(near_s, np.where(t > end_a / 2, end_b, 0.0), s)
    t = np.where(near_t & near_s, 0.0, t)
    s = np.where(near_t & near_s, 0.0, s)
    return t, s + first


def _in_order(a: Curve, b: Curve, t: Floats, s: Floats, closed: bool, method: Method) -> Rulings:
    """Sort rulings so that neither curve is run through backward, and leave out repeated ones."""
    order = np.lexsort((s, np.round(t / a.end + (s - s.min()) / b.end, 12)))
    t, s = (_stepped(np.maximum.accumulate(values[order])) for values in (t, s))
    new = np.r_[True, (np.diff(t) > 0) | (np.diff(s) > 0)]
    return Rulings(a, b, t[new], s[new], closed, method)


def _stepped(values: Floats) -> Floats:
    """Make one of rising values that differ by less than a hair: they were found twice, from either curve."""
    steps = np.r_[np.inf, np.diff(values)] > 1e-9
    last = values[-1]
    stepped = values[np.maximum.accumulate(np.where(steps, np.arange(len(values)), 0))]
    return np.where(last - stepped <= 1e-9, last, stepped)
