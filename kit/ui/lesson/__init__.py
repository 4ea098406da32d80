"""What a notebook shows: a model's page piece by piece, predictions, comparisons, and exercises.

from kit.ui.lesson import Lesson, against, exercise
"""

from kit.ui.lesson.comparison import Compared, against
from kit.ui.lesson.exercise import Asked, exercise
from kit.ui.lesson.html import Shown
from kit.ui.lesson.lesson import Lesson
from kit.ui.lesson.question import Prediction

__all__ = ["Asked", "Compared", "Lesson", "Prediction", "Shown", "against", "exercise"]
