"""A printed scale read back: every tick measured in the file against its own number, in mm and inches."""

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from kit.core.errors import KitError
from kit.drawing.export import PaperPlan, PrinterScale, save
from kit.drawing.svg import svg_file
from kit.subjects.scale.scale_strip_drawing import Strip, strip_scene, ticks
from tests.drawing.pdf_reading import pages, straight
from tests.drawing.reading import read

WRITTEN = 1.0e-4  # mm: an SVG file has four decimals, and each end of a distance is rounded


def placed(strip: Strip, *, top: bool = True) -> list[tuple[float, float]]:
    """Return place along the strip and length of every tick of a row, read back from its SVG file, left to right."""
    drawn = read(svg_file(strip_scene(strip)))
    paths = drawn.lines("construction")
    (frame,) = [path for path in paths if len(path) == 4]
    left, high = min(x for x, _ in frame), (min if top else max)(y for _, y in frame)
    uprights = [path for path in paths if len(path) == 2 and path[0][0] == path[1][0]]
    row = [path for path in uprights if abs(path[0][1] - high) <= WRITTEN]
    return sorted((path[0][0] - left, abs(path[1][1] - path[0][1])) for path in row)


def test_the_file_is_in_true_millimeters() -> None:
    drawn = read(svg_file(strip_scene(Strip(200.0))))
    assert drawn.root.attrib["width"] == f"{drawn.box[2]:.10g}mm"
    assert drawn.root.attrib["height"] == f"{drawn.box[3]:.10g}mm"


def test_millimeters_of_a_long_strip() -> None:
    """2.4 m: the last tick stands at 2,400 mm, not at the sum of 2,400 rounded steps."""
    found = placed(Strip(2400.0))
    assert len(found) == 2401
    assert [place for place, _ in found] == pytest.approx(list(range(2401)), abs=WRITTEN)
    lengths = {n: found[n][1] for n in (0, 1, 5, 10, 2400)}
    assert lengths[1] < lengths[5] < lengths[10]
    assert lengths[0] == lengths[10] == lengths[2400]


@pytest.mark.parametrize("division", [2, 8, 16, 32])
def test_inch_fractions(division: int) -> None:
    """An inch is 25.4 mm by definition (1959); tick k of n stands at 25.4 k/n."""
    found = placed(Strip(60 * 25.4, unit="in", division=division))
    assert len(found) == 60 * division + 1
    for number in (1, division - 1, 7 * division + 1, 60 * division):
        assert found[number][0] == pytest.approx(25.4 * number / division, abs=WRITTEN)
    by_rank = [found[division // part][1] for part in (1, 2, 4, 8, 16, 32) if part <= division]
    assert by_rank == sorted(by_rank, reverse=True)
    assert len(set(by_rank)) == len(by_rank)


def test_ticks_are_exact_to_the_last_bit() -> None:
    strip = Strip(9000.0, unit="in", division=32)
    assert all(tick.place == float(Fraction(254, 320) * tick.number) for tick in ticks(strip))


def test_a_strip_that_is_cut_at_a_mark() -> None:
    """Cut at 219.45 mm the first tick, 220, stands 0.55 mm in."""
    found = placed(Strip(300.0, first=219.45))
    assert found[0][0] == pytest.approx(0.55, abs=WRITTEN)
    assert len(found) == 300


def test_reading_to_the_left_is_the_mirror_image() -> None:
    right, left = (placed(Strip(300.0, first=219.45, reads=way)) for way in ("right", "left"))  # type: ignore[arg-type]
    assert [300.0 - place for place, _ in reversed(left)] == pytest.approx([p for p, _ in right], abs=WRITTEN)
    words = read(svg_file(strip_scene(Strip(100.0, reads="left")))).words()
    assert float(words["10"].attrib["x"]) > float(words["90"].attrib["x"])


def test_the_second_row_is_shifted_by_the_block() -> None:
    """A block of 153.7 mm: where the upper row reads 253.7 the lower one says 100."""
    strip = Strip(300.0, first=200.0, shift=153.7)
    lower = placed(strip, top=False)
    upper = placed(strip)
    assert upper[0][0] == pytest.approx(0, abs=WRITTEN)
    assert lower[0][0] == pytest.approx(47 - (200 - 153.7), abs=WRITTEN)  # its first whole millimeter is 47
    at_100 = [place for place, _ in lower if abs(place + 200 - 253.7) < 2 * WRITTEN]
    assert len(at_100) == 1
    # A lower row has no targets below zero.
    short = Strip(300.0, first=100.0, shift=153.7)
    assert placed(short, top=False)[0][0] == pytest.approx(53.7, abs=WRITTEN)


def test_numbers_stand_at_their_ticks() -> None:
    strip = Strip(6.5 * 25.4, first=16 * 25.4, unit="in", division=16, shift=17 * 25.4)
    drawn = read(svg_file(strip_scene(strip)))
    (frame,) = [path for path in drawn.lines("construction") if len(path) == 4]
    left = min(x for x, _ in frame)
    for text, inches in (("17", 1), ("22", 6), ("1", 2), ("5", 6)):
        assert float(drawn.words()[text].attrib["x"]) - left == pytest.approx(25.4 * inches, abs=0.01)


def test_stretched_for_a_printer_that_shrinks() -> None:
    """A printer that makes 99.6 mm of 100 mm needs 100/99.6 times as much."""
    found = placed(Strip(500.0, stretch=(100 / 99.6, 1.0)))
    assert found[-1][0] * 0.996 == pytest.approx(500.0, abs=2 * WRITTEN)


@pytest.mark.parametrize("printer", [PrinterScale(), PrinterScale(100.0, 99.6)], ids=["true", "shrinks"])
def test_saved_as_pdf_at_full_size(tmp_path: Path, printer: PrinterScale) -> None:
    """Ticks 25.4/16 mm apart over a meter on a roll; the plan makes up for a printer that feeds 99.6 mm of 100."""
    strip = Strip(40 * 25.4, unit="in", division=16)
    paper = PaperPlan(roll=610.0, printer=printer)
    (path,) = save(strip_scene(strip), tmp_path, "scale", ["pdf"], paper=paper)
    (page,) = pages(path.read_bytes())
    tall = 0.42 * strip.width  # an inch's tick, as the scene has it
    found = sorted(line.points[0][0] for line in straight(page) if abs(line.length - tall) < 1e-3)
    feed = 100 / printer.y  # the roll feeds along the strip
    assert [x - found[0] for x in found] == pytest.approx([25.4 * n * feed for n in range(41)], abs=2e-3)


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ({"shift": 900.0}, "The block is 900 mm long and the strip ends at reading 800 mm"),
        ({"length": -5.0}, "length is -5 mm; it must be between 10 and 10000 mm"),
        ({"length": float("nan")}, "length is nan mm"),
        ({"first": -1.0}, "first reading is -1 mm"),
        ({"division": 3}, "divides a mm into 3; allowed are 1, 2"),
        ({"unit": "in", "division": 64}, "divides a in into 64; allowed are 2, 4, 8, 16, 32"),
        ({"unit": "cm"}, "allowed are 'mm' and 'in'"),
        ({"reads": "up"}, "allowed are 'right' and 'left'"),
        ({"width": 8.0, "shift": 100.0}, "width is 8 mm; it must be between 11 and 60 mm"),
        ({"stretch": (1.2, 1.0)}, "stretched 1.2 times"),
    ],
)
def test_a_strip_that_cannot_be_gets_one_sentence(changes: dict[str, object], told: str) -> None:
    with pytest.raises(KitError) as caught:
        replace(Strip(700.0, first=100.0), **changes)  # type: ignore[arg-type]
    assert told in str(caught.value)
    assert str(caught.value).rstrip(".").count(". ") == 0
