"""Scales against bodies placed in space, a ray traced through a window, and drawing at random."""

from math import asin, sin, tan

import numpy as np
import pytest
from scipy.optimize import brentq

from kit.core.errors import KitError
from kit.core.model import find
from kit.core.uncertainty import monte_carlo
from kit.subjects import model

ZERO, TAPE, CURSOR, TWO = (model(f"scale.{name}") for name in ("zero", "tape", "cursor", "calibration"))


class Bench:
    """A saw seen from above, built from its bodies: the flange's face at x = 0, a tape glued where it was laid."""

    def __init__(self, v: dict[str, float]) -> None:
        self.v = v
        self.out = -1 if v["stop_side"] == 0 else 1  # toward the stop
        self.flange_left = v["flange_side"] == 0

    def plate(self, thickness: float) -> tuple[float, float]:
        """The plate's two faces, left and right."""
        return (0.0, thickness) if self.flange_left else (-thickness, 0.0)

    def kerf_face(self, kerf: float, thickness: float) -> float:
        """Where the teeth cut at most, toward the stop, turning with half of the run-out to each side."""
        left, right = self.plate(thickness)
        half = (kerf + self.v["runout"]) / 2
        return (left + right) / 2 + self.out * half

    def lay_tape(self) -> None:
        """Cut the tape at its mark and lay that end into the recess's end."""
        faces = self.plate(self.v["plate"])
        near = faces[1] if self.out > 0 else faces[0]
        self.recess = near + self.out * self.v["datum"]

    def read(self, stop_face: float, offset: float) -> float:
        """What the cursor reads on the tape with the stop's face there."""
        return self.out * (stop_face + self.out * offset - self.recess) + self.v["cut_mark"]

    def part(self, reading: float, offset: float, kerf: float, thickness: float) -> float:
        """Set the stop to a reading, cut, and measure the part."""
        face = brentq(lambda x: self.read(x, offset) - reading, -1e4, 1e4, xtol=1e-12)
        return abs(face - self.kerf_face(kerf, thickness))


@pytest.mark.parametrize("stop", ["left", "right"])
@pytest.mark.parametrize("flange", ["left", "right"])
@pytest.mark.parametrize("reference", ["kerf face", "tooth tip"])
def test_parts_cut_on_a_bench_of_bodies(stop: str, flange: str, reference: str) -> None:
    v = dict(ZERO.at(stop_side=stop, flange_side=flange, reference=reference, runout="0.3 mm").base)
    bench = Bench(v)
    bench.lay_tape()
    made = bench.part(500.0, v["cursor"], v["kerf"], v["plate"])
    assert made - 500.0 == pytest.approx(v["reading_error"], abs=1e-9)
    assert (v["reading_error"] == 0) == (reference == "kerf face")
    other = bench.part(500.0, v["cursor"], v["new_kerf"], v["new_plate"])
    assert other - 500.0 == pytest.approx(v["part_change"], abs=1e-9)
    mended = bench.part(500.0, v["cursor_new"], v["new_kerf"], v["new_plate"])
    assert mended == pytest.approx(500.0, abs=1e-9)
    # The tape's zero mark lies where a reading of nothing puts the cursor line.
    assert bench.read(v["zero_place"] - bench.out * v["cursor"], v["cursor"]) == pytest.approx(0, abs=1e-9)


def test_the_two_zeros_of_a_bench_with_two_scales() -> None:
    left, right = (ZERO.at(stop_side=side).base for side in ("left", "right"))
    assert right["zero_place"] - left["zero_place"] == pytest.approx(right["zeros_apart"], abs=1e-9)


def test_a_mark_below_nothing_is_told() -> None:
    case = ZERO.at(datum="30 mm", cursor="60 mm")
    (told,) = [state.words() for state in case.checks if not state.ok]
    assert "begin the recess farther from the blade" in told


def test_class_steps_at_every_meter_begun() -> None:
    lengths = np.array([10.0, 999.0, 1000.0, 1000.5, 2000.0, 2001.0])
    found = TAPE.compute({"reading": lengths, "base_error": 0.3, "growth": 0.2e-3}, ("class_error",))["class_error"]
    assert found == pytest.approx([0.5, 0.5, 0.5, 0.7, 0.7, 0.9])


def test_a_tape_laid_mark_by_mark() -> None:
    """A thousand pieces, each grown by its own history: printed at 20 °C, pulled, glued at T1, carried to T2."""
    v = TAPE.at(pull="20 N", laid_at="12 °C", used_at="31 °C").base
    kelvin = 273.15
    piece = v["reading"] / 1000
    pieces = np.full(1000, piece)
    pieces *= 1 + v["tape_expansion"] * (v["laid_at"] - 20 - kelvin)
    pieces *= 1 + v["pull"] / (v["tape_width"] * v["tape_thickness"] * v["tape_modulus"])
    pieces *= 1 + v["carrier_expansion"] * (v["used_at"] - v["laid_at"])
    assert pieces.sum() - v["reading"] == pytest.approx(v["known_error"], rel=1e-3)


def test_a_free_tape_forgets_its_pull_and_its_carrier() -> None:
    v = TAPE.at(laid="free", pull="80 N", used_at="20 °C").base
    assert v["known_error"] == 0
    assert v["true_length"] == v["reading"]


def test_rectangle_by_drawing() -> None:
    mpe = TAPE.at().base["class_error"]
    drawn = np.random.default_rng(3).uniform(-mpe, mpe, 400_000)
    assert drawn.std() == pytest.approx(TAPE.at().base["class_u"], rel=3e-3)


def traced(v: dict[str, float]) -> float:
    """Trace the ray from the eye through the line on a window's top, refracted by Snell's law, down to the scale."""
    above = v["eye_height"] - v["gap"] - v["window"]

    def below(angle: float) -> float:
        inside = asin(sin(angle) / v["index"])
        return v["window"] * tan(inside) + v["gap"] * tan(angle)

    angle = brentq(lambda a: above * tan(a) - v["eye_offset"], 0.0, 1.5)
    return below(angle)


@pytest.mark.parametrize(("offset", "within"), [(5, 1e-2), (60, 1.2e-2), (180, 5e-2)])
def test_window_by_a_traced_ray(offset: float, within: float) -> None:
    v = dict(CURSOR.at(line="top of window", eye_offset=offset, gap="1 mm").base)
    assert v["parallax"] == pytest.approx(traced(v), rel=within)


def test_reading_by_drawing_the_eye() -> None:
    """The eye anywhere within its offset to either side, the estimate anywhere within its part of a division."""
    v = CURSOR.at(gap="2 mm", allowed="1 mm").base
    rng = np.random.default_rng(4)
    e = rng.uniform(-v["eye_offset"], v["eye_offset"], 400_000)
    g, H = v["apparent_gap"], v["eye_height"]
    seen = -e * g / (H - g) + rng.uniform(-1, 1, e.size) * v["estimate"] * v["division"]
    assert seen.std() == pytest.approx(v["u"], rel=3e-3)


def test_what_is_still_allowed_meets_the_limit() -> None:
    v = CURSOR.at(allowed="0.25 mm", gap="3 mm").base
    moved = CURSOR.at(allowed="0.25 mm", gap="3 mm", eye_offset=v["offset_allowed"]).base
    nearer = CURSOR.at(allowed="0.25 mm", gap=v["gap_allowed"]).base
    assert moved["parallax"] == pytest.approx(0.25)
    assert nearer["parallax"] == pytest.approx(0.25)


def test_two_cuts_by_drawing() -> None:
    """Both cuts drawn at random, the line put through each pair: the spread of zero, scale and corrected part."""
    v = TWO.at().base
    rng = np.random.default_rng(6)
    L = np.array([[v["part_1"]], [v["part_2"]]]) + rng.normal(0, v["cut_u"], (2, 400_000))
    lines = np.linalg.solve([[1, v["reading_1"]], [1, v["reading_2"]]], L)
    assert lines[0].std() == pytest.approx(v["zero_u"], rel=5e-3)
    assert lines[1].std() == pytest.approx(v["scale_u"], rel=5e-3)
    assert np.corrcoef(lines)[0, 1] == pytest.approx(v["correlation"], abs=2e-3)
    at = lines[0] + lines[1] * v["set_to"]
    assert at.mean() == pytest.approx(v["target"], abs=1e-3)
    assert at.std() == pytest.approx(v["line_u"], rel=5e-3)


def test_the_models_own_drawing_agrees() -> None:
    """Half-widths of the two parts set to make them rectangles of the cut's standard uncertainty."""
    half = 0.08 * 3**0.5
    case = TWO.at(part_1=f"300.25 ± {half} mm", part_2=f"1100.5 ± {half} mm")
    drawn = monte_carlo(case, ("zero",), draws=200_000, seed=2)
    assert drawn["zero"].u == pytest.approx(case.base["zero_u"], rel=1e-2)


def test_trust_ends_where_the_band_is_allowed() -> None:
    v = TWO.at().base
    for end in ("trust_from", "trust_to"):
        there = TWO.at(target=v["zero"] + (1 + v["scale_error"]) * v[end]).base
        assert there["expanded"] == pytest.approx(v["allowed"], rel=1e-9)
    nowhere = TWO.at(cut_u="0.5 mm").base
    assert nowhere["trust_from"] == nowhere["trust_to"] == nowhere["surest"]


@pytest.mark.parametrize(
    ("name", "unknown", "result", "goal"),
    [
        ("zero", "cursor", "cut_mark", "200 mm"),
        ("cursor", "eye_offset", "parallax", "0.1 mm"),
        ("cursor", "gap", "parallax", "0.1 mm"),
        ("calibration", "cut_u", "expanded", "0.2 mm"),
        ("calibration", "target", "set_to", "650 mm"),
        ("tape", "pull", "stretch_error", "0.05 mm"),
    ],
)
def test_turned_round_in_closed_form(name: str, unknown: str, result: str, goal: str) -> None:
    stated = model(f"scale.{name}")
    found = find(stated.at(), unknown, result, goal)
    assert found.how == "closed form"
    (value,) = found.values
    again = stated.compute({unknown: value}, (result,))[result]
    assert float(again) == pytest.approx(float(goal.split()[0]), rel=1e-9)


def test_test_cuts_may_be_told_in_any_order() -> None:
    forth = TWO.at().base
    back = TWO.at(reading_1="1100 mm", part_1="1100.5 mm", reading_2="300 mm", part_2="300.25 mm").base
    for name in TWO.results:
        assert back[name] == pytest.approx(forth[name], rel=1e-9), name


def test_two_cuts_at_one_reading_say_nothing() -> None:
    with pytest.raises(KitError, match="has no part's length for each unit read"):
        TWO.at(reading_1="300 mm", reading_2="300 mm")
