"""What a notebook shows: a model's page piece by piece, predictions, comparisons, and exercises.

from kit.lesson import Lesson, against, exercise, predict
"""

from kit.lesson.comparing import Compared, against
from kit.lesson.exercise import Exercise, exercise
from kit.lesson.lesson import Lesson
from kit.lesson.predicting import predict
from kit.lesson.shown import Shown

__all__ = ["Compared", "Exercise", "Lesson", "Shown", "against", "exercise", "predict"]
