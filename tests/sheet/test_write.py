"""The sheet as a file: self-contained, small, the same for the same inputs, safe with hostile text."""

import re
from itertools import pairwise
from pathlib import Path

import pytest

import kit
from kit import subjects
from kit.core.errors import KitError
from kit.core.model import Case, Stated
from kit.core.model.digest import digest
from kit.core.quantity import Display, ValueOrigin
from kit.core.verdict import Verdict
from kit.job.part_names import file_name, name_faults
from kit.sheet.book import write_book
from kit.sheet.write import IndexEntry, Origin, index, sheet, write_sheet
from tests.sheet.conftest import HOSTILE, ORIGIN
from tests.sheet.reading import Node, read

NAMES = subjects.names()


@pytest.mark.parametrize("name", NAMES)
def test_a_sheet_asks_for_nothing_and_runs_nothing(sheets: dict[str, str], name: str) -> None:
    html = sheets[name]
    document = read(html)
    loading = [n for n in document.all() if n.attributes.keys() & {"src", "href", "srcset", "data", "action"}]
    assert loading == []
    assert document.all("script") == document.all("link") == document.all("iframe") == []
    assert all(url.startswith("data:") for url in re.findall(r"url\(([^)]{9})", html))
    assert "@import" not in html


@pytest.mark.parametrize("name", NAMES)
def test_a_sheet_is_below_400_kb(sheets: dict[str, str], name: str) -> None:
    assert len(sheets[name].encode()) < 400_000


@pytest.mark.parametrize("name", NAMES)
def test_headings_tables_and_pictures_are_told_to_who_cannot_see(sheets: dict[str, str], name: str) -> None:
    document = read(sheets[name])
    assert document.one("html").attributes["lang"] == "en"
    levels = [int(n.tag[1]) for n in document.all() if re.fullmatch("h[1-6]", n.tag)]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))
    for table in document.all("table"):
        assert table.one("caption").text
        assert all(cell.attributes.get("scope") in ("row", "col") for cell in table.all("th"))
    for picture in document.all("svg"):
        assert picture.has("role", "img")
        assert picture.one("title").text
        assert picture.one("desc").text


@pytest.mark.parametrize("name", NAMES)
def test_a_sheet_has_all_its_parts(sheets: dict[str, str], name: str) -> None:
    model = subjects.model(name)
    document = read(sheets[name])
    headings = [heading.text for heading in document.all("h2")]
    assert headings[0] == "Answer"
    assert {"Picture", "Givens", "Assumptions", "Derivation", "Uncertainty", "Sources"} <= set(headings)
    head = document.one("header").text
    for words in (ORIGIN.job, ORIGIN.part, ORIGIN.title, ORIGIN.date, kit.__version__, digest(model.at())):
        assert words in head
    assert model.question in document.text
    assert all(source[1:] in document.text for source in model.sources)


def test_a_short_sheet_leaves_out_how_the_numbers_come_about(stop: Case) -> None:
    headings = [heading.text for heading in read(sheet(stop, short=True)).all("h2")]
    assert {"Answer", "Cautions", "Picture", "Givens", "Assumptions", "Sources"} == set(headings)


def test_sources_are_footnotes(stop: Case) -> None:
    """Each mark in the givens and the derivation is the number of a source, and each source of a given has a mark."""
    document = read(sheet(stop, draws=0))
    listed = document.one("ol", css="fw-sources").all("li")
    assert len({item.text for item in listed}) == len(listed)
    marks = [int(mark.text.strip("[]")) for mark in document.all("span", css="fw-note")]
    assert marks
    assert set(range(len(stop.model.sources) + 1, len(listed) + 1)) <= set(marks) <= set(range(1, len(listed) + 1))


def test_the_same_inputs_give_the_same_file_and_others_do_not(stop: Case) -> None:
    assert sheet(stop, origin=ORIGIN) == sheet(stop.with_(), origin=ORIGIN)
    assert sheet(stop) != sheet(stop.with_(long_reach="601 mm"))


def test_the_digest_tells_numbers_apart_not_words(stop: Case) -> None:
    base = digest(stop.with_(long_reach="1200 ± 1 mm"))
    assert re.fullmatch("[0-9a-f]{12}", base)
    assert digest(stop.with_(long_reach="1.2 ± 0.001 m")) == base
    assert digest(stop.with_(long_reach=Stated("1200 ± 1 mm", origin=ValueOrigin("table", source="elsewhere")))) == base
    others = [
        stop.with_(long_reach="1201 ± 1 mm"),
        stop.with_(long_reach="1200 ± 2 mm"),
        stop.with_(long_reach=Stated("1200 ± 1 mm", spread="normal")),
        stop.with_(long_reach="1200 ± 1 mm", beyond=frozenset({"push"})),
        subjects.model("bevel.frame").at(),
    ]
    assert len({base, *map(digest, others)}) == len(others) + 1


def test_hostile_text_stays_text(hostile_sheet: str) -> None:
    document = read(hostile_sheet)
    assert document.all("script") == document.all("img") == []
    assert len(document.all("style")) == 1 + len(document.one("svg").all("style"))
    words = " ".join(HOSTILE.split())
    assert document.one("h1").text == words
    assert document.one("head").one("title").text == words
    assert "49" not in document.one("h1").text, "a template in a title is not worked"
    assert words in document.one(css="fw-origin").text
    assert words in document.one(css="fw-sources").text


def test_the_footer_cannot_end_the_style_or_its_string(hostile_sheet: str) -> None:
    footer = re.search(r'@bottom-left \{ content: "([^"]*)";', hostile_sheet)
    assert footer
    written = footer[1]
    assert re.fullmatch(r"(?:[A-Za-z0-9 ]|\\[0-9a-f]{6} )*", written)
    back = re.sub(r"\\([0-9a-f]{6}) ", lambda code: chr(int(code[1], 16)), written)
    assert f" · {HOSTILE} · {HOSTILE} · " in back, "after the limit that fails"


def test_the_reader_chooses_the_units(stop: Case) -> None:
    assert "in" in sheet(stop, display=Display(system="in"))
    assert stop.show("tip_error", Display(system="in")) in read(sheet(stop, display=Display(system="in"))).text


def test_a_sheet_is_written_under_the_parts_name(stop: Case, tmp_path: Path) -> None:
    assert write_sheet(stop, tmp_path).name == "stop-deflection.html"
    path = write_sheet(stop, tmp_path, origin=ORIGIN)
    assert path.name == "a_part.html"
    assert path.read_text(encoding="utf-8") == sheet(stop, origin=ORIGIN)


@pytest.mark.parametrize("name", ["../../etc/passwd", "a/b", "<script>", "", "..", "C:\\x", "ä"])
def test_a_files_name_never_leaves_its_folder(name: str) -> None:
    assert re.fullmatch(r"[A-Za-z0-9_-]+\.html", file_name(name))


def test_a_monte_carlo_that_cannot_be_drawn_is_told(stop: Case, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_args: object, **_more: object) -> None:
        raise KitError("tip_error has no value at most of the points drawn")

    monkeypatch.setattr("kit.sheet.write.monte_carlo", refuse)
    assert "No Monte Carlo comparison: tip_error has no value" in sheet(stop)


JOB = """format = 2
[job]
name = "Boat <shed>"
units = "in"
[parts.long_stop]
model = "stop.deflection"
title = "Long stop"
[parts.long_stop.givens]
long_reach = "24 in"
allowed = "0.002 in"
[parts.frame]
model = "bevel.frame"
"""


def written(tmp_path: Path, text: str) -> Path:
    path = tmp_path / "job.toml"
    path.write_text(text, encoding="utf-8")
    return path


def test_a_book_has_a_sheet_a_part_and_an_index(tmp_path: Path) -> None:
    from kit.job import Job

    told: list[tuple[int, int, str]] = []
    job = Job.open(written(tmp_path, JOB))
    out = tmp_path / "deep" / "book"
    entries = write_book(job, out, lambda *step: told.append(step), date="2026-05-01")
    assert [entry.state for entry in entries] == ["fails", "meets"]
    assert [step[:2] for step in told] == [(0, 2), (1, 2), (2, 2)]
    assert sorted(path.name for path in out.iterdir()) == [
        ".book.json",
        ".station.json",
        "cards.html",
        "frame.html",
        "index.html",
        "lists.html",
        "long_stop.html",
    ]
    page = read((out / "index.html").read_text(encoding="utf-8"))
    rows = page.one("tbody").all("tr")
    assert page.one("h1").text == "Boat <shed>"
    assert [row.one("a").attributes["href"] for row in rows] == ["long_stop.html", "frame.html"]
    assert "✗ 1 of 3 limits fails; 15 of 22 values are examples, not yet yours." in rows[0].text
    assert digest(job.case("frame")) in rows[1].text
    first = read((out / "long_stop.html").read_text(encoding="utf-8"))
    assert first.one("h1").text == "Long stop"
    assert "24 ± " in first.one(data_testid="given-long_reach").text
    own = {path.stem for path in out.glob("*.html")} - {"long_stop", "frame"}
    assert {fault.id for fault in name_faults([*own, "frame"])} == own, "no part takes the name of a page of the book"


def test_a_book_with_a_part_that_cannot_be_worked_writes_nothing(tmp_path: Path) -> None:
    from kit.job import Job

    out = tmp_path / "book"
    with pytest.raises(KitError, match="long_reach"):
        write_book(Job.open(written(tmp_path, JOB.replace("24 in", "24 miles"))), out)
    assert not out.exists()


@pytest.mark.parametrize("ids", [("index", "b"), ("rib", "Rib")])
def test_two_files_of_a_book_never_take_the_same_name(tmp_path: Path, ids: tuple[str, str]) -> None:
    """On some disks names that differ in case alone are the same."""
    from kit.job import Job

    parts = "".join(f'[parts.{id}]\nmodel = "bevel.frame"\n' for id in ids)
    job = Job.open(written(tmp_path, f'format = 2\n[job]\nname = "x"\n{parts}'))
    with pytest.raises(KitError, match="would overwrite"):
        write_book(job, tmp_path / "book")


def test_an_index_escapes_what_it_lists() -> None:
    entry = IndexEntry.of(HOSTILE, HOSTILE, "a.html", Verdict(open=(HOSTILE,)), "0")
    page: Node = read(index([entry], title=HOSTILE, date=HOSTILE))
    assert page.all("script") == page.all("img") == []
    assert page.one("a").text == " ".join(HOSTILE.split())


def test_origin_may_be_empty(stop: Case) -> None:
    head = read(sheet(stop, origin=Origin())).one("header")
    assert [term.text for term in head.all("dt")] == ["Model", "Inputs", "Fitwright"]
    assert head.one("h1").text == stop.model.title
