"""The table of units: spellings, dimension, factor to the base mm, tonne, s, K (and rad = 1).

Factors follow from definitions: the inch is 25.4 mm and the pound 0.453 592 37 kg exactly (international
yard and pound agreement, 1959), standard gravity 9.806 65 m/s² exactly (3rd CGPM, 1901); the rest as in
NIST SP 811, from memory. The tests compare every row with pint.
"""

from math import pi
from typing import NamedTuple

Dim = tuple[int, int, int, int]  # length, mass, time, temperature

INCH = 25.4
POUND = 0.45359237e-3  # tonne
GRAVITY = 9806.65  # mm/s²
WATER = 1e-9  # tonne/mm³, conventional, for pressures read as heights of water
POUND_FORCE = POUND * GRAVITY

_NONE: Dim = (0, 0, 0, 0)
_LENGTH: Dim = (1, 0, 0, 0)
_MASS: Dim = (0, 1, 0, 0)
_TIME: Dim = (0, 0, 1, 0)
_TEMPERATURE: Dim = (0, 0, 0, 1)
_FORCE: Dim = (1, 1, -2, 0)
_STRESS: Dim = (-1, 1, -2, 0)
_VOLUME: Dim = (3, 0, 0, 0)
_FLOW: Dim = (3, 0, -1, 0)


class Row(NamedTuple):
    """One unit by itself. `angle` is 1 for angles, whose dimension is that of a plain number."""

    text: str
    spellings: str
    dim: Dim
    factor: float
    pint: str
    tex: str = ""
    offset: float = 0.0
    angle: int = 0


_ROWS = (
    Row("nm", "nanometer nanometers", _LENGTH, 1e-6, "nanometer"),
    Row("µm", "um micron microns micrometer micrometers", _LENGTH, 1e-3, "micrometer"),
    Row("mm", "millimeter millimeters millimetre millimetres", _LENGTH, 1.0, "millimeter"),
    Row("cm", "centimeter centimeters centimetre centimetres", _LENGTH, 10.0, "centimeter"),
    Row("m", "meter meters metre metres", _LENGTH, 1000.0, "meter"),
    Row("in", 'inch inches "', _LENGTH, INCH, "inch"),
    Row("ft", "foot feet '", _LENGTH, 12 * INCH, "foot"),
    Row("yd", "yard yards", _LENGTH, 36 * INCH, "yard"),
    Row("thou", "mil mils", _LENGTH, INCH / 1000, "thou"),
    Row("L", "l liter liters litre litres", _VOLUME, 1e6, "liter"),
    Row("gal", "gallon gallons", _VOLUME, 231 * INCH**3, "gallon"),
    Row("qt", "quart quarts", _VOLUME, 231 / 4 * INCH**3, "quart"),
    Row("deg", "° degree degrees", _NONE, pi / 180, "degree", r"{}^{\circ}", angle=1),
    Row("rad", "radian radians", _NONE, 1.0, "radian", angle=1),
    Row("arcmin", "arcminute arcminutes", _NONE, pi / 10800, "arcminute", angle=1),
    Row("arcsec", "arcsecond arcseconds", _NONE, pi / 648000, "arcsecond", angle=1),
    Row("N", "newton newtons", _FORCE, 1.0, "newton"),
    Row("kN", "kilonewton kilonewtons", _FORCE, 1000.0, "kilonewton"),
    Row("lbf", "", _FORCE, POUND_FORCE, "pound_force"),
    Row("kg", "kilogram kilograms", _MASS, 1e-3, "kilogram"),
    Row("g", "gram grams", _MASS, 1e-6, "gram"),
    Row("t", "tonne tonnes", _MASS, 1.0, "metric_ton"),
    Row("lb", "lbs lbm pound pounds", _MASS, POUND, "pound"),
    Row("oz", "ounce ounces", _MASS, POUND / 16, "ounce"),
    Row("Pa", "pascal pascals", _STRESS, 1e-6, "pascal"),
    Row("kPa", "", _STRESS, 1e-3, "kilopascal"),
    Row("MPa", "", _STRESS, 1.0, "megapascal"),
    Row("GPa", "", _STRESS, 1000.0, "gigapascal"),
    Row("psi", "", _STRESS, POUND_FORCE / INCH**2, "pound_force_per_square_inch"),
    Row("ksi", "", _STRESS, 1e3 * POUND_FORCE / INCH**2, "kip_per_square_inch"),
    Row("Msi", "", _STRESS, 1e6 * POUND_FORCE / INCH**2, "megapound_force_per_square_inch"),
    Row("inwg", "", _STRESS, INCH * WATER * GRAVITY, "inH2O"),
    Row("s", "sec second seconds", _TIME, 1.0, "second"),
    Row("min", "minute minutes", _TIME, 60.0, "minute"),
    Row("h", "hr hour hours", _TIME, 3600.0, "hour"),
    Row("cfm", "", _FLOW, (12 * INCH) ** 3 / 60, "foot ** 3 / minute"),
    Row("%", "percent", _NONE, 0.01, "percent", r"\%"),
    Row("K", "kelvin", _TEMPERATURE, 1.0, "kelvin"),
    Row("°C", "degC", _TEMPERATURE, 1.0, "degree_Celsius", r"{}^{\circ}\mathrm{C}", 273.15),
    Row("°F", "degF", _TEMPERATURE, 5 / 9, "degree_Fahrenheit", r"{}^{\circ}\mathrm{F}", 459.67 * 5 / 9),
)

ROWS: dict[str, Row] = {row.text: row for row in _ROWS}
SPELLINGS: dict[str, Row] = {name: row for row in _ROWS for name in (row.text, *row.spellings.split())}
# Written together as one word in the trade, though they are products and quotients.
RUN_TOGETHER: dict[str, tuple[tuple[str, int], ...]] = {
    "Nm": (("N", 1), ("m", 1)),
    "Nmm": (("N", 1), ("mm", 1)),
    "fpm": (("ft", 1), ("min", -1)),
}

KINDS: dict[tuple[Dim, int], str] = {
    (_NONE, 0): "a plain number",
    (_NONE, 1): "an angle",
    (_LENGTH, 0): "a length",
    ((2, 0, 0, 0), 0): "an area",
    ((3, 0, 0, 0), 0): "a volume",
    ((4, 0, 0, 0), 0): "a second moment of area",
    ((-1, 0, 0, 0), 0): "a curvature",
    (_MASS, 0): "a mass",
    (_FORCE, 0): "a force",
    (_STRESS, 0): "a stress or pressure",
    ((2, 1, -2, 0), 0): "a torque or energy",
    ((0, 1, -2, 0), 0): "a force per length",
    ((-3, 1, 0, 0), 0): "a density",
    ((-2, 1, 0, 0), 0): "a mass per area",
    (_TIME, 0): "a time",
    ((1, 0, -1, 0), 0): "a speed",
    (_FLOW, 0): "a volume flow",
    (_TEMPERATURE, 0): "a temperature",
    ((0, 0, 0, -1), 0): "a change per degree of temperature",
}
EXAMPLES: dict[str, str] = {
    "a plain number": "'0.35' or '12 %'",
    "an angle": "'38 deg' or '38° 30''",
    "a length": "'600 mm' or '23 3/4 in'",
    "a second moment of area": "'250 mm^4' or '2 in^4'",
    "a mass": "'2 kg' or '4.5 lb'",
    "a force": "'60 N' or '12 lbf'",
    "a stress or pressure": "'12.3 GPa' or '1.8 Msi'",
    "a torque or energy": "'5 N·m' or '45 lbf·in'",
    "a density": "'700 kg/m^3' or '44 lb/ft^3'",
    "a mass per area": "'220 g/m^2' or '6.5 oz/yd^2'",
    "a speed": "'20 m/s' or '4000 ft/min'",
    "a volume flow": "'1200 m^3/h' or '700 cfm'",
    "a temperature": "'20 degC' or '68 degF'",
}
