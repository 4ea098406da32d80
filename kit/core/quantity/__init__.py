"""What people write and read: quantities typed with units and fractions, shown in the reader's own.

Numbers inside the kit run bare in the base mm, N, s, K with mass in tonnes and angles in radians; units come
on and off here. Pint is loaded only by `Quantity.pint` and `registry`.
"""

from kit.core.quantity.display import Display
from kit.core.quantity.errors import QuantityError
from kit.core.quantity.grammar import parse
from kit.core.quantity.origin import CHOSEN, EXAMPLE, ValueOrigin
from kit.core.quantity.quantity import Quantity, registry
from kit.core.quantity.show import number, show, show_in, show_parts, tex
from kit.core.quantity.units import Unit, unit

__all__ = [
    "CHOSEN",
    "EXAMPLE",
    "Display",
    "Quantity",
    "QuantityError",
    "Unit",
    "ValueOrigin",
    "number",
    "parse",
    "registry",
    "show",
    "show_in",
    "show_parts",
    "tex",
    "unit",
]
