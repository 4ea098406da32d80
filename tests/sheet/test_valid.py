"""The Nu HTML checker of the W3C finds no error on any page that the kit writes."""

from pathlib import Path

from kit.core.verdict import Verdict, fact
from kit.sheet.write import IndexEntry, index
from tests.markup import errors
from tests.sheet.conftest import HOSTILE


def test_the_checker_finds_no_error(
    checker: list[str], sheets: dict[str, str], hostile_sheet: str, tmp_path: Path
) -> None:
    verdicts = [Verdict((fact("so", ok, HOSTILE),)) for ok in (True, False)]
    entries = [IndexEntry("A part", HOSTILE, "a.html", verdict, "0" * 12) for verdict in verdicts]
    pages = {**sheets, "hostile": hostile_sheet, "index": index(entries, title=HOSTILE, date="2026-05-01")}
    files = []
    for name, html in pages.items():
        files.append(tmp_path / f"{name}.html")
        files[-1].write_text(html, encoding="utf-8")
    assert errors(checker, files) == []


def test_the_checker_does_find_errors(checker: list[str], tmp_path: Path) -> None:
    broken = tmp_path / "broken.html"
    broken.write_text("<!DOCTYPE html><html lang=en><title>x</title><p><math><nonsense/></math>", encoding="utf-8")
    assert errors(checker, [broken]) != []
