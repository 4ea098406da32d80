"""Files that a job's shape names: what is read is what a result belongs to, and only regular files are opened."""

import os
import threading
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
import trimesh

from kit.core.build import BuildInput
from kit.core.errors import KitError
from kit.core.files import beside, content_digest, read_regular, write_atomic
from kit.core.quantity import Display
from kit.geometry.mesh import Scan
from kit.job import Job
from kit.job.build import build, input_digest, standalone
from kit.subjects import model
from kit.subjects.sweep.scan_inputs import prepared
from kit.teach.answers import read_answers
from kit.teach.worksheet import class_list

JOB = """\
format = 2
[parts.gauge]
model = "bevel.setting"
paper = "{note}"
[parts.gauge.givens]
rise = "108 mm"
"""


def shape(scan: str) -> dict[str, object]:
    return {"scan": scan, "recipe": [], "picks": {}}


def box(path: Path, size: float) -> Path:
    path.write_bytes(trimesh.creation.box((size, size, size)).export(file_type="stl"))
    return path


def order(folder: Path, told: dict[str, object]) -> BuildInput:
    return replace(standalone(model("sweep.step").at(), Display()), folder=folder, raw=told)


def scanned(folder: Path, name: str) -> Scan:
    return prepared(name, [], {}, folder)[0]


def as_old(path: Path, like: os.stat_result) -> None:
    """Give a file the times of another, as copying with its times or a restored backup does."""
    os.utime(path, ns=(like.st_atime_ns, like.st_mtime_ns))


@pytest.mark.parametrize("named", ["beside", "above", "absolute", "linked", "linked folder", "undotted", "long"])
def test_a_result_belongs_to_what_was_read_wherever_it_lies(tmp_path: Path, named: str) -> None:
    """Replaced by a file of the same size and time: other inputs, and the new scan is read."""
    folder, away = tmp_path / "job", tmp_path / "away"
    folder.mkdir()
    away.mkdir()
    path = box((folder if named == "beside" else away) / ("scan" if named == "undotted" else "scan.stl"), 100.0)
    (folder / "link.stl").symlink_to(path)
    (folder / "links").symlink_to(away)
    name = {
        "beside": "scan.stl", "above": "../away/scan.stl", "absolute": str(path), "linked": "link.stl",
        "linked folder": "links/scan.stl", "undotted": "../away/scan", "long": "./" * 150 + "../away/scan.stl",
    }[named]  # fmt: skip
    told = shape(name)
    before, first = input_digest(order(folder, told)), scanned(folder, name)
    assert input_digest(order(folder, told)) == before
    like = path.stat()
    box(path, 90.0)
    as_old(path, like)
    assert path.stat().st_size == like.st_size
    assert input_digest(order(folder, told)) != before
    second = scanned(folder, name)
    assert [first.extent[0], second.extent[0]] == pytest.approx([100.0, 90.0])


def test_the_old_result_is_not_served_for_a_file_outside_the_jobs_folder(works: Path) -> None:
    folder = works / "job"
    folder.mkdir()
    (works / "note.txt").write_text("one")
    (folder / "job.toml").write_text(JOB.format(note="../note.txt"))
    job = Job.open(folder / "job.toml")
    first = build(job, "gauge")
    assert build(job, "gauge") is first
    (works / "note.txt").write_text("two")
    assert build(job, "gauge") is not first


def test_a_file_changed_while_the_shape_is_made_is_made_anew(works: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (works / "note.txt").write_text("one")
    (works / "job.toml").write_text(JOB.format(note="note.txt"))
    job = Job.open(works / "job.toml")
    import kit.job.build as building

    true, calls = building.input_digest, []

    def told(wanted: BuildInput) -> str:
        calls.append(1)
        if len(calls) == 2:
            (works / "note.txt").write_text("two")
        return true(wanted)

    monkeypatch.setattr(building, "input_digest", told)
    first = build(job, "gauge")
    (works / "note.txt").write_text("one")
    assert build(job, "gauge") is not first


def unfinished(action: object) -> bool:
    """Return whether an action is not over after 5 s."""
    thread = threading.Thread(target=action, daemon=True)  # type: ignore[arg-type]
    thread.start()
    thread.join(5.0)
    return thread.is_alive()


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="the system has no pipes with names")
def test_a_pipe_a_folder_and_a_device_get_a_sentence_and_never_hang(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.stl")
    (tmp_path / "folder.stl").mkdir()
    (tmp_path / "link.stl").symlink_to(tmp_path / "pipe.stl")
    told = {
        "pipe.stl": "pipe.stl is a pipe", "link.stl": "link.stl is a pipe", "folder.stl": "folder.stl is a folder",
        ".": "is a folder", "/dev/zero": "zero is a device", "none.stl": "there is no file 'none.stl'",
        "": "there is no file ''", "a\0b": "there is no file", "x" * 5000: "there is no file",
    }  # fmt: skip
    sentences: dict[str, str] = {}

    def look() -> None:
        for name in told:
            input_digest(order(tmp_path, shape(name)))
            for read in (lambda name=name: scanned(tmp_path, name),
                         lambda name=name: read_regular(beside(tmp_path, name), 100)):  # fmt: skip
                try:
                    read()
                except KitError as error:
                    sentences[name] = str(error)

    with pytest.raises(KitError, match=r"folder\.stl is a folder"):
        read_regular(tmp_path / "folder.stl", 100)
    assert not unfinished(look)
    assert {name for name, words in told.items() if words not in sentences.get(name, "")} == set()


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="the system has no pipes with names")
def test_a_pipe_or_a_device_as_a_job_gets_a_sentence_and_never_hangs(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "job.toml")
    sentences: list[str] = []

    def look() -> None:
        for path in (tmp_path / "job.toml", Path("/dev/zero")):
            with pytest.raises(KitError) as caught:
                Job.open(path)
            sentences.append(str(caught.value))

    assert not unfinished(look)
    assert ["is a pipe or a device, not a file" in words for words in sentences] == [True, True]


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="the system has no pipes with names")
def test_a_pipe_in_a_class_is_left_out_and_never_replaced(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe.jsonl"
    os.mkfifo(pipe)
    sentences: list[str] = []

    def look() -> None:
        sentences.extend(read_answers(pipe)[1])
        with pytest.raises(KitError) as caught:
            class_list(pipe)
        sentences.append(str(caught.value))

    assert not unfinished(look)
    assert ["pipe.jsonl is a pipe" in words for words in sentences] == [True, True]
    with pytest.raises(OSError, match="a pipe or a device"):
        write_atomic(pipe, "text")
    assert pipe.is_fifo()


@pytest.mark.parametrize("size", [3_000_000_000, 20_000_000_000])
def test_a_file_far_too_large_is_refused_by_what_the_system_tells_of_it(
    tmp_path: Path, size: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A file with a hole, which takes no room on the disk; nothing of it may be read, nor hashed."""
    with (tmp_path / "large.stl").open("wb") as file:
        file.truncate(size)

    def read(*_: object) -> bytes:
        raise AssertionError("it was read")

    monkeypatch.setattr("kit.core.files.read_regular", read)
    told = shape("large.stl")
    before = input_digest(order(tmp_path, told))
    with pytest.raises(KitError, match=rf"large.stl has {size / 1e6:,.0f} MB; at most 400 MB are read"):
        scanned(tmp_path, "large.stl")
    with (tmp_path / "large.stl").open("ab") as file:
        file.truncate(size + 1)
    assert input_digest(order(tmp_path, told)) != before


def test_a_digest_changes_with_every_byte(tmp_path: Path) -> None:
    path, seen = tmp_path / "a", set()
    for content in (b"", b"a", b"b", b"ab", bytes(np.arange(256, dtype=np.uint8))):
        path.write_bytes(content)
        seen.add(content_digest(path, 1000))
    path.unlink()
    seen.add(content_digest(path, 1000))
    assert len(seen) == 6
