"""What an instructor works with: worksheets for a class, and what the class answered.

from kit.ui.classroom import class_answers, worksheet_maker
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from kit.ui.classroom.answers_view import ClassAnswers
    from kit.ui.classroom.worksheets_view import WorksheetMaker


def worksheet_maker(folder: Path | None = None) -> WorksheetMaker:
    """Return a page that makes worksheets and their keys in a folder, the notebook's unless stated."""
    from kit.ui.classroom.worksheets_view import WorksheetMaker

    return WorksheetMaker(folder or Path.cwd())


def class_answers(folder: Path | None = None) -> ClassAnswers:
    """Return a page that reads what the pupils of a class answered, below a folder, the notebook's unless stated."""
    from kit.ui.classroom.answers_view import ClassAnswers

    return ClassAnswers(folder or Path.cwd())
