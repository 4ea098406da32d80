"""What a builder is given in tests: a case, what is stated beside its givens as in a job's file, and what it takes."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from kit.core.build import Build, BuildInput
from kit.core.model import Case
from kit.core.model.inputs import stated_inputs
from kit.core.quantity import Display
from kit.core.resources import data_dir


def build_input(
    case: Case,
    raw: Mapping[str, Any] | None = None,
    takes: Mapping[str, Build] | None = None,
    *,
    display: Display | None = None,
    folder: Path | None = None,
    printer: Mapping[str, str] | None = None,
) -> BuildInput:
    """Return the input of a case's builder.

    Raises:
        KitError: something in `raw` that the page cannot read.
    """
    model, raw = case.model, raw or {}
    stated = stated_inputs(model.inputs, raw, model.givens)
    shown = display or Display()
    return BuildInput(case, shown, stated, folder or data_dir(), takes or {}, printer or {}, raw)


def restated(inputs: BuildInput, raw: Mapping[str, Any]) -> BuildInput:
    """Return the same input with other things stated beside the givens. Raises as `build_input`."""
    return build_input(
        inputs.case,
        raw,
        inputs.takes,
        display=inputs.display,
        folder=inputs.folder,
        printer=inputs.printer,
    )
