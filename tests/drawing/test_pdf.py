"""Full-size paper, measured by reading it back with PDFium. Lengths expected are worked out by hand.

On paper a printed length is the PDF's length times the printer's own error; with the error compensated, that
product must be true again.
"""

from dataclasses import replace
from io import BytesIO
from math import dist, pi

import pytest
from pypdf import PdfReader

from kit.core.errors import KitError
from kit.drawing.paper import PaperPlan, PrinterScale
from kit.drawing.pdf import fitted, pdf
from kit.drawing.scene import Layer, Scene
from kit.drawing.sheetmarks import TitleBlock
from tests.drawing.pattern import pattern
from tests.drawing.pdf_reading import Path, pages, paths, size, straight, words

TRUE = 0.05  # mm per 100 mm: what a printed pattern is allowed
PRINTER = PrinterScale.measured("99.37 mm", "201.1 mm")  # short along x, long along y
PRINTS_X, PRINTS_Y = 0.9937, 1.0055
PLANS = {
    "A4": PaperPlan(),
    "A3": PaperPlan("A3", overlap=15),
    "Letter": PaperPlan("Letter", margin=8),
    "Tabloid": PaperPlan("Tabloid", orientation="portrait"),
    "lying": PaperPlan(orientation="landscape"),
    "roll": PaperPlan(roll=1067),
    "A4, printer": PaperPlan(printer=PRINTER),
    "Letter lying, printer": PaperPlan("letter", orientation="landscape", printer=PRINTER),
    "roll, printer": PaperPlan(roll=914.4, printer=PRINTER),
}


def printed(path: Path, page: tuple[float, float], plan: PaperPlan) -> tuple[float, float]:
    """Return how long a level or upright line comes out of the printer, across and up the page."""
    # The printer's x lies along the short side; a roll's is its width.
    x_is_across = page[0] < page[1] if plan.roll is None else abs(page[0] - plan.roll) < 1e-3
    across, up = (PRINTS_X, PRINTS_Y) if x_is_across else (PRINTS_Y, PRINTS_X)
    if plan.printer == PrinterScale():
        across = up = 1.0
    (x0, y0), (x1, y1) = path.points[0], path.points[-1]
    return abs(x1 - x0) * across, abs(y1 - y0) * up


@pytest.mark.parametrize("plan", PLANS.values(), ids=PLANS)
def test_check_bars_are_true_on_every_page_in_both_directions(plan: PaperPlan) -> None:
    for page in pages(pdf(pattern(), plan)):
        bars = [printed(line, size(page), plan) for line in straight(page) if line.width == pytest.approx(0.26)]
        for bar in (100.0, 101.6):  # 100 mm and 4 in
            assert any(abs(x - bar) <= TRUE and y < 1e-3 for x, y in bars), "no bar across"
            # Where the page has room, the bar along its height is twice as long.
            assert any((abs(y - bar) <= TRUE or abs(y - 2 * bar) <= 2 * TRUE) and x < 1e-3 for x, y in bars), (
                "no bar up"
            )


@pytest.mark.parametrize("plan", PLANS.values(), ids=PLANS)
def test_the_drawing_is_true_on_every_page(plan: PaperPlan) -> None:
    read = pages(pdf(pattern(), plan))
    assert len(read) > 1 or plan.roll is not None
    for page in read[0 if plan.roll is not None else 1 :]:
        lines = [printed(line, size(page), plan) for line in straight(page) if line.width == 0.5]
        # The lower edge, 900 mm, and the right one, 640 mm.
        assert min(abs(x - 900) + y for x, y in lines) <= 9 * TRUE
        assert min(abs(y - 640) + x for x, y in lines) <= 6 * TRUE


def test_paper_sizes_are_those_of_the_standards() -> None:
    for name, across, up in (
        ("A4", 210, 297),
        ("A3", 297, 420),
        ("Letter", 215.9, 279.4),
        ("Tabloid", 279.4, 431.8),
    ):
        for page in pages(pdf(pattern(), PaperPlan(name, orientation="portrait"))):
            assert size(page) == pytest.approx((across, up), abs=1e-3)


def test_compensation_stretches_x_and_y_each_by_its_own_error() -> None:
    scene = Scene("Square", "A square.")
    scene.rectangle((0, 0), (120, 120))
    (page,) = pages(pdf(scene, PaperPlan(roll=300, orientation="portrait", printer=PRINTER)))
    (square,) = [path for path in paths(page) if len(path.points) == 5]
    a, b, c, *_ = square.points
    assert dist(a, b) == pytest.approx(120 / PRINTS_X, abs=1e-3)
    assert dist(b, c) == pytest.approx(120 / PRINTS_Y, abs=1e-3)


def test_arcs_are_round_to_a_hundredth() -> None:
    scene = Scene("Hole", "A large hole.")
    scene.circle((0, 0), 1500)
    (page,) = pages(pdf(scene, PaperPlan(roll=3100)))
    (circle,) = [path for path in paths(page) if path.curved]
    points = circle.points
    xs, ys = zip(*points[::3], strict=True)
    center = ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)
    for k in range(0, len(points) - 3, 3):
        p, q, r, s = points[k : k + 4]
        middle = (
            (p[0] + 3 * q[0] + 3 * r[0] + s[0]) / 8,
            (p[1] + 3 * q[1] + 3 * r[1] + s[1]) / 8,
        )  # Bézier at 1/2
        assert dist(p, center) == pytest.approx(1500, abs=0.01)
        assert dist(middle, center) == pytest.approx(1500, abs=0.01)


def test_line_kinds_have_their_widths_and_dashes_in_paper_mm() -> None:
    lines = {path.dashes: path.width for path in paths(pages(pdf(pattern(), PaperPlan(roll=1067)))[0]) if path.dashes}
    # ISO 128-2, from memory: dash 12, gap 3, long dash 24 widths; narrow 0.25 mm, wide 0.5 mm.
    assert lines[(3.0, 0.75)] == 0.25, "hidden edge"
    assert lines[(6.0, 0.75, 0.5, 0.75)] == 0.25, "center line"
    assert lines[(12.0, 1.5, 1.0, 1.5)] == 0.5, "cutting line"
    half = pdf(pattern(), replace(PaperPlan(), scale=0.5))
    assert lines.items() <= {p.dashes: p.width for p in paths(pages(half)[1]) if p.dashes}.items()


def test_words_are_text_in_embedded_fonts() -> None:
    content = pdf(pattern(), PaperPlan(), TitleBlock("2025-03-02", 2, 3))
    text = "\n".join(words(page) for page in pages(content))
    for expected in (
        "900.0 mm ± 0.5 (35 7/16″)",
        "α = 87.8°",
        "4 × ⌀32, μs = 0.3, Δ ≤ 2′",
        "Chute front <skin>",
    ):
        assert expected in text
    assert "full size 1:1 · piece 2 of 3 · sheet 5 of 18 · 2025-03-02" in text
    for page in PdfReader(BytesIO(content)).pages:
        fonts = page["/Resources"]["/Font"]
        for font in fonts.values():
            assert "/FontFile2" in font["/FontDescriptor"], "a font of the machine"
            assert "DejaVuSans" in font["/BaseFont"]


def test_long_words_are_cut_off_before_the_name_of_the_sheet() -> None:
    scene = pattern()
    scene.title = "A title that is much too long for one line of the title block " * 4
    text = words(pages(pdf(scene))[1])
    assert "…" in text
    assert "A1" in text


def test_the_file_asks_to_be_printed_at_actual_size_and_names_its_sheets() -> None:
    reader = PdfReader(BytesIO(pdf(pattern())))
    preferences = reader.trailer["/Root"]["/ViewerPreferences"]
    assert preferences["/PrintScaling"] == "/None"
    assert preferences["/Duplex"] == "/Simplex"
    assert reader.page_labels[:3] == ["Map", "A1", "A2"]
    assert reader.page_labels[-1] == "C6"
    assert reader.metadata.title == "Chute front <skin>"
    assert reader.metadata.subject == pattern().alt


def test_every_sheet_says_which_one_it_is_and_whom_it_belongs_to() -> None:
    read = pages(pdf(pattern(), PaperPlan("A3", printer=PRINTER)))
    marks = [word for word in words(read[1]).split() if len(word) == 12 and not set(word) - set("0123456789abcdef")]
    assert len(marks) == 1, "one digest"
    for number, page in enumerate(read[1:], 1):
        text = words(page)
        assert marks[0] in text
        assert f"sheet {number} of {len(read) - 1}" in text
        assert "printer x × 1.0063, y × 0.9945" in text  # 1/0.9937 and 1/1.0055
    moved = pattern(width=900.01)
    assert marks[0] not in words(pages(pdf(moved, PaperPlan("A3", printer=PRINTER)))[1])
    stated = pdf(pattern(), PaperPlan("A3"), TitleBlock(digest="job 4711"))
    assert "job 4711" in words(pages(stated)[3])


def test_the_map_tells_how_many_sheets_there_are_and_shows_every_name() -> None:
    scene = Scene("Ring", "A ring of 800 mm.", caption="Rim")
    scene.circle((0, 0), 400)
    scene.explain(Layer.OUTLINE, "cut here")
    read = pages(pdf(scene))
    text = words(read[0])
    assert f"{len(read) - 1} sheets of A4" in text
    assert "would be blank and are left out" in text
    assert "actual size (100 %)" in text
    assert "Rim" in text
    assert "cut here" in text
    for label in PdfReader(BytesIO(pdf(scene))).page_labels[1:]:
        assert label in text.split()


@pytest.mark.parametrize("plan", [PaperPlan(), PaperPlan("Letter", printer=PRINTER)], ids=["A4", "Letter, printer"])
def test_what_fits_one_sheet_is_one_page_without_a_map(plan: PaperPlan) -> None:
    scene = Scene("Washer", "A square plate.")
    scene.line((0, 0), (150, 0))
    scene.line((0, 0), (0, 120))
    scene.explain(Layer.OUTLINE, "cut here")
    (page,) = pages(pdf(scene, plan))
    assert "cut here" in words(page)
    assert "actual size (100 %)" in words(page)
    lines = [printed(line, size(page), plan) for line in straight(page) if line.width == 0.5]
    assert min(abs(x - 150) + y for x, y in lines) <= 1.5 * TRUE
    assert min(abs(y - 120) + x for x, y in lines) <= 1.2 * TRUE


def test_a_drawing_is_fitted_to_one_sheet_at_the_first_scale_that_does() -> None:
    scene = Scene("Plate", "A square plate.")
    scene.rectangle((0, 0), (900, 900))
    assert fitted(scene, PaperPlan(), (1.0, 0.5, 0.2, 0.1)).scale == 0.2  # 180 mm of the 190 that A4 leaves
    assert fitted(scene, PaperPlan(), (1.0, 0.5)).scale == 0.5, "the last, where none fits"


def test_the_same_input_gives_the_same_bytes() -> None:
    title = TitleBlock("2025-03-02")
    assert pdf(pattern(), PaperPlan(), title) == pdf(pattern(), PaperPlan(), title)
    assert pdf(pattern(), PaperPlan(), title) != pdf(pattern(), PaperPlan(), TitleBlock("2025-03-03"))


def test_a_roll_is_one_page_turned_so_that_it_takes_the_least() -> None:
    strip = Scene("Strip", "A long strip.")
    strip.rectangle((0, 0), (1500, 200))
    (page,) = pages(pdf(strip, PaperPlan(roll=610)))
    assert size(page)[1] == pytest.approx(610, abs=1e-3), "the roll lies across the height"
    assert 1500 < size(page)[0] < 1540
    (upright,) = pages(pdf(strip, PaperPlan(roll=1600)))
    assert size(upright)[0] == pytest.approx(1600, abs=1e-3), "less than 1.52 m of a wide roll"
    # 200, margins of the drawing 2 × 2.5, one row of legend 8.8, title 15, margins of the printer 2 × 6
    assert size(upright)[1] == pytest.approx(240.8, abs=1e-3)


def test_what_does_not_fit_on_a_roll_is_refused() -> None:
    with pytest.raises(
        KitError, match=r"does not fit on a roll 610 mm wide .* take a wider roll, sheets, or a smaller"
    ):
        pdf(pattern(), PaperPlan(roll=610))
    long = Scene("Rope", "A rope.")
    long.line((0, 0), (6000, 0))
    with pytest.raises(KitError, match="a page of at most 5080 mm"):
        pdf(long, PaperPlan(roll=914))


def test_two_views_are_both_printed_true() -> None:
    scene = Scene("Two", "A plan and a detail.", caption="Plan")
    scene.line((0, 0), (300, 0))
    detail = scene.view("Detail", magnify=5)
    detail.line((0, 0), (20, 0), Layer.HIDDEN)
    (page,) = pages(pdf(scene, PaperPlan(roll=600)))
    lengths = [line.length for line in straight(page) if line.width in (0.25, 0.5) or line.dashes]
    assert any(abs(length - 300) < 0.01 for length in lengths)
    assert any(abs(length - 100) < 0.01 for length in lengths)
    assert "Detail (enlarged 5×)" in words(page)


@pytest.mark.parametrize("piece", [(0, 1), (3, 2)])
def test_a_piece_that_does_not_exist_is_refused(piece: tuple[int, int]) -> None:
    with pytest.raises(KitError, match="count pieces from 1"):
        TitleBlock(piece=piece[0], pieces=piece[1])


def test_a_full_turn_of_the_pattern_is_the_same_pattern() -> None:
    # A quarter arc drawn backward lies where the one drawn forward does.
    read = []
    for start, end in ((0.0, pi / 2), (pi / 2, 0.0)):
        scene = Scene("Arc", "A quarter arc.")
        scene.arc((0, 0), 200, start, end)
        (page,) = pages(pdf(scene, PaperPlan(roll=400)))
        (arc,) = [path for path in paths(page) if path.curved]
        read.append(arc.points)
    for there, back in zip(read[0], reversed(read[1]), strict=True):
        assert there == pytest.approx(back, abs=1e-3)
