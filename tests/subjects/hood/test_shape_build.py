"""The hood's work: live clearance, proposal, certificate, tables, drawings and files, from a sweep and from boxes."""

from collections.abc import Mapping
from dataclasses import replace
from math import inf, radians
from pathlib import Path
from typing import Any

import ezdxf
import numpy as np
import pytest
import trimesh
from pypdf import PdfReader

from kit.core.build import Build, BuildInput
from kit.core.errors import KitError
from kit.core.quantity import Display
from kit.drawing.space import view_svg
from kit.drawing.svg import svg
from kit.geometry.clearance import Body
from kit.geometry.envelope.envelope import envelope
from kit.geometry.mesh import Scan
from kit.geometry.motion import Chain, Joint
from kit.geometry.solids.closed import volume
from kit.subjects import model
from kit.subjects.hood.certificate import certificate
from kit.subjects.hood.geometry.boards import room
from kit.subjects.hood.geometry.form import FLOOR
from kit.subjects.hood.hood_boards import built, form_of, sticks
from kit.subjects.hood.machine import machine
from kit.subjects.hood.shape_build import TASKS, build, certify, propose
from kit.subjects.hood.shape_files import board_meshes
from kit.subjects.sweep.swept import Sweep
from tests.builds import build_input

MM = Display()
CHAIN = Chain((Joint("swing", "turn", (0, 0, 0), (0, 0, 1), radians(-50), radians(50)),))


def sweep(low: tuple[float, float, float], high: tuple[float, float, float]) -> Sweep:
    """A box that turns by 50° each way about the upright axis."""
    mesh = trimesh.creation.box(bounds=[low, high])
    body = Body.of(mesh.vertices, mesh.faces)
    scan = Scan(np.asarray(mesh.vertices), np.asarray(mesh.faces))
    return Sweep(body, CHAIN, (), None, envelope(body, CHAIN, 8.0), 0.7, scan, None)


BAR = sweep((-30.0, -60.0, 40.0), (30.0, 240.0, 560.0))


def ordered(taken: Sweep | None = BAR, shape: Mapping[str, Any] | None = None, **givens: str) -> BuildInput:
    takes = {} if taken is None else {"envelope": Build(data=taken, inputs=str(id(taken)))}
    return build_input(model("hood.shape").at(**givens), shape, takes)


def limit(made: Build, name: str) -> Any:
    return next(held for held in made.checks if held.name == name)


def test_the_live_clearance_is_that_of_the_geometry() -> None:
    """Upright back, bar square: its end is 240 mm from the axis, its corner sweeps hypot(30, 240)."""
    made = build(
        ordered(slope_back="90 deg", back="300 mm", chamfer="60 mm", brow_height="500 mm", fence_height="0 mm")
    )
    gaps = {row[0]: row for row in made.rows("Clearance of each board").rows}
    swung = np.hypot(30.0, 240.0)  # reached nearly, at one of the sampled positions
    assert 300.0 - 12.0 - swung - 0.05 <= float(gaps["back"][1].removesuffix(" mm")) <= 300.0 - 12.0 - 241.0
    assert "sampled at 150 positions" in limit(made, "clearance").words()
    assert "less 0.7 mm for the scan's error" in limit(made, "clearance").words()
    assert made.number("clearance").base == pytest.approx(
        min(float(row[1].removesuffix(" mm")) for row in gaps.values()), abs=0.06
    )
    assert [float(row[1].removesuffix(" mm")) for row in gaps.values()] == sorted(
        float(row[1].removesuffix(" mm")) for row in gaps.values()
    )


def test_boards_over_a_large_scan_come_at_once_and_its_clearance_when_the_control_rests(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("kit.subjects.hood.shape_build.MOST_LIVE", 0)
    moving = replace(ordered(back="317 mm"), quick=True)
    first, fine = build(moving), build(replace(moving, quick=False))
    assert first.coarse
    assert "measured when the control rests" in first.open[0]
    assert not {"under", "clearance"} & {check.name for check in first.checks}
    assert not fine.coarse
    assert {"under", "clearance"} <= {check.name for check in fine.checks}
    for picture in first.pictures:
        picture.draw(MM)
    assert not build(moving).coarse, "it is known by now"


def test_a_hit_is_said_with_its_depth_and_what_mends_it() -> None:
    made = build(ordered(slope_back="90 deg", back="240 mm", chamfer="20 mm", fence_height="0 mm", chute="0 mm"))
    held = limit(made, "clearance")
    assert not held.ok
    assert "hits the back board, 1" in held.words()  # 12 to 14 mm through its inside
    assert "back's bottom edge out" in held.words()
    assert made.number("clearance").base == pytest.approx(-13.3, abs=1.3)
    assert [mark.text for mark in made.picture("hood").draw(MM).marks] == ["hit: back"]  # type: ignore[union-attr]


def test_the_proposal_is_met_by_the_certified_clearance() -> None:
    inputs = ordered(shape={"slopes": "as given"}, margin="30 mm", brow_height="430 mm", fence_height="0 mm")
    first = propose(inputs)
    sizes = {"front", "back", "left", "right", "height", "chamfer", "brow_width"}
    assert set(first) == sizes | {"reach", "reach_height"}
    assert set(propose(ordered(brow_height="430 mm", reach="250 mm"))) >= sizes
    assert "reach" not in propose(ordered(brow_height="430 mm", reach="250 mm")), "what a person measured stays"
    told = ordered(margin="30 mm", brow_height="430 mm", fence_height="0 mm", **first)
    steps: list[float] = []
    made = certify(told, lambda share, words: steps.append(share) is None)
    proven = limit(made, "certified")
    assert proven.ok, proven.words()
    assert proven.words().startswith(
        "certified over every position: the machine is under the hood, and its proven clearance, "
    )
    assert limit(made, "joined").ok
    assert not any("Sampled" in text or "certify" in text for text in made.cautions)
    assert any("Sampled" in text for text in build(told).cautions)
    assert steps == sorted(steps)
    assert steps[-1] == 1.0
    assert "Certify the clearance" in TASKS


def test_a_certificate_is_judged_by_its_proven_bound_less_the_scans_error() -> None:
    """Scanned within ± 0.7 mm: a margin that is met by what was found, or proven, alone is not enough."""
    first = propose(ordered(margin="30 mm", fence_height="0 mm"))
    order = ordered(margin="30 mm", fence_height="0 mm", **first)
    under = machine(order)
    assert under is not None
    proof = certificate(under, built(form_of(order.base)), 0.0, inf, lambda share, words: True)
    assert proof.complete
    assert proof.sure(under.error) == proof.least - 0.7
    for margin, ok in (
        (proof.least - 0.7 - 0.01, True),
        (proof.found - 0.7 - 0.11, True),  # near the need, what is proven lies within 0.1 mm of what was found
        (proof.found - 0.7 + 0.01, False),
        (proof.found - 0.01, False),
    ):
        tight = ordered(margin=f"{margin} mm", fence_height="0 mm", **first)
        held = limit(certify(tight, lambda share, words: True), "certified")
        assert held.ok is ok, held.words()
        assert "less 0.7 mm for the scan's error" in held.words()
    clear = build(order).number("clearance").base
    for margin, ok in ((clear - 0.69, False), (clear - 0.71, True)):
        held = limit(build(ordered(margin=f"{margin} mm", fence_height="0 mm", **first)), "clearance")
        assert held.ok is ok, held.words()
    boxed = ordered(None, {"boxes": [{"low": ["-10 mm"] * 3, "high": ["10 mm"] * 3}]})
    assert "scan" not in limit(build(boxed), "clearance").words()


def boxed(*boxes: tuple[tuple[float, float, float], tuple[float, float, float]]) -> dict[str, Any]:
    return {"boxes": [{end: [f"{x} mm" for x in corner] for end, corner in zip(("low", "high"), box, strict=True)}
                      for box in boxes]}  # fmt: skip


BEFORE = ((-100.0, -980.0, 0.0), (100.0, -900.0, 100.0))
WITHIN = ((-100.0, -100.0, 0.0), (100.0, 100.0, 300.0))


@pytest.mark.parametrize("boxes", [(BEFORE,), (WITHIN, BEFORE)], ids=["wholly", "partly"])
def test_a_machine_outside_the_hood_is_never_certified(boxes: Any) -> None:
    made = certify(ordered(None, boxed(*boxes)), lambda share, words: True)
    for name in ("certified", "under", "clearance"):
        assert not limit(made, name).ok
    for name in ("certified", "under"):
        words = limit(made, name).words()
        assert "lies wholly outside" in words
        assert "position: it stands" in words
        assert "-900 mm" in words


def test_what_reaches_out_through_an_opening_is_under_the_hood() -> None:
    """A fence through both notches: its ends are behind the rear boards' planes, 513 mm for the longest."""
    fence = ((-1200.0, -30.0, 0.0), (1200.0, 30.0, 80.0))
    made = certify(ordered(None, boxed(WITHIN, fence)), lambda share, words: True)
    assert "but for what reaches" in limit(made, "under").words()
    assert limit(made, "under").ok
    assert limit(made, "clearance").ok, limit(made, "clearance").words()
    assert limit(made, "certified").ok, limit(made, "certified").words()
    assert made.number("clearance").base == pytest.approx(30.0, abs=1e-3)  # 60 behind the axis, less 30


def test_a_machine_that_leaves_between_positions_is_named_with_its_position() -> None:
    chain = Chain((Joint("slide", "slide", (0, 0, 0), (0, -1, 0), 0.0, 900.0),))
    mesh = trimesh.creation.box(bounds=[(-30.0, -200.0, 100.0), (30.0, 0.0, 200.0)])
    body = Body.of(mesh.vertices, mesh.faces)
    scan = Scan(np.asarray(mesh.vertices), np.asarray(mesh.faces))
    rail = Sweep(body, chain, (), None, envelope(body, chain, 20.0), 0.0, scan, None)
    held = limit(build(ordered(rail, fence_height="0 mm")), "under")
    assert not held.ok
    assert "position: slide " in held.words()


def test_a_square_machine_gets_rear_corners_that_can_be_made() -> None:
    """A square foot leaves no room to cut its rear corners off: the back moves out until their boards can be made."""
    boxes = [
        {"low": ["-280 mm", "-200 mm", "0 mm"], "high": ["280 mm", "250 mm", "30 mm"]},
        {"low": ["-200 mm", "-200 mm", "30 mm"], "high": ["200 mm", "200 mm", "400 mm"]},
    ]
    for units in (MM, Display(system="in")):
        inputs = replace(ordered(None, {"boxes": boxes}, brow_height="300 mm", fence_height="0 mm"), display=units)
        case = inputs.case.with_(**propose(inputs))
        assert limit(build(replace(inputs, case=case)), "clearance").ok
        assert case.ok, "of the machine's own nearest point, too"


@pytest.mark.parametrize(("left", "right", "high"), [(250, 250, 700), (150, 350, 600)])
@pytest.mark.parametrize("display", [MM, Display(system="in")])
def test_a_wide_machine_below_the_brow_gets_posts_beside_the_opening(
    left: int, right: int, high: int, display: Display
) -> None:
    """What comes out in front is wider than the body: the sides move out until the wood beside the opening is left."""
    boxes = [
        {"low": [f"{-left} mm", "-500 mm", "100 mm"], "high": [f"{right} mm", "-100 mm", "140 mm"]},
        {"low": ["-150 mm", "-100 mm", "0 mm"], "high": ["150 mm", "200 mm", f"{high} mm"]},
    ]
    inputs = replace(ordered(None, {"boxes": boxes}, brow_height="300 mm", fence_height="0 mm"), display=display)
    case = inputs.case.with_(**propose(inputs))
    made = build(replace(inputs, case=case))
    assert {check.name: check.outcome() for check in (*case.checks, *made.checks) if check.outcome() != "holds"} == {}


def test_proposed_slopes_take_less_room_than_any_given_ones() -> None:
    """A cone of 60° stands under the back: at half its height only a board of the same slope, nearly, comes so near."""
    boxes = [
        {"low": [f"{-w} mm", f"{-w} mm", f"{z} mm"], "high": [f"{w} mm", f"{w} mm", f"{z + 10} mm"]}
        for z in range(0, 500, 10)
        for w in (300 - 0.25 * z,)
    ]
    inputs = ordered(None, {"boxes": boxes}, brow_height="300 mm", fence_height="0 mm", height="560 mm")
    free = propose(inputs)
    assert free["slope_back"] == free["slope_left"] == free["slope_right"] == "76 deg"  # atan 4 = 75.96°
    half = 500.0 / 2
    for lean in ("72 deg", "80 deg", "85 deg"):
        told = {f"slope_{face}": lean for face in ("front", "back", "left", "right", "rear")}
        fixed = propose(build_input(inputs.case.with_(**told), {"boxes": boxes, "slopes": "as given"}))

        def away(back: str, slope: str) -> float:
            return float(back.removesuffix(" mm")) - half / np.tan(radians(float(slope.removesuffix(" deg"))))

        assert away(free["back"], free["slope_back"]) <= away(fixed["back"], lean) + 5.0
    with pytest.raises(KitError, match="slopes is 'steep'; write one of proposed, as given"):
        build(ordered(None, {"slopes": "steep"}))


def test_a_stopped_certificate_says_so_and_is_no_fault_of_the_hood(monkeypatch: pytest.MonkeyPatch) -> None:
    stopped = certify(ordered(), lambda share, words: share == 0.0)
    assert "certified" not in {check.name for check in stopped.checks}
    assert stopped.open[0].startswith("its clearance is not certified: only 1 of 7 pairs")
    assert stopped.ok == build(ordered()).ok
    real = certificate(machine(ordered()), built(form_of(ordered().base)), 0.0, inf, lambda share, words: True)  # type: ignore[arg-type]
    for bound, complete, decided in (
        (20.7, False, "ok"), (20.69, False, "open"), (20.69, True, "fails"),
        (-9.0, False, "open"), (-9.0, True, "fails"),
    ):  # fmt: skip
        proof = replace(real, least=bound, found=21.0, complete=complete)
        monkeypatch.setattr("kit.subjects.hood.shape_build.certificate", lambda *_, proof=proof: proof)
        made = certify(ordered(), lambda share, words: True)
        found = [check.ok for check in made.checks if check.name == "certified"]
        assert {"ok": [True], "fails": [False], "open": []}[decided] == found
        assert (decided == "open") == any("time was over" in words for words in made.open)


def test_a_certificate_out_of_time_tells_the_bound_it_reached() -> None:
    inputs = ordered(back="420 mm")
    under = machine(inputs)
    assert under is not None
    made = built(form_of(inputs.base))
    proof = certificate(under, made, 0.0, 1e-4, lambda share, words: True)
    assert proof.done < proof.pairs or not proof.complete
    proof = certificate(under, made, 0.0, inf, lambda share, words: True)
    assert proof.complete
    assert 0.0 < proof.found - proof.least <= 1.0


def test_boxes_stand_for_a_machine_told_by_measures() -> None:
    boxes = [{"low": ["-10 in", "-100 mm", "0 mm"], "high": ["254 mm", "100 mm", "300 mm"]}]
    made = build(ordered(None, {"boxes": boxes}, slope_left="90 deg", slope_right="90 deg", fence_height="0 mm"))
    gaps = {row[0]: row[1:3] for row in made.rows("Clearance of each board").rows}
    assert gaps["left"] == ("94.0 mm", "it stands")  # 360 - 12 - 254
    assert "in its one position" in limit(made, "clearance").words()


@pytest.mark.parametrize(
    ("boxes", "sentence"),
    [
        ([{"low": ["0 mm", "0 mm", "0 mm"]}], "boxes, number 1: high is not stated"),
        (
            [{"low": ["0 mm", "0 mm", "0 mm"], "high": ["1 mm", "0 mm", "1 mm"]}],
            "boxes, number 1: each length of the low corner must be below that of the high",
        ),
        ([{"low": ["0 kg", "0 mm", "0 mm"], "high": ["1 mm", "1 mm", "1 mm"]}], "boxes, number 1, low, number 1: low"),
        ("a box", "write a list"),
        ([{"low": ["0 mm", "0 mm"], "high": ["1 mm"] * 3}], "boxes, number 1: low has 2 entries; it needs 3"),
    ],
)
def test_a_box_told_wrongly_gets_a_sentence(boxes: object, sentence: str) -> None:
    with pytest.raises(KitError, match=sentence):
        build(ordered(None, {"boxes": boxes}))


def test_further_openings_are_told_in_the_job() -> None:
    shape = {
        "holes": [{"face": "right", "width": "80 mm", "height": "400 mm", "along": "-60 mm", "up": "50 mm"}],
        "notches": [{"face": "back", "begin": "-40 mm", "end": "30 mm", "height": "45 mm"}],
    }
    made = build(ordered(None, shape, slope_back="90 deg", slope_right="90 deg"))
    plain = build(ordered(None, slope_back="90 deg", slope_right="90 deg"))
    names = {row[0]: row[5] for row in made.rows("Boards").rows}
    assert names["right"] == "hole 2, notch 1"
    assert names["back"] == "hole 1, notch 3"

    def wood(one: Build) -> float:
        meshes = board_meshes(one.data)
        return sum(volume(mesh) for mesh in meshes.values())

    assert wood(plain) - wood(made) == pytest.approx(12.0 * (80.0 * 50.0 + 70.0 * 45.0), rel=1e-5)
    for wrong, sentence in (
        (
            {"holes": [{"face": "right", "width": "80 mm"}]},
            "holes, number 1: height is not stated",
        ),
        (
            {"notches": [{"face": "back", "begin": "0 mm", "end": "1 mm", "height": "1 mm", "up": "1 mm"}]},
            "notches, number 1: unknown input 'up'",
        ),
        ({"notches": [{"face": "back", "begin": "0 mm", "end": "1 mm"}]}, "notches, number 1: height is not stated"),
        ({"notches": [{"begin": "0 mm", "end": "1 mm", "height": "1 mm"}]}, "notches, number 1: face is not stated"),
        ({"holes": [{"face": "bakc", "width": "80 mm", "height": "1 mm"}]}, "did you mean 'back'"),
    ):
        with pytest.raises(KitError, match=sentence):
            build(ordered(None, wrong))


def test_a_brow_without_room_for_its_rail_is_said_and_the_rest_is_made() -> None:
    made = build(ordered(shape={"rail": "40 mm"}, brow_height="700 mm"))
    held = limit(made, "frame")
    assert not held.ok
    assert "lower the brow" in held.words()
    assert made.rows("Clearance of each board").rows


def test_without_a_machine_boards_are_made_and_the_gap_is_said() -> None:
    made = build(ordered(None))
    assert any("Clearance not checked" in words for words in made.cautions)
    assert made.rows("Bevels").rows
    with pytest.raises(KitError, match="no machine to propose"):
        propose(ordered(None))
    with pytest.raises(KitError, match="could be certified"):
        certify(ordered(None), lambda share, words: True)
    with pytest.raises(KitError, match="has no swept envelope"):
        build(replace(ordered(None), takes={"envelope": Build(data=3)}))
    with pytest.raises(KitError, match="did you mean 'rail'"):
        build(ordered(None, {"rial": "40 mm"}))


def test_every_bevel_and_every_cut_is_listed() -> None:
    made = build(ordered(chamfer="60 mm"))
    bevels = made.rows("Bevels")
    assert len(bevels.rows) == 6 * 4 + 6
    inputs = made.rows("Cutting order")
    held = [row[5] for row in inputs.rows if "end cut" in row[2]]
    assert any("carrier" in words for words in held)
    assert made.number("small").base == 2.0
    value = model("hood.shape").at(chamfer="60 mm").base
    front = next(row for row in bevels.rows if row[:2] == ("front", "right"))
    assert front[3] == f"{np.degrees(value['miter_front_right']):.1f}°"
    assert front[4] == f"{np.degrees(value['tilt_front_right']):.1f}°"


def test_pictures_are_drawn(tmp_path: Path) -> None:
    made = build(ordered(shape={"rail": "40 mm"}))
    names = [picture.name for picture in made.pictures]
    assert names[:3] == ["hood", "apart", "frame"]
    assert "board_rear_left" in names
    for picture in made.pictures:
        shown = picture.draw(MM)
        text = svg(shown) if picture.name.startswith("board") else view_svg(shown, "corner", 400, ids="a")  # type: ignore[arg-type]
        assert text.startswith("<svg")
    assert "swept envelope" in made.picture("hood").draw(MM).words  # type: ignore[union-attr]


def test_files_are_read_back_at_their_size(tmp_path: Path) -> None:
    """Each STL's volume, the whole against its boards, DXF extents in millimeters, the cuts in the PDF."""
    inputs = ordered(shape={"rail": "40 mm"})
    made = build(inputs)
    files = {output.name: output.write(tmp_path, "30_hood", MM) for output in made.outputs}
    solids = {path.stem: trimesh.load(path) for path in files["solids"]}
    assert all(solid.is_watertight for solid in solids.values())
    apart = sum(solid.volume for name, solid in solids.items() if "assembled" not in name)
    assert solids["30_hood_assembled"].volume == pytest.approx(apart, rel=2e-6)
    form = form_of(inputs.base)
    shell = room(form.faces(), FLOOR).volume - room(form.faces(), FLOOR, inside=True).volume
    assert apart < shell
    assert np.ptp(solids["30_hood_front"].vertices[:, 0]) == pytest.approx(720.0, abs=1e-3)
    drawings = files["boards"]
    assert len(drawings) == 3 * 7
    front = ezdxf.readfile(next(path for path in drawings if path.name == "30_hood_front_fullsize.dxf"))
    assert front.units == ezdxf.units.MM
    lines = [point for line in front.modelspace().query("LWPOLYLINE") for point in line.get_points("xy")]
    assert np.ptp(np.array(lines)[:, 0]) == pytest.approx(720.0, abs=1e-3)
    bulges = [bulge for line in front.modelspace().query("LWPOLYLINE") for (bulge,) in line.get_points("b")]
    assert max(bulges) == pytest.approx(2.0 * 50.0 / 430.0)  # a true arc: tan of a quarter of it is 2 rise/width
    pdf = next(path for path in drawings if path.name.startswith("30_hood_front") and path.suffix == ".pdf")
    assert "miter" in "".join(page.extract_text() for page in PdfReader(pdf).pages)
    templates = [path.name for path in files["templates"]]
    assert len(templates) == 7
    assert all(name.endswith("_fullsize_A4.pdf") for name in templates)
    frame = trimesh.load(files["frame"][0])
    assert frame.is_watertight
    sticks_in_all = sum(rail.part.solid.volume for rail in sticks(made.data, 40.0) if rail.along != "brow")
    assert sticks_in_all < frame.volume < sticks_in_all + 12.0 * 500.0 * 100.0  # and the brow's rail


def test_the_school_shops_hood_proposes_in_inches() -> None:
    boxes = [{"low": ["-7 in", "-2 in", "0 in"], "high": ["7 in", "6 in", "15 in"]}]
    inputs = replace(ordered(None, {"boxes": boxes}, brow_height="13 in", height="18 in"), display=Display(system="in"))
    with pytest.raises(KitError, match="a brow at 20 in; lower the brow below 15 in"):
        propose(replace(inputs, case=inputs.case.with_(brow_height="20 in")))
    told = propose(inputs)
    assert all(text.endswith(" deg" if name.startswith("slope") else " in") for name, text in told.items())
    assert (float(told["height"].removesuffix(" in")) * 4) % 1 == 0.0
