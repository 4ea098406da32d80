"""What people write and read: quantities typed with units and fractions, shown in the reader's own.

Numbers inside the kit run bare in the base mm, N, s, K with mass in tonnes and angles in radians; units come
on and off here. Pint is loaded only by `Quantity.pint` and `registry`.
"""

from kit.quantity.display import Display
from kit.quantity.errors import QuantityError
from kit.quantity.grammar import parse
from kit.quantity.quantity import Quantity, registry
from kit.quantity.show import number, show, show_in, show_parts, tex
from kit.quantity.units import Unit, unit

__all__ = [
    "Display",
    "Quantity",
    "QuantityError",
    "Unit",
    "number",
    "parse",
    "registry",
    "show",
    "show_in",
    "show_parts",
    "tex",
    "unit",
]
