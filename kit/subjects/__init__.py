"""The trade: its chapters in building order, each a folder, each page loaded when it is first asked for."""

from __future__ import annotations

import ast
import inspect
from functools import cache, partial
from importlib import import_module
from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING

from kit.core.errors import KitError, near_misses
from kit.subjects.accuracy.contents import CHAPTER as ACCURACY
from kit.subjects.air.contents import CHAPTER as AIR
from kit.subjects.alignment.contents import CHAPTER as ALIGNMENT
from kit.subjects.bevel.contents import CHAPTER as BEVEL
from kit.subjects.cloth.contents import CHAPTER as CLOTH
from kit.subjects.cutting.contents import CHAPTER as CUTTING
from kit.subjects.fastening.contents import CHAPTER as FASTENING
from kit.subjects.finish.contents import CHAPTER as FINISH
from kit.subjects.fold.contents import CHAPTER as FOLD
from kit.subjects.groove.contents import CHAPTER as GROOVE
from kit.subjects.hood.contents import CHAPTER as HOOD
from kit.subjects.knob.contents import CHAPTER as KNOB
from kit.subjects.level.contents import CHAPTER as LEVEL
from kit.subjects.reading.contents import CHAPTER as READING
from kit.subjects.scale.contents import CHAPTER as SCALE
from kit.subjects.stop.contents import CHAPTER as STOP
from kit.subjects.support.contents import CHAPTER as SUPPORT
from kit.subjects.sweep.contents import CHAPTER as SWEEP

if TYPE_CHECKING:
    from kit.core.model import Calculation, Model
    from kit.core.subject import Subject

CHAPTERS = (
    SWEEP,
    HOOD,
    AIR,
    BEVEL,
    FOLD,
    CLOTH,
    CUTTING,
    LEVEL,
    GROOVE,
    SCALE,
    STOP,
    READING,
    KNOB,
    SUPPORT,
    FASTENING,
    ALIGNMENT,
    FINISH,
    ACCURACY,
)
"""All chapters, in the order in which a station is built."""

RENAMED = {"chain.accuracy": "accuracy.chain", "chain.batch": "accuracy.batch"}
"""Names of models that jobs may still use, and what they are called now."""

PAGES = {f"{chapter.name}.{page}": load for chapter in CHAPTERS for page, load in chapter.pages.items()}
"""What loads a subject, by its model's name."""


def source(name: str) -> Path:
    """Return the file that states the page of that name."""
    return Path(__file__).parent.joinpath(*name.split(".")).with_suffix(".py")


def stated(name: str) -> Model:
    """State the page of that name, in sympy."""
    model: Model = import_module(f"kit.subjects.{name}").MODEL
    return model


def _stored(name: str) -> Calculation:
    from kit.core.model.store import stored

    return stored(name, source(name), partial(stated, name))


MODELS = {name: partial(_stored, name) for name in PAGES}
"""What loads a model, by its name: from the store, where it is fresh there."""

MAKES = {f"{chapter.name}.{page}": kinds for chapter in CHAPTERS for page, kinds in chapter.makes.items()}
"""The kinds of what is built of a subject, by its model's name."""


def names() -> tuple[str, ...]:
    """Return the names of all models, in building order.

    >>> names()[:2]
    ('sweep.point', 'sweep.step')
    """
    return tuple(PAGES)


def subject(name: str) -> Subject:
    """Return the subject of that name; its files are imported on first use.

    Raises:
        KitError: there is none; the nearest names are listed.
    """
    return _loaded(_known(name))


def makes(name: str) -> tuple[str, ...]:
    """Return the kinds of what is built of a page, for others to take; the page is not loaded.

    >>> makes("sweep.step")
    ('swept envelope',)
    """
    return MAKES.get(RENAMED.get(name, name), ())


def model(name: str) -> Calculation:
    """Return the model of that name. Raises as `subject`.

    >>> model("scale.cursor").question
    'How far is a reading off when the eye is not straight above the cursor line?'
    """
    return _loaded_model(_known(name))


def _known(name: str) -> str:
    name = RENAMED.get(name, name)
    if name not in PAGES:
        hint = near_misses(name, list(PAGES)) or f"; there are {', '.join(PAGES)}"
        raise KitError(f"there is no model {name!r}{hint}")
    return name


@cache
def heading(name: str) -> tuple[str, str]:
    """Return the title and the question of a page as its text states them, without loading it. Raises as `subject`.

    >>> heading("scale.cursor")[1]
    'How far is a reading off when the eye is not straight above the cursor line?'
    """
    chapter, _, page = RENAMED.get(name, name).partition(".")
    text = files("kit.subjects") / chapter / f"{page}.py"
    if name not in PAGES or not text.is_file():
        return model(name).title, model(name).question
    blocks = inspect.cleandoc(ast.get_docstring(ast.parse(text.read_text(encoding="utf-8"))) or "").split("\n\n")
    title, question = (" ".join(block.split()) for block in blocks[:2])
    return title.removesuffix("."), question


@cache
def _loaded(name: str) -> Subject:
    return PAGES[name]()


@cache
def _loaded_model(name: str) -> Calculation:
    return MODELS[name]()
