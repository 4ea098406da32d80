"""Sensitivities: the partial derivatives of a result by every given, by the chain rule along the tape."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from kit.core.model.compiled import NoValueError
from kit.core.model.terms import in_words

if TYPE_CHECKING:
    from kit.core.model.calculation import Calculation


class Gradient:
    """The derivatives of one result by every given, at any point."""

    def __init__(self, model: Calculation, result: str) -> None:
        self.model = model
        self.result = model.part(result).name
        named = {name for relation in model.needed([result]) for name in relation.rests_on} | {result}
        self._givens = [name for name in model.givens if name in named]
        # a count does not move a little
        self._fixed = frozenset(name for name, given in model.givens.items() if given.kind in ("count", "choice"))

    def at(self, value: Mapping[str, float]) -> dict[str, float]:
        """Return d(result)/d(given) for each given that the result rests on, in base units.

        `value` holds every symbol's value, as a case does. Ceilings, signs and their like are flat; by a whole number
        the derivative is 0.

        Raises:
            NoValueError: a derivative does not exist here, as that of a root at zero.
        """
        if self.result in self.model.givens:
            return {self.result: 1.0}
        numbers = [value[name] for name in self.model.givens]
        place = list(self.model.relations).index(self.result)
        try:
            slopes = self.model.point.slopes(numbers, place, self._fixed)
        except (ValueError, ZeroDivisionError, OverflowError):
            raise NoValueError(
                f"{in_words(self.result)} has no slope at this point, hence no first-order uncertainty; "
                "move a given a little, or use Monte Carlo"
            ) from None
        return {name: slopes[name] for name in self._givens}
