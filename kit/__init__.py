"""Fitwright: design notebooks for stations and fixtures around a workshop machine.

What a notebook needs stands here, and each name loads what it needs when it is first used:

>>> from kit import model
>>> stop = model("stop.section").at(width="50 mm", height="48 ± 0.2 mm")
>>> stop["second_moment"]
Quantity('460800 mm^4')
>>> stop.show("second_moment")
'460800 mm⁴'

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
    from kit.core.uncertainty import budget, monte_carlo, needed
    from kit.job.check import check
    from kit.job.demo import open_job
    from kit.sheet.book import write_book
    from kit.sheet.write import write_sheet
    from kit.subjects import model, names
    from kit.ui.lesson.comparison import against
    from kit.ui.lesson.exercise import exercise
    from kit.ui.lesson.lesson import Lesson
    from kit.ui.lesson.prediction import predict
    from kit.ui.panel import panel

__all__ = [
    "Display",
    "KitError",
    "Lesson",
    "Quantity",
    "QuantityError",
    "__version__",
    "against",
    "budget",
    "check",
    "exercise",
    "model",
    "monte_carlo",
    "names",
    "needed",
    "open_job",
    "panel",
    "parse",
    "predict",
    "write_book",
    "write_sheet",
]

_FROM = {
    "kit.core.errors": ("KitError",),
    "kit.core.quantity": ("Display", "Quantity", "QuantityError", "parse"),
    "kit.core.uncertainty": ("budget", "monte_carlo", "needed"),
    "kit.job.check": ("check",),
    "kit.job.demo": ("open_job",),
    "kit.sheet.book": ("write_book",),
    "kit.sheet.write": ("write_sheet",),
    "kit.subjects": ("model", "names"),
    "kit.ui.lesson.comparison": ("against",),
    "kit.ui.lesson.exercise": ("exercise",),
    "kit.ui.lesson.lesson": ("Lesson",),
    "kit.ui.lesson.prediction": ("predict",),
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
