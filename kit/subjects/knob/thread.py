"""What the knob's models share: the thread of the stud, and the cautions of its shop work."""

import sympy as sp

from kit.core.model import Model

#: No standard thread is coarser than this part of its diameter; power screws are.
COARSEST = sp.Rational(1, 4)


def state_thread(model: Model) -> tuple[sp.Symbol, sp.Symbol]:
    """State diameter and pitch of the stud, and return them."""
    d = model.given("diameter", "d", "mm", 8, span=(3, 20), meaning="nominal diameter of the stud", how="calipers",
                    source="table of fasteners")  # fmt: skip
    p = model.given("pitch", "p", "mm", 1.25, span=(0.4, 2.5), meaning="pitch of the thread",
                    how="thread gauge, or ten turns with a rule", source="table of fasteners")  # fmt: skip
    return d, p


def pick_thread(model: Model, **more: str) -> None:
    """Let a row of the table fill the thread, and the givens `more` from the columns named."""
    model.pick("thread", table="fasteners", row="M8", fills={"diameter": "diameter", "pitch": "pitch", **more},
               meaning="thread of the stud")  # fmt: skip


def thread_limit(model: Model, d: sp.Symbol, p: sp.Symbol) -> None:
    """State that a thread as coarse as this is a thread at all."""
    part = model.relation("coarseness", r"\chi", "", p / d, resolution=0.001, meaning="pitch over diameter",
                          because="it tells whether the two belong together")  # fmt: skip
    model.limit("coarse", "the pitch over the diameter is", value=part, allowed=COARSEST,
                mend="take diameter and pitch from the table: no standard screw is coarser")  # fmt: skip
