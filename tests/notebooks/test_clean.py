"""Every notebook is stored clean: short cells, imports from the kit, nothing that a run leaves behind."""

import ast
import itertools
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import nbformat
import pytest
from nbformat.v4 import new_code_cell, new_markdown_cell, new_notebook, new_output

from tests import NOTEBOOKS

CHECKED = "# NBVAL_CHECK_OUTPUT"
LONGEST = 15  # lines of a code cell; anything longer belongs into the kit

TELLING = {"answer", "why", "why_not", "holds", "right"}  # questions live with their subject

Notebook = dict[str, Any]

HEADING = re.compile(r"^(#{1,6}) +\S", re.MULTILINE)
FENCED = re.compile(r"^```.*?^```", re.MULTILINE | re.DOTALL)
ABSOLUTE = re.compile(r"(?:/[\w.-]+){2,}|~/|[A-Za-z]:[\\/]|file:")  # at the start of a text or of a link's target
LINK = re.compile(r"\]\(<?([^)>]+)|(?:src|href)=[\"']([^\"']+)")


def faults(notebook: Notebook) -> list[str]:
    """Return one sentence for every rule that a notebook breaks."""
    found = _faults_of_the_file(notebook) + _faults_of_headings(notebook["cells"])
    for number, cell in enumerate(notebook["cells"], start=1):
        check = _faults_of_code if cell["cell_type"] == "code" else _faults_of_text
        found += [f"cell {number}: {fault}" for fault in check(cell)]
    return found


def _faults_of_the_file(notebook: Notebook) -> list[str]:
    found = []
    if notebook["metadata"].get("kernelspec", {}).get("name") != "python3":
        found.append("the metadata name no kernelspec python3")
    if "widgets" in notebook["metadata"]:
        found.append("the metadata hold the state of widgets")
    return found


def _faults_of_headings(cells: list[Notebook]) -> list[str]:
    found = []
    if not cells or not (cells[0]["cell_type"] == "markdown" and cells[0]["source"].startswith("# ")):
        found.append("the first cell does not begin with a level-1 heading")
    texts = [FENCED.sub("", cell["source"]) for cell in cells if cell["cell_type"] == "markdown"]
    levels = [len(marks) for text in texts for marks in HEADING.findall(text)]
    found += ["a second level-1 heading"] * (levels.count(1) > 1)
    for above, below in itertools.pairwise(levels):
        if below > above + 1:
            found.append(f"a level-{below} heading follows level {above}")
    return found


def _faults_of_text(cell: Notebook) -> list[str]:
    targets = [first or second for first, second in LINK.findall(cell["source"])]
    return [f"the link {target!r} is an absolute path" for target in targets if ABSOLUTE.match(target)]


def _faults_of_code(cell: Notebook) -> list[str]:
    source: str = cell["source"]
    found = []
    if cell["execution_count"] is not None or any(out.get("execution_count") for out in cell["outputs"]):
        found.append("an execution count is stored")
    checked = source.startswith(f"{CHECKED}\n")
    if bool(cell["outputs"]) != checked:
        found.append("outputs are stored exactly in cells that begin with " + CHECKED)
    if "NBVAL_" in source.removeprefix(CHECKED) or cell["metadata"].get("tags"):
        found.append(f"no other mark or tag than {CHECKED}: every cell is run, none may fail")
    if len(source.splitlines()) > LONGEST:
        found.append(f"{len(source.splitlines())} lines of code, {LONGEST} allowed")
    try:
        tree = ast.parse(source)
    except SyntaxError as error:
        return [*found, f"not plain Python: {error}"]
    if any(isinstance(node, ast.Assert) for node in ast.walk(tree)):
        found.append("an assertion: what must hold stands in checks.py beside this test")
    if not cell["metadata"].get("jupyter", {}).get("source_hidden"):
        found.append("the code is not folded away")
    found += [f"states an answer by {name}=" for name in _stated(tree) & TELLING]
    for node in ast.walk(tree):
        found += [f"imports {name}" for name in _imported(node) if not _may_import(name)]
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and ABSOLUTE.match(node.value):
            found.append(f"{node.value!r} is an absolute path")
    return found


def _stated(tree: ast.AST) -> set[str]:
    """Return the names of the arguments that calls state, and of what is given a value."""
    names = {word.arg or "" for node in ast.walk(tree) if isinstance(node, ast.Call) for word in node.keywords}
    return names | {
        node.id for node in ast.walk(tree) if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Store)
    }


def _imported(node: ast.AST) -> list[str]:
    if isinstance(node, ast.Import):
        return [alias.name for alias in node.names]
    if isinstance(node, ast.ImportFrom):
        return [node.module or "."]
    return []


def _may_import(name: str) -> bool:
    return name in ("kit", "IPython.display")  # what a notebook needs stands on the facade


@pytest.mark.parametrize("path", sorted(NOTEBOOKS.glob("*.ipynb")), ids=lambda path: path.stem)
def test_notebook_is_clean(path: Path) -> None:
    notebook = nbformat.read(path, as_version=nbformat.NO_CONVERT)
    nbformat.validate(notebook)
    assert faults(notebook) == []


def good() -> Notebook:
    """A notebook that breaks no rule."""
    folded = {"jupyter": {"source_hidden": True}}
    checked = new_code_cell(
        f"{CHECKED}\nprint(2)", outputs=[new_output("stream", name="stdout", text="2\n")], metadata=folded
    )
    cells = [
        new_markdown_cell("# How long?\n\nSee [the next one](bevels.ipynb).\n\n```\n#### not a heading\n```"),
        new_code_cell("from IPython.display import HTML\n\nfrom kit import model", metadata=folded),
        new_markdown_cell("## Numbers\n\n### Lengths"),
        checked,
        new_markdown_cell("## Sources\n\n1/2 in and 3/4/5 m"),
    ]
    return new_notebook(cells=cells, metadata={"kernelspec": {"name": "python3", "display_name": "Python 3"}})


def test_a_good_notebook_has_no_fault() -> None:
    assert faults(good()) == []


Change = Callable[[Notebook], object]


def _add_code(source: str, **fields: Any) -> Change:
    return lambda book: book["cells"].append(new_code_cell(source, **fields))


def _add_text(source: str) -> Change:
    return lambda book: book["cells"].append(new_markdown_cell(source))


@pytest.mark.parametrize(
    ("change", "fault"),
    [
        (lambda book: book["metadata"].clear(), "no kernelspec python3"),
        (lambda book: book["metadata"].update(widgets={}), "state of widgets"),
        (lambda book: book["cells"].clear(), "level-1 heading"),
        (lambda book: book["cells"].pop(0), "level-1 heading"),
        (_add_text("# Another"), "a second level-1 heading"),
        (_add_text("#### Deep"), "a level-4 heading follows level 2"),
        (_add_text("![Bench](/home/ann/bench.png)"), "absolute path"),
        (_add_text('<img src="C:\\pictures\\bench.png">'), "absolute path"),
        (_add_code("1", execution_count=3), "execution count"),
        (
            _add_code("1", outputs=[new_output("execute_result", {"text/plain": "1"}, execution_count=1)]),
            "count",
        ),
        (_add_code("print(1)", outputs=[new_output("stream", text="1")]), "outputs are stored exactly"),
        (_add_code(f"{CHECKED}\nprint(1)"), "outputs are stored exactly"),
        (_add_code("# NBVAL_SKIP\nprint(1)"), "no other mark"),
        (_add_code("print(1)", metadata={"tags": ["raises-exception"]}), "no other mark"),
        (_add_code("assert 1 + 1 == 2"), "an assertion"),
        (_add_code("1"), "not folded away"),
        (_add_code("a = 1\n" * 16), "16 lines of code, 15 allowed"),
        (_add_code("%matplotlib inline"), "not plain Python"),
        (_add_code("ask('which?', ['a', 'b'], answer=1)"), "states an answer by answer="),
        (_add_code("why = 'it is longer'"), "states an answer by why="),
        (_add_code("import numpy as np"), "imports numpy"),
        (_add_code("from kitchen import sink"), "imports kitchen"),
        (_add_code("from . import neighbor"), "imports ."),
        (_add_code("Job.open('/tmp/boat.toml')"), "'/tmp/boat.toml' is an absolute path"),
        (_add_code("Job.open('~/boat.toml')"), "'~/boat.toml' is an absolute path"),
    ],
)
def test_a_broken_rule_is_found(change: Change, fault: str) -> None:
    book = good()
    change(book)
    found = faults(book)
    assert any(fault in sentence for sentence in found), found
