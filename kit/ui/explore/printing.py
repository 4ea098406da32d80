"""What every view round a design has at its foot: print it with the sheet, write it as SVG, and a line to speak."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

import ipywidgets as w

from kit.core.files import write_atomic
from kit.sheet.words import sentence
from kit.ui.panel.saving import SHEETS

if TYPE_CHECKING:
    from kit.ui.panel.state import PanelState


class Printing(w.VBox):
    """The foot of a view. `pictures` are what it shows now, as SVG by what each is; `words` go with them."""

    def __init__(self, panel: PanelState, what: str) -> None:
        self.panel, self.what = panel, what
        self.pictures: dict[str, str] = {}
        self.words = ""
        self.with_sheet = w.ToggleButton(
            description="Print with the sheet", tooltip=f"the {what} stands on the sheet and in the static view"
        )
        self.with_sheet.observe(lambda _: self.panel.restate_static(), "value")
        self.file = w.Button(description=f"Write {what}", tooltip="write it as SVG into the folder of sheets")
        self.file.on_click(lambda _: self.write())
        self.said = w.HTML()
        super().__init__([w.HBox([self.with_sheet, self.file], _dom_classes=("fw-row",)), self.said])

    def say(self, words: str = "", *, fault: bool = False) -> None:
        """Show a sentence, nothing where it is empty."""
        kind = 'class="fw-fault" role="alert"' if fault else 'role="status"'
        self.said.value = f"<p {kind}>{escape(sentence(words))}</p>" if words else ""

    def write(self) -> None:
        """Write the pictures into the folder of sheets, and say where."""
        stem = f"{self.panel.part or self.panel.model.name}_{self.what.replace(' ', '_')}"
        written = []
        try:
            SHEETS.mkdir(exist_ok=True)
            for name, picture in self.pictures.items():
                path = SHEETS / f"{'_'.join(filter(None, (stem, name))).replace(' ', '_')}.svg"
                write_atomic(path, picture)
                written.append(str(path))
        except OSError as error:
            self.say(str(error), fault=True)
            return
        self.say(f"wrote {', '.join(written)}" if written else "there is no picture to write yet")

    def sections(self) -> list[tuple[str, str]]:
        """Return what of the view goes with the sheet: its heading and its pictures, where it is to be printed."""
        if not (self.with_sheet.value and self.pictures):
            return []
        shown = "".join(f'<figure class="fw-figure">{picture}</figure>' for picture in self.pictures.values())
        return [(self.what[:1].upper() + self.what[1:], shown + self.words)]
