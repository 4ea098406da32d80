"""What a result is worth: budgets, Monte Carlo draws, worst cases, and what to measure better.

from kit.core.uncertainty import budget, monte_carlo, needed, worst_case
"""

from kit.core.uncertainty.budget import Budget, BudgetRow, Draws, budget, monte_carlo
from kit.core.uncertainty.improve import Improvement, Plan, needed
from kit.core.uncertainty.over_range import Influence, Sensitivity, sensitivity
from kit.core.uncertainty.worst_case import Corners, corners, root_sum_square, worst_case

__all__ = [
    "Budget",
    "BudgetRow",
    "Corners",
    "Draws",
    "Improvement",
    "Influence",
    "Plan",
    "Sensitivity",
    "budget",
    "corners",
    "monte_carlo",
    "needed",
    "root_sum_square",
    "sensitivity",
    "worst_case",
]
