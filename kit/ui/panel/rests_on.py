"""What a panel knows of the parts that its part rests on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from kit.job.verdict import Upstream, gathered, rests_on, upstream
from kit.ui.idle import aside

if TYPE_CHECKING:
    from kit.ui.panel.state import PanelState


class RestsOn:
    """Judges what a part rests on beside the kernel's other work: a hood's certificate may take minutes."""

    def __init__(self, panel: PanelState) -> None:
        self.panel, self._run = panel, object()
        self.known = self._unjudged()

    def forget(self) -> None:
        """Know nothing: other parts may be linked, or they say something else."""
        self._run, self.known = object(), self._unjudged()

    def judge(self) -> None:
        """Judge the parts, and write the panel's verdict when that is done."""
        panel, run = self.panel, object()
        job, part, links = panel.job, panel.part, panel.links
        if job is None or part is None or self.known is None or not self.known.states:
            return
        self._run = run

        def judged() -> Upstream | None:
            try:
                return upstream(job, part, links, progress=lambda _share, _words: self._run is run)
            except RuntimeError:  # the job was changed meanwhile: it is judged when it is shown anew
                return None

        def told(found: Upstream | None) -> None:
            if found is not None and self._run is run:
                self.known = found
                panel.write_verdict()
                panel.restate_static()

        aside(judged, told)

    def _unjudged(self) -> Upstream | None:
        job, part = self.panel.job, self.panel.part
        return gathered(rests_on(job, part, self.panel.links), {}) if job and part else None
