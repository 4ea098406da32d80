"""The station book: what is unchanged is left, whoever makes it makes the same, and a stopped one loses nothing."""

import importlib.util
import json
import os
import re
import sys
import threading
import time
from hashlib import sha256
from multiprocessing import get_context
from pathlib import Path

import pytest

from kit.core import files
from kit.core.errors import KitError
from kit.job import Job
from kit.sheet import book, book_parts, book_sharing
from kit.sheet.book import write_book
from kit.sheet.book_parts import write_part
from kit.sheet.book_record import NAME
from kit.station import lists

JOB = """format = 2
[job]
name = "Boat shed"
[machine]
reach = "600 ± 1 mm"
[parts.long_stop]
model = "stop.deflection"
[parts.long_stop.givens]
long_reach = { from = "machine.reach" }
[parts.pad]
model = "level.pads"
[parts.knob]
model = "knob.outline"
[parts.chain]
model = "accuracy.batch"
[parts.shelf]
model = "support.shelf"
[parts.shelf.givens]
span = { from = "long_stop.long_reach" }
"""


@pytest.fixture
def path(tmp_path: Path) -> Path:
    path = tmp_path / "job.toml"
    path.write_text(JOB, encoding="utf-8")
    return path


def digests(folder: Path) -> dict[str, str]:
    files = (each for each in folder.rglob("*") if each.is_file())
    return {each.relative_to(folder).as_posix(): sha256(each.read_bytes()).hexdigest() for each in files}


def made(path: Path, folder: Path, monkeypatch: pytest.MonkeyPatch, *, date: str) -> list[str]:
    """Write a book and return the parts that were made for it."""
    calls: list[str] = []
    real = book_sharing.make_part

    def counted(job: Job, order: book_parts.Order, *more: object) -> book_parts.Made:
        calls.append(order.id)
        return real(job, order, *more)  # type: ignore[arg-type]

    monkeypatch.setattr(book_sharing, "make_part", counted)
    write_book(Job.open(path), folder, date=date)
    monkeypatch.setattr(book_sharing, "make_part", real)
    return calls


def test_what_is_unchanged_is_left_with_its_date(path: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    out = tmp_path / "book"
    assert sorted(made(path, out, monkeypatch, date="2026-05-01")) == ["chain", "knob", "long_stop", "pad", "shelf"]
    first = digests(out)
    assert made(path, out, monkeypatch, date="2026-06-01") == []
    assert digests(out) == first
    path.write_text(JOB.replace("600 ± 1 mm", "610 ± 1 mm"), encoding="utf-8")
    assert made(path, out, monkeypatch, date="2026-07-01") == ["long_stop", "shelf"]
    changed = {name for name, digest in digests(out).items() if first[name] != digest}
    assert changed == {"long_stop.html", "shelf.html", "lists.html", "index.html", NAME, ".station.json"}
    assert "2026-07-01" in (out / "long_stop.html").read_text(encoding="utf-8")
    assert "2026-05-01" in (out / "knob.html").read_text(encoding="utf-8")
    assert "2026-07-01" in (out / "index.html").read_text(encoding="utf-8")


def test_what_unchanged_parts_bring_is_kept_beside_their_sheets(
    path: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made(path, tmp_path / "book", monkeypatch, date="2026-05-01")
    path.write_text(JOB.replace("600 ± 1 mm", "610 ± 1 mm"), encoding="utf-8")
    asked: list[str] = []
    real = book_parts.part_lists
    for module in (book_parts, lists):  # wherever the book asks
        monkeypatch.setattr(module, "part_lists", lambda job, id: (asked.append(id), real(job, id))[1])
    made(path, tmp_path / "book", monkeypatch, date="2026-05-01")
    assert sorted(asked) == ["long_stop", "shelf"]
    made(path, tmp_path / "fresh", monkeypatch, date="2026-05-01")
    assert (tmp_path / "book/lists.html").read_bytes() == (tmp_path / "fresh/lists.html").read_bytes()


def test_a_book_is_short_until_it_is_asked_how_its_numbers_come_about(path: Path, tmp_path: Path) -> None:
    def headings() -> list[str]:
        return re.findall("<h2>([^<]*)</h2>", (tmp_path / "book" / "pad.html").read_text(encoding="utf-8"))

    write_book(Job.open(path), tmp_path / "book", date="2026-05-01")
    short = headings()
    assert {"Answer", "Picture", "Givens"} <= {*short}
    assert "fitwright book --full" in (tmp_path / "book" / "index.html").read_text(encoding="utf-8")
    write_book(Job.open(path), tmp_path / "book", date="2026-06-01", full=True)
    assert [each for each in headings() if each not in short] == ["Derivation", "Uncertainty"]
    assert "--full" not in (tmp_path / "book" / "index.html").read_text(encoding="utf-8")
    write_book(Job.open(path), tmp_path / "book", date="2026-07-01")
    assert headings() == short
    write_part(Job.open(path), "pad", tmp_path / "book")
    assert "Derivation" in headings(), "a sheet of its own is whole"


@pytest.mark.parametrize("what", ["changed", "gone", "record damaged", "record gone"])
def test_what_does_not_lie_as_it_was_written_is_made_anew(
    path: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, what: str
) -> None:
    out = tmp_path / "book"
    made(path, out, monkeypatch, date="2026-05-01")
    first, record = digests(out), out / NAME
    if what == "changed":
        (out / "knob.html").write_text("mine", encoding="utf-8")
    elif what == "gone":
        (out / "files" / next(each.name for each in (out / "files").iterdir())).unlink()
    elif what == "record damaged":
        record.write_text(json.dumps({"knob": {"content": "0"}}), encoding="utf-8")
    else:
        record.unlink()
    again = made(path, out, monkeypatch, date="2026-05-01")
    assert len(again) == (1 if what in ("changed", "gone") else 5)
    assert digests(out) == first


@pytest.mark.filterwarnings("ignore:.*multi-threaded.*fork:DeprecationWarning")
@pytest.mark.parametrize("way", ["fork", "spawn"] if sys.platform == "linux" else ["spawn"])
def test_several_processes_make_the_same_book(
    path: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, way: str
) -> None:
    monkeypatch.setattr(book_sharing, "WORTH", 1)
    monkeypatch.setattr(book_sharing, "_context", lambda: get_context(way))
    shared, real = threading.Event(), book_sharing.make_part

    def patient(*order: object) -> book_parts.Made:
        if os.getpid() == here:
            assert shared.wait(60), "the other process made nothing"
        return real(*order)  # type: ignore[arg-type]

    def ordered(*made: object) -> None:
        done(*made)  # type: ignore[arg-type]
        if threading.current_thread() is not threading.main_thread():
            shared.set()

    here, done = os.getpid(), book_sharing._Plan.done
    told: list[tuple[int, int]] = []
    job = Job.open(path)
    write_book(job, tmp_path / "one", date="2026-05-01")
    monkeypatch.setattr(book_sharing, "make_part", patient)
    monkeypatch.setattr(book_sharing._Plan, "done", ordered)
    entries = write_book(
        job, tmp_path / "two", lambda done, total, _: told.append((done, total)), date="2026-05-01", processes=2
    )
    assert digests(tmp_path / "one") == digests(tmp_path / "two")
    assert told == [(done, 5) for done in range(6)]
    assert [entry.href for entry in entries] == [f"{id}.html" for id in job.parts]


def test_parts_that_take_builds_of_each_other_stay_in_one_process() -> None:
    orders = [book_parts.Order(id, (), (), "") for id in ("pad", "hood", "skin", "boards")]
    plan = book_sharing._Plan(orders, {}, {"pad": "pad", "hood": "hood", "skin": "hood", "boards": "hood"})
    one, other = plan.begin(), plan.begin()
    assert [each and each.id for each in (plan.next(one), plan.next(other))] == ["hood", "pad"], "the largest first"
    waiting = threading.Thread(target=plan.next, args=(other,), daemon=True)
    waiting.start()
    assert [each and each.id for each in (plan.next(one), plan.next(one))] == ["skin", "boards"]
    assert plan.next(one) is None
    plan.failed(orders[-1], KitError("no room"))
    waiting.join(10)
    assert not waiting.is_alive(), "who waited is told that nothing is left"


@pytest.mark.parametrize("processes", [1, 2])
def test_a_part_that_cannot_be_built_is_told_and_nothing_is_written(
    path: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, processes: int
) -> None:
    monkeypatch.setattr(book_sharing, "WORTH", 1)
    out = tmp_path / "book"
    made(path, out, monkeypatch, date="2026-05-01")
    first = digests(out)
    text = JOB.replace('model = "level.pads"', 'model = "level.pads"\nplane = "shelf"').replace("600", "620")
    path.write_text(text, encoding="utf-8")
    with pytest.raises(KitError, match="pad"):
        write_book(Job.open(path), out, processes=processes)
    assert digests(out) == first
    with pytest.raises(KitError, match="pad"):
        write_book(Job.open(path), tmp_path / "new", processes=processes)
    assert not (tmp_path / "new").exists()


def test_what_a_stopped_book_left_is_taken_away(path: Path, tmp_path: Path) -> None:
    out = tmp_path / "book"
    old, young, held, other = (out / f"{book._MARK}{name}" for name in ("old", "young", "held", "other"))
    for folder in (old, young, held):
        folder.mkdir(parents=True)
        (folder / "half.html").write_text("half")
    other.write_text("a file of somebody's")
    locks = importlib.util.find_spec("fcntl") is not None
    some_time_ago = time.time() - (60 if locks else 2 * 86_400)
    for each in (old, held, other):
        os.utime(each, (some_time_ago, some_time_ago))
    handle = os.open(held, os.O_RDONLY) if locks else None
    if handle is not None:
        files.hold(handle)  # as a book that is being written does
    write_book(Job.open(path), out)
    assert not old.exists()
    assert young.exists()
    assert other.exists()
    if handle is not None:
        assert held.exists()
        os.close(handle)
        write_book(Job.open(path), out)
        assert not held.exists()
