"""The best designs of a model under its limits: what is wished, what may vary and in which sizes, and what binds.

from kit.core.search import best, front
"""

from kit.core.search.best_design import Best, Relaxed, best
from kit.core.search.fronts import front
from kit.core.search.space import Space, Vary
from kit.core.search.stock import SIZES, sizes
from kit.core.search.wished import wish_of, wishes

__all__ = ["SIZES", "Best", "Relaxed", "Space", "Vary", "best", "front", "sizes", "wish_of", "wishes"]
