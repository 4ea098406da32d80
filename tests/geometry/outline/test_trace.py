"""A foot traced from drawn pictures of known shapes, turned, blurred, noisy, hollow; and pictures that are refused."""

import math
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy import ndimage
from shapely import LinearRing, Point, Polygon, contains_xy, prepare, unary_union
from shapely.affinity import rotate, scale, translate

from kit.core.errors import KitError
from kit.drawing.raster import read_rubbing
from kit.geometry.outline.trace import contours, threshold, trace

Picture = NDArray[np.float64]
MM = 0.2  # per pixel, unknown to the tracing
FOOT = rotate(scale(Point(0, 0).buffer(1, quad_segs=64), 31, 22), 12, origin=(0, 0))
BAR = rotate(Polygon([(-25, -0.6), (25, -0.6), (25, 0.6), (-25, 0.6)]), 4, origin=(0, 0))


def painted(*shapes: Polygon, fine: int = 4, size: tuple[int, int] = (420, 460), ink: float = 60.0) -> Picture:
    """Paint shapes (mm, y up) with gray edges by counting fine pixels inside."""
    rows, columns = size
    step = MM / fine
    x = (np.arange(columns * fine) + 0.5) * step - MM / 2
    y = (rows - 1) * MM - ((np.arange(rows * fine) + 0.5) * step - MM / 2)
    shown = unary_union(shapes)
    prepare(shown)
    covered = contains_xy(shown, *np.meshgrid(x, y))
    share = covered.reshape(rows, fine, columns, fine).mean(axis=(1, 3))
    picture: Picture = 240 - (240 - ink) * share
    return picture


@pytest.fixture(scope="module")
def clean() -> Picture:
    return painted(translate(FOOT, 44, 34), translate(BAR, 45, 75))


def off(points: NDArray[np.float64], shape: Polygon) -> float:
    return float(LinearRing(points).hausdorff_distance(shape.exterior))


def test_an_ellipse(clean: Picture) -> None:
    found = trace(clean, 50.0, tolerance=0.05)
    assert found.scale == pytest.approx(MM, rel=2e-3)
    true = translate(FOOT, 44, 34)
    assert off(found.outline, true) < 0.15
    assert off(found.outline, true) < found.error < 0.5
    assert Polygon(found.outline).area == pytest.approx(math.pi * 31 * 22, rel=5e-3)
    assert Polygon(found.outline).exterior.is_ccw
    assert 20 < len(found.outline) < 80


def test_a_finer_tolerance_keeps_more_corners(clean: Picture) -> None:
    counts = [len(trace(clean, 50.0, tolerance=tolerance).outline) for tolerance in (0.4, 0.1, 0.02)]
    assert counts == sorted(counts)
    assert counts[-1] > 3 * counts[0]


def test_a_real_scan_is_blurred_uneven_and_dirty(clean: Picture) -> None:
    rng = np.random.default_rng(8)
    dirty = ndimage.gaussian_filter(clean, 1.2) + rng.normal(0, 12, clean.shape)
    dirty += np.linspace(0, 12, clean.shape[1])  # the lamp is brighter on one side
    dirty[10:12, 10:12] = 0  # a speck
    found = trace(np.clip(dirty, 0, 255), 50.0, tolerance=0.1)
    assert off(found.outline, translate(FOOT, 44, 34)) < found.error


def test_a_rubbed_rim_counts_as_the_foot() -> None:
    """A rubbing shows a hollow foot as a ring: its outside is what is wanted."""
    rim = FOOT.difference(scale(FOOT, 0.85, 0.85))
    found = trace(painted(translate(rim, 44, 34), translate(BAR, 45, 75)), 50.0)
    assert off(found.outline, translate(FOOT, 44, 34)) < found.error < 0.6
    assert Polygon(found.outline).area == pytest.approx(math.pi * 31 * 22, rel=0.01)


def test_the_scale_comes_from_the_bar_alone(clean: Picture) -> None:
    one, two = trace(clean, 50.0), trace(clean, 100.0)
    assert two.scale == pytest.approx(2 * one.scale, rel=1e-12)
    assert two.outline.max() == pytest.approx(2 * one.outline.max(), rel=0.01)


def test_contours_of_a_noise_field_close() -> None:
    field = np.random.default_rng(1).uniform(0, 1, (60, 80))
    field[[0, -1]], field[:, [0, -1]] = 2.0, 2.0
    rings = contours(field, 0.5)
    assert len(rings) > 50
    for ring in rings:
        steps = np.hypot(*(ring - np.roll(ring, 1, axis=0)).T)
        assert steps.max() <= math.sqrt(2) + 1e-12
    # every crossing between grid points is met once
    under = field < 0.5
    assert sum(map(len, rings)) == (under[1:] != under[:-1]).sum() + (under[:, 1:] != under[:, :-1]).sum()


def test_a_circle_between_pixels() -> None:
    y, x = np.mgrid[0:120, 0:140]
    ring = contours(np.hypot(x - 70.3, y - 58.7) * 1.0, 40.0)
    assert len(ring) == 1
    radii = np.hypot(ring[0][:, 1] - 70.3, ring[0][:, 0] - 58.7)
    assert radii == pytest.approx(np.full(len(radii), 40.0), abs=0.004)  # a straight line between two cone values


def test_threshold_parts_two_gray_values() -> None:
    picture = np.where(np.random.default_rng(4).uniform(size=(80, 80)) < 0.2, 70.0, 230.0)
    assert 70 < threshold(picture) < 230


def refused(picture: Picture, told: str, bar: float = 50.0) -> None:
    with pytest.raises(KitError, match=told) as error:
        trace(picture, bar)
    assert len(str(error.value).splitlines()) == 1


def test_refusals(clean: Picture) -> None:
    foot, bar = translate(FOOT, 44, 34), translate(BAR, 45, 75)
    refused(np.full((100, 100), 200.0), "no dark foot on light paper")
    refused(np.random.default_rng(0).normal(200, 5, (100, 100)), "no dark foot on light paper")
    refused(
        painted(foot),
        r"shows 1 dark patch\(es\); it must show the rubbed foot and, apart from it, a drawn bar",
    )
    refused(painted(foot, translate(Point(0, 0).buffer(4), 80, 75)), "no drawn bar beside the foot")
    refused(painted(translate(FOOT, 20, 34), bar), "runs over the edge of the picture; scan all of it")
    refused(clean, "the bar is 0 mm long", bar=0)
    refused(np.zeros((3, 3)), "8 × 8 or more")


def test_a_picture_file(tmp_path: Path, clean: Picture) -> None:
    from PIL import Image

    path = tmp_path / "foot.png"
    Image.fromarray(np.round(clean).astype(np.uint8)).save(path)
    read = read_rubbing(path)
    assert np.abs(read - np.round(clean)).max() <= 1
    assert trace(read, 50.0).scale == pytest.approx(MM, rel=2e-3)
    ink = Image.new("RGBA", (60, 40), (0, 0, 0, 0))
    ink.save(tmp_path / "clear.png")
    assert read_rubbing(tmp_path / "clear.png").min() == 255  # transparent is paper
    (tmp_path / "broken.png").write_bytes(path.read_bytes()[:200])
    (tmp_path / "words.png").write_text("not a picture", encoding="utf-8")
    for name in ("broken.png", "words.png"):
        with pytest.raises(KitError, match="cannot be read as a picture"):
            read_rubbing(tmp_path / name)
    with pytest.raises(KitError, match=r"there is no file 'none\.png'"):
        read_rubbing(tmp_path / "none.png")
