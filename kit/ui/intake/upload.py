"""A file dropped in or chosen, taken piece by piece, and laid beside the job when it is whole."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from importlib.resources import files
from pathlib import Path, PurePosixPath, PureWindowsPath
from secrets import token_hex
from typing import Any

import anywidget
import traitlets as t

from kit.core.errors import KitError
from kit.core.files import MOST_BYTES, content_digest

MOST_PIECE = 8 << 20  # bytes


class Upload(anywidget.AnyWidget):
    """Takes a file into `folder`; `done` is called with its name there, and may say in a KitError what is wrong."""

    _esm = (files("kit.ui.intake") / "upload.js").read_text(encoding="utf-8")
    label = t.Unicode().tag(sync=True)
    said = t.Unicode().tag(sync=True)
    endings = t.List(t.Unicode()).tag(sync=True)

    def __init__(self, label: str, folder: Path, endings: Sequence[str], done: Callable[[str], None]) -> None:
        self._folder, self._done = folder, done
        self._part: Path | None = None
        self._name, self._size, self._have = "", 0, 0
        super().__init__(label=label, endings=list(endings))
        self.on_msg(self._heard)

    def _heard(self, _: object, content: dict[str, Any], buffers: Sequence[Any]) -> None:
        """Take a piece, say how much has come, and whether more is wanted; then hand on what is whole."""
        whole: Path | None = None
        try:
            if content.get("stop"):
                self._drop()
                self.said = "canceled; nothing was changed"
            else:
                whole = self._take(content, bytes(buffers[0]) if buffers else b"")
        except (KitError, OSError) as error:
            self._drop()
            self.said = str(error)
        self.send({"have": self._have, "more": self._part is not None})
        if whole is not None:  # to read it takes a while; that it has come is told before
            try:
                self._keep(whole)
            except (KitError, OSError) as error:
                whole.unlink(missing_ok=True)
                self.said = str(error)

    def _take(self, content: dict[str, Any], piece: bytes) -> Path | None:
        """Take a piece; return where the file lies once it is whole."""
        if content["at"] == 0:
            self._begin(str(content["name"]), int(content["size"]))
        if self._part is None or content["at"] != self._have or len(piece) > MOST_PIECE:
            raise KitError("The file did not come in order; choose it again.")
        if self._have + len(piece) > self._size or (not piece and self._size):
            raise KitError("More or less came than the file is said to hold; choose it again.")
        with self._part.open("ab") as stream:
            stream.write(piece)
            self._have += len(piece)
            if self._have == self._size:
                stream.flush()
                os.fsync(stream.fileno())
        if self._have < self._size:
            return None
        self.said = f"{self._name} has arrived, {self._size / 1e6:.1f} MB; reading it …"
        part, self._part = self._part, None
        return part

    def _keep(self, part: Path) -> None:
        """Give what has come its name, beside another file that has it already, and hand it on."""
        digest = content_digest(part, MOST_BYTES)
        place, number = self._folder / self._name, 1
        while place.exists() and content_digest(place, MOST_BYTES) != digest:
            number += 1
            place = (self._folder / self._name).with_stem(f"{Path(self._name).stem}-{number}")
        new = not place.exists()
        part.replace(place)
        try:
            self._done(place.name)
        except KitError:
            if new:
                place.unlink(missing_ok=True)
            raise

    def _begin(self, given: str, size: int) -> None:
        self._drop()
        name = PureWindowsPath(PurePosixPath(given).name).name
        ending = Path(name).suffix.lower()
        if ending not in self.endings or name.startswith("."):
            raise KitError(f"{name or 'the file'} is no scan that can be read; give one of {', '.join(self.endings)}.")
        if not 0 < size <= MOST_BYTES:
            raise KitError(
                f"{name} has {size / 1e6:,.0f} MB; more than 0 and at most {MOST_BYTES / 1e6:,.0f} MB are read."
            )
        self._folder.mkdir(parents=True, exist_ok=True)
        self._part, self._name, self._size = self._folder / f".{name}.{token_hex(4)}.part", name, size

    def _drop(self) -> None:
        """Forget what has come so far."""
        if self._part is not None:
            self._part.unlink(missing_ok=True)
        self._part, self._have = None, 0
