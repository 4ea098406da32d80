"""What a part's job tells under `shape`, read key by key; what cannot be read gets one sentence."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from kit.core.build import BuildInput
from kit.core.errors import KitError, near_misses
from kit.core.quantity import Quantity, QuantityError, parse
from kit.drawing.paper import PaperPlan, PrinterScale

PAPER = ("paper", "printer")
"""The keys that `paper_plan` reads."""


def check_keys(shape: Mapping[str, Any], known: Sequence[str]) -> None:
    """Refuse keys that nothing reads.

    Raises:
        KitError: a key that is not in `known`.
    """
    for key in shape:
        if key not in (*known, "takes"):
            hint = near_misses(key, list(known)) or f"; it knows {', '.join(known)}"
            raise KitError(f"the shape tells {key!r}, which nothing reads{hint}")


def found(folder: Path, name: str) -> Path:
    """Return the path of a file beside the job, or of one that came with the demo.

    Raises:
        KitError: there is neither.
    """
    from kit.core.resources import data_dir

    for path in (folder / name, data_dir() / name):
        if path.is_file():
            return path
    raise KitError(f"there is no file {name!r} beside the job in {str(folder)!r}; put it there")


def quantity(told: Any, key: str, field: str = "mm") -> Quantity:
    """Return a quantity such as "12 mm"; a bare number is in the unit `field`.

    Raises:
        KitError: it is no quantity of that kind.
    """
    if isinstance(told, bool) or not isinstance(told, str | int | float):
        raise KitError(f'the shape\'s {key} is {told!r}; write a quantity such as "12 {field}"')
    try:
        return parse(str(told), field)
    except QuantityError as error:
        raise KitError(f"the shape's {key}: {error}") from error


def length(shape: Mapping[str, Any], key: str, otherwise: float) -> float:
    """Return a length, mm; `otherwise` where none is told. Raises as `quantity`."""
    return quantity(shape[key], key).base if key in shape else otherwise


def lengths(shape: Mapping[str, Any], key: str) -> list[float]:
    """Return a list of lengths, mm, empty where none is told.

    Raises:
        KitError: no list, or as `quantity`.
    """
    return [quantity(each, f"{key}, number {n}").base for n, each in enumerate(listed(shape, key), 1)]


def listed(shape: Mapping[str, Any], key: str) -> Sequence[Any]:
    """Return a list, empty where none is told. Raises KitError where it is no list."""
    told = shape.get(key, [])
    if not isinstance(told, list):
        raise KitError(f'the shape\'s {key} is {told!r}; write a list such as ["1 mm", "2 mm"]')
    return told


def whole(shape: Mapping[str, Any], key: str, otherwise: int) -> int:
    """Return a whole number, `otherwise` where none is told. Raises KitError where it is none."""
    told = shape.get(key, otherwise)
    if isinstance(told, bool) or not isinstance(told, int):
        raise KitError(f"the shape's {key} is {told!r}; write a whole number such as {otherwise}")
    return told


def paper_plan(inputs: BuildInput) -> PaperPlan:
    """Return the paper told by `paper = "A3"`, and `printer = { x = "99.7 mm", y = "100.2 mm" }`, check bars measured.

    Where a part tells no printer, the job's counts: `printer_x = "99.7 mm"` and `printer_y` of its [machine].
    Raises:
        KitError: an unknown paper, or bars that are no lengths or too far off.
    """
    shape = inputs.shape
    bars = shape.get("printer", inputs.printer)
    if not isinstance(bars, Mapping) or not {*bars} <= {"x", "y"}:
        raise KitError(
            f'the shape\'s printer is {bars!r}; write the check bars as printed, {{ x = "99.7 mm", y = "100.2 mm" }}'
        )
    measured = (quantity(bars.get(side, "100 mm"), f"printer, bar along {side}") for side in ("x", "y"))
    return PaperPlan(str(shape.get("paper", "A4")), printer=PrinterScale.measured(*measured))
