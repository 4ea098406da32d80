"""The knob's template read back from DXF, its plies counted on fingers, and small samples against another library."""

import math
import statistics
from pathlib import Path
from typing import Any

import ezdxf
import pytest
from scipy import stats

from kit.core.errors import KitError
from kit.core.quantity import Display
from kit.sheet import build_section
from kit.subjects import model, subject
from kit.subjects.accuracy.batch_build import givens_of
from tests.builds import build_input
from tests.subjects.test_scale_and_reading_build import INCHES, MM, build

HEXAGON: dict[str, Any] = {  # six lobes of 10 mm that touch hollows of 10 mm: arcs of 120° and 60°, worked by hand
    "lobes": 6, "outer_radius": "30 mm", "lobe_radius": "10 mm", "hollow_depth": "2.6794919243112 mm",
    "hollow_wish": "40 mm",
}  # fmt: skip


def arcs(path: Path, layer: str) -> list[tuple[float, float]]:
    """Radius, mm, and angle, degrees, of every arc of the closed line on a layer of a DXF file, from its bulges."""
    drawing = ezdxf.readfile(path)
    assert drawing.units == ezdxf.units.MM
    (line,) = drawing.modelspace().query(f"LWPOLYLINE[layer=='{layer}']")
    points = list(line.get_points("xyb"))  # type: ignore[attr-defined]
    found = []
    for (x, y, bulge), (u, v, _) in zip(points, (*points[1:], points[0]), strict=True):
        if bulge:
            angle = 4 * math.atan(abs(bulge))
            found.append((math.hypot(u - x, v - y) / (2 * math.sin(angle / 2)), math.degrees(angle)))
    return found


def along(read: list[tuple[float, float]]) -> float:
    """Length of arcs, mm."""
    return sum(radius * math.radians(angle) for radius, angle in read)


def test_the_template_is_true_arcs_at_full_size(tmp_path: Path) -> None:
    found = build("knob.outline", {}, **HEXAGON)
    files = found.output("template").write(tmp_path, "knob", MM)
    assert [path.suffix for path in files] == [".pdf", ".svg", ".dxf"]
    read = arcs(files[2], "OUTLINE")
    assert sorted(round(angle) for _, angle in read) == [60] * 6 + [120] * 6
    assert [radius for radius, _ in read] == pytest.approx([10.0] * 12, abs=1e-6)
    assert along(read) == pytest.approx(188.49556, abs=1e-4)  # 60 π
    assert found.number("length").base == pytest.approx(188.49556, abs=1e-4)
    assert found.ok


def test_a_template_beside_the_outline_keeps_its_distance(tmp_path: Path) -> None:
    """Six lobes grow, six hollows shrink by as much: a turn more in all, 2 π · 3 mm longer (J. Steiner)."""
    found = build("knob.outline", {"beside": "3 mm"}, **HEXAGON)
    read = arcs(found.output("template").write(tmp_path, "knob", MM)[2], "PHANTOM")
    assert along(read) == pytest.approx(188.49556 + 2 * math.pi * 3, abs=1e-4)
    with pytest.raises(KitError, match=r"hollow of radius 10 mm, which comes to a corner 12 mm outside"):
        build("knob.outline", {"beside": "12 mm"}, **HEXAGON).picture("template").draw(MM)


def test_lobes_that_run_into_each_other_are_no_outline() -> None:
    with pytest.raises(KitError, match=r"half a lobe is 12.* more than the .* take smaller lobes or fewer"):
        build("knob.outline", {}, lobes=9, outer_radius="20 mm", lobe_radius="12 mm", hollow_depth="5 mm")


FINGERS: dict[str, Any] = {
    "thread": "M8", "ply": "6 mm", "foot": "10 mm", "washer": "1.6 mm", "stud": "30 mm", "face_washer": "1.6 mm",
    "room": "2 mm", "roof_plies": 1,
}  # fmt: skip


def test_plies_counted_on_fingers() -> None:
    """Two foot plies, two round nut and washer, two round the stud's end, one roof: 42 mm, worked by hand."""
    rows = build("knob.plies", {}, **FINGERS).rows("Drilling schedule").rows
    holes = [row[3] for row in rows]
    assert holes == ["9.0 mm", "9.0 mm", "15.3 mm", "15.3 mm", "9.0 mm", "9.0 mm", "none"]
    assert rows[-1][:3] == ("7", "36.0 mm", "42.0 mm")


def test_the_outline_takes_the_schedule() -> None:
    plies = build("knob.plies", {}, **FINGERS)
    found = build("knob.outline", {}, takes={"plies": plies})
    assert found.rows("Drilling schedule") == plies.rows("Drilling schedule")
    with pytest.raises(KitError, match=r"name a part with the model 'knob.plies'"):
        build("knob.outline", {}, takes={"plies": build("reading.cuts", {})})


# -- the chain ----------------------------------------------------------------------------------------

NOTHING: dict[str, Any] = {
    **dict.fromkeys(("tape", "zero", "reading", "block", "play", "fence_bow", "seating"), "0 mm"),
    "warmth": "0 K", "moisture": "0 %", "push": "0 N", "squareness": "0 deg",
}  # fmt: skip


def test_conventions_side_by_side() -> None:
    """0.3, 0.4 and 1.2: worst 1.9, root sum of squares 1.3, k = 2: 2 · 1.3/√3 = 1.50 (worked by hand)."""
    found = build("accuracy.chain", {}, **{**NOTHING, "tape": "0.3 mm", "zero": "0.4 mm", "blade": "1.2 mm"})
    halves = [row[1] for row in found.rows("Side by side").rows]
    assert halves[:3] == ["± 1.90 mm", "± 1.30 mm", "± 1.50 mm"]
    assert 1.2 < float(halves[3].split()[1]) < 1.5  # the wide rectangle is not a bell


def test_what_must_be_improved() -> None:
    """0.3 and 0.4 make u = 0.5/√3; for U = 0.4 the squares may sum to 0.12: 0.4 alone comes down to √0.03 = 0.17."""
    givens = {**NOTHING, "tape": "0.3 mm", "zero": "0.4 mm", "blade": "0.005 mm", "wish": "0.4 mm"}
    rows = build("accuracy.chain", {}, **givens).rows("What must be improved").rows
    assert rows[0][1:4] == ("± 0.400 mm", "64 %", "± 0.173 mm")
    assert rows[1][1:4] == ("± 0.300 mm", "36 %", "not enough alone")
    assert [row[4] for row in rows] == ["± 0.245 mm", "± 0.245 mm", "may stay"]  # √(0.12/2) each


def test_the_plots_come_by_a_task() -> None:
    work = subject("accuracy.chain")
    assert work is not None
    (task,) = work.tasks.values()
    found = task(build_input(model("accuracy.chain").at(), display=MM), lambda _share, _words: True)
    for number, picture in enumerate(found.pictures):
        html = build_section.picture(picture, INCHES, ids=f"p{number}", still=True)
        assert "<svg" in html
        assert picture.words in html


LENGTHS = [600.18, 600.25, 600.31, 600.22, 600.14]


def batch(lengths: list[float] = LENGTHS, **shape: Any) -> Any:
    told = {"lengths": [f"{each} mm" for each in lengths], **shape}
    return build("accuracy.batch", told, mean="600.22 mm", deviation="0.065192 mm", cuts="5 parts")


def test_measured_parts_against_another_library() -> None:
    """Mean and deviation by the standard library, the ends by scipy's own intervals."""
    found = batch()
    mean, deviation = statistics.fmean(LENGTHS), statistics.stdev(LENGTHS)
    low, high = stats.t.interval(0.95, 4, mean, deviation / 5**0.5)
    assert found.number("mean").base == pytest.approx(mean, rel=1e-12)
    assert found.number("mean").half == pytest.approx((high - low) / 2, rel=1e-9)
    assert found.number("deviation").base == pytest.approx(deviation, rel=1e-9)
    ends = [deviation * (4 / stats.chi2.ppf(p, 4)) ** 0.5 for p in (0.975, 0.025)]
    assert [found.number(name).base for name in ("low", "high")] == pytest.approx(ends, rel=1e-9)
    assert found.ok


def test_what_is_proposed_is_what_the_list_says() -> None:
    work = subject("accuracy.batch")
    assert work is not None
    assert work.propose is not None
    shape = {"lengths": [f"{each} mm" for each in LENGTHS]}
    proposed: dict[str, Any] = work.propose(build_input(model("accuracy.batch").at(), shape, display=MM))
    assert proposed["mean"] == "600.220 mm"
    assert float(proposed["student"]) == pytest.approx(2.776, abs=0.0005)  # any table, 4 degrees of freedom
    assert model("accuracy.batch").at(**proposed).base["bias"] == pytest.approx(0.22, abs=1e-9)


def test_parts_that_measure_alike_tell_no_scatter() -> None:
    with pytest.raises(KitError, match=r"all 3 parts measure alike; measure them finer"):
        givens_of([600.0] * 3, MM)
    assert build("accuracy.batch", {"lengths": ["600 mm"] * 3}).number("deviation").base == 0


def test_a_list_that_is_not_what_the_model_has_is_told() -> None:
    found = batch([*LENGTHS, 601.0])
    failed = {held.name: held.words() for held in found.checks if not held.ok}
    assert {*failed} == {"entered", "within"}
    assert "part 6 is outside the tolerance" in failed["within"]
    assert "press Propose" in failed["entered"]


def test_no_parts_say_how_to_enter_them() -> None:
    found = build("accuracy.batch", {})
    assert "Enter measured parts" in found.cautions[0]
    assert not found.numbers


@pytest.mark.parametrize(
    ("shape", "told"),
    [
        ({"lengths": ["600.1 mm"]}, r"1 measured part shows no scatter"),
        ({"lengths": ["600.1 mm", "600 kg"]}, r"lengths, number 2: lengths: .*mass"),
        ({"lengths": ["600.1 mm", "600.2 mm"], "next": 0}, r"next is 0"),
        ({"lengths": "600.1 mm"}, r"write a list"),
    ],
)
def test_a_list_that_cannot_be_read_gets_one_sentence(shape: dict[str, Any], told: str) -> None:
    with pytest.raises(KitError, match=told):
        build("accuracy.batch", shape)


@pytest.mark.parametrize("display", [MM, INCHES])
def test_the_picture_tells_in_words(display: Display) -> None:
    scene = batch().picture("parts").draw(display)
    assert "5 parts" in scene.alt
    assert ("in" if display.system == "in" else "mm") in scene.alt
