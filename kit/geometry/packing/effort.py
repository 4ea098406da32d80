"""How much may still be done while packing: moves of a part, perhaps seconds; and whoever watches may stop it."""

import time
from collections.abc import Callable

Progress = Callable[[float, str], bool]

LAST = 2.0  # seconds at most after a stop
PAUSE = 0.1  # seconds between two reports that no count of moves asks for


class Effort:
    """Moves of a part and perhaps seconds, counted from its making; `progress` is passed the share done.

    The seconds are those of the whole work: `keep` sets some of them aside for what comes after the search.
    """

    def __init__(self, moves: int, seconds: float | None = None, progress: Progress | None = None) -> None:
        self._moves, self._seconds, self._progress = moves, seconds, progress
        self._begin = self._told = time.monotonic()
        self._done = 0
        self._kept = 0.0
        self._stopped = False
        self.words = "packing"

    @property
    def remaining(self) -> float:
        """The seconds that are left, of them that are not kept; infinite where only moves count."""
        if self._seconds is None:
            return float("inf")
        return self._seconds - self._kept - (time.monotonic() - self._begin)

    def keep(self, seconds: float) -> None:
        """Set seconds aside, in place of those that were."""
        self._kept = seconds

    def on(self) -> bool:
        """Return whether time is left and nobody has stopped the work; moves do not count here."""
        if self._stopped or self.remaining <= 0:
            return False
        if self._progress is not None and time.monotonic() - self._told > PAUSE:
            self._report()
        return not self._stopped

    def spend(self, moves: int = 1) -> bool:
        """Count moves and report; False when it is enough."""
        self._done += moves
        self._report()
        return not self._stopped and self._done < self._moves and self.remaining > 0

    @property
    def left(self) -> float:
        """The share of the moves, or of the seconds, that is left, whichever is less."""
        moves = 1.0 - self._done / self._moves if self._moves else 0.0
        return max(0.0, min(moves, self.remaining / self._seconds) if self._seconds else moves)

    def closing(self) -> bool:
        """Return whether there is time to put in order what was found, also where the search was stopped."""
        if self._stopped and self.remaining > LAST:
            self._seconds = time.monotonic() - self._begin + self._kept + LAST
        return self.remaining > 0

    def _report(self) -> None:
        if self._progress is None or self._stopped:
            return
        share = self._done / self._moves if self._moves else 1.0
        if self._seconds is not None:
            share = max(share, (time.monotonic() - self._begin) / self._seconds)
        self._told = time.monotonic()
        self._stopped = not self._progress(min(share, 1.0), self.words)
