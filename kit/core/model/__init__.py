"""The model core: state a calculation once; evaluate it, solve it for a given, prove and typeset it.

from kit.core.model import Model, equal, find, prove
"""

from kit.core.model.case import Case, Entry, SpanError
from kit.core.model.compiled import NoValueError
from kit.core.model.dimension import DimensionError
from kit.core.model.model import Model
from kit.core.model.prove import Proof, ProofError, prove
from kit.core.model.solve_for import Found, find
from kit.core.model.stated import Stated, Typed
from kit.core.model.statement import Statement
from kit.core.model.terms import (
    Caution,
    Given,
    Limit,
    Line,
    ModelError,
    Pick,
    Relation,
    called,
    equal,
    in_words,
)
from kit.core.model.typeset import LineTex, Step, derivation, slot, tex
from kit.core.quantity.distribution import Spread

__all__ = [
    "Case",
    "Caution",
    "DimensionError",
    "Entry",
    "Found",
    "Given",
    "Limit",
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
    "Statement",
    "Step",
    "Typed",
    "called",
    "derivation",
    "equal",
    "find",
    "in_words",
    "prove",
    "slot",
    "tex",
]
