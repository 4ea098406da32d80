"""The whole station's mass and center, against another library and levers by hand; what is missing is said."""

from collections.abc import Callable

import numpy as np
import pytest
import trimesh
from scipy.spatial.transform import Rotation

from kit.cli import main
from kit.core.lists import Body
from kit.geometry.mesh.centroid import area_and_centroid
from kit.job import Job
from kit.job.build import build_input
from kit.job.tasks import Work
from kit.sheet.cover import cover, station_view
from kit.sheet.station_pages import LISTS, station_pages
from kit.sheet.station_record import write_station
from kit.station.lists import NO_CENTER, NO_MASS, NO_PLACE, StationLists, station_lists
from kit.subjects import subject
from tests import DATA

Write = Callable[..., Job]
BENCH = """
[parts.bench]
model = "support.tip"
title = "Bench & <feet>"
place = { at = ["10 mm", "20 mm", "-900 mm"], turn = "180 deg" }
body = { mass = "30 kg", boxes = [
    [["0 mm", "0 mm", "860 mm"], ["1000 mm", "600 mm", "900 mm"]],
    [["0 mm", "0 mm", "0 mm"], ["1000 mm", "60 mm", "860 mm"]],
] }
"""
SHELF = """
[parts.shelf]
model = "support.shelf"
place = { at = ["100 mm", "200 mm", "300 mm"], turn = "30 deg", on = "bench" }
"""
FRAME = '[parts.bin]\nmodel = "bevel.frame"\nplace = { at = ["-900 mm", "0 mm", "-900 mm"] }\n'


def bodies(found: StationLists, id: str) -> tuple[Body, ...]:
    return found.parts[id].bodies


def solid(body: Body) -> trimesh.Trimesh:
    assert body.shape is not None
    return trimesh.Trimesh(body.shape.points, body.shape.faces)


def test_two_parts_balance_between_them(stated: Write) -> None:
    found = station_lists(stated(BENCH + SHELF))
    # trimesh.Trimesh.volume and .center_mass; scipy.spatial.transform.Rotation for the places
    boards = [solid(body) for body in bodies(found, "shelf")]
    masses = np.array([body.mass for body in bodies(found, "shelf")])
    turn = [Rotation.from_euler("z", angle, degrees=True) for angle in (30, 180)]
    shift = np.array([(100, 200, 300), (10, 20, -900)])
    inner = turn[0].apply([each.center_mass for each in boards]) + shift[0]
    shelf = turn[1].apply(inner) + shift[1]
    corners = [[(0, 0, 860), (1000, 600, 900)], [(0, 0, 0), (1000, 60, 860)]]
    boxes = [trimesh.creation.box(bounds=each) for each in corners]
    middle = sum(box.volume * box.center_mass for box in boxes) / sum(box.volume for box in boxes)
    bench = turn[1].apply(middle) + shift[1]
    mass = 0.03 + masses.sum()
    assert found.whole.mass == pytest.approx(mass)
    assert found.whole.center == pytest.approx((0.03 * bench + masses @ shelf) / mass)
    assert found.whole.counted == ("bench", "shelf")
    assert found.whole.missing == {}


def test_what_is_not_counted_is_said_and_the_sum_is_called_a_part(
    stated: Write, capsys: pytest.CaptureFixture[str]
) -> None:
    more = '[parts.tape]\nmodel = "scale.tape"\n[parts.door]\nmodel = "fastening.door"\nplace = { on = "bench" }\n'
    left = '[parts.wing]\nmodel = "support.wing"\nplace = false\n'
    job = stated(BENCH + FRAME + more + left, units="in")
    whole = station_lists(job).whole
    assert whole.counted == ("bench",)
    assert whole.missing == {"bin": NO_MASS, "tape": NO_PLACE, "door": NO_CENTER}
    assert main(["lists", str(job.path)]) == 0
    out, html = capsys.readouterr().out, station_pages(job)[LISTS][1]
    for text in (out, html):
        assert "at least 66.1 lb" in text  # 30 kg over 0.45359237 kg/lb
        assert "This is a part of the sum. Not in it: " in text
        assert f"tape: {NO_PLACE}" in text


def test_a_stated_mass_is_that_of_what_the_page_does_not_weigh(stated: Write) -> None:
    found = station_lists(stated(FRAME + 'body = { mass = "6 kg" }\n'))
    assert found.whole.mass == pytest.approx(0.006)
    # the middle of the ring of boards: over its place
    assert found.whole.center is not None
    assert found.whole.center[:2] == pytest.approx((-900.0, 0.0), abs=1e-6)
    twice = station_lists(stated(SHELF.replace(', on = "bench"', "") + 'body = { mass = "6 kg" }\n', "b"))
    assert twice.whole.counted == ("shelf",)
    assert any("its page says what it weighs" in each for each in twice.open)


@pytest.mark.parametrize("joint", ["mitered", "butted"])
def test_a_frame_of_boards_fills_what_the_planes_of_its_faces_leave(stated: Write, joint: str) -> None:
    job = stated(f'{FRAME}[parts.bin.givens]\nslope = "65 deg"\nsides = 5\njoint = "{joint}"\n')
    v = job.case("bin").base

    # trimesh.convex of the corners outside and inside: a frustum less a frustum
    def frustum(inward: float) -> trimesh.Trimesh:
        low = v["side"] / 2 / np.tan(np.pi / 5) - inward
        rings = [(low, 0.0), (low - v["width"] * np.cos(v["slope"]), v["width"] * np.sin(v["slope"]))]
        turn = 2 * np.pi * (np.arange(5) + 0.5) / 5
        far = 1 / np.cos(np.pi / 5)
        points = [(r * far * np.cos(a), r * far * np.sin(a), z) for r, z in rings for a in turn]
        return trimesh.convex.convex_hull(np.array(points))

    boards = [solid(body) for body in bodies(station_lists(job), "bin")]
    assert all(board.is_watertight for board in boards)
    shell = frustum(0.0).volume - frustum(v["thickness"] / np.sin(v["slope"])).volume
    assert sum(board.volume for board in boards) == pytest.approx(shell, rel=1e-5)  # points to 0.001 mm


def test_a_stop_with_its_rib_is_two_bars(stated: Write) -> None:
    text = '[parts.stop]\nmodel = "stop.deflection"\nblock_wood = "white ash"\n[parts.stop.givens]\n'
    for face, low in (("on the back", (40.0, 10.0)), ("on top", (0.0, 60.0)), ("below", (0.0, -40.0))):
        job = stated(f'{text}rib_face = "{face}"\n', face.replace(" ", ""))
        block, rib = (solid(body) for body in bodies(station_lists(job), "stop"))
        assert block.bounds.tolist() == [[0.0, -200.0, 0.0], [40.0, 600.0, 60.0]]
        assert rib.bounds[0][[0, 2]] == pytest.approx(low)  # where a rib of 40 by 40 mm begins, by hand
        assert rib.volume == pytest.approx(40.0 * 40.0 * 800.0)
    woods = job.case("stop").table("woods")
    ash, maple = (woods.row(name).entry("density").base for name in ("white ash", "hard maple"))
    mass = 800.0 * (40.0 * 60.0 * ash + 40.0 * 40.0 * maple)
    assert station_lists(job).weights["stop"].mass == pytest.approx(mass)


def test_cloth_balances_where_another_library_says(stated: Write) -> None:
    job = stated('[parts.chute]\nmodel = "cloth.chute"\n')
    (cloth,) = bodies(station_lists(job), "chute")
    assert cloth.center == pytest.approx(solid(cloth).centroid, abs=1e-3)  # trimesh.Trimesh.centroid: by area
    surface = job.build("chute").data.development.strip.triangles  # all rulings, of which the picture has some
    assert solid(cloth).area == pytest.approx(trimesh.Trimesh(*_welded(surface)).area, rel=5e-3)
    area, center = area_and_centroid([(0, 0, 0), (3, 0, 0), (0, 3, 0)], [(0, 1, 2)])
    assert (area, center) == (4.5, (1.0, 1.0, 0.0))  # half of 3 × 3, a third of each side


def _welded(triangles: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    points = triangles.reshape(-1, 3)
    return points, np.arange(len(points)).reshape(-1, 3)


@pytest.mark.parametrize("model", ["knob.outline", "level.print", "bevel.hood", "cloth.cone", "groove.track"])
def test_what_a_page_shows_is_as_large_as_it_says(stated: Write, model: str) -> None:
    extra = 'plies = "plies"\n[parts.plies]\nmodel = "knob.plies"\n' if model == "knob.outline" else ""
    job = stated(f'[parts.a]\nmodel = "{model}"\n{extra}')
    v, bring = job.case("a").base, subject(model).lists
    assert bring is not None
    shapes = [solid(body) for body in bring(build_input(job, "a"), lambda: job.build("a")).bodies]  # type: ignore[arg-type,return-value]
    if model == "knob.outline":
        assert max(np.hypot(*each.vertices.T[:2]).max() for each in shapes) == pytest.approx(v["outer_radius"], abs=0.5)
    if model == "level.print":
        assert sum(each.volume for each in shapes) == pytest.approx(job.build("a").number("volume").base, rel=1e-6)
    low = np.min([each.bounds[0] for each in shapes], axis=0)
    high = np.max([each.bounds[1] for each in shapes], axis=0)
    size = {
        "knob.outline": lambda: (None, None, len(job.build("plies").data) * job.case("plies").base["ply"]),
        "level.print": lambda: (None, None, v["height"] + v["lip_height"]),
        "bevel.hood": lambda: (v["base_x"], v["base_y"], v["height"]),
        "cloth.cone": lambda: (v["wide"], v["wide"], v["height"]),
        "groove.track": lambda: (v["length"], v["track"], 0.0),
    }[model]()  # fmt: skip
    for found, wanted in zip(high - low, size, strict=True):
        assert wanted is None or found == pytest.approx(wanted, abs=0.5)
    if model in ("knob.outline", "level.print"):
        assert all(each.is_watertight and each.volume > 0 for each in shapes)


def test_the_picture_shows_what_stands_and_names_what_does_not(stated: Write) -> None:
    job = stated(BENCH + SHELF + '[parts.tape]\nmodel = "scale.tape"\ntitle = "A tape"\n')
    found = station_lists(job)
    view, numbers = station_view(found)
    assert view is not None
    assert numbers == {"bench": 1, "shelf": 2}
    corners = np.asarray(view.solids[0].vertices)
    low, high = corners.min(axis=0), corners.max(axis=0)
    # the bench, turned by half a turn: its left back corner comes to the right front
    assert (low[0], low[1]) == pytest.approx((-990.0, -580.0))
    assert (low[2], high[2]) == pytest.approx((-900.0, 0.0))
    html = cover(found, {"bench": "bench.html"})
    assert '<b>1</b> <a href="bench.html">Bench &amp; &lt;feet&gt;</a>' in html
    assert "nothing says where they stand: A tape." in html
    assert html == cover(found, {"bench": "bench.html"})
    assert "<iframe" in cover(found, still=False)
    assert cover(station_lists(stated('[parts.x]\nmodel = "scale.cursor"\n', "c"))) == ""


def test_every_body_of_a_demo_is_counted() -> None:
    job = Job.open(DATA / "schoolshop.toml")
    found = station_lists(job)
    assert found.whole.missing == {}
    assert not [each for each in found.open if "body" in each]
    view, numbers = station_view(found)
    assert view is not None
    low, high = view.box
    # the drill bench, the sander on its stand and the saw's bench stand on one floor, 24 in below the bench top
    assert low[2] == pytest.approx(-24 * 25.4)
    assert {"drill_hold", "sander_hood", "chip_chute", "saw_fence"} <= {*numbers}
    assert high[0] - low[0] < 4000.0


def test_a_number_points_to_what_can_be_seen(stated: Write) -> None:
    wall = '[parts.wall]\nmodel = "support.height"\nplace = { at = ["-900 mm", "-900 mm", "-300 mm"] }\n'
    wall += 'body = { boxes = [[["0 mm", "0 mm", "0 mm"], ["2000 mm", "1 mm", "%s mm"]]] }\n'
    spots = []
    for number, high in enumerate((10, 420)):
        view, _ = station_view(station_lists(stated(SHELF.replace(', on = "bench"', "") + wall % high, f"w{number}")))
        assert view is not None
        spots.append(np.asarray(view.marks[0].point))
    # the wall of 420 mm hides the lower parts of the shelf behind it, not its upper face
    assert spots[0] != pytest.approx(spots[1]) or spots[1][2] == pytest.approx(300.0)


def test_a_book_draws_its_cover_anew_only_if_something_moved(stated: Write, tmp_path: object) -> None:
    job, work = stated(BENCH), Work(0.0, ())
    first = write_station(job, job.path.parent, ["x"], {}, work, date="2026-05-02")
    assert write_station(job, job.path.parent, ["x"], {}, work, date="2026-05-03") == first
    moved = stated(BENCH.replace("180 deg", "90 deg"))
    assert write_station(moved, job.path.parent, ["x"], {}, work, date="2026-05-03")[1] != first[1]
