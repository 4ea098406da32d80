"""A ruled strip in space: rulings from edge a to edge b, with its triangles, folds, twist, bounds and offset."""

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from kit.core.errors import KitError
from kit.geometry.development.arrays import (
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
        ia, ib = self.zigzag
        at_crease = self.crease[ia] & (ia == ib)
        angle = angle_between(normal[:-1], normal[1:])
        inner = at_crease[1:-1]
        if not self.closed:
            return angle, inner
        last = angle_between(normal[-1:], normal[:1])
        return np.concatenate([angle, last]), np.r_[inner, at_crease[0]]

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
        smooth surface it moves along the surface's normal, found between those of the facets by their widths.
        Raises: KitError where the offset turns an edge back on itself, because it is larger than the bend's radius.
        """
        normal = self.normals
        width = norm(np.diff(self.a, axis=0) + np.diff(self.b, axis=0))
        before, after = _beside(normal, self.closed)
        wide_before, wide_after = _beside(width[:, None], self.closed)
        smooth = unit_rows(before * wide_after + after * wide_before)
        mean = unit_rows(before + after)
        reach = distance / np.maximum(dot(mean, after), 0.1)
        shift = np.where(self.crease[:, None], reach[:, None] * mean, distance * smooth)
        moved = replace(self, a=_together(self.a, self.a + shift), b=_together(self.b, self.b + shift))
        for name, old, new in zip(self.names, (self.a, self.b), (moved.a, moved.b), strict=True):
            turned = dot(np.diff(old, axis=0), np.diff(new, axis=0)) < -1e-9
            if turned.any():
                raise KitError(
                    f"The {name} bends more tightly than the offset of {abs(distance):g} mm at ruling "
                    f"{int(turned.argmax()) + 1}; widen that bend or take thinner cloth"
                )
        return moved

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


def _together(old: Floats, new: Floats) -> Floats:
    """Return moved ends (n, 3); those that were one point and still are but for rounding become one again."""
    still = (norm(np.diff(old, axis=0)) == 0) & (norm(np.diff(new, axis=0)) < 1e-9)
    source = np.maximum.accumulate(np.where(np.r_[False, still], 0, np.arange(len(new))))
    return np.asarray(new[source])


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
