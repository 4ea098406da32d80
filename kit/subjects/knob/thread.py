"""What the knob's models share: the thread of the stud, and the cautions of its shop work."""

import sympy as sp

from kit.core.model import Model

#: No standard thread is coarser than this part of its diameter; power screws are.
COARSEST = sp.Rational(1, 4)


def state_thread(model: Model) -> tuple[sp.Symbol, sp.Symbol]:
    """State diameter and pitch of the stud, and return them."""
    d = model.given("diameter", "d", "8 mm", (3, 20), "nominal diameter of the stud")
    model.measured("calipers")
    model.source("table of fasteners")
    p = model.given("pitch", "p", "1.25 mm", (0.4, 2.5), "pitch of the thread", resolution=0.01)
    model.measured("thread gauge, or ten turns with a rule")
    model.source("table of fasteners")
    return d, p


def pick_thread(model: Model, **more: str) -> None:
    """Let a row of the table fill the thread, and the givens `more` from the columns named."""
    model.pick("thread", "fasteners", "M8", {"diameter": "diameter", "pitch": "pitch", **more}, "thread of the stud")


def thread_limit(model: Model, d: sp.Symbol, p: sp.Symbol) -> None:
    """State that a thread as coarse as this is a thread at all."""
    part = model.relation("coarseness", r"\chi", "", "pitch over diameter", resolution=0.001)
    model.equals(p / d, "it shows whether the two belong together")
    model.limit("coarse", "the pitch over the diameter is", part, "<=", COARSEST)
    model.mend("take diameter and pitch from the table: no standard screw is coarser")
