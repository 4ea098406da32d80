"""Every example in a docstring of the kit is run; what a user meets first has one."""

import ast
import doctest
import inspect
from importlib import import_module
from pathlib import Path

import pytest

import kit
from kit.core.model import Case, Model
from kit.core.quantity import Quantity
from kit.job import Job
from tests import ROOT

WITH_EXAMPLES = [
    ".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__")
    for path in sorted((ROOT / "kit").rglob("*.py"))
    if ">>> " in path.read_text(encoding="utf-8")
]

FIRST = [
    kit.Display,
    kit.against,
    kit.best,
    kit.budget,
    kit.check,
    kit.model,
    kit.monte_carlo,
    kit.names,
    kit.needed,
    kit.open_job,
    kit.panel,
    kit.parse,
    kit.write_sheet,
    Quantity.from_base,
    Quantity.to,
    Model.at,
    Case.show,
    Case.with_,
    Case.find,
    Job.case,
    Job.verdict,
    Job.build,
    Job.propose,
    Job.set,
    Job.save,
]
"""What a user meets first: each shows in its docstring how it is used."""


@pytest.mark.parametrize("name", WITH_EXAMPLES)
def test_examples_give_what_they_say(name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)  # a job that is opened there is a copy of the demo
    done = doctest.testmod(import_module(name), optionflags=doctest.ELLIPSIS)
    assert done.attempted > 0
    assert done.failed == 0


def test_examples_of_the_readme(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    done = doctest.testfile(str(ROOT / "README.md"), module_relative=False)
    assert done.attempted > 3
    assert done.failed == 0


@pytest.mark.parametrize("first", FIRST, ids=lambda first: first.__qualname__)
def test_what_a_user_meets_first_has_an_example(first: object) -> None:
    assert ">>> " in (inspect.getdoc(first) or "")


def test_examples_are_found() -> None:
    """Examples stand in docstrings, where the runner and the reference look for them."""
    for name in WITH_EXAMPLES:
        tree = ast.parse(inspect.getsource(import_module(name)))
        documented = (ast.Module, ast.ClassDef, ast.FunctionDef)
        texts = [ast.get_docstring(node) or "" for node in ast.walk(tree) if isinstance(node, documented)]
        assert any(">>> " in text for text in texts), name
