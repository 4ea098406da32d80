"""Weights and lists of a whole job, against another library, formulas of the pages, and sums by hand."""

from collections.abc import Callable

import numpy as np
import pytest
import trimesh
from shapely import Point, Polygon

from kit.cli import main
from kit.core.lists import ONE_PERSON, Body, Need
from kit.core.quantity import Display, parse
from kit.geometry.mesh.centroid import volume_and_centroid
from kit.job import Job
from kit.sheet.station_pages import LISTS, lists_html, station_pages
from kit.station.list_tables import told_amount
from kit.station.lists import station_lists, weight
from kit.subjects.hood.hood_boards import built, form_of

Write = Callable[..., Job]
HOOD = '[parts.hood]\nmodel = "hood.shape"\ntitle = "A hood"\n'
CUT = """
[parts.boards]
model = "cutting.stock"
title = "Boards <of the hood>"
first = "hood"
[[parts.boards.parts]]
name = "shelf"
length = "620 mm"
width = "260 mm"
count = 2
[parts.boards.givens]
stock = "boards"
length = "2440 mm"
width = "1220 mm"
at_hand = 3
price_board = "58"
"""
SHELF = '[parts.shelf]\nmodel = "support.shelf"\n'


def test_volume_and_centroid_are_those_of_another_library() -> None:
    """trimesh.Trimesh.volume and .center_mass, of a body with a hole, away from the origin."""
    ring = trimesh.creation.annulus(20.0, 50.0, 30.0)
    bar = trimesh.creation.box((10.0, 20.0, 90.0))
    for mesh in (ring, bar):
        mesh.apply_translation((700.0, -300.0, 40.0))
        volume, center = volume_and_centroid(mesh.vertices, mesh.faces)
        assert volume == pytest.approx(mesh.volume, rel=1e-9)
        assert center == pytest.approx(mesh.center_mass, abs=1e-6)


def test_two_bodies_have_their_center_between_them() -> None:
    # the lever: 1 kg at 0 and 3 kg at 400 mm balance at 300 mm
    both = weight([Body("a", 0.001, (0.0, 0.0, 0.0)), Body("b", 0.003, (400.0, 0.0, 0.0))])
    assert both.mass == pytest.approx(0.004)
    assert both.center == pytest.approx((300.0, 0.0, 0.0))
    assert weight([Body("a", 0.001, (0.0, 0.0, 0.0)), Body("b", 0.003)]).center is None


def test_who_lifts_it() -> None:
    # 23 kg: NIOSH, Applications manual for the revised lifting equation (DHHS 94-110), load constant, as told by CCOHS
    assert pytest.approx(0.023) == ONE_PERSON
    assert weight([Body("a", 0.0229)]).lifted == "one person"
    assert weight([Body("a", 0.0231)]).lifted == "two persons"
    # HSE, Manual Handling Operations Regulations: of what all could alone, two lift two thirds, three half
    for lifters, people, share in (("two persons", 2, 2 / 3), ("three persons", 3, 1 / 2)):
        assert weight([Body("a", people * share * 0.023 - 1e-6)]).lifted == lifters
        assert weight([Body("a", people * share * 0.023 + 1e-6)]).lifted != lifters
    assert weight([Body("a", 0.035)]).lifted == "more than three persons, or a hoist"


@pytest.mark.parametrize(
    ("amount", "of", "metric", "customary"),
    [
        # by hand: 1 ft is 0.3048 m, 1 oz is 28.3495 g; what is bought is never less than what is needed
        ("16224 mm", "m", "16.3 m", "53.3 ft"),
        ("2000 mm", "m", "2.0 m", "6.6 ft"),
        ("120.01 m", "m", "121 m", "394 ft"),
        ("12.2 g", "g", "12.2 g", "0.44 oz"),
        ("0.0456 m^2", "m²", "0.05 m²", "0.50 ft²"),
    ],
)
def test_what_is_bought_is_rounded_up(amount: str, of: str, metric: str, customary: str) -> None:
    need = Need("a", parse(amount, of).base, of)
    assert told_amount(need, Display()) == metric
    assert told_amount(need, Display(system="in")) == customary


def test_a_hood_weighs_what_its_boards_do(stated: Write) -> None:
    job = stated(HOOD)
    case = job.case("hood")
    meshes = [trimesh.Trimesh(*each) for each in built(form_of(case.base)).meshes.values()]
    whole = station_lists(job).weights["hood"]
    assert whole.mass == pytest.approx(sum(mesh.volume for mesh in meshes) * 680e-12, rel=1e-9)
    center = sum(mesh.volume * mesh.center_mass for mesh in meshes) / sum(mesh.volume for mesh in meshes)
    assert whole.center == pytest.approx(center, abs=1e-6)
    assert abs(np.asarray(center)[0]) < 1.0  # left and right are alike but for the notches


def test_a_shelf_weighs_what_its_page_says(stated: Write) -> None:
    job = stated(SHELF)
    # CGPM 1901: standard acceleration of free fall, 9.80665 m/s²; the page gives the weight by its own formula
    own = job.case("shelf").base["own_weight"]
    assert station_lists(job).mass * 9806.65 == pytest.approx(own, rel=1e-6)


def test_what_one_part_lays_out_of_another_is_cut_once_and_costs_what_the_page_says(stated: Write) -> None:
    job = stated(HOOD + CUT)
    found = station_lists(job)
    assert {id for id, _ in found.pieces} == {"boards"}
    names = [piece.name for _, piece in found.pieces]
    assert names[0] == "shelf"
    assert len(names) == 1 + len(job.build("hood").data.boards)
    assert next(piece.sides for _, piece in found.pieces) == pytest.approx((620.0, 260.0))
    (board,) = (each.need for each in found.needs if each.need.name != "wood glue")
    best = job.best_build("boards")
    assert board.amount == best.number("pieces").base
    assert board.cost == found.cost == pytest.approx(58.0 * board.amount)
    assert {id for id, _ in station_lists(stated(HOOD, "b")).pieces} == {"hood"}


def test_a_part_that_cannot_be_built_is_told_and_the_rest_is_listed(stated: Write) -> None:
    job = stated(SHELF + '[parts.other]\nmodel = "support.shelf"\n[parts.other.givens]\nspan = "9 km"\n')
    found = station_lists(job)
    assert [*found.weights] == ["shelf"]
    assert len(found.open) == 1
    assert "span" in found.open[0]
    assert "Not known" in lists_html(found)
    assert "No part of this job" in lists_html(station_lists(stated('[parts.x]\nmodel = "scale.cursor"\n', "c")))


def test_command_and_page_tell_the_same(stated: Write, capsys: pytest.CaptureFixture[str]) -> None:
    job = stated(HOOD + CUT, units="in")
    assert main(["lists", str(job.path)]) == 0
    out, html = capsys.readouterr().out, station_pages(job, date="2026-05-02")[LISTS][1]
    for words in ("Cut list", "in × 10 15/64 in", " lb"):
        assert words in out
        assert words in html
    assert "All that has a price: 58.00" in out
    assert '<a href="boards.html">Boards &lt;of the hood&gt;</a>' in html


STOP = '[parts.stop]\nmodel = "stop.deflection"\nblock_wood = "white ash"\n'
KNOB = """
[parts.plies]
model = "knob.plies"
[parts.star]
model = "knob.outline"
plies = "plies"
[parts.star.givens]
outer_radius = "32 mm"
"""
FASTENED = """
[parts.screws]
model = "fastening.screw"
[parts.screws.givens]
count = 6
length = "60 mm"
[parts.hold]
model = "fastening.hold"
[parts.loose]
model = "fastening.hold"
[parts.loose.givens]
bolts = 0
far = 0
"""
ALONG = """
[parts.track]
model = "groove.track"
[parts.track.givens]
length = "1800 mm"
track = "30 mm"
[parts.tape]
model = "scale.tape"
[parts.tape.givens]
reading = "1480 mm"
"""
WING = '[parts.wing]\nmodel = "support.wing"\n'


def test_a_stop_is_as_long_as_both_its_ends(stated: Write) -> None:
    job = stated(STOP + '[parts.stop.givens]\nrib_face = "on top"\nrib_height = "30 mm"\nrib_width = "20 mm"\n')
    # 600 + 200 mm; a rib on top stands 30 mm up and is 20 mm wide
    assert [(piece.of, piece.sides) for _, piece in station_lists(job).pieces] == [
        ("white ash", pytest.approx((800.0, 60.0, 40.0))),
        ("hard maple", pytest.approx((800.0, 30.0, 20.0))),
    ]
    needs = [each.need for each in station_lists(job).needs]
    assert [need.amount for need in needs[:2]] == pytest.approx([800.0, 800.0])
    assert needs[2].amount == pytest.approx(800.0 * 20.0 * 200e-12)  # the rib is glued along its 20 mm
    bare = stated(STOP + '[parts.stop.givens]\nrib_height = "0 mm"\n', "b")
    assert [piece.name for _, piece in station_lists(bare).pieces] == ["stop block"]


def test_a_knob_has_a_blank_for_each_ply_and_a_glue_line_less(stated: Write) -> None:
    job = stated(KNOB)
    found = station_lists(job)
    ((_, blank),) = found.pieces
    assert blank.sides == pytest.approx((64.0, 64.0, 6.0))
    assert blank.count == job.case("plies").base["plies"]
    glue = next(each.need for each in found.needs if each.need.name == "wood glue")
    # shapely.Polygon.area of the outline as a polygon, which shares no formula with the page's own
    drawn = Polygon(job.build("star").data.points(0.01)).area
    assert glue.amount == pytest.approx((blank.count - 1) * drawn * 200e-12, rel=1e-3)
    alone = stated('[parts.star]\nmodel = "knob.outline"\n', "b")
    assert not station_lists(alone).needs


def test_what_fastens_is_counted(stated: Write) -> None:
    needs = [(each.need.name, each.need.amount, each.need.sides) for each in station_lists(stated(FASTENED)).needs]
    assert needs == [("wood screw No. 10", 6, pytest.approx((60.0,))), ("hold-down bolt or screw", 4, ())]


def test_track_and_tape_are_bought_by_length(stated: Write) -> None:
    needs = [each.need for each in station_lists(stated(ALONG)).needs]
    assert [(need.name, told_amount(need, Display())) for need in needs] == [
        ("track, aluminum 6063-T5", "1.8 m"),
        ("tape, class II", "1.5 m"),
    ]


def test_a_wing_weighs_its_volume_times_its_density(stated: Write) -> None:
    # 1.2 m × 40 mm × 90 mm × 500 kg/m³ is 2.16 kg, in the middle of its length
    whole = station_lists(stated(WING)).weights["wing"]
    assert whole.mass == pytest.approx(2.16e-3)
    assert whole.center == pytest.approx((600.0, 20.0, -45.0))
    for length, units, mass in (("1200 mm", "mm", "2.2 kg"), ("100 mm", "mm", "180 g"), ("100 mm", "in", "6.35 oz")):
        job = stated(f'{WING}[parts.wing.givens]\nlength = "{length}"\n', units=units)
        assert f"<td>{mass}</td>" in lists_html(station_lists(job))


PINE = """
[parts.stop]
model = "stop.deflection"
block_wood = "ponderosa pine"
rib_wood = "western redcedar"
[parts.stop.givens]
long_reach = "600 mm"
short_reach = "200 mm"
block_height = "60 mm"
block_width = "40 mm"
rib_height = "50 mm"
rib_width = "20 mm"
"""


def test_wood_weighs_by_its_gravity_and_its_moisture(stated: Write) -> None:
    # D. R. Larsen, Forestry Functions, wood density, after the Wood Handbook, FPL-GTR-190, 4-10, read: a gravity of 0.4
    # at 12 % moisture is 448 kg/m³; ponderosa pine has 0.40. Redcedar, 0.32, by the same rule: 358.4 kg/m³
    found = station_lists(stated(PINE))
    block, rib = 0.8 * 0.06 * 0.04 * 448.0, 0.8 * 0.05 * 0.02 * 358.4  # kg
    assert found.weights["stop"].mass == pytest.approx((block + rib) / 1000, rel=1e-9)
    assert found.open == ()
    unknown = station_lists(stated(PINE.replace("western redcedar", "mahogany"), "b"))
    assert unknown.weights["stop"].mass == pytest.approx(block / 1000, rel=1e-9)
    assert unknown.weights["stop"].without == ("rib of the stop block",)


def test_a_knob_weighs_its_plies_less_their_holes(stated: Write) -> None:
    """shapely.Polygon.area of the outline drawn as a polygon, less discs for the holes."""
    job = stated(
        '[parts.plies]\nmodel = "knob.plies"\n[parts.knob]\nmodel = "knob.outline"\nplies = "plies"\n'
        '[parts.knob.givens]\ndensity = "700 kg/m^3"\n'
    )
    found, plies = station_lists(job), job.build("plies").data
    outline = Polygon(job.build("knob").data.points(0.01))
    volume = sum((ply.top - ply.bottom) * (outline.area - Point(0, 0).buffer(ply.hole / 2, 256).area) for ply in plies)
    assert found.weights["knob"].mass == pytest.approx(volume * 700e-12, rel=1e-3)
    assert found.weights["knob"].center[2] > (plies[-1].top / 2)  # the holes lie low
    needs = {each.need.name: each.need for each in found.needs}
    assert needs["wood glue"].amount == pytest.approx((len(plies) - 1) * outline.area * 200e-12, rel=1e-3)
    assert [name for name in needs if name.startswith(("stud", "nut", "washer"))] == [
        "stud M8, length over the face",
        "nut M8",
        "washer M8 in the knob's well, or several, 1.6 mm thick",
        "washer M8 under the knob, or several, 1.6 mm thick",
    ]


def test_glue_is_spread_on_every_mitered_face_of_a_hood(stated: Write) -> None:
    """trimesh: areas of triangles by their planes; two boards that look at each other in one plane are glued there."""
    job = stated(HOOD)
    (glued,) = (each.need for each in station_lists(job).needs if each.need.name == "wood glue")
    planes: list[dict[tuple[float, ...], float]] = []
    for each in built(form_of(job.case("hood").base)).meshes.values():
        mesh, areas = trimesh.Trimesh(*each), dict[tuple[float, ...], float]()
        for normal, triangle, area in zip(mesh.face_normals, mesh.triangles, mesh.area_faces, strict=True):
            key = (*np.round(normal, 4) + 0.0, round(float(normal @ triangle[0]), 1) + 0.0)
            areas[key] = areas.get(key, 0.0) + area
        planes.append(areas)
    touching = [
        min(area, others[opposite])
        for number, areas in enumerate(planes)
        for key, area in areas.items()
        for others in planes[number + 1 :]
        if (opposite := tuple(-each + 0.0 for each in key)) in others
    ]
    assert len(touching) == 12  # six walls, each mitered to the next and to the top
    assert glued.amount == pytest.approx(sum(touching) * 200e-12, rel=1e-4)


def test_clamps_serve_one_joint_after_the_other_and_screws_do_not(stated: Write) -> None:
    joints = "".join(
        f'[parts.{name}]\nmodel = "{model}"\n'
        for name, model in (
            ("a", "fastening.glue"),
            ("b", "fastening.glue"),
            ("c", "fastening.pocket"),
            ("d", "fastening.pocket"),
        )
    )
    job = stated(joints)
    needs = {each.need.name.partition(",")[0]: each for each in station_lists(job).needs}
    v = job.case("a").base
    assert needs["clamp that gives 1000 N"].need.amount == v["clamps"]
    assert needs["clamp that gives 1000 N"].parts == ("a", "b")
    assert needs["pocket screw"].need.amount == 2 * job.case("c").base["count"]
    assert needs["wood glue"].need.amount == pytest.approx(2 * (v["area"] + 2 * v["spline_area"]) * 200e-12)
