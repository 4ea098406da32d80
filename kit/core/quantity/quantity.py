"""A number with its unit, as typed or as computed."""

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from kit.core.quantity.errors import QuantityError
from kit.core.quantity.units import Unit, unit

if TYPE_CHECKING:
    import pint


@dataclass(frozen=True, slots=True)
class Quantity:
    """A value in a unit, with the half-width typed after ± in the same unit, or None."""

    value: float
    unit: Unit
    half: float | None = None
    bare: bool = False  # no unit was typed and the field's was taken; never so for plain numbers
    text: str = ""  # as typed; empty if computed

    @classmethod
    def from_base(cls, base: float, of: Unit | str, half: float | None = None) -> "Quantity":
        """Return the quantity that is `base` (and `half`, also in the base) in the unit `of`.

        >>> Quantity.from_base(25.4, "in")
        Quantity('1 in')
        """
        shown = unit(of) if isinstance(of, str) else of
        return cls(shown.from_base(base), shown, None if half is None else half / shown.factor)

    @property
    def base(self) -> float:
        """The value in the base mm, tonne, s, K (rad = 1)."""
        return self.unit.to_base(self.value)

    @property
    def half_base(self) -> float | None:
        """The half-width in the base, or None."""
        return None if self.half is None else self.half * self.unit.factor

    def to(self, of: Unit | str) -> "Quantity":
        """Return the same quantity in another unit.

        Raises:
            QuantityError: the unit is of another dimension.

        >>> Quantity.from_base(603.25, "in").to("mm").value
        603.25
        """
        wanted = unit(of) if isinstance(of, str) else of
        if wanted.dim != self.unit.dim:
            raise QuantityError(f"{self} is {self.unit.kind}; it cannot be shown in {wanted.text}, {wanted.kind}")
        return Quantity.from_base(self.base, wanted, self.half_base)

    def same(self, other: "Quantity") -> bool:
        """Return whether another quantity states the same: value, unit and half-width, however it was typed."""
        alike = self.unit == other.unit and math.isclose(self.value, other.value, rel_tol=1e-12, abs_tol=1e-12)
        if self.half is None or other.half is None:
            return alike and self.half is other.half
        return alike and math.isclose(self.half, other.half, rel_tol=1e-12)

    @property
    def pint(self) -> "pint.Quantity[Any]":
        """The value as a pint quantity of the one registry; the half-width is left out."""
        shared = registry()
        return shared.Quantity(self.value, shared.Unit(self.unit.pint))

    def __repr__(self) -> str:
        return f"Quantity({str(self)!r})"

    def __str__(self) -> str:
        from kit.core.quantity.show import show_in

        return show_in(self.base, self.unit, half=self.half_base, digits=12)


def registry() -> "pint.UnitRegistry[Any]":
    """Return the one pint registry; pint is loaded at the first call.

    It is pint's own application registry, so that quantities made elsewhere combine with ours.
    """
    import pint

    return pint.get_application_registry()
