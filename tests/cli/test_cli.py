"""The command: what it prints, what it writes, how it ends."""

import json
import os
import shutil
import subprocess
import sys
from math import inf
from pathlib import Path
from typing import Any

import pytest

from kit import __version__
from kit.cli import main
from kit.core.uncertainty.answers import answered
from kit.job import Job
from kit.subjects import model, names
from kit.ui.panel import panel
from tests import DATA, NOTEBOOKS, ROOT


def run(capsys: pytest.CaptureFixture[str], *arguments: str) -> tuple[int, str, str]:
    code = main(arguments)
    out, err = capsys.readouterr()
    return code, out, err


def run_json(capsys: pytest.CaptureFixture[str], *arguments: str) -> tuple[int, Any]:
    code, out, _ = run(capsys, *arguments, "--json")
    return code, json.loads(out)


@pytest.fixture(autouse=True)
def _wide(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let no width be stated, as the environment of a test may."""
    monkeypatch.delenv("COLUMNS", raising=False)


def test_list_names_every_model_with_units_and_spans(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, "list", "--details")
    assert code == 0
    for name in names():
        stated = model(name)
        assert f"{name}: {stated.question}" in out
        for given in stated.free.values():
            assert f"{given.meaning}; {given.span_text()}" in out
        for asked in stated.inputs.values():
            assert f"  {asked.name:<24} {asked.meaning}; {asked.kind}\n" in out
    assert run(capsys, "list", names()[0])[1] == out[: out.index("\n\n") + 2]
    code, found = run_json(capsys, "list", "level.plane")
    assert [each["name"] for each in found["models"][0]["inputs"]] == ["gaps"]
    code, found = run_json(capsys, "list", "stop.deflection")
    assert code == 0
    (only,) = found["models"]
    push = next(given for given in only["givens"] if given["name"] == "push")
    assert push["unit"] == "N"
    assert push["span"] == [0, 500]


def test_list_is_short(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("COLUMNS", raising=False)
    lines = run(capsys, "list")[1].splitlines()
    assert [line.split()[0] for line in lines] == list(names())
    assert all(line.endswith(model(name).question) for name, line in zip(names(), lines, strict=True))
    monkeypatch.setenv("COLUMNS", "60")
    assert max(map(len, run(capsys, "list")[1].splitlines())) == 60
    assert max(map(len, run(capsys, "list", "--details")[1].splitlines())) <= 60


def test_spans_are_told_as_they_were_stated(capsys: pytest.CaptureFixture[str]) -> None:
    _, found = run_json(capsys, "list")
    ends = [end for each in found["models"] for given in each["givens"] for end in given.get("span", [])]
    assert ends
    assert all(end == float(f"{end:.9g}") for end in ends)


def test_table_shows_rows_with_their_sources(capsys: pytest.CaptureFixture[str]) -> None:
    from kit.core.tables import names as tables
    from kit.core.tables import table

    assert [line.split()[0] for line in run(capsys, "table")[1].splitlines()] == list(tables())
    for name in tables():
        code, out, _ = run(capsys, "table", name)
        assert code == 0
        for row in table(name):
            assert f"\n{row.id}" in f"\n{out}"
            assert all(entry.cited in out for entry in row.entries.values())
    assert "GPa" in run(capsys, "table", "woods")[1]
    assert "Msi" in run(capsys, "table", "woods", "--units", "in")[1]
    code, _, told = run(capsys, "table", "wood")
    assert (code, "did you mean 'woods'" in told) == (2, True)


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_completion(capsys: pytest.CaptureFixture[str], shell: str) -> None:
    code, out, _ = run(capsys, "completion", shell)
    assert code == 0
    assert all(word in out for word in ("book", "stop.deflection", "woods", "fitwright"))


@pytest.mark.skipif(not shutil.which("bash"), reason="there is no bash here")
@pytest.mark.parametrize(
    ("typed", "offered"),
    [
        ("fitwright che", ["check"]),
        ("fitwright work stop.d", ["stop.deflection"]),
        ("fitwright table wo", ["woods", "wood_screws"]),
        ("fitwright book boatshed.toml --o", ["--out", "--over"]),
        ("fitwright book --out books boats", []),  # then bash offers files
    ],
)
def test_bash_completes(capsys: pytest.CaptureFixture[str], typed: str, offered: list[str]) -> None:
    script = run(capsys, "completion", "bash")[1]
    words = typed.split()
    ask = f"COMP_WORDS=({typed}); COMP_CWORD={len(words) - 1}; _fitwright; echo ${{COMPREPLY[@]}}"
    done = subprocess.run(["bash", "-c", f"{script}\n{ask}"], capture_output=True, text=True, check=True)
    assert done.stdout.split() == offered


def test_every_command_tells_its_purpose(capsys: pytest.CaptureFixture[str]) -> None:
    for command in ("open", "list", "work", "table", "check", "book", "completion"):
        with pytest.raises(SystemExit):
            main([command, "--help"])
        assert "\n\n" in capsys.readouterr().out.partition("usage:")[2]


def test_work_prints_the_numbers_of_the_panel(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, "work", "stop.deflection", "long_reach=640 mm", "push=70 N")
    shown = panel("stop.deflection", long_reach="640 mm", push="70 N")
    assert code == 0
    for name in shown.model.results:
        value = answered(shown.case, shown.model.results[name], shown.display)
        assert f"-> {name:<21} {value}" in out
        assert value in shown.answer.value


def test_json_is_stable_and_says_units(capsys: pytest.CaptureFixture[str]) -> None:
    code, found = run_json(capsys, "work", "bevel.setting", "rise=150 mm", "base=300 mm")
    assert code in (0, 1)
    assert found["fitwright"] == __version__
    assert found["format"] == 2
    assert found["model"] == "bevel.setting"
    assert found["givens"]["rise"]["value"] == 150
    assert found["results"]["angle"]["unit"] == "deg"
    assert found["results"]["angle"]["value"] == pytest.approx(26.565051177, abs=1e-9)  # arctan 1/2


def test_find_works_and_says_when_there_is_nothing(capsys: pytest.CaptureFixture[str]) -> None:
    wanted = ("--find", "key_length", "play_tip=0.1 mm")
    code, found = run_json(capsys, "work", "stop.deflection", *wanted)
    assert code == 0
    assert found["found"]["values"] == [pytest.approx(600)]  # 600 mm reach × 0.1 mm play / 0.1 mm
    assert found["givens"]["key_length"]["value"] == pytest.approx(600)
    code, out, _ = run(capsys, "work", "stop.deflection", "--find", "key_length", "play_tip=80 mm")
    assert code == 1
    assert "nearest is" in out


def test_inches_are_equals(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, "work", "stop.deflection", "long_reach=23 5/8 in", "--units", "in")
    assert code in (0, 1)
    assert "23 5/8" in out
    assert " mm" not in "\n".join(line for line in out.splitlines() if line.startswith("  ") and "caution" not in line)


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("work", "stop.deflexion"), "did you mean 'stop.deflection'"),
        (("work", "stop.deflection", "lenght=3 mm"), "no given 'lenght'"),
        (("work", "stop.deflection", "push=3 kg"), "3 kg"),
        (("work", "stop.deflection", "push"), "write it like"),
        (("work", "stop.deflection", "push=3 N", "push=4 N"), "twice"),
        (("work", "stop.deflection", "push=600 N"), "holds for 0 N to 500 N"),
        (("work", "stop.deflection", "beyond=push"), "no given 'beyond'"),
        (("work", "stop.deflection", "--beyond", "pushh"), "'pushh'"),
        (("work", "stop.deflection", "--find", "push", "tip_error"), "write it like"),
        (("list", "stop.nothing"), "no model"),
        (("check", "nowhere.toml"), "nowhere.toml"),
        (("book", "nowhere.toml", "--out", "book"), "nowhere.toml"),
        (("open", "--job", "nowhere.toml"), "nowhere.toml"),
    ],
)  # fmt: skip
def test_bad_input_is_one_sentence_and_ends_with_2(
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
    arguments: tuple[str, ...],
    words: str,
) -> None:
    monkeypatch.chdir(tmp_path)
    code, out, err = run(capsys, *arguments)
    assert code == 2
    assert words in out + err
    assert "Traceback" not in err
    assert len((out + err).strip().splitlines()) <= 2
    assert list(tmp_path.iterdir()) == []


def test_beyond_lets_a_given_leave_its_span(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, "work", "stop.deflection", "push=600 N", "--beyond", "push")
    assert code == 1
    assert "this model holds for 0 N to 500 N" in out


def test_a_failing_limit_ends_with_1(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, "work", "stop.deflection", "push=500 N")
    assert code == 1
    assert "fails: the work pushes with" in out


def test_check_names_file_line_and_remedy(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    job = tmp_path / "bad.toml"
    job.write_text('format = 2\n[parts.a]\nmodel = "stop.deflection"\n[parts.a.givens]\npush = "3 kg"\n')
    code, out, _ = run(capsys, "check", str(job))
    assert code == 2
    assert f"{job}:5:" in out
    code, found = run_json(capsys, "check", str(job))
    assert code == 2
    assert found["findings"][0]["line"] == 5
    assert set(found["findings"][0]) >= {"line", "severity", "where", "message", "remedy"}


@pytest.mark.parametrize("job", [pytest.param("boatshed.toml", marks=pytest.mark.long), "schoolshop.toml"])
def test_the_demo_jobs_have_no_fault(capsys: pytest.CaptureFixture[str], job: str) -> None:
    assert run(capsys, "check", str(DATA / job))[0] == 0


@pytest.mark.long
def test_book_writes_every_sheet_and_an_index(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setattr("kit.subjects.hood.shape_build.CERTIFY_SECONDS", inf)  # on however slow a machine
    out = tmp_path / "book"
    code, printed, progress = run(capsys, "book", str(DATA / "schoolshop.toml"), "--out", str(out))
    assert code == 0
    steps = [line.split()[0] for line in progress.splitlines()]
    total = len(steps) - 1
    assert steps == [f"{done}/{total}" for done in range(len(steps))], "a line to begin, and one for each sheet"
    index = (out / "index.html").read_text(encoding="utf-8")
    sheets = [f"{part}.html" for part in Job.open(DATA / "schoolshop.toml").parts]
    assert f"{len(sheets)} sheets" in printed
    written = {path.name for path in out.glob("*.html")} - {"index.html"}
    assert written > set(sheets), "the lists stand beside the sheets"
    for page in written:
        assert f'href="{page}"' in index


def test_work_needs_no_widgets_no_browser_and_no_pint() -> None:
    heavy = ("ipywidgets", "matplotlib", "pint", "jupyterlab", "jinja2")
    code = (
        "import sys; from kit.cli import main; main(['work', 'stop.deflection']); "
        f"print([name for name in {heavy!r} if name in sys.modules], file=sys.stderr)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stderr.strip() == "[]"


def test_open_lays_out_a_folder_and_keeps_what_is_there(tmp_path: Path) -> None:
    from kit.ui.lab import lay_out

    folder = tmp_path / "station"
    folder.mkdir()
    (folder / "boatshed.toml").write_text("# mine\n")
    new = lay_out(folder)
    notebooks = {path.name for path in NOTEBOOKS.glob("*.ipynb")}
    assert {path.name for path in new} == notebooks, "a demo is offered on the page, never put there unasked"
    assert (folder / "boatshed.toml").read_text() == "# mine\n"
    assert lay_out(folder) == []


def test_a_part_that_the_job_has_not_is_told(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    code, out, err = run(capsys, "sheet", str(DATA / "boatshed.toml"), "hod", "--out", str(tmp_path / "sheets"))
    assert (code, out) == (2, "")
    assert "the job has no part 'hod'; did you mean 'hood'" in err
    assert not (tmp_path / "sheets").exists()


def command(*arguments: str, **env: str) -> subprocess.Popen[bytes]:
    """The command in a process of its own."""
    environment = {**os.environ, "PYTHONPATH": str(ROOT), **env}
    pipe = subprocess.PIPE
    return subprocess.Popen([sys.executable, "-m", "kit", *arguments], stdout=pipe, stderr=pipe, env=environment)


def test_a_terminal_that_lacks_a_sign_ends_nothing() -> None:
    out, err = (process := command("work", "stop.section", PYTHONIOENCODING="cp1252")).communicate()
    assert (process.returncode, err) == (0, b"")
    assert b"second_moment" in out
    out, _ = command("work", "stop.section", "--json", PYTHONIOENCODING="ascii").communicate()
    told = {name: each["text"] for name, each in json.loads(out)["givens"].items()}
    assert told["block_width"] == "40.0 ± 0.2 mm", "programs read every sign"


def test_a_closed_pipe_is_silent() -> None:
    process = command("list", "--json")
    assert process.stdout is not None
    assert process.stderr is not None
    process.stdout.read(10)
    process.stdout.close()
    err = process.stderr.read()
    process.stderr.close()
    assert (process.wait(), err) == (0, b"")


@pytest.mark.skipif(sys.platform == "win32", reason="streams are closed by the shell of POSIX")
@pytest.mark.parametrize(
    ("closed", "arguments", "code"),
    [(">&-", ("list",), 0), ("2>&-", ("list", "no.such"), 2), ("2>/dev/full", ("list", "no.such"), 2)],
)
def test_a_closed_stream_changes_no_exit_code(closed: str, arguments: tuple[str, ...], code: int) -> None:
    if "full" in closed and not Path("/dev/full").exists():
        pytest.skip("no full device here")
    line = ["sh", "-c", f'exec "$0" -m kit "$@" {closed}', sys.executable, *arguments]
    done = subprocess.run(line, env={**os.environ, "PYTHONPATH": str(ROOT)}, capture_output=True, check=False)
    assert done.returncode == code
    assert b"Traceback" not in done.stderr


def test_an_interrupt_is_quiet_and_says_130(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def stopped(_options: object) -> int:
        raise KeyboardInterrupt

    monkeypatch.setattr("kit.cli._list", stopped)
    assert run(capsys, "list") == (130, "", "")
