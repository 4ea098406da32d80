"""Limits of shapes are worded as the limits of models are."""

import pytest

from kit.core.holding import held
from kit.core.quantity import Display
from kit.subjects import model


@pytest.mark.parametrize("name", ["level.pads", "level.plane", "level.print", "groove.depth"])
@pytest.mark.parametrize("system", ["mm", "in"])
def test_the_same_words_as_the_model(name: str, system: str) -> None:
    display = Display(system=system)  # type: ignore[arg-type]
    case = model(name).at()
    for factor in (0.5, 2.0):
        for state in case.limits:
            limit, value = state.limit, state.value * factor
            said = held(
                state.name, limit.subject, value, state.allowed, display, unit=limit.unit.text, sense=limit.sense,
                resolution=limit.resolution, mend=limit.mend,
            )  # fmt: skip
            scaled = type(state)(limit, value, state.allowed)
            assert said.told == scaled.words(display)
            assert said.ok == scaled.ok
