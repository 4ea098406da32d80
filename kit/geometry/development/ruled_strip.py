"""A ruled strip in space: rulings from edge a to edge b, with its triangles, folds, twist, bounds and offset."""

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from kit.core.errors import KitError
from kit.geometry.development.arrays import (
    CLOSE,
    Bools,
    Floats,
    Ints,
    angle_between,
    area_of,
    cross,
    dot,
    norm,
    unit_rows,
)
from kit.geometry.development.rulings import Rulings
from kit.geometry.development.tangency import Tangents, defects, strain_of_twist

POINTED = 1e-10  # share of the largest triangle, below which one has no area
FIRM = 0.05  # least spread of normals (rad, about) that tells where along them their planes meet


@dataclass(frozen=True)
class Strip:
    """Rulings from points a (n, 3) to points b (n, 3), mm; a closed strip repeats its first ruling at the end.

    crease (n,): whether the surface turns sharply there by its shape (both ends at corners).
    defect (n,): the twist defect of each ruling, rad. chord_error (n - 1,): a bound of what the facets between two
    rulings miss, mm. t, s (n,): the parameters of the edge curves, or the ruling's number where none are known.
    """

    a: Floats
    b: Floats
    closed: bool
    crease: Bools
    defect: Floats
    chord_error: Floats
    t: Floats
    s: Floats
    names: tuple[str, str] = ("edge a", "edge b")

    @property
    def strain(self) -> Floats:
        """The strain that the cloth must take at each ruling for its twist, shape (n,)."""
        return strain_of_twist(self.defect)

    @cached_property
    def zigzag(self) -> tuple[Ints, Ints]:
        """Indices into a and b (k,), (k,) of a way that steps along one edge at a time: one triangle a step.

        Between two rulings the shorter diagonal is put in.
        """
        moves_a = norm(np.diff(self.a, axis=0)) > 0
        moves_b = norm(np.diff(self.b, axis=0)) > 0
        both = np.flatnonzero(moves_a & moves_b)
        forward = norm(self.b[both] - self.a[both + 1]) <= norm(self.b[both + 1] - self.a[both])
        keep = np.r_[True, moves_a | moves_b]
        base = np.arange(len(self.a))[keep]
        ia = np.concatenate([base, both + forward])
        ib = np.concatenate([base, both + ~forward])
        order = np.argsort(ia + ib, kind="stable")
        return ia[order], ib[order]

    @cached_property
    def triangles(self) -> Floats:
        """The triangles of the strip, shape (k, 3, 3), mm, each turned like its neighbors."""
        ia, ib = self.zigzag
        on_a = norm(self.a[ia[1:]] - self.a[ia[:-1]]) > 0
        third = np.where(on_a[:, None], self.a[ia[1:]], self.b[ib[1:]])
        return np.stack([self.a[ia[:-1]], third, self.b[ib[:-1]]], axis=1)

    @cached_property
    def areas(self) -> Floats:
        """The area of each triangle, mm²."""
        p, q, r = self.triangles.swapaxes(0, 1)
        return norm(cross(q - p, r - p)) / 2

    @cached_property
    def folds(self) -> tuple[Floats, Bools]:
        """The fold angle between neighboring triangles (k,), rad, and whether each is at a crease of the shape."""
        p, q, r = self.triangles.swapaxes(0, 1)
        normal = cross(q - p, r - p)
        # A triangle that is a point but for rounding, at the tip of a gore, faces nowhere.
        normal[norm(normal) < POINTED * norm(normal).max()] = 0.0
        ia, ib = self.zigzag
        at_crease = self.crease[ia] & (ia == ib)
        angle = angle_between(normal[:-1], normal[1:])
        inner = at_crease[1:-1]
        if not self.closed:
            return angle, inner
        last = angle_between(normal[-1:], normal[:1])
        return np.concatenate([angle, last]), np.r_[inner, at_crease[0]]

    @cached_property
    def creases(self) -> tuple[Ints, Floats, Bools]:
        """The rulings between the ends at which the surface turns sharply (k,), by how much (k,), rad, and why.

        The last says whether it does so only because it would twist otherwise: from an end of the one edge to an end
        of the other.
        """
        at: Ints = np.flatnonzero(self.crease[1:-1]) + 1
        normal = self.normals
        free = np.zeros(len(at), dtype=bool)
        if not self.closed:
            outer = [(p == p[0]) | (p == p[-1]) for p in (self.t, self.s)]
            free = (outer[0] & outer[1])[at]
        return at, angle_between(normal[at - 1], normal[at]), free

    @property
    def largest_fold(self) -> float:
        """The largest fold angle that is not a crease of the shape, rad."""
        angle, crease = self.folds
        return float(angle[~crease].max(initial=0.0))

    def offset(self, distance: float) -> "Strip":
        """Return the strip moved out along its normals by a distance (mm).

        Out is to the right as one walks along the edges with the rulings upward.
        This is how a panel is measured on its neutral surface. At a crease the offset faces of both neighbors meet: the
        point moves by distance / cos(half the fold) along the mean normal, as a sheet's layers do round a fold. On a
        smooth surface it moves along the surface's normal, found between those of the facets by their widths. Ends
        that several rulings share stay one point: see `_shared`.
        Raises: KitError where the offset turns an edge back on itself, because it is larger than the bend's radius.
        """
        normal = self.normals
        width = norm(np.diff(self.a, axis=0) + np.diff(self.b, axis=0))
        before, after = _beside(normal, self.closed)
        wide_before, wide_after = _beside(width[:, None], self.closed)
        smooth = unit_rows(before * wide_after + after * wide_before)
        mean = unit_rows(before + after)
        reach = 1 / np.maximum(dot(mean, after), 0.1)
        shift = np.where(self.crease[:, None], reach[:, None] * mean, smooth)
        moved = replace(
            self,
            a=self.a + distance * self._shared(self.a, shift, normal, width),
            b=self.b + distance * self._shared(self.b, shift, normal, width),
        )
        for name, old, new in zip(self.names, (self.a, self.b), (moved.a, moved.b), strict=True):
            turned = dot(np.diff(old, axis=0), np.diff(new, axis=0)) < -1e-9
            if turned.any():
                raise KitError(
                    f"The {name} bends more tightly than the offset of {abs(distance):g} mm at ruling "
                    f"{int(turned.argmax()) + 1}; widen that bend or take thinner cloth"
                )
        return moved

    def _shared(self, ends: Floats, shift: Floats, normal: Floats, width: Floats) -> Floats:
        """Return the shifts (n, 3) of ruling ends for an offset of one: those of one point are one.

        Where a fan stands at the open end of its edge, the point goes with the surface from there on, so that the
        edge runs on smoothly. Elsewhere it goes to where the planes of the fan's facets, each moved out, come nearest
        (least squares weighted by their widths), as the tip of a cone does.
        """
        first, last = _groups(ends, self.closed)
        if len(first) and last[0] - first[0] == len(ends) - 1:
            return shift  # the tip of a cone, which the cloth does not close: every ruling keeps its length
        found = shift.copy()
        count = len(normal)
        for low, high in zip(first.tolist(), last.tolist(), strict=True):
            facets = np.arange(low - 1, high + 1)
            facets = np.mod(facets, count) if self.closed else facets[(facets >= 0) & (facets < count)]
            inner = self.crease[low : high + 1]
            if not self.closed and low == 0 and high < len(shift) - 1 and not inner[-1]:
                found[low : high + 1] = shift[high]
            elif not self.closed and high == len(shift) - 1 and low > 0 and not inner[0]:
                found[low : high + 1] = shift[low]
            else:
                ends_here = np.arange(low, high + 1)
                found[ends_here % count if self.closed else ends_here] = _meeting(normal[facets], width[facets])
        if self.closed:
            found[-1] = found[0]
        return found

    @cached_property
    def normals(self) -> Floats:
        """Return one unit normal for each pair of neighboring rulings, shape (n - 1, 3)."""
        middle = (self.a[1:] + self.b[1:] - self.a[:-1] - self.b[:-1]) / 2
        ruling = (self.b[1:] + self.b[:-1] - self.a[1:] - self.a[:-1]) / 2
        return unit_rows(cross(middle, ruling))

    def part(self, first: int, last: int) -> "Strip":
        """Return the open strip from ruling first to ruling last; on a closed strip it may run over the end."""
        n = len(self.a) - 1 if self.closed else len(self.a)
        count = last - first if last > first else last - first + n
        pick = (first + np.arange(count + 1)) % n if self.closed else np.arange(first, last + 1)
        panel = pick[:-1] % (len(self.a) - 1)
        return replace(
            self,
            a=self.a[pick],
            b=self.b[pick],
            closed=False,
            crease=self.crease[pick],
            defect=self.defect[pick],
            chord_error=self.chord_error[panel],
            t=self.t[pick],
            s=self.s[pick],
        )


def _groups(ends: Floats, closed: bool) -> tuple[Ints, Ints]:
    """Return the first and the last number of rulings that share an end, (k,) each.

    On a closed strip, whose last ruling is its first, a group may run over the end: its last number then is n - 1 more.
    """
    still = norm(np.diff(ends, axis=0)) < CLOSE
    begins = np.flatnonzero(still & ~np.r_[False, still[:-1]])
    stops = np.flatnonzero(still & ~np.r_[still[1:], False]) + 1
    if closed and len(begins) > 1 and begins[0] == 0 and stops[-1] == len(ends) - 1:
        return begins[1:], np.r_[stops[1:-1], stops[0] + len(still)]
    return begins, stops


def _meeting(normal: Floats, width: Floats) -> Floats:
    """Return the point (3,) nearest to planes at distance one from the origin with given normals (k, 3).

    It lies as near to the origin as the weights allow: planes that are almost one say nothing of where on them it is.
    """
    weight = width / width.sum()
    u, size, v = np.linalg.svd(np.sqrt(weight)[:, None] * normal, full_matrices=False)
    firm = size > FIRM
    pull = u.T @ np.sqrt(weight)
    return np.asarray((np.where(firm, pull / np.where(firm, size, 1.0), 0.0)) @ v)


def _beside(facets: Floats, closed: bool) -> tuple[Floats, Floats]:
    """Return for each ruling what belongs to the facet before it and after it, from values of facets (n - 1, k)."""
    before, after = np.vstack([facets[:1], facets]), np.vstack([facets, facets[-1:]])
    if closed:
        before[0], after[-1] = facets[-1], facets[0]
    return before, after


def strip_of(r: Rulings) -> Strip:
    """Return the strip of given rulings.

    Its chord error adds the chord errors of both edges (the greater one) to what a twisted facet departs from a ruled
    surface: a bilinear patch lies at most a quarter of its twist vector a0 - a1 - b0 + b1 from its two triangles.
    """
    a, b = r.a.at(r.t), r.b.at(r.s)
    defect = defects(Tangents.of(r.a, r.t), Tangents.of(r.b, r.s))
    ruling = unit_rows(b - a)
    across = cross(np.diff(a, axis=0) + np.diff(b, axis=0), ruling[1:] + ruling[:-1])
    twist = np.abs(dot(np.diff(a, axis=0) - np.diff(b, axis=0), unit_rows(across))) / 4
    error = np.maximum(r.a.chord_errors(r.t), r.b.chord_errors(r.s)) + twist
    crease = (r.a.at_corner(r.t) | r.a.is_point) & (r.b.at_corner(r.s) | r.b.is_point)
    return Strip(a, b, r.closed, crease, defect, error, r.t, r.s, (r.a.name, r.b.name))


def through(a: Floats, b: Floats, closed: bool = False) -> Strip:
    """Return the strip through given ruling ends a (n, 3), b (n, 3), mm, that lie on no known curve.

    Nothing is known of its twist and chord error, which are set to zero.
    """
    count = np.arange(len(a), dtype=np.float64)
    none = np.zeros(len(a))
    return Strip(a, b, closed, none > 0, none, none[:-1], count, count)


def flat_area(a: Floats, b: Floats) -> float:
    """Return the area (mm²) enclosed by two flat edges (n, 2), (n, 2) and the rulings at their ends."""
    return abs(area_of(np.vstack([a, b[::-1]])))
