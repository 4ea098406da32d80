"""The facade: what it offers, how lightly it loads, and that what it gives back is readable in a cell."""

import ast
import json
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

import kit
from kit.core.build import Build, BuildInput, Number, Output, Picture, Table
from kit.core.quantity import Display
from kit.core.summary import WIDTH
from kit.core.verdict import compare, fact
from kit.job import Job
from tests import ROOT
from tests.test_house import offered, read

FACADE = read(ROOT / "kit" / "__init__.py")
LINES = 7  # a head and what there is of givens, results, limits, cautions …


def run(*arguments: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run([sys.executable, *arguments], cwd=ROOT, capture_output=True, text=True, check=True)


def test_type_checkers_and_python_find_the_same_names() -> None:
    typed = {
        f"{node.module}.{alias.name}"
        for block in FACADE.tree.body
        if isinstance(block, ast.If)
        for node in block.body
        if isinstance(node, ast.ImportFrom)
        for alias in node.names
    }
    assert typed == set(offered(FACADE))
    assert {name.rpartition(".")[2] for name in typed} | {"__version__"} == set(kit.__all__)


@pytest.mark.parametrize("name", kit.__all__)
def test_every_name_is_there(name: str) -> None:
    assert getattr(kit, name) is not None
    assert name in dir(kit)


def test_another_name_is_refused_with_those_there_are() -> None:
    with pytest.raises(AttributeError, match=r"no attribute 'hood'; it offers .*open_job"):
        kit.hood  # noqa: B018


def test_import_kit_loads_its_version_and_nothing_else() -> None:
    code = "import sys; before = set(sys.modules); import kit; print(*{n for n in sys.modules if n[:3] == 'kit'})"
    assert set(run("-c", code).stdout.split()) == {"kit", "kit.core", "kit.core.version"}


@pytest.mark.parametrize(
    ("name", "heavy"),
    [
        ("Quantity", "numpy sympy scipy pint matplotlib ipywidgets"),
        ("open_job", "numpy sympy scipy pint matplotlib ipywidgets"),
        ("model", "matplotlib ipywidgets"),
        ("write_sheet", "matplotlib ipywidgets"),
    ],
)
def test_a_name_loads_what_it_needs_and_no_more(name: str, heavy: str) -> None:
    loaded = set(run("-c", f"import sys; from kit import {name}; print(*sys.modules)").stdout.split())
    assert not loaded.intersection(heavy.split())


def test_the_kit_runs_as_a_module() -> None:
    assert run("-m", "kit", "--version").stdout == f"fitwright {kit.__version__}\n"
    assert json.loads(run("-m", "kit", "list", "stop.section", "--json").stdout)["models"][0]["name"] == "stop.section"


# What a cell shows.


@pytest.fixture(scope="module")
def job(tmp_path_factory: pytest.TempPathFactory) -> Job:
    path = tmp_path_factory.mktemp("job") / "boatshed.toml"
    path.write_bytes((ROOT / "data" / "boatshed.toml").read_bytes())
    return Job.open(path)


def build() -> Build:
    """Return a build with much in it."""
    long = "a sentence that goes on " * 20
    return Build(
        tuple(Number(f"number_{n}", long, 10.0 * n) for n in range(40)),
        tuple(compare(f"check_{n}", long, n, 5.0, mend=long) for n in range(40)),
        (long,) * 40,
        (long,) * 40,
        tuple(Picture(f"picture_{n}", long, long, lambda _display: None) for n in range(40)),
        tuple(Table(f"table {n}", ("a", "b"), ((long, long),) * 400) for n in range(40)),
        tuple(Output(f"output_{n}", long, lambda *_: []) for n in range(40)),
        data=[long] * 400,
    )


SHOWN: dict[str, Callable[[Job], object]] = {
    "job": lambda job: job,
    "model": lambda job: job.model("long_stop"),
    "case": lambda job: job.case("long_stop"),
    "entry": lambda job: job.case("long_stop").entries["push"],
    "given": lambda job: job.model("long_stop").givens["push"],
    "result": lambda job: job.model("long_stop").results["tip_error"],
    "limit": lambda job: job.model("long_stop").limits["tip"],
    "check": lambda job: job.case("long_stop").checks[0],
    "quantity": lambda job: job.case("long_stop")["push"],
    "found": lambda job: job.case("long_stop").find("long_reach", "tip_error", "0.1 mm"),
    "budget": lambda job: kit.budget(job.case("long_stop"), "tip_error"),
    "plan": lambda job: kit.needed(kit.budget(job.case("long_stop"), "tip_error"), 0.01),
    "verdict": lambda job: job.verdict("long_stop"),
    "part's build": lambda job: job.build("saw_pad"),
    "build": lambda _: build(),
    "number": lambda _: build().numbers[0],
    "picture": lambda _: build().pictures[0],
    "table": lambda _: build().tables[0],
    "files": lambda _: build().outputs[0],
    "input": lambda job: BuildInput(job.case("long_stop"), Display(), {}, Path()),
    "table of materials": lambda job: job.case("long_stop").table("woods"),
    "row": lambda job: job.case("long_stop").table("woods").row("hard maple"),
    "panel": lambda job: kit.panel(job=job, part="long_stop"),
}


@pytest.mark.parametrize("shown", SHOWN.values(), ids=SHOWN)
def test_what_a_cell_shows_is_short_and_readable(job: Job, shown: Callable[[Job], object]) -> None:
    text = repr(shown(job))
    lines = text.splitlines()
    assert 1 <= len(lines) <= LINES
    assert " object at 0x" not in text
    assert "(base=" not in text, "no dataclass is spelled out"
    if len(lines) > 1:
        assert max(map(len, lines)) <= WIDTH


def test_a_case_says_what_it_is_in_five_lines(job: Job) -> None:
    lines = repr(job.case("long_stop")).splitlines()
    assert lines[0].startswith("Case of stop.deflection: How far does the tip")
    assert [line.split(":")[0].strip() for line in lines[1:]] == ["givens", "results", "limits", "cautions"]
    assert "long_reach 640.0 ± 1 mm" in lines[1]
    assert lines[3].startswith("  limits: all 3 limits hold; ")
    assert lines[3].endswith(" values are examples, not yet yours")


def test_a_failing_check_says_so() -> None:
    assert repr(fact("sound", False, "two parts overlap", "pack again")) == (
        "<sound fails: two parts overlap; to mend it, pack again>"
    )
