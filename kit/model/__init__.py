"""The model core: state a calculation once; evaluate, invert, vary, propagate, prove and typeset it.

from kit.model import Model, equal, find, budget, monte_carlo, prove
"""

from kit.model.case import Case, Entry, SpanError, Stated, Typed
from kit.model.compiled import NoValueError
from kit.model.dimension import DimensionError
from kit.model.improve import Improvement, Plan, needed
from kit.model.invert import Found, find
from kit.model.parts import (
    Caution,
    Given,
    Limit,
    LimitState,
    Line,
    ModelError,
    Pick,
    Relation,
    called,
    equal,
    in_words,
)
from kit.model.prove import Proof, ProofError, prove
from kit.model.spread import Spread
from kit.model.statement import Model
from kit.model.typeset import LineTex, Step, derivation, slot, substituted, tex
from kit.model.uncertainty import Budget, BudgetRow, Draws, budget, monte_carlo
from kit.model.worst import Corners, corners, root_sum_square, worst_case

__all__ = [
    "Budget",
    "BudgetRow",
    "Case",
    "Caution",
    "Corners",
    "DimensionError",
    "Draws",
    "Entry",
    "Found",
    "Given",
    "Improvement",
    "Limit",
    "LimitState",
    "Line",
    "LineTex",
    "Model",
    "ModelError",
    "NoValueError",
    "Pick",
    "Plan",
    "Proof",
    "ProofError",
    "Relation",
    "SpanError",
    "Spread",
    "Stated",
    "Step",
    "Typed",
    "budget",
    "called",
    "corners",
    "derivation",
    "equal",
    "find",
    "in_words",
    "monte_carlo",
    "needed",
    "prove",
    "root_sum_square",
    "slot",
    "substituted",
    "tex",
    "worst_case",
]  # fmt: skip
