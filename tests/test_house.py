"""The rules of the house, read from the source: who imports whom, how long a file is, what is never called.

Every rule is a function from a parsed module to the sentences that say where it is broken, and is itself
tested on small sources at the end of this file.
"""

import ast
import re
import subprocess
import sys
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

import pytest

from tests import ROOT

LONGEST = 400  # lines

# A room of the kit, and the rooms that it may import besides itself. A room is the longest name below that a
# module's name begins with.
CORE = {
    "core.errors",
    "core.files",
    "core.resources",
    "core.quantity",
    "core.tables",
    "core.verdict",
    "core.model",
    "core.uncertainty",
    "core.build",
    "core.subject",
    "core.record",
}
CHAPTERS = {
    "sweep", "hood", "bevel", "fold", "cloth", "cutting", "level", "groove", "scale", "stop", "reading", "knob",
    "accuracy",
}  # fmt: skip
CITES = {
    "hood": {"bevel", "sweep"},
    "cloth": {"fold", "hood"},
    "cutting": {"cloth"},
    "groove": {"stop"},
    "accuracy": {"stop"},
    "scale": {"reading"},
}
LOWEST = {"core.errors", "core.files", "core.resources"}
STATED = LOWEST | {"core.quantity", "core.tables", "core.verdict"}
TRADE = CORE | {
    "geometry",
    "drawing",
    "subjects.safety",
}
MAY_IMPORT = {
    "core": set[str](),
    "core.errors": set[str](),
    "core.files": set[str](),
    "core.resources": {"core.errors"},
    "core.quantity": {"core.errors"},
    "core.tables": LOWEST | {"core.quantity"},
    "core.verdict": LOWEST | {"core.quantity"},
    "core.model": STATED,
    "core.uncertainty": STATED | {"core.model"},
    "core.build": STATED | {"core.model"},
    "core.subject": STATED | {"core.model", "core.build"},
    "core.record": CORE,
    "geometry": {"core.errors"},
    "drawing": CORE | {"geometry"},
    "subjects.safety": {"core.model"},
    **{f"subjects.{name}": TRADE | {f"subjects.{other}" for other in CITES.get(name, ())} for name in CHAPTERS},
    "subjects": CORE | {f"subjects.{name}" for name in CHAPTERS},
    "job": CORE | {"subjects"},
    "sheet": CORE | {"geometry", "drawing", "subjects", "job"},
    "ui": CORE | {"geometry", "drawing", "subjects", "job", "sheet"},
    "cli": CORE | {"subjects", "job", "sheet", "ui"},
    "": CORE | {"subjects", "job", "sheet", "ui", "cli"},  # kit/__init__.py
}

# Inside a room: a module, and those of the same room that it may import.
INSIDE_JOB = [
    ("errors", "positions", "demo"), ("toml_file", "toml_edit", "schema"), ("resolver",), ("job", "stated"), ("build",),
    ("check", "check_all"),
]  # fmt: skip

# A library, and the only rooms of the kit that may import it.
ONLY_IN = {"pint": {"core.quantity"}, "ipywidgets": {"ui"}, "matplotlib": {"drawing", "subjects.cloth"}}

GEOMETRY_IMPORTS = {"numpy", "scipy", "shapely", "trimesh"}

# An optional library, and the one module that imports it when it is installed: our own way does without.
ONE_MODULE = {"spyrrow": "kit.geometry.packing.nester"}

HEAVY = ("sympy", "numpy", "pint", "ipywidgets", "scipy", "matplotlib")

# What turns text into code or into an expression. `sympify` may stay with strict=True, which refuses text.
EVALUATING_NAMES = {"eval", "exec", "__import__"}
EVALUATING_CALLS = {"parse_expr", "parse_expression", "parse_latex", "parse_mathematica", "S"}

COMPUTED = "a module by a name that cannot be read from its source"

Function = ast.FunctionDef | ast.AsyncFunctionDef


@dataclass(frozen=True)
class Module:
    """A module of the kit by its dotted name, with its source."""

    name: str
    source: str
    is_package: bool = False

    @cached_property
    def tree(self) -> ast.Module:
        return ast.parse(self.source)

    @property
    def room(self) -> str:
        """The room it belongs to: `subjects.bevel` for kit.subjects.bevel.frame, empty for kit itself."""
        return room(self.name)


def room(name: str) -> str:
    parts = name.split(".")[1:]
    while parts and ".".join(parts) not in MAY_IMPORT:
        parts.pop()
    return ".".join(parts)


def read(path: Path) -> Module:
    names = path.relative_to(ROOT).with_suffix("").parts
    is_package = names[-1] == "__init__"
    return Module(".".join(names[: -1 if is_package else None]), path.read_text(encoding="utf-8"), is_package)


def imports(module: Module) -> Iterator[str]:
    """Yield the full dotted name of everything imported anywhere in the module, by statement or by text."""
    for node in ast.walk(module.tree):
        match node:
            case ast.Import():
                yield from (alias.name for alias in node.names)
            case ast.ImportFrom():
                origin = _origin(module, node)
                yield from (f"{origin}.{alias.name}" for alias in node.names)
            case ast.Call(func=ast.Name("import_module") | ast.Attribute(attr="import_module"), args=[name, *_]):
                yield _beginning(name)


def _origin(module: Module, node: ast.ImportFrom) -> str:
    if not node.level:
        return node.module or ""
    parents = module.name.split(".")
    parents = parents[: len(parents) - node.level + module.is_package]
    return ".".join([*parents, *([node.module] if node.module else [])])


def _beginning(name: ast.expr) -> str:
    """The constant beginning of a module name given as text."""
    if isinstance(name, ast.JoinedStr) and name.values:
        name = name.values[0]  # type: ignore[assignment]
    if isinstance(name, ast.Constant) and isinstance(name.value, str):
        return name.value
    return COMPUTED


def broken_imports(module: Module) -> Iterator[str]:
    for name in imports(module):
        library, *rest = name.split(".")
        if library == "kit":
            if rest and rest[0].startswith("__"):  # from kit import __version__
                continue
            target = room(name)
            if target != module.room and target not in MAY_IMPORT[module.room]:
                yield f"{module.name} imports {name}"
        elif name == COMPUTED:
            yield f"{module.name} imports {COMPUTED}"
        elif not _may_use(module, library):
            yield f"{module.name} imports {library}"


def _may_use(module: Module, library: str) -> bool:
    if library in ONE_MODULE:
        return module.name == ONE_MODULE[library]
    if module.room == "geometry":
        return library in GEOMETRY_IMPORTS | sys.stdlib_module_names
    return module.room in ONLY_IN.get(library, {module.room})


def too_long(module: Module) -> Iterator[str]:
    lines = len(module.source.splitlines())
    if lines > LONGEST:
        yield f"{module.name} has {lines} lines, {LONGEST} allowed"


def unformatted(module: Module) -> Iterator[str]:
    """A page is stated in steps that the formatter keeps as they are."""
    if module.name.startswith("kit.subjects."):
        for number, text in enumerate(module.source.splitlines(), 1):
            if re.search(r"#\s*fmt:", text):
                yield f"{module.name}:{number} escapes the formatter; state it in shorter steps"


def evaluated_text(module: Module) -> Iterator[str]:
    for node in ast.walk(module.tree):
        match node:
            case ast.Name(id=name) if name in EVALUATING_NAMES:
                yield f"{module.name}:{node.lineno} uses {name}"
            case ast.Attribute(value=ast.Name("builtins"), attr=name) if name in EVALUATING_NAMES:
                yield f"{module.name}:{node.lineno} uses {name}"
            case ast.Call(func=ast.Name("compile")):
                yield f"{module.name}:{node.lineno} uses compile"
            case ast.Call(func=ast.Name(name) | ast.Attribute(attr=name)) if name in EVALUATING_CALLS:
                yield f"{module.name}:{node.lineno} calls {name}"
            case ast.Call(func=ast.Name("sympify") | ast.Attribute(attr="sympify")) if not _is_strict(node):
                yield f"{module.name}:{node.lineno} calls sympify without strict=True"
            case ast.ImportFrom(names=names):
                renamed = [alias.name for alias in names if alias.asname and alias.name != alias.asname]
                for name in {"sympify", *EVALUATING_CALLS}.intersection(renamed):
                    yield f"{module.name}:{node.lineno} renames {name}"


def _is_strict(call: ast.Call) -> bool:
    return any(word.arg == "strict" and ast.unparse(word.value) == "True" for word in call.keywords)


def undocumented(module: Module) -> Iterator[str]:
    """Public functions, classes and methods without a docstring or with an annotation missing."""
    if module.source and not ast.get_docstring(module.tree):
        yield f"{module.name} has no docstring"
    for name, node, in_class in _definitions(module.tree.body, ""):
        if isinstance(node, ast.ClassDef):
            if not ast.get_docstring(node):
                yield f"{module.name}.{name} has no docstring"
            continue
        special = node.name.startswith("__")
        exempt = {ast.unparse(decorator).rsplit(".", 1)[-1] for decorator in node.decorator_list}
        if not (special or exempt & {"overload", "setter"} or ast.get_docstring(node)):
            yield f"{module.name}.{name} has no docstring"
        for argument in _unannotated(node, in_class and "staticmethod" not in exempt):
            yield f"{module.name}.{name} does not annotate {argument}"


def _definitions(body: Iterable[ast.stmt], inside: str) -> Iterator[tuple[str, ast.ClassDef | Function, bool]]:
    for node in body:
        if isinstance(node, ast.ClassDef | Function):
            if node.name.startswith("_") and not node.name.endswith("__"):
                continue
            yield f"{inside}{node.name}", node, bool(inside)
            if isinstance(node, ast.ClassDef):
                yield from _definitions(node.body, f"{inside}{node.name}.")
        elif isinstance(node, ast.If | ast.Try | ast.With):
            yield from _definitions([n for n in ast.iter_child_nodes(node) if isinstance(n, ast.stmt)], inside)


def _unannotated(node: Function, bound: bool) -> Iterator[str]:
    given = node.args
    plain = [*given.posonlyargs, *given.args][1 if bound else 0 :]
    rest = [star for star in (given.vararg, given.kwarg) if star]
    yield from (item.arg for item in [*plain, *given.kwonlyargs, *rest] if item.annotation is None)
    if node.returns is None:
        yield "its result"


RULES = [broken_imports, too_long, unformatted, evaluated_text, undocumented]
Rule = Callable[[Module], Iterator[str]]


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.__name__)
def test_the_kit_keeps_the_rule(rule: Rule) -> None:
    modules = [read(path) for path in sorted((ROOT / "kit").rglob("*.py"))]
    assert len(modules) > 10, "the kit's sources are where this test looks for them"
    broken = [fault for module in modules for fault in rule(module)]
    assert not broken, "\n".join(broken)


def test_every_part_of_the_house_is_known() -> None:
    rooms = {path.name for path in (ROOT / "kit").iterdir() if path.is_dir() and not path.name.startswith("_")}
    rooms |= {path.stem for path in (ROOT / "kit").glob("*.py") if not path.stem.startswith("_")}
    assert rooms <= {name.split(".")[0] for name in MAY_IMPORT}, "a new room needs its line in MAY_IMPORT"
    chapters = {path.parent.name for path in (ROOT / "kit" / "subjects").glob("*/contents.py")}
    assert chapters == CHAPTERS


def test_import_kit_is_light() -> None:
    code = "import sys, kit; print(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True)
    loaded = set(done.stdout.split())
    assert "kit" in loaded
    assert not loaded.intersection(HEAVY)


# The rules themselves.

BROKEN = [
    (
        broken_imports,
        "kit.core.quantity.units",
        "from kit.core.model import Model",
        "imports kit.core.model.Model",
    ),
    (broken_imports, "kit.core.tables.read_csv", "import kit.subjects", "imports kit.subjects"),
    (broken_imports, "kit.core.tables.table", "from kit import drawing", "imports kit.drawing"),
    (broken_imports, "kit.subjects.stop.bow", "from ...ui.panel import show", "imports kit.ui.panel.show"),
    (broken_imports, "kit.subjects.stop.bow", "from kit.job import Job", "imports kit.job.Job"),
    (broken_imports, "kit.core.model.case", "def f():\n    import kit.sheet.page", "imports kit.sheet.page"),
    (broken_imports, "kit.core.model.case", "import_module(f'kit.subjects.{name}')", "imports kit.subjects."),
    (broken_imports, "kit.core.model.case", "importlib.import_module(name)", COMPUTED),
    (broken_imports, "kit.sheet.page", "from kit.ui.panel import Panel", "imports kit.ui.panel.Panel"),
    (broken_imports, "kit.ui.panel.row", "from kit.cli import main", "imports kit.cli.main"),
    (broken_imports, "kit.ui.panel.row", "from kit import Model", "imports kit.Model"),
    (broken_imports, "kit.core.files", "import kit.core.model", "imports kit.core.model"),
    (broken_imports, "kit.geometry.mesh", "import sympy", "imports sympy"),
    (
        broken_imports,
        "kit.geometry.mesh",
        "from kit.core.quantity import unit",
        "imports kit.core.quantity.unit",
    ),
    (broken_imports, "kit.geometry.packing.pack", "import spyrrow", "imports spyrrow"),
    (broken_imports, "kit.subjects.cutting.stock_build", "import spyrrow", "imports spyrrow"),
    (broken_imports, "kit.core.model.case", "from pint import Unit", "imports pint"),
    (broken_imports, "kit.subjects.stop.bow", "import matplotlib.pyplot", "imports matplotlib"),
    (too_long, "kit.cli", "a = 1\n" * 401, "401 lines"),
    (unformatted, "kit.subjects.stop.bow", "a = 1\nb = [1,\n2]  # fmt: skip\n", "bow:3 escapes the formatter"),
    (unformatted, "kit.subjects.stop.bow", "# fmt: off\na = 1\n", "bow:1 escapes the formatter"),
    (evaluated_text, "kit.cli", "eval('1')", "uses eval"),
    (evaluated_text, "kit.cli", "run = exec", "uses exec"),
    (evaluated_text, "kit.cli", "builtins.eval('1')", "uses eval"),
    (evaluated_text, "kit.cli", "compile(text, '', 'exec')", "uses compile"),
    (evaluated_text, "kit.cli", "sp.sympify(text)", "calls sympify without strict=True"),
    (evaluated_text, "kit.cli", "sympify(text, strict=False)", "calls sympify without strict=True"),
    (evaluated_text, "kit.cli", "sp.S(text)", "calls S"),
    (evaluated_text, "kit.cli", "parse_expr(text)", "calls parse_expr"),
    (evaluated_text, "kit.cli", "registry.parse_expression(text)", "calls parse_expression"),
    (evaluated_text, "kit.cli", "from sympy import sympify as read", "renames sympify"),
    (undocumented, "kit.cli", "a = 1", "kit.cli has no docstring"),
    (undocumented, "kit.cli", "def f() -> int: return 1", "kit.cli.f has no docstring"),
    (undocumented, "kit.cli", "if a:\n    def f() -> int: return 1", "kit.cli.f has no docstring"),
    (undocumented, "kit.cli", "class A: pass", "kit.cli.A has no docstring"),
    (undocumented, "kit.cli", "class A:\n    def f(self) -> int: return 1", "kit.cli.A.f has no docstring"),
    (undocumented, "kit.cli", "def f(a) -> int:\n    'F.'", "kit.cli.f does not annotate a"),
    (undocumented, "kit.cli", "def f(*a, b: int) -> int:\n    'F.'", "kit.cli.f does not annotate a"),
    (undocumented, "kit.cli", "def f(a: int):\n    'F.'", "kit.cli.f does not annotate its result"),
    (undocumented, "kit.cli", "class A:\n    @staticmethod\n    def f(a) -> int: ...", "not annotate a"),
    (undocumented, "kit.cli", "class A:\n    def __init__(self, a) -> None: ...", "not annotate a"),
]

KEPT = [
    (
        broken_imports,
        "kit.subjects.stop.bow",
        "from kit.core.model import Model\nfrom kit.geometry import mesh\nimport sympy",
    ),
    (broken_imports, "kit.subjects.stop.bow", "from kit.core.errors import KitError\nfrom . import warp"),
    (broken_imports, "kit.sheet.page", "from kit import __version__\nfrom kit.job import Job"),
    (
        broken_imports,
        "kit.geometry.mesh",
        "import math\nimport numpy as np\nfrom scipy.spatial import ConvexHull",
    ),
    (broken_imports, "kit.core.quantity.units", "import pint"),
    (broken_imports, "kit.geometry.packing.nester", "def f():\n    import spyrrow"),
    (broken_imports, "kit.cli", "from kit.ui.panel import Panel\nimport argparse"),
    (too_long, "kit.cli", "a = 1\n" * 400),
    (unformatted, "kit.core.quantity.tokens", "a = 1  # fmt: skip\n"),
    (evaluated_text, "kit.cli", "re.compile('a')\nsp.sympify(a, strict=True)\nmodel.evaluate(a)"),
    (
        undocumented,
        "kit.cli",
        "'Doc.'\ndef _f(a): ...\nclass _A:\n    def f(self): ...\ndef main() -> int:\n    'M.'",
    ),
    (undocumented, "kit.cli", "'Doc.'\nclass A:\n    'A.'\n    def __len__(self) -> int: return 1"),
]


@pytest.mark.parametrize(("rule", "name", "source", "fault"), BROKEN)
def test_a_broken_rule_is_found(rule: Rule, name: str, source: str, fault: str) -> None:
    found = list(rule(Module(name, source)))
    assert any(fault in sentence for sentence in found), found


@pytest.mark.parametrize(("rule", "name", "source"), KEPT)
def test_a_kept_rule_finds_nothing(rule: Rule, name: str, source: str) -> None:
    assert list(rule(Module(name, source))) == []


def test_a_relative_import_in_a_package_starts_from_the_package() -> None:
    package = Module("kit.subjects", "from .stop import bow\nfrom ..core import model", is_package=True)
    assert list(imports(package)) == ["kit.subjects.stop.bow", "kit.core.model"]
