"""Saving: only what changed, beside what others changed, or not at all."""

import os
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from kit.job import Job, JobChanged, JobError, JobGone
from kit.job.toml_file import MOST_BYTES
from tests import ROOT
from tests.job.conftest import JOB

Write = Callable[..., Path]


def edit(path: Path, old: str, new: str) -> None:
    """Edit the file as a person does in an editor."""
    text = path.read_bytes().decode()
    assert old in text
    path.write_bytes(text.replace(old, new).encode())


@settings(derandomize=True, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    ends=st.sampled_from(["\n", "\r\n"]),
    head=st.text(st.characters(exclude_categories=["Cs", "Cc"]), max_size=20),
    tail=st.sampled_from(["", "\n", "   ", "\n\n# end", "\n[unknown]\nx = [1,\n  2]"]),
    mark=st.booleans(),
)
def test_without_a_change_the_bytes_stay(write: Write, ends: str, head: str, tail: str, mark: bool) -> None:
    content = (("\ufeff" if mark else "") + (f"# {head}\n" + JOB + tail).replace("\n", ends)).encode()
    path = write(content.decode())
    stamp = path.stat().st_mtime_ns
    job = Job.open(path)
    job.save()
    job.set("ring", "sides", 9)
    job.set("ring", "sides", 8)
    job.save()
    assert path.read_bytes() == content
    assert path.stat().st_mtime_ns == stamp


@pytest.mark.parametrize("ends", ["\n", "\r\n"])
def test_only_what_changed_is_written(write: Write, ends: str) -> None:
    path = write(JOB.replace("\n", ends))
    job = Job.open(path)
    job.set("shelf", "load", "75 N")
    job.set("shelf", "length", "710 mm", measured="2026-06-01")
    job.set("shelf", "boards", 2)
    job.set("shelf", "wood", "hard maple")
    job.set_beyond("ring", ["radius"])
    job.unset("ring", "sides")
    job.save()
    wanted = (
        JOB.replace("load = 60          # N", 'load = "75 N"          # N')
        .replace(
            '{ value = "700 ± 0.2 mm", spread = "normal", k = 2, measured = 2026-05-02, how = "steel rule" }',
            '{ value = "710 mm", measured = 2026-06-01 }',
        )
        .replace('width = "2 in"\n', 'width = "2 in"\nboards = 2\n')
        .replace('wood = "boat-shed ash"', 'wood = "hard maple"')
        .replace('model = "test.ring"\n', 'model = "test.ring"\nbeyond = ["radius"]\n')
        .replace("sides = 8\n", "")
    )
    assert path.read_bytes().decode() == wanted.replace("\n", ends)
    assert not job.changed


def test_the_first_given_of_a_part_gets_a_table(write: Write) -> None:
    path = write(JOB.replace("[parts.ring.givens]\nsides = 8\n", "\n[parts.ring.built]\nsides = 8\n"))
    job = Job.open(path)
    job.set("ring", "radius", "12 in")
    job.save()
    assert path.read_text().endswith(
        'model = "test.ring"\n\n[parts.ring.givens]\nradius = "12 in"\n\n\n[parts.ring.built]\nsides = 8\n'
    )


def test_what_others_changed_meanwhile_stays_and_is_seen(write: Write) -> None:
    path = write()
    job = Job.open(path)
    edit(path, "sides = 8", "sides = 12 # counted")
    edit(path, "# measured twice", "# measured three times")
    job.set("shelf", "load", "75 N")
    job.save()
    wanted = JOB.replace("sides = 8", "sides = 12 # counted").replace("twice", "three times")
    assert path.read_text() == wanted.replace("load = 60", 'load = "75 N"')
    assert job.case("ring").base["sides"] == 12


def test_the_same_key_changed_here_and_there_asks(write: Write) -> None:
    path = write()
    job = Job.open(path)
    job.set("ring", "sides", 10)
    job.set("shelf", "load", "75 N")
    edit(path, "sides = 8", "sides = 12 # counted")
    theirs = path.read_bytes()
    with pytest.raises(JobChanged) as asked:
        job.save()
    assert (asked.value.key, asked.value.ours, asked.value.theirs) == ("parts.ring.givens.sides", "10", "12")
    for word in ("shelves.toml", "parts.ring.givens.sides", "10", "12", "save(force=True)", "reload()"):
        assert word in str(asked.value)
    assert path.read_bytes() == theirs
    assert job.changed, "nothing of ours is lost"
    job.save(force=True)
    assert path.read_text() == JOB.replace("sides = 8", "sides = 10 # counted").replace("load = 60", 'load = "75 N"')


def test_reload_takes_theirs_and_drops_ours(write: Write) -> None:
    path = write()
    job = Job.open(path)
    job.set("ring", "sides", 10)
    edit(path, "sides = 8", "sides = 12")
    job.reload()
    assert not job.changed
    assert job.parts["ring"].givens["sides"].text == "12"


def test_a_given_taken_out_by_hand_asks_too(write: Write) -> None:
    path = write()
    job = Job.open(path)
    job.set("ring", "sides", 10)
    edit(path, "sides = 8\n", "")
    with pytest.raises(JobChanged, match="is not there in the file and 10 here"):
        job.save()
    job.save(force=True)
    assert path.read_text() == JOB.replace("sides = 8", "sides = 10")


def test_the_same_change_made_twice_is_no_conflict(write: Write) -> None:
    path = write()
    job = Job.open(path)
    job.set("ring", "sides", 12)
    edit(path, "sides = 8", "sides = 12")
    job.save()
    assert path.read_text() == JOB.replace("sides = 8", "sides = 12")


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("sides = 8", "sides = ", f"line {JOB.splitlines().index('sides = 8') + 1}, is not TOML"),
        (
            '[parts.ring]\nmodel = "test.ring"\n\n[parts.ring.givens]\nsides = 8\n',
            "",
            "has no part ring any more",
        ),
        ('model = "test.ring"', "", "part ring names no model"),
    ],
)
def test_a_file_broken_meanwhile_is_left_alone(write: Write, old: str, new: str, words: str) -> None:
    path = write()
    job = Job.open(path)
    job.set("ring", "radius", "250 mm")
    edit(path, old, new)
    theirs = path.read_bytes()
    for force in (False, True):
        with pytest.raises(JobError) as refused:
            job.save(force=force)
        assert words in str(refused.value)
    assert path.read_bytes() == theirs
    assert job.changed


def test_a_file_that_is_gone_is_written_anew_only_by_force(write: Write) -> None:
    path = write()
    job = Job.open(path)
    job.set("ring", "sides", 12)
    path.unlink()
    with pytest.raises(JobGone, match="is gone"):
        job.save()
    assert not path.exists()
    job.save(force=True)
    assert path.read_text() == JOB.replace("sides = 8", "sides = 12")


def test_a_link_stays_a_link_and_permissions_stay(write: Write, tmp_path: Path) -> None:
    path = write()
    path.chmod(0o640)
    other = tmp_path / "link.toml"
    other.symlink_to(path)
    job = Job.open(other)
    job.set("ring", "sides", 12)
    job.save()
    assert other.is_symlink()
    assert path.stat().st_mode & 0o777 == 0o640
    assert "sides = 12" in path.read_text()


@pytest.mark.skipif(not hasattr(os, "setxattr"), reason="extended attributes as on Linux")
def test_extended_attributes_stay(write: Write) -> None:
    path = write()
    try:
        os.setxattr(path, "user.label", b"bench")
    except OSError:
        pytest.skip("this disk has none")
    job = Job.open(path)
    job.set("ring", "sides", 12)
    job.save()
    assert os.getxattr(path, "user.label") == b"bench"


def test_a_save_that_makes_the_file_too_large_to_be_opened_is_refused(write: Write) -> None:
    job = Job.open(write(JOB + "# " + "x" * (MOST_BYTES - len(JOB.encode()) - 10) + "\n"))
    before = job.path.read_bytes()
    job.set("ring", "radius", "250 mm", note="as wide as the drum")
    with pytest.raises(JobError, match=r"would have 1.00 MB, 1 MB at most can be opened again; nothing is written"):
        job.save()
    assert job.path.read_bytes() == before
    assert job.changed


def test_what_a_killed_session_left_half_written_goes_with_the_next_save(write: Write) -> None:
    path = write()
    left, young = (path.with_name(f".{path.name}.{name}.part") for name in ("left", "young"))
    for each in (left, young):
        each.write_text("half")
    long_ago = time.time() - 2 * 86_400
    os.utime(left, (long_ago, long_ago))
    job = Job.open(path)
    job.set("ring", "sides", 12)
    job.save()
    assert not left.exists()
    assert young.exists()


SAVER = """
import sys
from tests.job import models
models.install()
from kit.job import Job
job = Job.open(sys.argv[1])
for number in range(60):
    job.set(sys.argv[2], sys.argv[3], f"{100 + number} mm")
    job.save()
"""


def test_two_sessions_and_an_editor_lose_nothing_of_each_other(write: Write) -> None:
    """Each writes its own key again and again; at the end all three last values stand."""
    path = write(JOB.replace("sides = 8", "radius = '99 mm'"))
    env = os.environ | {"PYTHONPATH": str(ROOT)}
    sessions = [
        subprocess.Popen([sys.executable, "-c", SAVER, str(path), part, name], env=env)
        for part, name in (("ring", "radius"), ("shelf", "length"))
    ]
    for session in sessions:
        assert session.wait(timeout=60) == 0
    text = path.read_text()
    assert 'radius = "159 mm"' in text
    assert 'length = { value = "159 mm" }' in text
