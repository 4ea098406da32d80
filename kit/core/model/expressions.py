"""Expressions that pages of several chapters share."""

from __future__ import annotations

import sympy as sp


def below(x: sp.Expr, u: sp.Expr) -> sp.Expr:
    """Return the probability that a normal error of standard uncertainty `u` stays below `x`."""
    return (1 + sp.erf(x / (sp.sqrt(2) * u))) / 2


def doublings_before(p: sp.Expr, p_1: sp.Expr, p_2: sp.Expr) -> sp.Expr:
    """Return how far a pressure `p` lies before `p_1`, in the measure of the doublings from `p_1` to `p_2`.

    A pile of cards that gives way alike for each doubling is thicker under `p` by that times the change of thickness.
    """
    return sp.log(p_1 / p) / sp.log(p_2 / p_1)
