"""The model core: state a calculation once; evaluate, invert, vary, propagate, prove and typeset it.

from kit.model import Model, equal, find, budget, monte_carlo, prove
"""

from kit.model.case import Case, Entry, SpanError, Stated, Typed
from kit.model.compiled import NoValueError
from kit.model.dimension import DimensionError
from kit.model.invert import Found, find
from kit.model.parts import Caution, Given, Limit, LimitState, Line, ModelError, Pick, Relation, equal
from kit.model.prove import Proof, ProofError, prove
from kit.model.spread import Spread
from kit.model.statement import Model
from kit.model.typeset import LineTex, Step, derivation, slot, substituted, tex
from kit.model.uncertainty import Budget, BudgetRow, Draws, budget, monte_carlo

__all__ = [
    "Budget",
    "BudgetRow",
    "Case",
    "Caution",
    "DimensionError",
    "Draws",
    "Entry",
    "Found",
    "Given",
    "Limit",
    "LimitState",
    "Line",
    "LineTex",
    "Model",
    "ModelError",
    "NoValueError",
    "Pick",
    "Proof",
    "ProofError",
    "Relation",
    "SpanError",
    "Spread",
    "Stated",
    "Step",
    "Typed",
    "budget",
    "derivation",
    "equal",
    "find",
    "monte_carlo",
    "prove",
    "slot",
    "substituted",
    "tex",
]  # fmt: skip
