"""The rules of the house, read from the source: who imports whom, how long a file is, what is never called.

Every rule is a function from a parsed module to the sentences that say where it is broken, and is itself
tested on small sources at the end of this file.
"""

import ast
import subprocess
import sys
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

import pytest

from tests import ROOT

LONGEST = 400  # lines

# A package of the kit, and the packages of the kit that it may import besides itself and COMMON.
BASE = {"quantity"}
STATED = BASE | {"model", "shapes", "tables"}
SHOWN = STATED | {"topics", "job"}
MAY_IMPORT = {
    "errors": set[str](),
    "files": set[str](),
    "quantity": set[str](),
    "tables": BASE,
    "shapes": set[str](),
    "model": BASE | {"tables"},  # a pick fills givens from a row
    "topics": STATED,
    "job": BASE | {"model", "tables", "topics"},
    "drawing": SHOWN - {"job"},
    "works": SHOWN | {"drawing"},
    "sheet": SHOWN | {"drawing", "works"},
    "panel": SHOWN | {"drawing", "works", "sheet"},
    "lesson": SHOWN | {"drawing", "works", "sheet"},
    "cli": SHOWN | {"drawing", "works", "sheet", "panel"},
    "": SHOWN | {"drawing", "works", "sheet", "panel", "cli"},  # kit/__init__.py
}
COMMON = {"errors", "files"}

# A library, and the only packages of the kit that may import it.
ONLY_IN = {"pint": {"quantity"}, "ipywidgets": {"panel", "lesson"}, "matplotlib": {"drawing"}}

SHAPES_IMPORT = {"numpy", "scipy", "shapely", "trimesh"}

# An optional library, and the one module that imports it when it is installed: our own way does without.
ONE_MODULE = {"spyrrow": "kit.shapes.packing.nester"}

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
    def package(self) -> str:
        """The part of the house it belongs to: `topics` for kit.topics.bevel.frame, empty for kit itself."""
        return part(self.name)


def part(name: str) -> str:
    return name.split(".")[1] if "." in name else ""


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
            case ast.Call(
                func=ast.Name("import_module") | ast.Attribute(attr="import_module"), args=[name, *_]
            ):
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
            target = rest[0] if rest else ""
            if target.startswith("__"):  # from kit import __version__
                continue
            target = target if target in MAY_IMPORT else ""
            if target != module.package and target not in MAY_IMPORT[module.package] | COMMON:
                yield f"{module.name} imports {name}"
        elif name == COMPUTED:
            yield f"{module.name} imports {COMPUTED}"
        elif not _may_use(module, library):
            yield f"{module.name} imports {library}"


def _may_use(module: Module, library: str) -> bool:
    if library in ONE_MODULE:
        return module.name == ONE_MODULE[library]
    if module.package == "shapes":
        return library in SHAPES_IMPORT | sys.stdlib_module_names
    return module.package in ONLY_IN.get(library, {module.package})


def too_long(module: Module) -> Iterator[str]:
    lines = len(module.source.splitlines())
    if lines > LONGEST:
        yield f"{module.name} has {lines} lines, {LONGEST} allowed"


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


def _definitions(
    body: Iterable[ast.stmt], inside: str
) -> Iterator[tuple[str, ast.ClassDef | Function, bool]]:
    for node in body:
        if isinstance(node, ast.ClassDef | Function):
            if node.name.startswith("_") and not node.name.endswith("__"):
                continue
            yield f"{inside}{node.name}", node, bool(inside)
            if isinstance(node, ast.ClassDef):
                yield from _definitions(node.body, f"{inside}{node.name}.")
        elif isinstance(node, ast.If | ast.Try | ast.With):
            yield from _definitions(
                [n for n in ast.iter_child_nodes(node) if isinstance(n, ast.stmt)], inside
            )


def _unannotated(node: Function, bound: bool) -> Iterator[str]:
    given = node.args
    plain = [*given.posonlyargs, *given.args][1 if bound else 0 :]
    rest = [star for star in (given.vararg, given.kwarg) if star]
    yield from (item.arg for item in [*plain, *given.kwonlyargs, *rest] if item.annotation is None)
    if node.returns is None:
        yield "its result"


RULES = [broken_imports, too_long, evaluated_text, undocumented]
Rule = Callable[[Module], Iterator[str]]


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.__name__)
def test_the_kit_keeps_the_rule(rule: Rule) -> None:
    modules = [read(path) for path in sorted((ROOT / "kit").rglob("*.py"))]
    assert len(modules) > 10, "the kit's sources are where this test looks for them"
    broken = [fault for module in modules for fault in rule(module)]
    assert not broken, "\n".join(broken)


def test_every_part_of_the_house_is_known() -> None:
    parts = {part(read(path).name) for path in (ROOT / "kit").rglob("*.py")}
    assert parts <= set(MAY_IMPORT), "a new part of the house needs its line in MAY_IMPORT"


def test_import_kit_is_light() -> None:
    code = "import sys, kit; print(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True)
    loaded = set(done.stdout.split())
    assert "kit" in loaded
    assert not loaded.intersection(HEAVY)


# The rules themselves.

BROKEN = [
    (broken_imports, "kit.quantity.units", "from kit.model import Model", "imports kit.model.Model"),
    (broken_imports, "kit.tables.reading", "import kit.topics", "imports kit.topics"),
    (broken_imports, "kit.topics.stop.bow", "from kit import drawing", "imports kit.drawing"),
    (broken_imports, "kit.topics.stop.bow", "from ...panel import show", "imports kit.panel.show"),
    (broken_imports, "kit.topics.stop.bow", "from kit.job import Job", "imports kit.job.Job"),
    (broken_imports, "kit.model.case", "def f():\n    import kit.sheet.page", "imports kit.sheet.page"),
    (broken_imports, "kit.model.case", "import_module(f'kit.topics.{name}')", "imports kit.topics."),
    (broken_imports, "kit.model.case", "importlib.import_module(name)", COMPUTED),
    (broken_imports, "kit.sheet.page", "from kit.panel import Panel", "imports kit.panel.Panel"),
    (broken_imports, "kit.panel.row", "from kit.cli import main", "imports kit.cli.main"),
    (broken_imports, "kit.panel.row", "from kit import Model", "imports kit.Model"),
    (broken_imports, "kit.files", "import kit.model", "imports kit.model"),
    (broken_imports, "kit.shapes.mesh", "import sympy", "imports sympy"),
    (broken_imports, "kit.shapes.mesh", "from kit.quantity import unit", "imports kit.quantity.unit"),
    (broken_imports, "kit.shapes.packing.pack", "import spyrrow", "imports spyrrow"),
    (broken_imports, "kit.works.cutting_stock", "import spyrrow", "imports spyrrow"),
    (broken_imports, "kit.model.case", "from pint import Unit", "imports pint"),
    (broken_imports, "kit.topics.stop.bow", "import matplotlib.pyplot", "imports matplotlib"),
    (too_long, "kit.cli", "a = 1\n" * 401, "401 lines"),
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
        "kit.topics.stop.bow",
        "from kit.model import Model\nfrom kit.shapes import mesh\nimport sympy",
    ),
    (broken_imports, "kit.topics.stop.bow", "from kit.errors import KitError\nfrom . import warp"),
    (broken_imports, "kit.sheet.page", "from kit import __version__\nfrom kit.job import Job"),
    (
        broken_imports,
        "kit.shapes.mesh",
        "import math\nimport numpy as np\nfrom scipy.spatial import ConvexHull",
    ),
    (broken_imports, "kit.quantity.units", "import pint"),
    (broken_imports, "kit.shapes.packing.nester", "def f():\n    import spyrrow"),
    (broken_imports, "kit.cli", "from kit.panel import Panel\nimport argparse"),
    (too_long, "kit.cli", "a = 1\n" * 400),
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
    package = Module("kit.topics", "from .stop import bow\nfrom ..model import Model", is_package=True)
    assert list(imports(package)) == ["kit.topics.stop.bow", "kit.model.Model"]
