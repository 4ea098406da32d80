"""A subject is complete: each page has its statement, figure, checks from outside, a demo part and a notebook section.

What is missing is named by its path, so that whoever adds a subject reads here what to write next.
"""

import ast
import json
import os
import re
import subprocess
import sys
import tomllib
from collections.abc import Iterator, Mapping
from pathlib import Path
from shutil import copytree, ignore_patterns, rmtree

import pytest

from kit.subjects import CHAPTERS, names
from tests import ROOT

Pages = Mapping[str, tuple[str, ...]]  # page names by chapter

REGISTERED: Pages = {chapter.name: tuple(chapter.pages) for chapter in CHAPTERS}


def missing(root: Path, chapters: Pages) -> Iterator[str]:
    """Yield a sentence, its path first, for all that the pages of `chapters` lack in the clone at `root`."""
    subjects = root / "kit" / "subjects"
    for path in sorted(subjects.glob("*/contents.py")):
        if path.parent.name not in chapters:
            yield f"kit/subjects/__init__.py: CHAPTERS lacks the chapter {path.parent.name}"
    parts = demo_parts(root)
    cells = notebook_cells(root)
    for chapter, pages in chapters.items():
        if not (subjects / chapter / "contents.py").is_file():
            yield f"kit/subjects/{chapter}/contents.py: not there; it declares the chapter's pages"
        for page in pages:
            name, folder = f"{chapter}.{page}", f"kit/subjects/{chapter}"
            for file, what in ((f"{page}.py", "states the page"), (f"{page}_figure.py", "draws it")):
                if not (root / folder / file).is_file():
                    yield f"{folder}/{file}: not there; it {what}"
            yield from unchecked(root, f"{folder}/{page}.values.toml")
            ids = parts.get(name, set())
            if not ids:
                yield f"data/boatshed.toml, data/schoolshop.toml: no part has the model {name}"
            if not any(f'"{word}"' in cell for word in {name, *ids} for cell in cells):
                where = f' or of its part "{min(ids)}"' if ids else ""
                yield f'notebooks/*.ipynb: no code cell speaks of "{name}"{where}'


def unchecked(root: Path, file: str) -> Iterator[str]:
    """Yield what keeps the values from outside from checking a page."""
    path = root / file
    if not path.is_file():
        yield f"{file}: not there; it states what must come out, with the source from outside"
    elif not tomllib.loads(path.read_text(encoding="utf-8")).get("check"):
        yield f"{file}: holds no [[check]]"


def demo_parts(root: Path) -> dict[str, set[str]]:
    """Return the ids of the demo jobs' parts by the name of their model."""
    found: dict[str, set[str]] = {}
    for path in sorted((root / "data").glob("*.toml")):
        for id, part in tomllib.loads(path.read_text(encoding="utf-8")).get("parts", {}).items():
            found.setdefault(part["model"], set()).add(id)
    return found


def notebook_cells(root: Path) -> list[str]:
    """Return the source of every code cell of the notebooks."""
    books = [json.loads(path.read_text(encoding="utf-8")) for path in sorted((root / "notebooks").glob("*.ipynb"))]
    return ["".join(cell["source"]) for book in books for cell in book["cells"] if cell["cell_type"] == "code"]


def unlisted(root: Path) -> Iterator[str]:
    """Yield each table of notebooks in which a notebook does not stand exactly once; no table lists its own page."""
    start, readme = root / "notebooks" / "00_start.ipynb", root / "README.md"
    for path in sorted((root / "notebooks").glob("*.ipynb")):
        for table, row in ((readme, f"| `{path.stem}` |"), (start, f"| [{path.stem}]({path.name}) |")):
            count = table.read_text(encoding="utf-8").count(row)
            if count != (path != table):
                yield f"{table.relative_to(root)}: {count} rows of its table begin {row}"


def test_every_subject_is_complete() -> None:
    faults = [*missing(ROOT, REGISTERED), *unlisted(ROOT)]
    assert not faults, "\n".join(faults)


# The rule itself, on a small clone with one complete chapter.

PAGES = {"peg": ("board",)}
CLONE = {
    "kit/subjects/peg/contents.py": "",
    "kit/subjects/peg/board.py": "",
    "kit/subjects/peg/board_figure.py": "",
    "kit/subjects/peg/board.values.toml": '[[check]]\ntitle = "a peg holds"\n',
    "data/boatshed.toml": '[parts.hooks]\nmodel = "peg.board"\n',
    "notebooks/85_pegs.ipynb": json.dumps({"cells": [{"cell_type": "code", "source": ['panel(part="hooks")']}]}),
}


@pytest.fixture
def clone(tmp_path: Path) -> Path:
    for name, text in CLONE.items():
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return tmp_path


def test_a_complete_chapter_lacks_nothing(clone: Path) -> None:
    assert list(missing(clone, PAGES)) == []


@pytest.mark.parametrize(
    ("file", "text", "begins"),
    [
        ("kit/subjects/peg/contents.py", None, "kit/subjects/peg/contents.py: not there"),
        ("kit/subjects/peg/board.py", None, "kit/subjects/peg/board.py: not there"),
        ("kit/subjects/peg/board_figure.py", None, "kit/subjects/peg/board_figure.py: not there"),
        ("kit/subjects/peg/board.values.toml", None, "kit/subjects/peg/board.values.toml: not there"),
        ("kit/subjects/peg/board.values.toml", "", "kit/subjects/peg/board.values.toml: holds no [[check]]"),
        ("data/boatshed.toml", '[parts.hooks]\nmodel = "peg.other"\n', "data/boatshed.toml, data/schoolshop.toml: no"),
        ("notebooks/85_pegs.ipynb", '{"cells": []}', 'notebooks/*.ipynb: no code cell speaks of "peg.board" or of'),
        ("kit/subjects/rail/contents.py", "", "kit/subjects/__init__.py: CHAPTERS lacks the chapter rail"),
    ],
)
def test_what_is_missing_is_named_by_its_path(clone: Path, file: str, text: str | None, begins: str) -> None:
    if text is None:
        (clone / file).unlink()
    else:
        (clone / file).parent.mkdir(exist_ok=True)
        (clone / file).write_text(text, encoding="utf-8")
    assert [fault for fault in missing(clone, PAGES) if fault.startswith(begins)]


def test_a_folder_without_its_pages_is_told_all_of_them(clone: Path) -> None:
    """A chapter that only says its name: the rule is the list of what to write."""
    found = list(missing(clone, {**PAGES, "rail": ("hook",)}))
    assert [fault.partition(":")[0] for fault in found] == [
        "kit/subjects/rail/contents.py",
        "kit/subjects/rail/hook.py",
        "kit/subjects/rail/hook_figure.py",
        "kit/subjects/rail/hook.values.toml",
        "data/boatshed.toml, data/schoolshop.toml",
        "notebooks/*.ipynb",
    ]


def test_a_notebook_stands_once_in_both_tables(clone: Path) -> None:
    rows = "| `85_pegs` | How? |\n| `00_start` | How? |\n"
    (clone / "README.md").write_text(rows, encoding="utf-8")
    start = clone / "notebooks" / "00_start.ipynb"
    start.write_text("| [85_pegs](85_pegs.ipynb) | How? |", encoding="utf-8")
    assert list(unlisted(clone)) == []
    start.write_text("", encoding="utf-8")
    (clone / "README.md").write_text(rows + rows, encoding="utf-8")
    told = [fault.partition(":")[0] for fault in unlisted(clone)]
    assert told == ["README.md", "README.md", "notebooks/00_start.ipynb"]


# A chapter that is taken away leaves no trace.

NO_SUBJECT = """
import json, sys
from kit.subjects import CHAPTERS, names, subject
for chapter in CHAPTERS:
    subject(f"{chapter.name}.{next(iter(chapter.pages))}")
print(json.dumps([list(names()), sorted(sys.modules)]))
"""


def without(chapter: str, registry: str) -> str:
    """Return the registry's source without a chapter: its import and its place in CHAPTERS."""
    line = re.compile(rf"from kit\.subjects\.{chapter}\.contents import CHAPTER as (\w+)\n")
    found = line.search(registry)
    assert found, f"the registry imports {chapter} in one line"
    return re.sub(rf"(CHAPTERS = \(.*?)\b{found[1]}(?:,\s*)?", r"\1", line.sub("", registry), count=1, flags=re.DOTALL)


def test_a_chapter_goes_with_its_folder_and_its_registry_line(tmp_path: Path) -> None:
    """The others load without it; that none imports it is ruled, for every page, by `tests/test_house.py`."""
    copytree(ROOT / "kit", tmp_path / "kit", ignore=ignore_patterns("__pycache__"))
    (tmp_path / "data").symlink_to(ROOT / "data")
    subjects = tmp_path / "kit" / "subjects"
    rmtree(subjects / "support")
    registry = subjects / "__init__.py"
    registry.write_text(without("support", registry.read_text(encoding="utf-8")), encoding="utf-8")
    run = [sys.executable, "-c", NO_SUBJECT]
    done = subprocess.run(run, cwd=tmp_path, env=os.environ | {"PYTHONPATH": ""}, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    left, loaded = json.loads(done.stdout)
    assert left == [name for name in names() if not name.startswith("support.")]
    assert not [name for name in loaded if name.startswith("kit.subjects.support")]


def traces(pages: Pages, sources: Mapping[str, str]) -> Iterator[str]:
    """Yield each place outside of a chapter's folder whose code names one of its models."""
    models = {f"{chapter}.{page}": chapter for chapter, inside in pages.items() for page in inside}
    for file, text in sources.items():
        for node in ast.walk(ast.parse(text)):
            name = node.value if isinstance(node, ast.Constant) else None
            own = (f"kit/subjects/{models.get(name)}/", "kit/subjects/__init__.py")
            if name in models and not file.startswith(own):
                yield f"{file}:{node.lineno} names {name}"


def test_no_code_names_the_model_of_another_chapter() -> None:
    files = sorted((ROOT / "kit").rglob("*.py"))
    sources = {path.relative_to(ROOT).as_posix(): path.read_text(encoding="utf-8") for path in files}
    assert list(traces(REGISTERED, sources)) == []


def test_a_trace_is_found() -> None:
    own = {"kit/subjects/peg/board.py": 'M = Model("peg.board")', "kit/subjects/__init__.py": '{"a.b": "peg.board"}'}
    assert list(traces(PAGES, own)) == []
    assert list(traces(PAGES, {"kit/sheet/page.py": "f(1)\nif name == 'peg.board':\n    g()"})) == [
        "kit/sheet/page.py:2 names peg.board"
    ]
