"""Worked sheets in a browser without a network: formulas stretch, nothing overflows, axe finds no fault."""

import re
from html import unescape
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

from kit import subjects
from kit.core.model import Stated
from kit.core.quantity import Display, ValueOrigin
from kit.core.verdict import Verdict, fact
from kit.job import Job
from kit.job.build import build
from kit.sheet import single
from kit.sheet.book import write_book
from kit.sheet.single import single_file
from kit.sheet.write import IndexEntry, index, sheet
from kit.subjects import subject
from tests import ROOT
from tests.sheet.conftest import ORIGIN

MM = 96 / 25.4  # CSS pixels
PAPER = {"A4": (210, 297), "Letter": (215.9, 279.4)}
MARGIN = 17  # left and right, as in the page's style
# One part of a demo job for each model with a work.
SHAPED = {
    part.model: (job, part.id)
    for job in [Job.open(ROOT / "data" / name) for name in ("schoolshop.toml", "boatshed.toml")]
    for part in job.parts.values()
    if subject(part.model).build
}
WIDEST = 1.0  # pixel by which a box may stick out through rounding


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory, sheets: dict[str, str]) -> Path:
    """The sheets of all models as files, inches and millimeters by turns, and one with a limit that fails."""
    folder = tmp_path_factory.mktemp("sheets")
    for name, html in sheets.items():
        (folder / f"{name}.html").write_text(html, encoding="utf-8")
    failing = subjects.model("stop.deflection").at(
        beyond=("long_reach",), long_reach=Stated("3000 ± 1 mm", origin=ValueOrigin("table", source="a source " * 40))
    )
    (folder / "failing.html").write_text(sheet(failing, origin=ORIGIN), encoding="utf-8")
    verdicts = [Verdict((fact("so", ok, "it is so"),)) for ok in (True, False)]
    entries = [IndexEntry.of("A part", "What is it?", "a.html", verdict, "0" * 12) for verdict in verdicts]
    (folder / "index.html").write_text(index(entries, title="Bench", date="2026-05-01"), encoding="utf-8")
    return folder


def shaped(part: str) -> str:
    """Return the sheet of a part of a demo job, with what is built of it."""
    which = [each for _, each in SHAPED.values()].index(part)
    job, systems = list(SHAPED.values())[which][0], (Display(), Display(system="in"))
    return sheet(job.case(part), display=systems[which % 2], origin=ORIGIN, draws=0, build=build(job, part))


def show(page: Page, folder: Path, name: str) -> None:
    path = folder / f"{name}.html"
    if not path.exists():
        path.write_text(shaped(name), encoding="utf-8")
    page.goto(path.as_uri())
    page.evaluate("() => document.fonts.ready")


def test_the_embedded_font_draws_the_formulas(page: Page, folder: Path) -> None:
    show(page, folder, "stop.deflection")
    assert page.evaluate("() => [...document.fonts].map(f => f.family + ' ' + f.status)") == ["Fitwright Math loaded"]


def test_braces_roots_and_integrals_stretch(page: Page, folder: Path) -> None:
    """A brace before two cases is as tall as the cases; without a MATH table it keeps one line's height."""
    show(page, folder, "stop.deflection")
    heights = page.evaluate(
        """() => [...document.querySelectorAll('mo')].filter(mo => mo.textContent === '{').map(mo =>
           [mo.getBoundingClientRect().height, mo.nextElementSibling.getBoundingClientRect().height])"""
    )
    assert heights
    for brace, cases in heights:
        assert brace > 0.85 * cases > 25
    line = page.evaluate("() => document.querySelector('mtext').getBoundingClientRect().height")
    integrals = page.evaluate(
        """() => [...document.querySelectorAll('munderover > mo')].filter(mo => mo.textContent === '∫')
           .map(mo => mo.getBoundingClientRect().height)"""
    )
    assert integrals
    assert max(integrals) > 1.6 * line, "an integral in display style is larger than text"


def test_letters_are_italic_and_words_are_not(page: Page, folder: Path) -> None:
    """A single letter is drawn by the mathematical italic alphabet, which is why it differs from mtext in width."""
    show(page, folder, "stop.deflection")
    page.evaluate("""() => { document.body.insertAdjacentHTML('beforeend', `<div class="fw-sheet">
        <math id="i"><mi>w</mi></math><math id="u"><mtext>w</mtext></math></div>`) }""")
    widths = [
        page.evaluate("id => document.getElementById(id).firstChild.getBoundingClientRect().width", id)
        for id in ("i", "u")
    ]
    assert widths[0] != pytest.approx(widths[1], abs=0.3)


STICKING_OUT = """edge => [...document.querySelectorAll('main *')]
    .filter(e => !e.closest('svg') && e.getBoundingClientRect().right > edge)
    .map(e => `${e.tagName} ${e.className} ${e.textContent.slice(0, 60)} ${e.getBoundingClientRect().right - edge}`)"""


@pytest.mark.long
@pytest.mark.parametrize("name", [*subjects.names(), *(part for _, part in SHAPED.values()), "failing", "index"])
def test_nothing_sticks_out_of_the_page(page: Page, folder: Path, name: str) -> None:
    show(page, folder, name)
    keeps_the_page(page)


def keeps_the_page(page: Page) -> None:
    """Check it on a screen 1300 and 800 px wide, and between the margins of A4, the narrower of the two papers."""
    for width in (1300, 800):
        page.set_viewport_size({"width": width, "height": 1000})
        assert page.evaluate("() => document.documentElement.scrollWidth") <= width
        edge = page.evaluate("() => document.querySelector('main').getBoundingClientRect().right")
        assert page.evaluate(STICKING_OUT, edge + WIDEST) == []
    text_width = round((PAPER["A4"][0] - 2 * MARGIN) * MM)
    page.emulate_media(media="print")
    page.set_viewport_size({"width": text_width, "height": 1000})
    assert page.evaluate(STICKING_OUT, text_width + WIDEST) == []


# Wider than text faces are: every letter and space takes an eighth of its height more, whatever font the machine has.
WIDE = ".fw-sheet *:not(math, math *, svg *) { letter-spacing: 0.12em }"


@pytest.mark.parametrize(
    "name",
    ["bevel.corner", "bevel.hood", "cloth.chute", "fold.chain", "groove.guide", "hood", "failing", "index"],
)
def test_nothing_sticks_out_of_the_page_in_a_wide_font(page: Page, folder: Path, name: str) -> None:
    """The sheets with the widest tables and formulas."""
    show(page, folder, name)
    line = (
        "() => { const all = document.createRange(); all.selectNodeContents(document.querySelector('h1, h2')); "
        "return all.getBoundingClientRect().width / all.toString().length }"
    )
    before = page.evaluate(line)
    page.add_style_tag(content=WIDE)
    assert page.evaluate(line) > before, "the letters are wider"
    keeps_the_page(page)


@pytest.mark.parametrize(
    "name",
    [
        "stop.deflection",
        "failing",
        "index",
        *(pytest.param(n, marks=pytest.mark.long) for n in ("bevel.hood", "fold.chain")),
    ],
)
def test_axe_finds_no_fault(page: Page, folder: Path, name: str) -> None:
    show(page, folder, name)
    found = Axe().run(page).response["violations"]
    assert [(fault["id"], [node["html"][:120] for node in fault["nodes"][:3]]) for fault in found] == []


@pytest.mark.parametrize("paper", PAPER)
def test_it_prints_on_a4_and_letter(page: Page, folder: Path, paper: str) -> None:
    """The printed pages have the paper's size and their number stays what a reader expects of one model."""
    show(page, folder, "stop.deflection")
    pdf = page.pdf(format=paper)
    sizes = {(float(w), float(h)) for w, h in re.findall(rb"/MediaBox ?\[0 0 ([\d.]+) ([\d.]+)\]", pdf)}
    points = 72 / 25.4
    assert len(sizes) == 1
    width, height = sizes.pop()
    assert (width, height) == pytest.approx([side * points for side in PAPER[paper]], abs=1)
    assert 5 <= len(re.findall(rb"/Type /Page\b", pdf)) <= 12


@pytest.mark.parametrize("paper", PAPER)
def test_a_short_sheet_takes_few_pages(page: Page, tmp_path: Path, paper: str) -> None:
    (tmp_path / "short.html").write_text(
        sheet(subjects.model("stop.deflection").at(), origin=ORIGIN, short=True), encoding="utf-8"
    )
    show(page, tmp_path, "short")
    assert len(re.findall(rb"/Type /Page\b", page.pdf(format=paper))) <= 3


def test_each_line_has_a_box_to_tick(page: Page, folder: Path) -> None:
    show(page, folder, "stop.deflection")
    boxes = page.evaluate(
        """() => [...document.querySelectorAll('.fw-comes-out, .fw-givens tbody tr > :last-child')].map(e => {
           const box = getComputedStyle(e, '::after');
           return parseFloat(box.borderTopWidth) * parseFloat(box.width) })"""
    )
    assert len(boxes) > 40
    assert min(boxes) > 5


def test_it_prints_black_on_white(page: Page, folder: Path) -> None:
    show(page, folder, "failing")
    page.emulate_media(media="print")
    colors = page.evaluate(
        """() => [...new Set([...document.querySelectorAll('main, main p, main td, main th, .fw-mark, .fw-answer')]
           .flatMap(e => { const s = getComputedStyle(e); return [s.backgroundColor] }))]"""
    )
    assert colors == ["rgba(0, 0, 0, 0)"]
    assert page.evaluate("() => getComputedStyle(document.querySelector('.fw-mark')).color") == "rgb(0, 0, 0)"


def test_a_packed_book_shows_all_of_the_plain_one(page: Page, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """As soon as it is loaded, so that it prints whole; views that turn have their stills."""
    job = tmp_path / "job.toml"
    parts = '[parts.hood]\nmodel = "hood.shape"\n[parts.chain]\nmodel = "accuracy.batch"\n'
    job.write_text(f'format = 2\n[job]\nname = "Shed"\n{parts}', encoding="utf-8")
    write_book(Job.open(job), tmp_path / "book", date="2026-05-02", full=True)
    shown = []
    for name in ("plain", "packed"):
        html = single_file(tmp_path / "book")
        (tmp_path / f"{name}.html").write_text(html, encoding="utf-8")
        monkeypatch.setattr(single, "MOST", len(html.encode()) - 1)
        page.goto((tmp_path / f"{name}.html").as_uri())
        written = "() => document.querySelector('main').innerHTML"
        told = re.sub(r"(turned-\d+|still-view)", "still", unescape(page.evaluate(written)))
        shown.append(re.sub(r"></(?:path|rect)>", "/>", told))  # as a browser writes an empty element
    assert len(html) < 0.8 * (tmp_path / "plain.html").stat().st_size
    assert "Monte Carlo" in shown[0]
    assert "<iframe" in shown[0]
    assert shown[1] == shown[0]
