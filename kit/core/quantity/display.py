"""The reader's preferences: which units, how fine the fractions, how many digits."""

from dataclasses import dataclass
from typing import Literal

from kit.core.quantity.errors import QuantityError
from kit.core.quantity.units import Unit, compose, unit

System = Literal["mm", "in"]

DENOMINATORS = (2, 4, 8, 16, 32, 64, 128)
_MOST_DIGITS = 12

# Units that have a customary counterpart as a whole; anything else is turned part by part.
_WHOLE: dict[System, dict[str, str]] = {
    "in": {
        "m": "ft", "cm": "in", "ft": "in", "yd": "in", "m²": "ft²", "m³": "ft³",
        "N·m": "lbf·in", "N/m": "lbf/in", "kg/m³": "lb/ft³", "g/cm³": "lb/ft³", "g/m²": "oz/yd²",
        "m/s": "ft/min", "m³/h": "cfm", "Pa": "inwg", "m²/L": "ft²/gal",
    },
    "mm": {
        "cm": "mm", "ft": "mm", "yd": "mm", "lbf·in": "N·m", "in·lbf": "N·m", "lbf·ft": "N·m",
        "ft·lbf": "N·m",
        "lb/ft³": "kg/m³", "oz/yd²": "g/m²", "ft/min": "m/s", "cfm": "m³/h", "ft³/min": "m³/h", "inwg": "Pa",
        "ft²/gal": "m²/L",
    },
}  # fmt: skip
_PART: dict[System, dict[str, str]] = {
    "in": {
        "mm": "in", "cm": "in", "m": "ft", "µm": "thou", "N": "lbf", "kN": "lbf", "kg": "lb", "g": "oz",
        "t": "lb", "Pa": "psi", "kPa": "psi", "MPa": "psi", "GPa": "Msi", "°C": "°F", "L": "qt",
    },
    "mm": {
        "in": "mm", "ft": "m", "yd": "m", "thou": "µm", "lbf": "N", "lb": "kg", "oz": "g",
        "psi": "MPa", "ksi": "MPa", "Msi": "GPa", "°F": "°C", "qt": "L", "gal": "L",
    },
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Display:
    """How quantities are shown.

    Raises:
        QuantityError: a preference outside what is offered.

    >>> Display(system="in", denominator=32)
    Display(system='in', denominator=32, decimals=1, angle_decimals=1, digits=4)
    """

    system: System = "mm"
    denominator: int = 64  # of inch fractions
    decimals: int = 1  # of millimeters
    angle_decimals: int = 1  # of degrees
    digits: int = 4  # significant ones of all other quantities

    def __post_init__(self) -> None:
        if self.system not in ("mm", "in"):
            raise QuantityError(f"Lengths are shown in 'mm' or 'in', not in {self.system!r}")
        if self.denominator not in DENOMINATORS:
            raise QuantityError(f"Inch fractions have a denominator of {DENOMINATORS}, not {self.denominator!r}")
        for name, least in (("decimals", 0), ("angle_decimals", 0), ("digits", 1)):
            given = getattr(self, name)
            if type(given) is not int or not least <= given <= _MOST_DIGITS:
                raise QuantityError(f"{name} is a whole number from {least} to {_MOST_DIGITS}, not {given!r}")

    def unit_for(self, of: Unit) -> Unit:
        """Return the unit in which the reader sees a quantity that is stated in the unit `of`.

        Lengths become mm or in (µm and thou stay fine units, what is stated in m becomes m or ft), angles degrees.
        """
        if of.angle == 1 and not any(of.dim):
            return unit("deg")
        if of.text in _WHOLE[self.system]:
            return unit(_WHOLE[self.system][of.text])
        if not any(of.dim):
            return of  # a slope in mm/m stays one
        turned = _PART[self.system]
        return compose(tuple((turned.get(name, name), power) for name, power in of.parts))


def home(of: Unit) -> Display:
    """Return the default display of the system that a unit belongs to; metric for those in both."""
    customary = of.text in _WHOLE["mm"] and of.text not in ("m", "cm")
    return Display(system="in" if customary or any(name in _PART["mm"] for name, _ in of.parts) else "mm")
