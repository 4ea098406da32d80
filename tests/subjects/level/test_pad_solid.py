"""Outlines, pads and their solids: closed forms, invariants, and what is refused."""

import math
from pathlib import Path

import numpy as np
import pytest
import shapely
import trimesh
from shapely import Polygon

from kit.core.errors import KitError
from kit.drawing.mesh_files import write_solid
from kit.geometry.outline.rounded import region, rounded, straightened
from kit.geometry.solids.closed import volume
from kit.subjects import model as stated
from kit.subjects.level.pad_solid import FAR, RIGHT, Pad, Process, bodies, make_pad, model

RECTANGLE = [(0, 0), (62, 0), (62, 48), (0, 48)]
SIZES = {"height": 3.3, "lip_width": 5.0, "lip_height": 8.0, "clearance": 0.3}
BOOT = [(0, 0), (80, 0), (80, 30), (35, 35), (30, 70), (0, 70)]  # an L-shaped foot, hollow at one corner


def test_rounded_rectangle_by_its_formula() -> None:
    """Area and girth of a rounded rectangle; the chords lose at most the stated error along the arcs."""
    shape = Polygon(rounded(RECTANGLE, 8, error=0.001))
    assert shape.area == pytest.approx(62 * 48 - (4 - math.pi) * 64, abs=0.001 * 2 * math.pi * 8)
    assert shape.length == pytest.approx(2 * (62 + 48) - (8 - 2 * math.pi) * 8, rel=1e-4)


def test_every_corner_touches_its_arc() -> None:
    """An arc is tangent to both sides: every corner of the outline keeps at least its radius from the arc's center."""
    radii = [5, 0, 8, 4, 6, 10]
    shape = region(rounded(BOOT, radii, error=0.005))
    sharp = region(BOOT)
    assert shape.is_valid
    assert shape.length < sharp.length
    # by turn: a rounded corner takes r² (tan(t/2) - t/2) off outside corners and adds it at the hollow one
    change = 0.0
    points = np.array(BOOT, dtype=float)
    for i, r in enumerate(radii):
        a, b = points[i] - points[i - 1], points[(i + 1) % 6] - points[i]
        turn = math.atan2(a[0] * b[1] - a[1] * b[0], a @ b)
        change -= math.copysign(r**2 * (math.tan(abs(turn) / 2) - abs(turn) / 2), turn)
    assert shape.area - sharp.area == pytest.approx(change, abs=0.005 * 2 * math.pi * 10)
    backwards = region(rounded(BOOT[::-1], radii[::-1], error=0.005))
    assert backwards.symmetric_difference(shape).area == pytest.approx(0, abs=1e-6)


def test_volume_by_the_model() -> None:
    """Steiner's and Minkowski's formulas, stated for rounded rectangles, against regions swept and cut."""
    v = stated("level.print").at().base
    outline = rounded(RECTANGLE, v["radius"], error=0.0002)
    pad = make_pad(outline, **SIZES, least_wall=0)
    assert pad.free.area == pytest.approx(v["free_area"], rel=1e-5)
    assert pad.lip.area == pytest.approx(v["lip_area"], rel=1e-5)
    assert pad.volume == pytest.approx(v["volume"], rel=1e-5)
    assert pad.mass(1.24, 0.6) == pytest.approx(v["mass"] * 1e6, rel=1e-5)  # the model's mass is in tonnes
    left, low, right, top = pad.plate.bounds
    assert (right - left, top - low) == pytest.approx((v["size_x"], v["size_y"]), abs=1e-3)


@pytest.mark.parametrize("corners", [RECTANGLE, BOOT], ids=["rectangle", "boot"])
@pytest.mark.parametrize("process", [Process(), Process(0.004, 0.002, 0.2, 0.2), Process(0.02, 0.0, 0.3, 0.0)])
def test_solid_is_one_closed_body_of_the_right_volume(corners: list[tuple[float, float]], process: Process) -> None:
    pad = make_pad(rounded(corners, 4), **SIZES)
    solid = trimesh.Trimesh(*model(pad, process), process=False)
    assert solid.is_watertight
    assert solid.is_winding_consistent
    assert solid.body_count == 1
    assert solid.euler_number == 2
    first = process.layer if process.spread else 0.0
    base = pad.plate.buffer(-process.spread, join_style="mitre").area
    drawn = pad.volume - (pad.plate.area - base) * first
    grown = (1 - process.shrink) ** 2 * (1 - process.shrink_up)
    assert solid.volume * grown == pytest.approx(drawn, rel=1e-6)
    assert solid.bounds[0][2] == pytest.approx(0, abs=1e-6)
    assert solid.extents[2] * (1 - process.shrink_up) == pytest.approx(11.3, abs=1e-5)
    assert solid.extents[0] * (1 - process.shrink) == pytest.approx(
        np.ptp(np.array(pad.plate.exterior.xy[0])), abs=1e-4
    )


def notch(wide: float, deep: float, beside: float, tip: float) -> list[tuple[float, float]]:
    """A foot with a slot from its far side: V with a `tip` of 0 mm, upright where `tip` is as wide as the slot."""
    half = (wide - tip) / 2
    return [(0, 0), (2 * beside + wide, 0), (2 * beside + wide, deep + 30), (beside + wide, deep + 30),
            (beside + wide - half, 30), (beside + half, 30), (beside, deep + 30), (0, deep + 30)]  # fmt: skip


SLOTS = [
    notch(30, 60, 60, 1e-9), notch(60, 30, 60, 1e-9), notch(60, 60, 30, 1e-9), notch(90, 90, 90, 0.01),
    *(notch(mouth + off, 30, 40, mouth + off) for mouth in (0.6, 6.6) for off in (0.0, 1e-4, -1e-4)),
]  # fmt: skip
"""V slots; and slots that clearances (0.3 mm), or a clearance and a lip, just close or just leave open."""


@pytest.mark.parametrize("corners", SLOTS, ids=[str(number) for number in range(len(SLOTS))])
@pytest.mark.parametrize("process", [Process(), Process(0.002, 0.002, 0.2, 0.15)], ids=["drawn", "printed"])
@pytest.mark.parametrize("clearance", [0.0, 0.3])
def test_an_outline_that_nearly_touches_itself_gives_a_closed_file(
    corners: list[tuple[float, float]], process: Process, clearance: float, tmp_path: Path
) -> None:
    """Read back by the mesh library, corners at one place made one, every edge is between two faces."""
    pad = make_pad(corners, height=6, lip_width=6, lip_height=4, clearance=clearance)
    solid = model(pad, process)
    for kind in (".stl", ".3mf"):
        write_solid(solid, tmp_path / f"pad{kind}")
        read = trimesh.load(tmp_path / f"pad{kind}")
        read = read.to_mesh() if isinstance(read, trimesh.Scene) else read
        assert isinstance(read, trimesh.Trimesh)
        read.merge_vertices()
        _, uses = np.unique(np.sort(read.edges, axis=1), axis=0, return_counts=True)
        assert set(uses) == {2}
        assert read.is_watertight
        assert read.is_winding_consistent
        assert read.body_count == 1
        assert read.volume == pytest.approx(volume(solid), rel=1e-5)
    drawn = volume(solid) * (1 - process.shrink) ** 2 * (1 - process.shrink_up)
    assert drawn == pytest.approx(pad.volume, rel=0.01)


def test_the_foot_fits_and_can_be_slid_out() -> None:
    """A foot in its clearance meets the lip nowhere, nor on its way out against the lip's two sides."""
    outline = rounded(BOOT, 3)
    pad = make_pad(outline, **SIZES)
    for way in np.linspace(0, 120, 60):
        moved = Polygon(outline - np.array([way, way]))
        assert moved.intersection(pad.lip).area < 1e-6
    assert pad.lip.distance(pad.foot) == pytest.approx(0.3, abs=1e-3)
    for side in (RIGHT, FAR):  # pushed home, it is held on both sides
        assert Polygon(outline + 0.5 * np.array(side)).intersection(pad.lip).area > 0.5


@pytest.mark.parametrize("degrees", [-44.0, -0.8, 0.0, 3.0, 44.0])
def test_a_foot_that_lay_askew_is_laid_straight(degrees: float) -> None:
    outline = rounded(RECTANGLE, 8)
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    askew = outline @ np.array([[c, s], [-s, c]]) + [17.0, -4.0]
    found = Polygon(straightened(askew))
    assert found.bounds == pytest.approx(Polygon(outline).bounds, abs=1e-9)
    assert found.symmetric_difference(Polygon(outline)).area == pytest.approx(0, abs=1e-6)


def test_plate_and_lips_are_the_pad() -> None:
    pad = make_pad(rounded(RECTANGLE, 8), height=3, lip_width=5, lip_height=8, clearance=0.3)
    plate, lips = bodies(pad)
    solids = [trimesh.Trimesh(*body, process=False) for body in (plate, *lips)]
    assert sum(solid.volume for solid in solids) == pytest.approx(pad.volume, rel=1e-9)
    assert all(solid.is_watertight for solid in solids)


def thin_stretch(pad: Pad, wall: float) -> float:
    """The longest stretch of lip that a disk of that size cannot enter, mm."""
    thin = pad.lip.difference(pad.lip.buffer(-wall / 2).buffer(wall / 2))
    return max(math.hypot(b[2] - b[0], b[3] - b[1]) for b in (part.bounds for part in shapely.get_parts(thin)))


@pytest.mark.parametrize("radius", [8, 15])
def test_no_wall_is_thinner_than_asked(radius: float) -> None:
    """Where the lip runs out along a round corner it is cut off; a disk of three quarters of the wall misses only the
    corners of the cut, each smaller than itself."""
    whole = make_pad(rounded(RECTANGLE, radius), **SIZES, least_wall=0)
    pad = make_pad(rounded(RECTANGLE, radius), **SIZES, least_wall=1.2)
    assert 0 < whole.lip.area - pad.lip.area < 0.02 * whole.lip.area
    assert thin_stretch(whole, 0.9) > 3
    assert thin_stretch(pad, 0.9) < 0.9


def test_section_of_the_solid_is_the_lip() -> None:
    pad = make_pad(rounded(BOOT, 3), **SIZES)
    solid = trimesh.Trimesh(*model(pad))
    for z, area in ((1.0, pad.plate.area), (9.0, pad.lip.area)):
        cut = solid.section([0, 0, 1], [0, 0, z])
        assert cut is not None
        flat, _ = cut.to_2D()
        assert flat.area == pytest.approx(area, rel=1e-6)


def refused(told: str, corners: object = RECTANGLE, radii: object = 0, **sizes: float) -> None:
    with pytest.raises(KitError, match=told) as error:
        make_pad(rounded(corners, radii), **(SIZES | sizes))  # type: ignore[arg-type]
    assert len(str(error.value).splitlines()) == 1


def test_refusals() -> None:
    refused(
        "crosses or touches itself near x = 5.0 mm, y = 5.0 mm; go round",
        [(0, 0), (10, 10), (10, 0), (0, 10)],
    )
    refused("give at least three corners", [(0, 0), (10, 10)])
    refused("crosses or touches itself|encloses no area", [(0, 0), (10, 10), (20, 20)])
    refused("not a finite number", [(0, 0), (float("inf"), 10), (20, 20)])
    refused("radius is -1 mm; give 0 or more", radii=-1)
    refused("side from corner 2 is 48 mm long, but its two radii take 60 mm", radii=[0, 30, 30, 0])
    refused("the clearance is -0.1 mm; a foot fits", clearance=-0.1)
    refused("the height is 0 mm; it must be above 0 mm", height=0)
    refused("the lip's width is -2 mm", lip_width=-2)
    refused("a lip 0.5 mm wide is thinner than a wall of 0.8 mm; make it wider", lip_width=0.5)
    with pytest.raises(KitError, match="shrinks in plan by 30 %; this holds for 0 % to 20 %"):
        Process(shrink=0.3)
    narrow = make_pad([(0, 0), (30, 0), (30, 1), (0, 1)], **SIZES)
    with pytest.raises(KitError, match="falls apart; make the pad wider"):
        model(narrow, Process(spread=4))
