"""A book's cover, and the whole book as one file: everything is in it once, and links lead to it."""

import re
import zlib
from base64 import b64decode
from html import escape, unescape
from pathlib import Path

import pytest

from kit.cli import main
from kit.core.errors import KitError
from kit.job import Job
from kit.job.tasks import work_of
from kit.sheet import single
from kit.sheet.book import in_the_way, write_book
from kit.sheet.single import single_file
from kit.sheet.words import sentence
from tests.markup import errors

JOB = """format = 2
[job]
name = "Shed <one>"
[parts.hood]
model = "hood.shape"
title = "A hood"
[parts.shelf]
model = "support.shelf"
title = "A weak shelf"
[parts.shelf.givens]
load = "500 kg"
[[work.tasks]]
name = "glue & clamp"
part = "hood"
takes = "1 ± 0.5 h"
dry = "12 h"
check = "it is square"
"""


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("book")
    (folder / "job.toml").write_text(JOB, encoding="utf-8")
    write_book(Job.open(folder / "job.toml"), folder / "book", date="2026-05-02")
    return folder / "book"


def test_the_cover_shows_the_station_and_every_limit_that_fails(book: Path) -> None:
    html = (book / "index.html").read_text(encoding="utf-8")
    assert html.index("<svg") < html.index("Limits that fail") < html.index("<table")
    assert "the shelf sags" in html.lower() or "sag" in html.split("Limits that fail")[1].split("</section>")[0]
    for caution in Job.open(book.parent / "job.toml").case("shelf").cautions:
        assert html.count(caution.rstrip(".").replace("'", "&#39;")) == 1, "each caution stands once"
    assert "Timoshenko" in html.split("Sources")[1]


def test_what_of_the_tasks_is_faulty_stands_on_the_cover_as_check_tells_it(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path, out = tmp_path / "job.toml", tmp_path / "out"
    path.write_text(JOB.replace("500 kg", "5 kg") + 'after = ["<planing>"]\n', encoding="utf-8")
    told = work_of(path).faults
    assert len(told) == 1
    assert main(["check", str(path)]) == 2
    assert "<planing>" in capsys.readouterr().out
    assert main(["book", str(path), "--out", str(out), "--single", str(tmp_path / "one.html")]) == 2
    assert told[0] in capsys.readouterr().err
    for name in ("out/index.html", "out/order.html", "one.html"):
        html = (tmp_path / name).read_text(encoding="utf-8")
        assert sentence(told[0]) in unescape(html), name
    assert "glue &amp; clamp" in (out / "order.html").read_text(encoding="utf-8"), "the rest is built"
    path.write_text(JOB.replace("500 kg", "5 kg"), encoding="utf-8")
    assert main(["book", str(path), "--out", str(out)]) == 0
    assert "Not in this book" not in (out / "index.html").read_text(encoding="utf-8")


def test_one_file_tells_every_limit_that_fails_first(book: Path) -> None:
    html = single_file(book)
    first = html[: html.index("<article")]
    fails = Job.open(book.parent / "job.toml").verdict("shelf").failing
    assert fails
    for check in fails:
        assert sentence(check.words()) in unescape(first).split("Limits that fail")[1].split("</section>")[0]


def test_one_file_has_every_page_with_ids_of_its_own(book: Path, checker: list[str], tmp_path: Path) -> None:
    html = single_file(book)
    ids = re.findall(r'\sid="([^"]+)"', html)
    assert len(ids) == len(set(ids)) > 3
    assert set(re.findall(r'(?:href="#|url\(#)([^")]+)', html)) <= set(ids)
    assert not re.findall(r'(?:src|href)="(?!#|data:)', html)
    assert html.count("@font-face") == 1
    assert html.count("<main") == 1
    for name in ("hood.html", "shelf.html", "lists.html", "order.html", "cards.html"):
        assert f'aria-label="{name}"' in html
    (tmp_path / "one.html").write_text(html, encoding="utf-8")
    assert errors(checker, [tmp_path / "one.html"]) == []


def test_a_large_book_is_packed_and_nothing_of_it_is_lost(
    book: Path, monkeypatch: pytest.MonkeyPatch, checker: list[str], tmp_path: Path
) -> None:
    write_book(Job.open(book.parent / "job.toml"), tmp_path / "book", date="2026-05-02", full=True)
    plain = single_file(tmp_path / "book")
    monkeypatch.setattr(single, "MOST", len(plain.encode()) - 1)
    html = single_file(tmp_path / "book")
    assert len(html) < 0.7 * len(plain)
    found = re.search(r'data-size="(\d+)">([^<]*)</script>', html)
    assert found is not None
    text = zlib.decompress(b64decode(found[2]), wbits=-15).decode()  # raw deflate, RFC 1951
    assert len(text.encode()) == int(found[1])
    pieces = iter(text.split("\x1e"))

    def back(place: re.Match[str]) -> str:
        still = escape(re.sub(r"turned-\d+", "still-view", place[1]))
        return next(pieces).replace("\x1f", still)

    body = re.sub(r'<div class="fw-packed">(.*?)</div>', back, html.split('<script type="application/octet')[0])
    assert body == plain.split("</body>")[0]
    assert next(pieces, None) is None
    (tmp_path / "packed.html").write_text(html, encoding="utf-8")
    assert errors(checker, [tmp_path / "packed.html"]) == []


def test_a_book_that_is_too_large_or_not_there_is_told(book: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(single, "MOST", 10_000)
    with pytest.raises(KitError, match=r"more than 0 MB; write a short one, without --full"):
        single_file(book)
    with pytest.raises(KitError, match="cannot be read"):
        single_file(book.parent)


def test_what_is_no_book_is_not_written_over_unasked(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path, out = tmp_path / "job.toml", tmp_path / "out"
    path.write_text(JOB.replace("500 kg", "5 kg"), encoding="utf-8")
    out.mkdir()
    (out / "index.html").write_text("my own page")
    (out / "notes.txt").write_text("beside it")
    assert in_the_way(Job.open(path), out) == ["index.html"]
    assert main(["book", str(path), "--out", str(out)]) == 2
    assert "out holds index.html, which no book has written; name another folder" in capsys.readouterr().err
    assert (out / "index.html").read_text() == "my own page"
    assert main(["book", str(path), "--out", str(out), "--over", "--single", str(tmp_path / "one.html")]) == 0
    assert (out / "notes.txt").read_text() == "beside it"
    assert in_the_way(Job.open(path), out) == []
    assert "A weak shelf" in (tmp_path / "one.html").read_text(encoding="utf-8")
