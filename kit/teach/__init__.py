"""Teaching with the models: exercises out of any of them, wrong turns told by name, worksheets with their keys.

exercises(case, count, seed=…, display=…) → Exercise → judge(text) → Judgment
"""

from kit.teach.drawing_lots import drawn, moving
from kit.teach.exercise import Choice, Exercise, Judgment, Option, Typed
from kit.teach.kinds import about, exercises
from kit.teach.slips import Slip, slips

__all__ = [
    "Choice",
    "Exercise",
    "Judgment",
    "Option",
    "Slip",
    "Typed",
    "about",
    "drawn",
    "exercises",
    "moving",
    "slips",
]
