"""Files that are no job, and formats that come and go."""

import json
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from kit.job import Job, JobError, check
from kit.job import toml_file as formats
from tests.job.conftest import JOB

BAD = {
    "empty": (b"", 1, "is empty"),
    "blank": (b" \r\n\n", 1, "is empty"),
    "nul": (b"format = 1\na = 'x\0y'\n", 2, "line 2, holds a NUL"),
    "latin-1": ("format = 1\n\n# für\n".encode("latin-1"), 3, "line 3, is not UTF-8"),
    "utf-16": ("format = 1\n".encode("utf-16"), 1, "line 1, is not UTF-8"),
    "no equals": (b"format = 1\n[job]\nname 'x'\n", 3, "line 3, is not TOML"),
    "twice": (b"format = 1\n[parts.a]\nmodel = 'x'\n\n[parts.a]\n", 5, "line 5, is not TOML"),
    "open text": (b'format = 1\r\nx = """\r\nabc\r\n', 3, "line 3, is not TOML"),
    "lone return": (b"format = 1\rx = 2\r", 1, "line 1, is not TOML"),
    "deep": (b"format = 1\nx = " + b"[" * 100_000, 1, "nested too deeply"),
    "long number": (b"format = 1\nx = " + b"9" * 10_000 + b"\n", 1, "is not TOML"),
    "large": (b"#" * 5_000_000, 1, "larger than 1 MB, the most that a job file may have"),
    "no format": (b"[job]\nname = 'x'\n", 1, "does not say its format"),
    "format text": (b"format = '1'\n", 1, "no whole number"),
    "format true": (b"format = true\n", 1, "no whole number"),
    "format to come": (
        b"format = 3\n",
        1,
        "newer than 2, the newest that this version reads; update fitwright",
    ),
    "format that never was": (b"format = 0\n", 1, "which does not exist"),
}


@pytest.mark.parametrize("name", BAD)
def test_a_file_that_is_no_job_is_told_in_one_sentence(tmp_path: Path, name: str) -> None:
    content, line, words = BAD[name]
    path = tmp_path / "shed.toml"
    path.write_bytes(content)
    with pytest.raises(JobError, match=r"shed\.toml") as refused:
        Job.open(path)
    told = str(refused.value)
    assert words in told
    assert "\n" not in told
    assert "; " in told, "what to do is missing"
    (finding,) = check(path)
    assert (finding.line, finding.severity) == (line, "fault")
    assert path.read_bytes() == content


def test_a_folder_and_a_file_that_is_not_there_are_told(tmp_path: Path) -> None:
    with pytest.raises(JobError, match="is a folder"):
        Job.open(tmp_path)
    with pytest.raises(JobError, match="there is no file"):
        Job.open(tmp_path / "none.toml")
    assert [finding.line for finding in check(tmp_path / "none.toml")] == [1]


def test_a_byte_order_mark_is_kept_and_pointed_out(write: Callable[..., Path]) -> None:
    path = write("\ufeff" + JOB)
    (hint,) = check(path)
    assert (hint.severity, hint.line) == ("hint", 1)
    job = Job.open(path)
    job.set("ring", "sides", 9)
    job.save()
    assert path.read_bytes() == ("\ufeff" + JOB.replace("sides = 8", "sides = 9")).encode()


def test_an_older_format_is_read_through_the_migrations_one_after_the_other(
    write: Callable[..., Path], monkeypatch: pytest.MonkeyPatch
) -> None:
    """The mechanism only, on a format invented here: it called parts 'pieces'; comments survive."""
    monkeypatch.setattr(formats, "FORMAT", 3)
    steps = {
        1: lambda text: text.replace("format = 1", "format = 2"),
        2: lambda text: text.replace("format = 2", "format = 3").replace("[pieces.", "[parts."),
    }
    monkeypatch.setattr(formats, "MIGRATIONS", steps)
    path = write(JOB.replace("[parts.", "[pieces."))
    job = Job.open(path)
    assert list(job.parts) == ["shelf", "ring"]
    assert "[pieces." in path.read_text(), "opening writes nothing"
    job.set("ring", "sides", 9)
    job.save()
    wanted = JOB.replace("format = 2", "format = 3").replace("sides = 8", "sides = 9")
    assert path.read_text() == wanted


def test_opening_a_job_loads_nothing_heavy(write: Callable[..., Path]) -> None:
    path = write()
    script = (
        "import json, sys; from kit.job import Job; Job.open(sys.argv[1]); "
        "print(json.dumps(sorted({'sympy', 'numpy', 'pint', 'tomlkit', 'scipy'} & set(sys.modules))))"
    )
    done = subprocess.run([sys.executable, "-c", script, str(path)], capture_output=True, check=True)
    assert json.loads(done.stdout) == []
