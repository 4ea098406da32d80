"""The printed pad: against the closed form of a rounded rectangle, its files read back, outlines that are refused."""

import subprocess
import sys
from math import pi
from pathlib import Path

import numpy as np
import pytest
import trimesh

from kit.core.build import Build
from kit.core.errors import KitError
from kit.core.quantity import Display
from kit.core.resources import data_dir
from kit.drawing.space import View
from kit.job import Job
from kit.job.build import build
from kit.subjects import model

ROUND = 8.0  # mm, radius of the demo foot's corners


def job(folder: Path, shape: str = "", givens: str = "") -> Job:
    path = folder / "job.toml"
    path.write_text(
        f'format = 1\n[parts.pad]\nmodel = "level.print"\n[parts.pad.givens]\n{givens}\n[parts.pad.shape]\n{shape}\n'
    )
    return Job.open(path)


def pad(folder: Path, shape: str = "", givens: str = "") -> Build:
    found = build(job(folder, shape, givens), "pad")
    assert found is not None
    return found


def test_the_model_s_rectangle_gives_the_model_s_numbers(tmp_path: Path) -> None:
    """The closed form by Steiner's formula and the polygons by shapely are two routes to the same pad, but for the
    horns of the lip, which run out to nothing and are left out where they are thinner than a wall."""
    found, case = pad(tmp_path), model("level.print").at()
    for name in ("model_x", "model_y", "model_z"):
        assert found.number(name).base == pytest.approx(case.base[name], rel=1e-4), name
    for name in ("volume", "mass"):
        assert 0 < 1 - found.number(name).base / case.base[name] < 0.002, name
    # the arcs, 50 mm in all, are chords that stay inside by 0.01 mm at most
    assert found.number("area").base == pytest.approx(62 * 48 - (4 - pi) * ROUND**2, abs=0.5)


def test_typed_corners_are_the_same_foot_in_another_way(tmp_path: Path) -> None:
    corners = '[["0 mm", "0 mm"], ["62 ± 0.2 mm", "0 mm"], ["62 mm", "4.8 cm"], ["0 mm", "48 mm"]]'
    found = pad(tmp_path, f'corners = {corners}\nradii = ["8 mm"]')
    assert found.number("volume").base == pytest.approx(pad(tmp_path).number("volume").base, rel=1e-12)
    assert found.number("error").base == pytest.approx(0.2)
    assert found.ok
    assert "0.20 mm" in found.checks[1].words()


def test_an_l_by_hand(tmp_path: Path) -> None:
    """An L of 40 by 30 mm less a corner of 20 by 10 mm, no clearance: 1000 mm²; a lip 5 mm wide to the right and
    far side sweeps 5 x 30, 5 x 40 and the corner 5 x 5, and inside the notch nothing more than its own depth."""
    corners = '[["0","0"],["40","0"],["40","30"],["20","30"],["20","20"],["0","20"]]'
    sizes = 'length = "40 mm"\nwidth = "30 mm"\nradius = "0 mm"\nclearance = "0 mm"\nlip_width = "5 mm"'
    found = pad(tmp_path, f"corners = {corners}", sizes + '\nheight = "2 mm"\nlip_height = "10 mm"')
    assert found.number("area").base == pytest.approx(1000)
    assert found.number("volume").base == pytest.approx(1375 * 2 + 375 * 10, rel=1e-6)


def test_the_demo_s_rubbing_is_the_foot_that_was_drawn() -> None:
    """The picture was painted from a rectangle of 62 by 48 mm, rounded by 8 mm, turned by 0.8 degrees."""
    found = build(Job.open(data_dir() / "boatshed.toml"), "saw_pad_print")
    assert found is not None
    assert found.ok
    assert found.number("area").base == pytest.approx(62 * 48 - (4 - pi) * ROUND**2, rel=2e-3)
    error = found.number("error").base
    assert found.data.foot.bounds[2:] == pytest.approx((62, 48), abs=error)


@pytest.mark.parametrize(("name", "part"), [("boatshed", "saw_pad_print"), ("schoolshop", "press_pad_print")])
def test_the_files_read_back(tmp_path: Path, name: str, part: str) -> None:
    found = build(Job.open(data_dir() / f"{name}.toml"), part)
    assert found is not None
    stl, threemf = found.output("solid").write(tmp_path, part, Display())
    for path in (stl, threemf):
        solid = trimesh.load(path, force="mesh")
        assert solid.is_watertight, path.name
        assert solid.body_count == 1, path.name
        assert solid.extents == pytest.approx([found.number(f"model_{axis}").base for axis in "xyz"], abs=0.01)
    assert threemf.suffix == ".3mf"
    first, shrink = 0.2, 0.004  # mm of first layer and its spread, and the shrinkage of both demos
    left_out = found.data.plate.length * 0.2 * first  # a rim of the first layer, drawn smaller
    meant = (found.number("volume").base - left_out) / (1 - shrink) ** 2 / (1 - 0.002)
    assert trimesh.load(stl, force="mesh").volume == pytest.approx(meant, rel=1e-3)
    assert [path.suffix for path in found.output("wood").write(tmp_path, part, Display())] == [
        ".pdf",
        ".svg",
        ".dxf",
    ]


def test_the_pad_is_seen_from_all_sides(tmp_path: Path) -> None:
    view = pad(tmp_path).picture("solid").draw(Display())
    assert isinstance(view, View)
    corners = np.concatenate([np.asarray(solid.vertices) for solid in view.solids])
    assert corners.min(axis=0)[2] == 0
    assert corners.max(axis=0)[2] == pytest.approx(3.3 + 8)


def test_the_lip_stands_where_it_is_told(tmp_path: Path) -> None:
    near = pad(tmp_path, 'lip = ["left", "near"]').data
    assert near.plate.bounds == pytest.approx((-5.3, -5.3, 62.3, 48.3), abs=1e-3)


@pytest.mark.parametrize(
    ("shape", "told"),
    [
        (
            'corners = [["0","0"],["60","40"],["60","0"],["0","40"]]',
            "crosses or touches itself near x = 30.0 mm",
        ),
        ('corners = [["0","0"],["60","0"]]', "corners has 2 entries; it needs at least 3"),
        ('corners = [["0","0"],["60","0"],["30 N","40"]]', "a force"),
        ('corners = [["0","0"],["60","0"],"60"]', "corners, number 3: corner is '60'"),
        ('corners = [["0","0"],["60","0"],["60","40"]]\nradii = ["1 mm", "2 mm"]', "3 corners and 2 radii"),
        ('corners = [["0","0"],["60","0"],["60","40"]]\nradii = ["30 mm"]', "make them smaller"),
        ('radii = ["1 mm"]', "radii are stated without corners"),
        ('rubbing = "foot.png"', "has no bar"),
        ('rubbing = "foot.png"\nbar = "50 mm"', "'foot.png'"),
        ('rubbing = "foot.png"\ncorners = []', "corners has 0 entries"),
        ('lip = ["right", "top"]', "'top'"),
        ('lip = ["right", "left"]', "meet in a corner"),
        ('lip = ["right"]', "lip has 1 entries; it needs 2"),
        ('outline = ["foot.png"]', "unknown input 'outline'"),
    ],
)
def test_what_is_no_outline_gets_one_sentence(tmp_path: Path, shape: str, told: str) -> None:
    with pytest.raises(KitError, match="part pad") as error:
        pad(tmp_path, shape)
    assert told in str(error.value)
    assert "\n" not in str(error.value)


def test_a_foot_that_was_measured_otherwise_is_told(tmp_path: Path) -> None:
    found = pad(tmp_path, 'corners = [["0","0"],["61","0"],["61","48"],["0","48"]]')
    assert not found.ok
    assert (
        found.checks[0]
        .words()
        .startswith("the outline is off the measured length and width by 1.00 mm, 0.70 mm more than")
    )


def test_the_rubbing_is_shown_in_millimeters() -> None:
    """The demo's page was painted 90 by 80 mm large; the traced outline lies over the foot, centered at 45, 33 mm."""
    found = build(Job.open(data_dir() / "boatshed.toml"), "saw_pad_print")
    assert found is not None
    (axes,) = found.picture("rubbing").draw(Display()).axes  # type: ignore[union-attr]
    left, right, low, top = axes.images[0].get_extent()
    assert (right - left, top - low) == pytest.approx((90, 80), rel=2e-3)
    outline = np.column_stack(axes.lines[0].get_data())
    assert (outline.min(axis=0) + outline.max(axis=0)) / 2 == pytest.approx((45, 33), abs=0.2)


def test_the_demo_s_rubbing_comes_out_the_same(tmp_path: Path) -> None:
    from PIL import Image

    folder = data_dir() / "rubbing"
    subprocess.run([sys.executable, folder / "make_demo.py", tmp_path], check=True, cwd=tmp_path)
    old, new = (np.asarray(Image.open(place / "saw_foot.png")) for place in (folder, tmp_path))
    assert (old == new).all()
