"""Fitwright: design notebooks for stations and fixtures around a workshop machine.

What a notebook needs stands here, and each name loads what it needs when it is first used:

>>> from kit import model
>>> eye = model("scale.cursor").at(eye_height="500 mm", eye_offset="50 ± 5 mm", gap="1 mm")
>>> eye["gap"].value
1.0
>>> eye.show("parallax")
'0.10 mm'
>>> eye
Case of scale.cursor: How far is a reading off when the eye is not straight above the cursor line?
  givens: eye_height 500.0 ± 50 mm, eye_offset 50.0 ± 5 mm, gap 1.00 ± 0.1 mm, line underside, window 3.00 ± …
  results: parallax 0.10 mm, u 0.13 mm, offset_allowed 50 mm, gap_allowed 1.00 mm
  limits: the limit fails; 5 of 9 values are examples, not yet yours
  cautions: Unplug the machine before you measure at the blade, lay a scale or set a cursor. and 2 more

A job holds all parts of a station, and links between them; a panel lets a reader play with one of them:

    job = open_job("boatshed.toml")
    job.verdict("long_stop")
    panel(job=job, part="long_stop")
"""

from importlib import import_module

from kit.core.version import __version__

TYPE_CHECKING = False  # type checkers take it as true by its name; typing itself would take longer than all of this
if TYPE_CHECKING:
    from kit.core.errors import KitError
    from kit.core.quantity import Display, Quantity, QuantityError, parse
    from kit.core.search import best, front
    from kit.core.uncertainty import budget, monte_carlo, needed, sensitivity
    from kit.job.check import check
    from kit.job.demo import example_job, open_job
    from kit.sheet.book import write_book
    from kit.sheet.write import write_sheet
    from kit.subjects import model, names
    from kit.ui.classroom import class_answers, worksheet_maker
    from kit.ui.intake import Intake
    from kit.ui.lesson.comparison import against
    from kit.ui.lesson.exercise import exercise
    from kit.ui.lesson.lesson import Lesson
    from kit.ui.lesson.sign_in import SignIn
    from kit.ui.page import job_page
    from kit.ui.panel import panel

__all__ = [
    "Display",
    "Intake",
    "KitError",
    "Lesson",
    "Quantity",
    "QuantityError",
    "SignIn",
    "__version__",
    "against",
    "best",
    "budget",
    "check",
    "class_answers",
    "example_job",
    "exercise",
    "front",
    "job_page",
    "model",
    "monte_carlo",
    "names",
    "needed",
    "open_job",
    "panel",
    "parse",
    "sensitivity",
    "worksheet_maker",
    "write_book",
    "write_sheet",
]

_FROM = {
    "kit.core.errors": ("KitError",),
    "kit.core.quantity": ("Display", "Quantity", "QuantityError", "parse"),
    "kit.core.search": ("best", "front"),
    "kit.core.uncertainty": ("budget", "monte_carlo", "needed", "sensitivity"),
    "kit.job.check": ("check",),
    "kit.job.demo": ("example_job", "open_job"),
    "kit.sheet.book": ("write_book",),
    "kit.sheet.write": ("write_sheet",),
    "kit.subjects": ("model", "names"),
    "kit.ui.classroom": ("class_answers", "worksheet_maker"),
    "kit.ui.intake": ("Intake",),
    "kit.ui.lesson.comparison": ("against",),
    "kit.ui.lesson.exercise": ("exercise",),
    "kit.ui.lesson.lesson": ("Lesson",),
    "kit.ui.lesson.sign_in": ("SignIn",),
    "kit.ui.page": ("job_page",),
    "kit.ui.panel": ("panel",),
}
"""Where each name comes from; a rule of the house compares it with the imports above."""


def __getattr__(name: str) -> object:
    """Load a name of the facade on its first use. Raises AttributeError for any other name."""
    for module, offered in _FROM.items():
        if name in offered:
            globals()[name] = getattr(import_module(module), name)
            return globals()[name]
    raise AttributeError(f"module 'kit' has no attribute {name!r}; it offers {', '.join(__all__)}")


def __dir__() -> list[str]:
    return sorted(__all__)
