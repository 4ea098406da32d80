"""A scan of a machine taken in by hand: dropped in, turned, touched, scaled, set upright, taken apart, moved.

from kit.ui.intake import Intake
Intake(job, "saw_sweep")
"""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from kit.ui.intake.intake import Intake

__all__ = ["Intake"]


def __getattr__(name: str) -> Any:
    """Load the intake and its widgets on first use."""
    if name not in __all__:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from kit.ui.intake import intake

    globals()[name] = getattr(intake, name)
    return globals()[name]
