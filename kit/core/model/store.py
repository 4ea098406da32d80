"""Models stated before, read from files: to compute with them, sympy need not be loaded.

The statement stays the only source. A file of the store is made from it and holds what follows: words, numbers, tapes,
TeX. It names each source file that it was made from, with a digest of its content, and sympy's release; where one of
them has changed, or the file itself is damaged, the page is stated anew and the file replaced. A file holds no code.

The store that came with an installed copy is read first. What is not fresh there lies in the user's cache folder,
`FITWRIGHT_CACHE` if that is set; where it cannot be written, every process states what it needs.
"""

from __future__ import annotations

import ast
import json
import os
import sys
from collections.abc import Callable, Iterator
from contextlib import suppress
from functools import cache, cached_property
from hashlib import sha256
from importlib.util import find_spec
from pathlib import Path
from typing import TYPE_CHECKING, Any

from kit.core.files import write_atomic
from kit.core.model.calculation import Calculation
from kit.core.model.plain_data import decoded, encoded
from kit.core.model.steps import Step
from kit.core.model.tape import Tape

if TYPE_CHECKING:
    from kit.core.model.statement import Statement

_KIT = Path(__file__).resolve().parent.parent.parent
_SHIPPED = _KIT / "_store"
_ALWAYS = ("core/model", "core/quantity")  # folders whose files decide what any statement means
_WORDS = ("title", "question", "picture", "assumptions", "sources")
_TAPES = ("point", "verdicts", "mistaken")
_TERMS = ("givens", "picks", "relations", "limits", "cautions", "wishes", "inputs", "mistakes")


class StoredModel(Calculation):
    """A model as its file has it. Its formulas are stated anew by `state` when one is first asked for."""

    def __init__(self, name: str, words: dict[str, Any], formulas: str, state: Callable[[], Statement]) -> None:
        self.name = name
        self._formulas, self._state = formulas, state
        self.__dict__.update({key: decoded(words[key], self._fetch) for key in (*_WORDS, *_TERMS)})
        self.cautions, self.mistakes = list(self.cautions), list(self.mistakes)

    @property
    def point(self) -> Tape:
        """All relations, in order, from all givens, in order; base units."""
        return self._rest["point"]  # type: ignore[no-any-return]

    @property
    def verdicts(self) -> Tape:
        """Each limit's value and allowed value, then each caution's condition, from all symbols' values."""
        return self._rest["verdicts"]  # type: ignore[no-any-return]

    @property
    def mistaken(self) -> Tape:
        """All results, in order, after one mistake after the other, from all givens, in order; base units."""
        return self._rest["mistaken"]  # type: ignore[no-any-return]

    @cached_property
    def steps(self) -> tuple[Step, ...]:
        """All relations, in order, typeset."""
        found = decoded(self._data["steps"], self._fetch)
        pairs = zip(self.relations.values(), found, strict=True)
        return tuple(Step(relation, *more) for relation, more in pairs)

    @cached_property
    def _data(self) -> dict[str, Any]:
        data: dict[str, Any] = json.loads(self._formulas)
        return data

    @cached_property
    def _rest(self) -> dict[str, Any]:
        return {key: decoded(self._data[key], self._fetch) for key in _TAPES}

    def _fetch(self, kind: str, called: str) -> Callable[[], Any]:
        def fetch() -> Any:
            stated = self._state()
            if kind == "Relation":
                return stated.relations[called].formula()
            if kind == "Limit":
                return stated.limits[called].formulas()
            if kind == "Mistake":
                return next(each for each in stated.mistakes if each.text == called).formula()
            return next(each for each in stated.cautions if each.text == called).condition()

        return fetch


def stored(name: str, page: Path, state: Callable[[], Statement]) -> Calculation:
    """Return the model called `name` from its file; where there is no fresh one, `state` it and write the file.

    `page` is the source file that states it.
    """
    for folder in (_SHIPPED, user_folder()):
        found = _fresh(folder / f"{name}.txt")
        if found:
            return StoredModel(name, *found, state)
    model = state()
    with suppress(OSError):
        user_folder().mkdir(parents=True, exist_ok=True)
        write_atomic(user_folder() / f"{name}.txt", written(model, page))
    return model


def written(model: Calculation, page: Path) -> str:
    """Return the text of a model's file: a digest of the rest, its words and numbers, its formulas; a line each."""
    words = {key: encoded(getattr(model, key)) for key in (*_WORDS, *_TERMS)}
    steps = [[step.lines, step.formula, step.cases] for step in model.steps]
    formulas = {key: encoded(getattr(model, key)) for key in _TAPES} | {"steps": encoded(steps)}
    rest = f"{_json({'made from': made_from(page), 'words': words})}\n{_json(formulas)}"
    return f"{sha256(rest.encode()).hexdigest()}\n{rest}"


def user_folder() -> Path:
    """Return the folder in which this copy of the kit keeps what it has stated; it may not be there yet."""
    home = Path("~").expanduser()
    usual = {"win32": os.environ.get("LOCALAPPDATA"), "darwin": home / "Library" / "Caches"}.get(sys.platform)
    base = os.environ.get("FITWRIGHT_CACHE") or usual or os.environ.get("XDG_CACHE_HOME") or home / ".cache"
    return Path(base) / "fitwright" / sha256(str(_KIT).encode()).hexdigest()[:12]


def made_from(page: Path) -> dict[str, str]:
    """Return a digest of everything that decides what a page states, by its path in the kit, and of sympy's release."""
    always = [path for folder in _ALWAYS for path in (_KIT / folder).glob("*.py")]
    ahead, found = [page, *always], set[Path]()
    while ahead:
        path = ahead.pop()
        if path not in found:
            found.add(path)
            ahead += _imported(path)
    paths = sorted(path.relative_to(_KIT).as_posix() for path in found)
    return {path: _digest(path) for path in (*paths, "sympy")}


def _fresh(path: Path) -> tuple[dict[str, Any], str] | None:
    """Return the words and the formulas of a file that is whole and made from what is there now."""
    try:
        told, _, rest = path.read_text(encoding="utf-8").partition("\n")
        if sha256(rest.encode()).hexdigest() != told:
            return None
        first, _, formulas = rest.partition("\n")
        data = json.loads(first)
        if all(_digest(source) == digest for source, digest in data["made from"].items()):
            return data["words"], formulas
    except (OSError, ValueError, KeyError):
        pass
    return None


@cache
def _digest(source: str) -> str:
    path = _KIT / source
    if source == "sympy":
        spec = find_spec("sympy")
        path = Path(spec.origin).parent / "release.py" if spec and spec.origin else path
    try:
        return sha256(path.read_bytes()).hexdigest()[:16]
    except OSError:
        return ""


@cache
def _imported(path: Path) -> tuple[Path, ...]:
    """Return the source files of the kit that a source file imports anywhere, by statement."""
    return tuple(_imports(path))


def _imports(path: Path) -> Iterator[Path]:
    for node in ast.walk(ast.parse(path.read_bytes())):
        if isinstance(node, ast.ImportFrom) and node.module and node.module.startswith("kit."):
            module = _KIT.joinpath(*node.module.split(".")[1:])
            for name in node.names:
                tried = (module / f"{name.name}.py", module.with_suffix(".py"), module / "__init__.py")
                yield next(path for path in tried if path.is_file())


def _json(data: Any) -> str:
    return json.dumps(data, ensure_ascii=False, separators=(",", ":"))
