"""What the views of a panel read from it and ask of it; none of them knows the panel itself."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any, Protocol

from kit.core.build import Build
from kit.core.model import Case, Statement
from kit.core.quantity import Display
from kit.core.verdict import Verdict
from kit.ui.panel.input_view import InputView

if TYPE_CHECKING:
    from kit.job import Job


class PanelState(Protocol):
    """The case that a panel shows and the one it began with, its reader's display, its job, and how to change them."""

    case: Case
    start: Case
    display: Display
    job: Job | None
    part: str | None

    @property
    def model(self) -> Statement:
        """The panel's model."""

    inputs: InputView

    @property
    def build(self) -> Build | None:
        """The shape that goes with the case, where there is one."""

    @property
    def shown_build(self) -> Build | None:
        """The same with what is stated beside the givens, as a reader is shown it."""

    @property
    def judged(self) -> Verdict:
        """What is known of the case, of what is built of it, and of the parts that it rests on."""

    @property
    def raw(self) -> Mapping[str, Any]:
        """What is stated beside the givens, as in a job's file."""

    @property
    def links(self) -> Mapping[str, Any]:
        """The parts that are taken, by what is taken of them."""

    def take(self, case: Case, changed: str) -> None:
        """Show another case of the same model, in which `changed` is new."""

    def take_all(self, texts: dict[str, str]) -> None:
        """Take several givens at once. Raises KitError, and nothing changes, where the model refuses one."""

    def keep(self, raw: Mapping[str, Any]) -> None:
        """State inputs by which what is shown is built again."""

    def reset(self) -> None:
        """Go back to the case that the panel began with."""

    def write_verdict(self) -> None:
        """Write the verdict anew."""

    def export(self, folder: Path) -> Path:
        """Write the worked sheet of what the panel shows into `folder`; return the file."""
