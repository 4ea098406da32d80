"""What the views of a panel read from it and ask of it; none of them knows the panel itself."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any, Protocol

from kit.core.build import Build
from kit.core.model import Calculation, Case
from kit.core.quantity import Display
from kit.core.verdict import Verdict
from kit.ui.panel.input_view import InputView

if TYPE_CHECKING:
    from kit.job import Job
    from kit.ui.panel.build_view import BuildView


class PanelState(Protocol):
    """The case that a panel shows and the one it began with, its reader's display, its job, and how to change them."""

    case: Case
    start: Case
    first: Case
    display: Display
    job: Job | None
    part: str | None

    @property
    def model(self) -> Calculation:
        """The panel's model."""

    inputs: InputView

    @property
    def refused(self) -> tuple[str, ...]:
        """What stands in the panel and cannot be taken, in words."""

    @property
    def build_view(self) -> BuildView | None:
        """The view of what is built, where something is."""

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

    def take_all(self, texts: dict[str, str]) -> None:
        """Take several givens as proposed. Raises KitError, and nothing changes, where the model refuses one."""

    def show_case(self, case: Case, *, what: str = "") -> None:
        """Show another case of the same model; `what` is the step's name, else it is named by what changed."""

    def go_to(self, case: Case, raw: Mapping[str, Any], links: Mapping[str, Any]) -> None:
        """Show an earlier or later state of the panel: its case, and what is stated beside the givens."""

    def restate_static(self) -> None:
        """Write the static view again, once the controls have come to rest."""

    def more_of_sheet(self) -> list[tuple[str, str]]:
        """Return what was looked at round the design, as further parts of its sheet."""

    def keep(self, raw: Mapping[str, Any]) -> None:
        """State inputs by which what is shown is built again."""

    def reset(self) -> None:
        """Go back to the case that the panel began with."""

    def write_verdict(self) -> None:
        """Write the verdict anew."""

    def export(self, folder: Path) -> Path:
        """Write the worked sheet of what the panel shows into `folder`; return the file."""
