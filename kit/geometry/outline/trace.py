"""A foot's outline from a scanned rubbing: threshold, the largest patch, its edge between pixels, millimeters by a bar.

A rubbing is dark on light paper. Beside the foot stands a straight bar of known length, drawn as it lies; the scan's
own resolution is not trusted. Marching squares after W. E. Lorensen and H. E. Cline (1987), in the plane.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy import ndimage
from shapely import LinearRing, Polygon

from kit.core.errors import KitError
from kit.geometry.outline.rounded import region

Floats = NDArray[np.float64]
Mask = NDArray[np.bool_]

CONTRAST = 40.0  # of 255: what ink and paper must differ by
SPECK = 2e-4  # of the picture: smaller dark patches are dirt
SLENDER = 5.0  # length over width of what may be the bar


@dataclass(frozen=True)
class Traced:
    """A traced outline : (n, 2), mm, counterclockwise, x to the right and y up from the picture's lower left pixel.

    scale: mm per pixel. error: how far the outline may be off, mm: half a pixel at the edge, half a pixel at each
    end of the bar carried over the foot's size, and what the simplifying left out.
    """

    outline: Floats
    scale: float
    error: float


def trace(gray: ArrayLike, bar: float, *, tolerance: float = 0.1) -> Traced:
    """Trace the largest dark patch of a picture : (rows, columns), 0 black to 255 white.

    bar: length of the drawn bar, mm. tolerance: how far the simplified outline may leave the edge found, mm.
    Raises: KitError for a picture without contrast, without foot or bar, a foot cut off by the picture's edge, or
    lengths that are not above zero.
    """
    if not (bar > 0 and tolerance > 0):
        raise KitError(f"the bar is {bar:g} mm long and the tolerance {tolerance:g} mm; both must be above 0")
    picture = np.asarray(gray, dtype=float)
    if picture.ndim != 2 or min(picture.shape) < 8 or not np.isfinite(picture).all():
        raise KitError(
            f"the picture comes as an array {picture.shape}; give gray values in rows and columns, 8 × 8 or more"
        )
    level = threshold(picture)
    foot, rod = _patches(picture < level)
    length = _length(rod)
    scale = bar / length
    filled = ndimage.binary_fill_holes(foot)
    field = np.where(ndimage.binary_dilation(filled, iterations=2), picture, picture.max())
    field[ndimage.binary_erosion(filled, iterations=2)] = picture.min()
    edge = max(contours(field, level), key=lambda ring: abs(Polygon(ring).area))
    edge = np.column_stack([edge[:, 1], len(picture) - 1 - edge[:, 0]]) * scale
    fine = Polygon(edge)
    simple = fine.simplify(tolerance)
    left = LinearRing(edge).hausdorff_distance(simple.exterior)
    size = float(np.hypot(*np.ptp(edge, axis=0)))
    points = np.asarray(region(np.asarray(simple.exterior.coords)[:-1], "the traced outline").exterior.coords)
    return Traced(points[:-1], scale, scale / 2 + size / length + left)


def threshold(picture: Floats) -> float:
    """Return the gray value that parts ink and paper best.

    Raises: KitError where they hardly differ.
    Source: N. Otsu, A threshold selection method from gray-level histograms (1979): largest variance between both.
    """
    counts, ends = np.histogram(picture, bins=256)
    middle = (ends[:-1] + ends[1:]) / 2
    dark, light = np.cumsum(counts), counts.sum() - np.cumsum(counts)
    total = np.cumsum(counts * middle)
    with np.errstate(invalid="ignore", divide="ignore"):
        ink, paper = total / dark, (total[-1] - total) / light
        between = np.nan_to_num(dark * light * (ink - paper) ** 2)
    best = np.flatnonzero(between >= between.max() * (1 - 1e-12))  # a run where no gray value lies between
    split = int(best[len(best) // 2])
    if between.max() == 0 or paper[split] - ink[split] < CONTRAST:
        raise KitError("the picture has no dark foot on light paper; rub harder, or scan with more contrast")
    return float(ends[split + 1])


def _patches(ink: Mask) -> tuple[Mask, Mask]:
    """Return the foot and the bar among the dark patches."""
    labels, count = ndimage.label(ink, structure=np.ones((3, 3)))
    areas = np.bincount(labels.ravel())[1:] if count else np.zeros(0)
    kept = np.flatnonzero(areas >= max(SPECK * ink.size, 9)) + 1
    if len(kept) < 2:
        raise KitError(
            f"the picture shows {len(kept)} dark patch(es); it must show the rubbed foot and, apart from it, a "
            "drawn bar"
        )
    boxes = ndimage.find_objects(labels)
    spans = {n: np.hypot(*(side.stop - side.start for side in boxes[n - 1])) for n in kept}
    closed = {n: float(ndimage.binary_fill_holes(labels[boxes[n - 1]] == n).sum()) for n in kept}
    biggest = max(kept, key=lambda n: closed[n])
    slender = [n for n in kept if n != biggest and spans[n] ** 2 >= SLENDER * areas[n - 1]]
    if not slender:
        raise KitError(
            "the picture shows no drawn bar beside the foot; draw a straight line of known length, clear of the rubbing"
        )
    foot = labels == biggest
    if foot[0].any() or foot[-1].any() or foot[:, 0].any() or foot[:, -1].any():
        raise KitError("the rubbed foot runs over the edge of the picture; scan all of it")
    rod: Mask = labels == max(slender, key=lambda n: spans[n])
    return foot, rod


def _length(rod: Mask) -> float:
    """Return the length of a straight bar in pixels: an even rod of length L has the variance (L² - 1)/12."""
    places = np.argwhere(rod).astype(float)
    return float(np.sqrt(12 * np.linalg.eigvalsh(np.cov(places.T, bias=True))[-1] + 1))


def contours(field: Floats, level: float) -> list[Floats]:
    """Return the closed lines of a field : (rows, columns) at `level`, each (n, 2) in rows and columns.

    The field must lie above the level all along its edge.
    """
    rows, columns = field.shape
    under = field < level
    with np.errstate(invalid="ignore", divide="ignore"):
        across = (level - field[:, :-1]) / (field[:, 1:] - field[:, :-1])
        down = (level - field[:-1]) / (field[1:] - field[:-1])
    # Crossings are numbered by the grid line they lie on: first the horizontal ones, then the upright ones.
    horizontal = np.arange(rows * (columns - 1)).reshape(rows, columns - 1)
    upright = horizontal.size + np.arange((rows - 1) * columns).reshape(rows - 1, columns)
    a, b, c, e = (
        under[:-1, :-1],
        under[:-1, 1:],
        under[1:, 1:],
        under[1:, :-1],
    )  # corners of a cell, clockwise
    sides = np.stack([horizontal[:-1], upright[:, 1:], horizontal[1:], upright[:, :-1]])
    crossed = np.stack([a != b, b != c, c != e, e != a])
    count = crossed.sum(axis=0)
    row, column = np.nonzero(count == 2)
    ways = crossed[:, row, column]
    joins = [(sides[ways.argmax(axis=0), row, column], sides[3 - ways[::-1].argmax(axis=0), row, column])]
    # Of a saddle's two ways, the mean of its corners decides: whether a and c hang together across the cell.
    together = ((field[:-1, :-1] + field[:-1, 1:] + field[1:, 1:] + field[1:, :-1]) / 4 < level) == a
    for where, pairs in (
        ((count == 4) & together, ((0, 1), (2, 3))),
        ((count == 4) & ~together, ((3, 0), (1, 2))),
    ):
        joins += [(sides[one][where], sides[other][where]) for one, other in pairs]
    ends = np.concatenate([np.column_stack(pair) for pair in joins])
    return [_places(ring, across, down, columns, horizontal.size) for ring in _rings(ends)]


def _rings(ends: NDArray[np.int64]) -> list[list[int]]:
    """Chain pieces, each by its two numbered ends, into closed rings."""
    beside: dict[int, list[int]] = {}
    for one, other in ends.tolist():
        beside.setdefault(one, []).append(other)
        beside.setdefault(other, []).append(one)
    rings = []
    while beside:
        start = next(iter(beside))
        ring, at = [start], start
        while True:
            after = beside[at].pop()
            beside[after].remove(at)
            if not beside[at]:
                del beside[at]
            if after == start:
                break
            ring.append(after)
            at = after
        if not beside[start]:
            del beside[start]
        rings.append(ring)
    return rings


def _places(ring: list[int], across: Floats, down: Floats, columns: int, count: int) -> Floats:
    number = np.array(ring)
    flat = number < count
    r_h, c_h = np.divmod(np.where(flat, number, 0), columns - 1)
    r_v, c_v = np.divmod(np.where(flat, 0, number - count), columns)
    row = np.where(flat, r_h, r_v + down[r_v, c_v])
    column = np.where(flat, c_h + across[r_h, c_h], c_v)
    return np.column_stack([row, column])
