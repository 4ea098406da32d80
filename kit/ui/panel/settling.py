"""What a shape below a panel still needs once the controls rest: made fine, and judged with more effort."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING

from kit.core.build import Build, BuildInput, Progress
from kit.core.errors import KitError
from kit.job.build import best_of, to_the_end
from kit.job.verdict import unsettled
from kit.ui.idle import Action, aside

if TYPE_CHECKING:
    from kit.ui.panel.build_view import BuildView
    from kit.ui.panel.state import PanelState

REST = 0.4  # seconds without a change after which a coarse shape is made fine, and one that is not judged is


def when_settled(panel: PanelState, then: Action, called_off: Action) -> None:
    """Do `then` once what is built is as a file shows it, or `called_off` where a control moves before."""
    if panel.build_view is None:
        then()
    else:
        panel.build_view.settling.when_done(then, called_off)


class Settling:
    """Makes the shape of a view fine and judges it, beside the kernel's other work; a control that moves ends it."""

    def __init__(self, view: BuildView) -> None:
        self.view = view
        self.is_best = self._refining = False
        self._waiting: asyncio.TimerHandle | None = None
        self._going_on: object | None = None  # what is under way, a token that nothing else shares
        self._then: tuple[Action, Action] | None = None  # what waits for it, and what is done where it is called off

    @property
    def due(self) -> bool:
        """Whether anything is left to do."""
        return (self.view.build is not None and self.view.build.coarse) or self._unsettled()

    def soon(self) -> None:
        """Begin what is due once the controls rest; all at once where there is no loop, so nobody moves anything."""
        self.end()
        try:
            loop = asyncio.get_running_loop()
        except RuntimeError:
            self.now()
            return
        if self.due:
            self._waiting = loop.call_later(REST, self.begin)

    def now(self) -> None:
        """Make the shape as fine as the givens ask and, where the verdict depends on it, as good as can be."""
        self.end()
        view = self.view
        if view.build is not None and view.build.coarse:
            view.make(quick=False)
            view.panel.write_verdict()
        if self._unsettled():
            self._judged(self._best(view.input()))

    def when_done(self, then: Action, called_off: Action) -> None:
        """Do `then` once nothing is due any more, beside the kernel's other work, or `called_off` where that ends."""
        try:
            asyncio.get_running_loop()
        except RuntimeError:
            self.now()
            then()
            return
        if self._going_on is None:
            self.end()
        self._then = then, called_off
        if self._going_on is None:
            self.begin()

    def begin(self) -> None:
        """Begin what is due, and after that what waits for it."""
        self._waiting = None
        view = self.view
        if self._refining or view.busy:
            return  # it comes back here
        if view.build is not None and view.build.coarse:
            self._refine()
        elif self._unsettled():
            self._judge()
        else:
            self._go_on()

    def come_back(self) -> None:
        """Begin where something else is done that kept from it, unless a control waits to rest."""
        if self._waiting is None:
            self.begin()

    def end(self) -> None:
        """End what waits for a control's rest, or goes on since, and call off what waits for that."""
        self._going_on, self.view.stop.disabled = None, not self.view.busy
        if self._waiting is not None:
            self._waiting.cancel()
            self._waiting = None
        waiting, self._then = self._then, None
        if waiting is not None:
            waiting[1]()

    # -- inside ---------------------------------------------------------------------------------------

    def _refine(self) -> None:
        """Make the shape fine; one that is overtaken by a control is made, but not shown."""
        wanted, run = self.view.input(), object()
        self._going_on, self._refining = run, True

        def done(found: Build | KitError) -> None:
            self._refining = False
            if self._going_on is run:
                self._going_on = None
                self.view.show(found)
                self.view.panel.write_verdict()
            self.come_back()

        aside(lambda: self._fine(wanted), done)

    def _judge(self) -> None:
        """Make the shape with more effort, which can be stopped."""
        wanted, run = self.view.input(), object()
        self._going_on, self.view.stop.disabled = run, False

        def progress(share: float, words: str) -> bool:
            goes_on = self._going_on is run
            if goes_on:  # what is overtaken says nothing more
                self.view.report(share, words)
            return goes_on

        def done(found: Build | KitError) -> None:
            if self._going_on is run:
                self._going_on = None
                self._judged(found)
                self._go_on()

        aside(lambda: self._best(wanted, progress), done)

    def _judged(self, found: Build | KitError) -> None:
        self.view.stop.disabled = True
        if isinstance(found, KitError):
            self.view.say(str(found), fault=True)
            return
        self.is_best = True
        self.view.take(found)
        self.view.panel.write_verdict()

    def _go_on(self) -> None:
        waiting, self._then = self._then, None
        if waiting is not None:
            waiting[0]()

    def _unsettled(self) -> bool:
        """Whether more effort may change the verdict on what is shown."""
        build = self.view.build
        if build is None or self.view.subject.best is None or self.is_best:
            return False
        return unsettled(build, self.view.level)

    def _fine(self, wanted: BuildInput) -> Build | KitError:
        try:
            return self.view.builder(wanted)
        except KitError as error:
            return error

    def _best(self, wanted: BuildInput, progress: Progress = to_the_end) -> Build | KitError:
        try:
            found = best_of(wanted, self.view.panel.part or self.view.panel.model.name, progress)
        except KitError as error:
            return error
        assert found is not None  # there is a view of what is built only where something is
        return found
