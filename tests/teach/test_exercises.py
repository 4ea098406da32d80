"""Exercises of every model: one answer is right, it is worked a second way, and the task does not tell it."""

import math
import random
import re
from dataclasses import replace
from html import unescape

import pytest

from kit.core.errors import KitError
from kit.core.quantity import Display, show_in
from kit.subjects import model, names
from kit.teach import Choice, Exercise, Judgment, Typed, about, exercises
from kit.teach.kinds import KINDS, mend
from kit.teach.picture import hidden
from kit.teach.second_way import agrees
from kit.teach.task import task, way


def words(html: str) -> str:
    """The text of some HTML, as somebody reads it."""
    return unescape(re.sub(r"<[^>]+>", " ", html))


def pairs() -> list[tuple[str, str]]:
    """Every model, in millimeters and in inches by turns."""
    return [(name, ("mm", "in")[n % 2]) for n, name in enumerate(names())]


@pytest.mark.parametrize(("name", "system"), pairs())
def test_every_model_asks_of_every_kind_what_can_be_answered(name: str, system: str) -> None:
    display = Display(system=system)  # type: ignore[arg-type]
    asked = exercises([model(name).at()], len(KINDS), seed=3, display=display, accept=agrees)
    assert len(asked) == len(KINDS)
    for n, each in enumerate(asked):
        told = words(task(each, ids=f"task{n}"))
        if isinstance(each, Typed):
            assert all(each.judge(text).right for text in each.answer.split(" or "))
            if each.kind != "read":
                assert not tells(told, each)
        if isinstance(each, Choice):
            assert sum(option.right for option in each.options) == 1
            assert each.judge(each.answer[0]).right
            assert all(each.judge(letter).right == (letter == each.answer[0]) for letter in "abcd"[: len(each.options)])
    assert all("<math" in way(each) for each in asked if each.steps)


def tells(told: str, exercise: Typed) -> bool:
    """Whether a right answer stands in a task in any number of digits from 3 on, other than as a given."""
    unit = exercise.display.unit_for(exercise.case.model.part(exercise.about).unit)
    given = {entry.given.show(entry.base, exercise.display) for entry in exercise.case.entries.values()}
    ways = {show_in(value, unit, digits=digits) for value in exercise.values for digits in (3, 4, 5, 6)}
    ways |= {exercise.case.model.part(exercise.about).show(value, exercise.display) for value in exercise.values}
    numbers = {text for text in ways - given if re.search(r"[1-9].*[1-9].*[1-9]", text)}
    return any(re.search(rf"(?<![\d.]){re.escape(text)}(?![\d.])", told) for text in numbers)


def test_the_seed_decides_what_is_asked() -> None:
    case = model("bevel.frame").at()
    drawn = [
        [each.ask + each.answer for each in exercises([case], 6, seed=seed, display=Display())] for seed in (5, 5, 6)
    ]
    assert drawn[0] == drawn[1] != drawn[2]


def test_a_wrong_key_is_found_the_second_way(miter: Typed) -> None:
    assert agrees(miter)
    assert not agrees(replace(miter, values=(miter.values[0] * 1.00001,)))


def test_what_mends_a_design_does_so_and_nothing_else_offered_does() -> None:
    """By working the model point by point, where the exercise works it over arrays."""
    case = model("stop.deflection").at()
    made = mend(case, Display(), random.Random(2))
    assert isinstance(made, Choice)
    helps = "makes all limits hold" in made.ask
    meaning = {given.meaning.split(";")[0]: name for name, given in case.model.free.items()}
    for option in made.options:
        given = case.model.free[meaning[option.text]]
        low, high = given.span
        tried = [given.unit.from_base(low + (high - low) * n / 60) for n in range(61)]
        mended = any(made.case.changed({given.name: value}).ok for value in tried)
        assert mended == (option.right == helps)


@pytest.fixture
def miter() -> Typed:
    """The miter of a frame with drawn sides and slope."""
    return about(model("bevel.frame").at(), "miter", ["sides", "slope"], seed=4, display=Display())


def by_hand(exercise: Exercise) -> tuple[float, float]:
    """Miter and tilt in degrees by the rules of the splayed ring."""
    s, n = exercise.case.base["slope"], exercise.case.base["sides"]
    miter = math.atan(math.cos(s) * math.tan(math.pi / n))
    return math.degrees(miter), math.degrees(math.asin(math.sin(s) * math.sin(math.pi / n)))


def test_an_answer_is_taken_in_any_unit_and_within_its_rounding(miter: Typed) -> None:
    answer, _ = by_hand(miter)
    digit = 10 ** (math.floor(math.log10(answer)) - 2)
    assert miter.judge(f"{answer:.3g} deg").right
    assert miter.judge(f"{math.radians(answer):.6f} rad").right
    assert "deg taken" in miter.judge(f"{answer:.6f}").words
    assert "too large" in miter.judge(f"{answer + 0.6 * digit} deg").words
    assert "too small" in miter.judge(f"{answer - 0.6 * digit} deg").words


def told(judged: Judgment) -> str:
    assert not judged.right
    return judged.mistake


def test_wrong_turns_are_named_and_their_cost_is_told(miter: Typed) -> None:
    answer, tilt = by_hand(miter)
    assert "miter and tilt were swapped" in told(miter.judge(f"{tilt:.3g} deg"))
    assert "other zero" in told(miter.judge(f"{90 - answer:.4f} deg"))
    assert "sign" in told(miter.judge(f"{-answer:.4f} deg"))
    assert "doubled" in told(miter.judge(f"{2 * answer:.4f} deg"))
    assert "halved" in told(miter.judge(f"{answer / 2:.4f} deg"))
    opens = 100 * math.tan(math.radians(answer))  # mm over 100 mm
    assert f"{opens:.1f} mm" in miter.judge(f"{2 * answer:.5f} deg").words


def test_a_calculator_in_radians_and_a_forgotten_inch_are_seen() -> None:
    frame = about(model("bevel.frame").at(), "height", ["slope", "width"], seed=2, display=Display())
    width, slope = frame.case.base["width"], math.degrees(frame.case.base["slope"])
    assert "set to radians" in told(frame.judge(f"{width * math.sin(slope):.4g} mm"))
    right = width * math.sin(math.radians(slope))
    assert "inches" in told(frame.judge(f"{right / 25.4:.4g} mm"))
    assert "decimal point" in told(frame.judge(f"{right / 10:.4g} mm"))


def test_a_step_rounded_too_early_is_seen() -> None:
    """A second moment from a centroid rounded to two digits, worked here by the parallel axes."""
    plain = about(
        model("stop.section").at(), "second_moment", ["block_width", "block_height"], seed=1, display=Display()
    )
    b, h, n, s, t = (
        plain.case.base[name] for name in ("block_width", "block_height", "modular_ratio", "rib_rise", "rib_depth")
    )
    y = plain.case.base["rib_middle"]
    c = float(f"{(b * b * h / 2 + n * s * t * y) / (b * h + n * s * t):.1e}")
    early = h * b**3 / 12 + b * h * (c - b / 2) ** 2 + n * (s * t**3 / 12 + s * t * (y - c) ** 2)
    judged = plain.judge(f"{early:.5g} mm^4")
    assert judged.right or "rounded to 2 digits" in judged.mistake


def test_what_cannot_be_read_or_asked_is_explained(miter: Typed) -> None:
    for typed, said in (("5 kg", "kg"), ("", "Type a value"), ("__import__('os')", "__import__")):
        assert said in miter.judge(typed).words
    for vary, said in ((["joint"], "joint is not a number"), (["slop"], "did you mean 'slope'")):
        with pytest.raises(KitError, match=said):
            about(model("bevel.frame").at(), "miter", vary, seed=1, display=Display())
    with pytest.raises(KitError, match="did you mean 'miter'"):
        about(model("bevel.frame").at(), "mitre", ["slope"], seed=1, display=Display())
    with pytest.raises(KitError, match="ask for one or more"):
        exercises([], 3, seed=1, display=Display())


def test_only_givens_keep_their_numbers_in_a_figure() -> None:
    assert hidden("L = 360.0 mm, d = 12.5 mm", {"360.0 mm"}) == "L = 360.0 mm, d = ? mm"
    assert hidden("ℓ_{1} = 23 5/8 in", {"6"}) == "ℓ_{1} = ? in"
    assert hidden("6 sides, 62.6 mm", {"6"}) == "6 sides, ? mm"
