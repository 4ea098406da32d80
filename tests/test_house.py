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
from functools import cache, cached_property
from pathlib import Path

import networkx as nx
import pytest

from tests import ROOT

LONGEST = 400  # lines

# A room of the kit, and the rooms that it may import besides itself. A room is the longest name below that a
# module's name begins with.
CORE = {
    "core.errors",
    "core.files",
    "core.resources",
    "core.version",
    "core.summary",
    "core.trail",
    "core.quantity",
    "core.tables",
    "core.verdict",
    "core.model",
    "core.uncertainty",
    "core.search",
    "core.build",
    "core.intake",
    "core.question",
    "core.place",
    "core.lists",
    "core.subject",
    "core.record",
}
CHAPTERS = {path.parent.name for path in (ROOT / "kit" / "subjects").glob("*/contents.py")}
CITES = {
    "hood": {"air", "bevel", "sweep"},
    "cloth": {"fold", "hood"},
    "cutting": {"cloth"},
    "groove": {"stop"},
    "accuracy": {"stop"},
    "scale": {"reading"},
}
LOWEST = {"core.errors", "core.files", "core.resources", "core.version", "core.summary"}
STATED = LOWEST | {"core.quantity", "core.tables", "core.verdict"}
TRADE = CORE | {
    "geometry",
    "drawing",
    "subjects.safety",
    "subjects.bodies",
}
MAY_IMPORT = {
    "core": set[str](),
    "core.errors": set[str](),
    "core.files": {"core.errors", "core.resources"},
    "core.resources": {"core.errors"},
    "core.version": set[str](),
    "core.summary": set[str](),
    "core.trail": set[str](),
    "core.quantity": {"core.errors", "core.summary"},
    "core.tables": LOWEST | {"core.quantity"},
    "core.verdict": LOWEST | {"core.quantity"},
    "core.model": STATED,
    "core.uncertainty": STATED | {"core.model"},
    "core.search": STATED | {"core.model", "core.uncertainty"},
    "core.build": STATED | {"core.model"},
    "core.intake": STATED | {"core.model", "core.build"},
    "core.question": STATED | {"core.model", "core.build"},
    "core.place": set[str](),
    "core.lists": {"core.build", "core.place"},
    "core.subject": STATED | {"core.model", "core.build", "core.intake", "core.question", "core.lists"},
    "core.record": CORE,
    "geometry": {"core.errors"},
    "drawing": CORE | {"geometry"},
    "subjects.safety": {"core.model"},
    "subjects.bodies": {"core.lists", "core.place", "geometry"},
    **{f"subjects.{name}": TRADE | {f"subjects.{other}" for other in CITES.get(name, ())} for name in CHAPTERS},
    "subjects": CORE | {f"subjects.{name}" for name in CHAPTERS},
    "job": CORE | {"subjects"},
    "station": CORE | {"geometry", "subjects", "subjects.bodies", "job"},
    "sheet": CORE | {"geometry", "drawing", "subjects", "job", "station"},
    "teach": CORE | {"drawing", "subjects", "job", "sheet"},
    "ui": CORE | {"geometry", "drawing", "subjects", "job", "station", "sheet", "teach"},
    "cli": CORE | {"subjects", "job", "station", "sheet", "teach", "ui"},
    "": CORE | {"subjects", "job", "sheet", "teach", "ui", "cli"},  # kit/__init__.py
}

# Inside the job: a module may import those of the steps before its own. The room's face, `kit.job`, imports all.
INSIDE_JOB = (
    {"positions", "errors", "order", "part_names", "pasted"},
    {"toml_edit", "schema"},
    {"migration", "part_text"},
    {"toml_file"},
    {"merge"},
    {"resolver", "stated", "entry", "written"},
    {"build"},
    {"verdict"},
    {"content"},
    {"job"},
    {"place"},
    {"arrange", "fits", "folder", "history", "pins", "tasks"},
    {"overview", "proposing", "check", "demo"},
)

# A library, and the only rooms of the kit that may import it.
ONLY_IN = {
    "pint": {"core.quantity"},
    "ipywidgets": {"ui"},
    "anywidget": {"ui"},
    "matplotlib": {"drawing", "subjects.cloth"},
}

GEOMETRY_IMPORTS = {"numpy", "scipy", "shapely", "trimesh", "manifold3d", "mapbox_earcut"}

# A library, and the one module that imports it: run as a script of its own, it can be ended at any moment.
ONE_MODULE = {"spyrrow": "kit.geometry.packing.nester"}

HEAVY = ("sympy", "numpy", "pint", "ipywidgets", "scipy", "matplotlib")

# What turns text into code or into an expression. `sympify` may stay with strict=True, which refuses text.
EVALUATING_NAMES = {"eval", "exec", "__import__"}
EVALUATING_CALLS = {"parse_expr", "parse_expression", "parse_latex", "parse_mathematica", "S"}

COMPUTED = "a module by a name that cannot be read from its source"

# Words of one subject. What several subjects share (board, cloth, grain, saw line) may be named by the engine.
TRADE_WORDS = re.compile(
    r"(?i)(?<![a-z])(hoods?|bevels?|chutes?|grooves?|knobs?|stop blocks?|routers?|cursors?)(?![a-z])"
)

# What a named tuple offers to everybody begins with an underscore, so as not to clash with its fields.
OF_NAMED_TUPLES = {"_make", "_replace", "_asdict", "_fields"}

# The family of KitError: whoever raises one of them, itself or through a function of its own file, says so.
ERRORS = {
    "KitError",
    "DimensionError",
    "HemError",
    "JobChanged",
    "JobError",
    "JobGone",
    "ModelError",
    "NoValueError",
    "ProofError",
    "QuantityError",
    "SpanError",
    "TableError",
    "UnreadError",
}

# How a docstring of the geometry tells what its numbers are: a unit, a shape such as (n, 3), or that they are shares.
NUMBERS = re.compile(
    r"\b(mm|rad|radians|kg|N|MPa|degrees?|seconds|pixels?|share|units?|shape)\b|mm[²³]|°|%|\([\w…]+(?:, ?[\w ]+)*,?\)"
)

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

    @cached_property
    def nodes(self) -> tuple[ast.AST, ...]:
        return tuple(ast.walk(self.tree))

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


@cache
def house() -> tuple[Module, ...]:
    """Return all modules of the kit; each is parsed once for all rules."""
    return tuple(read(path) for path in sorted((ROOT / "kit").rglob("*.py")))


@cache
def imports(module: Module, *, for_types: bool = True) -> tuple[str, ...]:
    """Return the full dotted name of everything imported anywhere in the module, by statement or by text.

    Without `for_types`, what only a type checker imports is left out.
    """
    return tuple(_imports(module, for_types))


def _imports(module: Module, for_types: bool) -> Iterator[str]:
    for node in module.nodes if for_types else _run(module.tree):
        match node:
            case ast.Import():
                yield from (alias.name for alias in node.names)
            case ast.ImportFrom():
                origin = _origin(module, node)
                yield from (f"{origin}.{alias.name}" for alias in node.names)
            case ast.Call(func=ast.Name("import_module") | ast.Attribute(attr="import_module"), args=[name, *_]):
                yield from list(offered(module)) or [_beginning(name)]


def offered(facade: Module) -> Iterator[str]:
    """Yield the full name of all that a facade, such as kit/__init__.py, loads on first use."""
    for node in facade.tree.body:
        if isinstance(node, ast.Assign) and ast.unparse(node.targets[0]) == "_FROM":
            for origin, names in ast.literal_eval(node.value).items():
                yield from (f"{origin}.{name}" for name in names)


def _run(node: ast.AST) -> Iterator[ast.AST]:
    """Yield all nodes that may be run, at the top of the module or in a function."""
    yield node
    if isinstance(node, ast.If) and ast.unparse(node.test).endswith("TYPE_CHECKING"):
        inside: Iterable[ast.AST] = node.orelse
    else:
        inside = ast.iter_child_nodes(node)
    for each in inside:
        yield from _run(each)


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
        library = name.partition(".")[0]
        if library == "kit":
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


def out_of_order(module: Module) -> Iterator[str]:
    """Inside the job, data goes one way: from the text of the file to the verdict and the check."""
    step = {f"kit.job.{name}": number for number, names in enumerate(INSIDE_JOB) for name in names}
    if module.name == "kit.job" or not module.name.startswith("kit.job."):
        return
    if module.name not in step:
        yield f"{module.name} needs its place in INSIDE_JOB"
        return
    for name in imports(module, for_types=False):
        other = next((known for known in step if f"{name}.".startswith(f"{known}.")), None)
        if name.rpartition(".")[0] == "kit.job" and other is None:
            yield f"{module.name} imports {name} from the face of its room; name the module"
        elif other not in (None, module.name) and step[other] >= step[module.name]:  # type: ignore[index]
            yield f"{module.name} imports {name}, which comes after it"


def private_reach(module: Module) -> Iterator[str]:
    """A name with an underscore belongs to its module; nobody else imports it or takes it off an object."""
    own = {each.name for each in module.nodes if isinstance(each, ast.ClassDef | Function)}
    for node in module.nodes:
        match node:
            case ast.Attribute(value=ast.Name("self" | "cls"), attr=name, ctx=ast.Store()):
                own.add(name)
            case ast.AnnAssign(target=ast.Name(name)) | ast.Assign(targets=[ast.Name(name)]):
                own.add(name)
    for node in module.nodes:
        match node:
            case ast.ImportFrom(names=names):
                path = _origin(module, node)
                for alias in names:
                    if any(map(_is_private, [*path.split("."), alias.name])):
                        yield f"{module.name}:{node.lineno} imports {path}.{alias.name}"
            case ast.Import(names=names):
                for alias in names:
                    if any(map(_is_private, alias.name.split("."))):
                        yield f"{module.name}:{node.lineno} imports {alias.name}"
            case ast.Attribute(value=ast.Name("self" | "cls") | ast.Call(func=ast.Name("super"))):
                pass
            case ast.Attribute(attr=name) if _is_private(name) and name not in own | OF_NAMED_TUPLES:
                yield f"{module.name}:{node.lineno} reaches for {ast.unparse(node)}"


def _is_private(name: str) -> bool:
    """Whether a name is a module's own; `_name_` and `__name__` are agreed upon between modules."""
    return name.startswith("_") and not name.endswith("_")


def circles(modules: Iterable[Module]) -> Iterator[str]:
    """Yield each circle of files that import each other when run, at the top or in a function."""
    known = {module.name: module for module in modules}
    house = nx.DiGraph()
    for module in known.values():
        for name in imports(module, for_types=False):
            while name and name not in known:
                name = name.rpartition(".")[0]
            if name and name != module.name:
                house.add_edge(module.name, name)
    for component in nx.strongly_connected_components(house):
        if len(component) > 1:
            yield f"{', '.join(sorted(component))} import each other"


def trade_words(module: Module) -> Iterator[str]:
    """Drawing is an engine and geometry knows no trade: neither names a subject, in code or in words."""
    if module.room in ("drawing", "geometry"):
        for number, text in enumerate(module.source.splitlines(), 1):
            for word in TRADE_WORDS.findall(text):
                yield f"{module.name}:{number} speaks of {word!r}, which belongs into a chapter"


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
    for node in module.nodes:
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


def silent_errors(module: Module) -> Iterator[str]:
    """Public functions that raise an error of ours, in their own body or through a private one, and do not say so."""
    private = {
        node.name: node
        for node in module.nodes
        if isinstance(node, Function) and node.name.startswith("_") and not node.name.endswith("__")
    }
    raising = {name for name, node in private.items() if _raises(node)}
    while more := {name for name, node in private.items() if _calls(node) & raising} - raising:
        raising |= more
    for name, node, _ in _definitions(module.tree.body, ""):
        if isinstance(node, ast.ClassDef) or node.name.startswith("__"):
            continue
        if (_raises(node) or _calls(node) & raising) and not re.search(r"\bRaises\b", ast.get_docstring(node) or ""):
            yield f"{module.name}.{name} may raise an error of ours; its docstring says 'Raises' and what makes it so"


def _raises(function: Function) -> bool:
    for node in _own(function):
        if isinstance(node, ast.Raise) and node.exc is not None:
            kind = node.exc.func if isinstance(node.exc, ast.Call) else node.exc
            if ast.unparse(kind).rpartition(".")[2] in ERRORS:
                return True
    return False


def _calls(function: Function) -> set[str]:
    """Return the names of what it calls by a plain name or on itself, where no error of ours is caught."""
    found = set()
    for node in _own(function):
        match node:
            case ast.Call(func=ast.Name(name)) | ast.Call(func=ast.Attribute(ast.Name("self" | "cls"), name)):
                found.add(name)
    return found


def _own(node: ast.AST) -> Iterator[ast.AST]:
    """Yield the nodes of a function's own body, but for what stands in a `try` that catches our errors."""
    for child in ast.iter_child_nodes(node):
        if isinstance(child, Function | ast.Lambda):
            continue
        if isinstance(child, ast.Try) and any(_catches(handler) for handler in child.handlers):
            for other in (*child.handlers, *child.orelse, *child.finalbody):
                yield from _own(other)
            continue
        yield child
        yield from _own(child)


def _catches(handler: ast.ExceptHandler) -> bool:
    return handler.type is None or ast.unparse(handler.type) in ("KitError", "Exception")


def bare_numbers(module: Module) -> Iterator[str]:
    """Geometry whose docstring (its own, its class's or its file's) tells neither the unit nor the shape of numbers."""
    if "geometry" not in module.name.split("."):
        return
    classes = {node.name: ast.get_docstring(node) or "" for node in module.tree.body if isinstance(node, ast.ClassDef)}
    for name, node, _ in _definitions(module.tree.body, ""):
        if isinstance(node, ast.ClassDef) or node.name.startswith("__"):
            continue
        arguments = [*node.args.posonlyargs, *node.args.args, *node.args.kwonlyargs]
        kinds = " ".join(ast.unparse(each) for each in [*(one.annotation for one in arguments), node.returns] if each)
        if re.search(r"\bfloat\b|Array|Floats|Ints", kinds):
            texts = (ast.get_docstring(node), classes.get(name.partition(".")[0]), ast.get_docstring(module.tree))
            if not NUMBERS.search("\n".join(filter(None, texts))):
                yield f"{module.name}.{name} does not say in which unit or of which shape its numbers are"


RULES = [
    broken_imports,
    out_of_order,
    private_reach,
    trade_words,
    too_long,
    unformatted,
    evaluated_text,
    undocumented,
    silent_errors,
    bare_numbers,
]
Rule = Callable[[Module], Iterator[str]]


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.__name__)
def test_the_kit_keeps_the_rule(rule: Rule) -> None:
    assert len(house()) > 10, "the kit's sources are where this test looks for them"
    broken = [fault for module in house() for fault in rule(module)]
    assert not broken, "\n".join(broken)


def test_no_circle_of_files() -> None:
    assert list(circles(house())) == []


def test_every_error_of_ours_is_known() -> None:
    found = {"KitError"}
    classes = [node for module in house() for node in module.nodes if isinstance(node, ast.ClassDef)]
    while more := {c.name for c in classes if {ast.unparse(base) for base in c.bases} & found} - found:
        found |= more
    assert found == ERRORS


def test_every_part_of_the_house_is_known() -> None:
    rooms = {path.name for path in (ROOT / "kit").iterdir() if path.is_dir() and not path.name.startswith("_")}
    rooms |= {path.stem for path in (ROOT / "kit").glob("*.py") if not path.stem.startswith("_")}
    assert rooms <= {name.split(".")[0] for name in MAY_IMPORT}, "a new room needs its line in MAY_IMPORT"
    assert CITES.keys() <= CHAPTERS


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
    (broken_imports, "kit.sheet.page", "from kit import __version__", "imports kit.__version__"),
    (broken_imports, "kit", "_FROM = {'kit.geometry': ('a',)}\nimport_module(name)", "imports kit.geometry.a"),
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
    (out_of_order, "kit.job.build", "from kit.job.job import Job", "imports kit.job.job.Job, which comes after"),
    (out_of_order, "kit.job.schema", "from kit.job import toml_file", "toml_file, which comes after"),
    (out_of_order, "kit.job.resolver", "def f():\n    import kit.job.check", "kit.job.check, which comes after"),
    (out_of_order, "kit.job.verdict", "from kit.job import Job", "from the face of its room"),
    (out_of_order, "kit.job.other", "a = 1", "needs its place in INSIDE_JOB"),
    (private_reach, "kit.ui.lab", "from kit.drawing.plots import _label", "imports kit.drawing.plots._label"),
    (private_reach, "kit.ui.lab", "from kit.drawing._plots import label", "imports kit.drawing._plots.label"),
    (private_reach, "kit.ui.lab", "def f():\n    import kit.drawing._plots", "imports kit.drawing._plots"),
    (private_reach, "kit.ui.lab", "from kit.drawing import plots\nplots._label()", "reaches for plots._label"),
    (private_reach, "kit.ui.lab", "def f(model):\n    return model._parts", "reaches for model._parts"),
    (private_reach, "kit.ui.lab", "class A:\n    def f(self):\n        self.model._b = 1", "for self.model._b"),
    (trade_words, "kit.geometry.mesh", "class Hood: ...", "mesh:1 speaks of 'Hood'"),
    (trade_words, "kit.geometry.mesh", "def near(hood_board): ...", "speaks of 'hood'"),
    (trade_words, "kit.drawing.scene", "a = 1\nb = 'the knob'", "scene:2 speaks of 'knob'"),
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
    (silent_errors, "kit.cli", "def f() -> int:\n    'F.'\n    raise KitError('no')", "kit.cli.f may raise"),
    (silent_errors, "kit.cli", "def f() -> int:\n    'F.'\n    raise errors.JobError", "kit.cli.f may raise"),
    (silent_errors, "kit.cli", "class A:\n    def f(self):\n        raise KitError('no')", "kit.cli.A.f may raise"),
    (
        silent_errors,
        "kit.cli",
        "def f():\n    return [_g()]\ndef _g():\n    _h()\ndef _h():\n    raise KitError('no')",
        "kit.cli.f may raise",
    ),
    (
        silent_errors,
        "kit.cli",
        "def f():\n    try:\n        g()\n    except OSError:\n        raise KitError('no')",
        "kit.cli.f may raise",
    ),
    (bare_numbers, "kit.geometry.a", "def f(a: Floats) -> int:\n    'Return the count.'", "kit.geometry.a.f does not"),
    (bare_numbers, "kit.subjects.hood.geometry.a", "class A:\n    def f(self) -> float: ...", "a.A.f does not"),
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
    (broken_imports, "kit.sheet.page", "from kit.core.version import __version__\nfrom kit.job import Job"),
    (
        broken_imports,
        "kit.geometry.mesh",
        "import math\nimport numpy as np\nfrom scipy.spatial import ConvexHull",
    ),
    (broken_imports, "kit.core.quantity.units", "import pint"),
    (broken_imports, "kit.geometry.packing.nester", "def f():\n    import spyrrow"),
    (broken_imports, "kit", "_FROM = {'kit.job': ('open_job',)}\nimport_module(name)"),
    (broken_imports, "kit.cli", "from kit.ui.panel import Panel\nimport argparse"),
    (out_of_order, "kit.job.job", "from kit.job import toml_edit as edit\nfrom kit.job.verdict import verdict"),
    (out_of_order, "kit.job.build", "if TYPE_CHECKING:\n    from kit.job.job import Job"),
    (out_of_order, "kit.job.check", "from kit.core.errors import KitError\nfrom kit.job.job import Job"),
    (out_of_order, "kit.sheet.book", "from kit.job import Job"),
    (private_reach, "kit.ui.lab", "from __future__ import annotations\nimport kit\nkit.__version__"),
    (private_reach, "kit.ui.lab", "def f(mark):\n    return mark._replace(a=1)"),
    (private_reach, "kit.ui.lab", "class A:\n    def f(self, other):\n        self._a = other._a"),
    (private_reach, "kit.ui.lab", "class A(B):\n    def _print(self):\n        return super()._draw()"),
    (trade_words, "kit.geometry.mesh", "neighborhood = 'a board of the obstacle'"),
    (trade_words, "kit.subjects.hood.shape", "hood = 1"),
    (too_long, "kit.cli", "a = 1\n" * 400),
    (unformatted, "kit.core.quantity.tokens", "a = 1  # fmt: skip\n"),
    (evaluated_text, "kit.cli", "re.compile('a')\nsp.sympify(a, strict=True)\nmodel.evaluate(a)"),
    (
        undocumented,
        "kit.cli",
        "'Doc.'\ndef _f(a): ...\nclass _A:\n    def f(self): ...\ndef main() -> int:\n    'M.'",
    ),
    (undocumented, "kit.cli", "'Doc.'\nclass A:\n    'A.'\n    def __len__(self) -> int: return 1"),
    (silent_errors, "kit.cli", "def f():\n    'F. Raises KitError always.'\n    raise KitError('no')"),
    (silent_errors, "kit.cli", "def f():\n    raise ValueError('no')\ndef _g():\n    raise KitError('no')"),
    (
        silent_errors,
        "kit.cli",
        "def f():\n    try:\n        _g()\n    except KitError:\n        pass\ndef _g():\n    raise KitError('no')",
    ),
    (bare_numbers, "kit.geometry.a", "def f(a: Floats) -> int:\n    'Return how many of `a` (n,) are 0.'"),
    (bare_numbers, "kit.geometry.a", "'Points; all in mm.'\ndef f(a: Floats) -> int:\n    'Return the count.'"),
    (bare_numbers, "kit.drawing.a", "def f(a: float) -> int:\n    'Return the count.'"),
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


CIRCLES = [
    ({"kit.a": "from kit.b import f", "kit.b": "import kit.a"}, "kit.a, kit.b"),
    ({"kit.a": "from kit import b", "kit.b": "def f():\n    from kit.a import g"}, "kit.a, kit.b"),
    ({"kit.a": "import kit.b", "kit.b": "import kit.c", "kit.c": "from .a import f"}, "kit.a, kit.b, kit.c"),
    ({"kit.a": "import kit.b", "kit.b": "if TYPE_CHECKING:\n    pass\nelse:\n    import kit.a"}, "kit.a, kit.b"),
]
STRAIGHT = [
    {"kit.a": "import kit.b", "kit.b": "import kit.c", "kit.c": "from kit.d import f", "kit.d": ""},
    {"kit.a": "from kit.b import f", "kit.b": "if TYPE_CHECKING:\n    from kit.a import g"},
    {"kit.a": "import kit.a"},
]


@pytest.mark.parametrize(("sources", "members"), CIRCLES)
def test_a_circle_is_found(sources: dict[str, str], members: str) -> None:
    found = list(circles(Module(name, source) for name, source in sources.items()))
    assert found == [f"{members} import each other"]


@pytest.mark.parametrize("sources", STRAIGHT)
def test_files_that_go_straight_on_are_no_circle(sources: dict[str, str]) -> None:
    assert list(circles(Module(name, source) for name, source in sources.items())) == []
