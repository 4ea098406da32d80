"""Lists and options without a browser: type into a field, read what holds and what is said beside it."""

from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import Any

import ipywidgets as w
import pytest

from kit.core.errors import KitError
from kit.core.model.input_terms import (
    amount,
    bound,
    choice,
    count,
    file,
    flag,
    named,
    outline,
    point,
    rows,
    steps,
    text,
    together,
)
from kit.core.model.inputs import Input
from kit.job import Job
from kit.job.build import build_input
from kit.job.folder import copy_job
from kit.job.toml_edit import ABSENT
from kit.subjects import subject
from kit.ui.panel import Panel, panel
from kit.ui.panel.input_editors import CellEditor, RowsEditor
from kit.ui.panel.input_view import InputView
from tests import DATA

ASKED = (
    rows(
        "gaps",
        "gaps <all>",
        text("name", "what it is called", needed=True),
        amount("depth", "how deep", span=(0, 50), sure=True),
        point("at", "where it is", 2),
        flag("open", "whether it is open"),
        choice("side", "which side", "left", "right"),
        count("times", "how often", span=(1, 9)),
        key="name",
    ),
    choice("way", "how it turns", "free", "two way", default="free", number=True),
    choice("end", "how it ends", "hem", "staples", default="hem"),
    flag("round", "whether it is round"),
    file("scan", "a scan", ".ply"),
    bound("low", "where it begins", "deg"),
    outline("edge", "its edge"),
    steps("recipe", "what is done", "do", {"scale": (amount("length", "how long"),)}),
    named("finish", "each edge's finish", choice("way", "the way", "hem", "staples")),
    *together(amount("width", "how wide"), amount("height", "how high")),
)
RAW: dict[str, Any] = {
    "gaps": [
        {"name": "near", "depth": "3 ± 0.1 mm", "at": ["1 mm", 2], "open": False, "side": "left", "times": 2},
        {"name": "far \" ' #", "open": True},
    ],
    "way": 4,
    "round": True,
    "scan": "scan/a.ply",
    "low": "-swing",
    "edge": [["0 mm", "0 mm"], ["10 mm", "0 mm"], ["0 mm", "10 mm"]],
    "recipe": [{"do": "scale", "length": "5 mm"}],
    "finish": {"sill": "hem", "two words": "staples"},
    "width": 3.5,
    "height": "2 mm",
}


class Shown:
    """A view with what it called back."""

    def __init__(self, raw: Mapping[str, Any] = RAW, asked: tuple[Input, ...] = ASKED, **more: Any) -> None:
        self.changes: list[Mapping[str, Any]] = []
        given = {each.name: each for each in asked}
        self.view = InputView(given, ("swing",), raw, lambda: self.changes.append(self.view.raw), **more)
        self.view.opened.value = True

    def rows(self, name: str) -> RowsEditor:
        found = self.view.editors[name]
        assert isinstance(found, RowsEditor)
        return found

    def cell(self, name: str) -> CellEditor:
        found = self.view.editors[name]
        assert isinstance(found, CellEditor)
        return found

    def field(self, name: str, row: int, column: str) -> w.Widget:
        return self.rows(name).rows[row].cells[column].widget


def test_all_is_shown_and_read_back_as_it_stands() -> None:
    shown = Shown()
    assert shown.changes == []
    for name, editor in shown.view.editors.items():
        raw, faults = editor.read()
        assert faults == []
        assert repr(raw) == repr(RAW.get(name, ABSENT))
    assert shown.field("gaps", 0, "depth").value == "3 ± 0.1 mm"
    assert shown.field("gaps", 0, "at").value == '["1 mm", 2]'
    assert shown.field("gaps", 1, "open").value is True
    assert shown.cell("edge").cell.widget.value.count("\n") == 0  # short enough for one line


def test_each_field_has_a_name_of_its_own_and_escaped_words() -> None:
    shown = Shown()
    assert shown.field("gaps", 1, "depth").tooltip == "how deep, row 2"
    assert shown.rows("gaps").rows[1].removing.tooltip == "remove row 2 of gaps"
    assert shown.cell("end").cell.widget.tooltip == "how it ends"
    heads = "".join(widget.value for widget in shown.rows("gaps").grid.children if isinstance(widget, w.HTML))
    assert '>depth [mm]</span><br><span class="fw-note">how deep<' in heads
    label = shown.rows("gaps").children[0]
    assert "gaps &lt;all&gt;" in label.value


@pytest.mark.parametrize(
    ("column", "typed", "wanted"),
    [
        ("depth", "4 ± 1 mm", "4 ± 1 mm"),
        ("at", '["5 mm", "6 mm"]', ["5 mm", "6 mm"]),
        ("open", True, True),
        ("side", "right", "right"),
        ("times", "7", 7),
        ("name", "nearest", "nearest"),
    ],
)
def test_what_is_typed_holds_and_all_else_stays(column: str, typed: Any, wanted: Any) -> None:
    shown = Shown()
    shown.field("gaps", 0, column).value = typed
    assert shown.changes == [{**RAW, "gaps": [RAW["gaps"][0] | {column: wanted}, RAW["gaps"][1]]}]


@pytest.mark.parametrize(
    ("name", "typed", "wanted"),
    [
        ("way", "two way", "two way"),
        ("way", "3", 3),
        ("end", "staples", "staples"),
        ("round", False, False),
        ("low", "12 deg", "12 deg"),
        ("width", "4", 4),
        ("width", "4 mm", "4 mm"),
        ("recipe", '[\n  { do = "scale", length = "6 mm" },\n]', [{"do": "scale", "length": "6 mm"}]),
        ("finish", "{ rail = 'hem' }", {"rail": "hem"}),
    ],
)
def test_fields_beside_the_tables(name: str, typed: Any, wanted: Any) -> None:
    shown = Shown()
    shown.cell(name).cell.widget.value = typed
    assert [each[name] for each in shown.changes] == [wanted]
    assert type(shown.view.raw[name]) is type(wanted)


@pytest.mark.parametrize("name", ["way", "scan", "edge", "recipe", "finish"])
def test_an_empty_field_takes_the_input_out(name: str) -> None:
    shown = Shown()
    shown.cell(name).cell.widget.value = " "
    assert shown.changes == [{key: raw for key, raw in RAW.items() if key != name}]
    assert shown.view.unsaved == {name: None}


@pytest.mark.parametrize(
    ("column", "typed", "words"),
    [
        ("depth", "3 mm", "depth is 3 mm, without its uncertainty; write such as &quot;3 mm ± 0.5&quot;"),
        ("depth", "60 ± 1 mm", "allowed is 0 mm to 50 mm"),
        ("depth", "3 <kg>", "&lt;kg&gt;"),
        ("at", "1 mm, 2 mm", "at is &#x27;1 mm, 2 mm&#x27;, which is not TOML; write it such as [&quot;10 mm&quot;"),
        ("at", '["1 mm", "2 kg"]', "at, number 2: "),
        ("at", "1\nother = 2", "which is not TOML"),
        ("at", "__import__('os')", "which is not TOML"),
        ("times", "often", "times is &#x27;often&#x27;; write a whole number from 1 to 9"),
        ("name", "far \" ' #", "two rows of gaps are called"),
        ("name", "", "name is not stated"),
    ],
)
def test_a_fault_stands_at_its_row_and_nothing_changes(column: str, typed: str, words: str) -> None:
    shown = Shown()
    field, table = shown.field("gaps", 0, column), shown.rows("gaps")
    before = field.value
    field.value = typed
    notes = [row.told for row in table.rows]
    at = 1 if "two rows" in words else 0
    assert words in notes[at]
    assert notes[1 - at] == ""
    assert 'role="alert"' in notes[at]
    assert shown.changes == []
    assert field.value == typed, "what was typed stays, to be mended"
    shown.cell("end").cell.widget.value = "staples"
    assert shown.changes == [{**RAW, "end": "staples"}], "all else can be changed meanwhile"
    field.value = before
    assert [row.told for row in table.rows] == ["", ""]


def test_a_fault_stands_below_its_cell() -> None:
    table = Shown().rows("gaps")
    row, column = table.rows[0], list(table.rows[0].cells).index("depth") + 1
    row.cells["depth"].widget.value = "3 <kg>"
    assert list(row.notes) == ["depth"]
    assert row.notes["depth"].layout.grid_area == f"auto / {column}"
    assert row.notes["depth"] in table.grid.children
    assert row.note.value == ""
    row.cells["depth"].widget.value = "3 ± 0.1 mm"
    assert row.notes == {}


def test_rows_are_added_and_removed() -> None:
    shown = Shown()
    table = shown.rows("gaps")
    table.adding.click()
    assert shown.changes == []
    table.rows[2].cells["depth"].widget.value = "5 ± 1 mm"
    assert "name is not stated" in table.rows[2].told
    table.rows[2].cells["name"].widget.value = "third"
    assert shown.changes == [{**RAW, "gaps": [*RAW["gaps"], {"name": "third", "depth": "5 ± 1 mm"}]}]
    table.rows[0].removing.click()
    assert [row["name"] for row in shown.changes[-1]["gaps"]] == ["far \" ' #", "third"]
    assert table.rows[0].cells["depth"].widget.tooltip == "how deep, row 1"
    empty = Shown({})
    empty.rows("gaps").adding.click()
    empty.rows("gaps").rows[0].removing.click()
    assert "gaps" not in empty.view.raw


def test_a_row_keeps_what_the_page_does_not_know() -> None:
    shown = Shown({"gaps": [{"name": "near", "color": "red"}]})
    assert "unknown input &#x27;color&#x27;" in shown.rows("gaps").rows[0].told
    assert shown.rows("gaps").read()[0] == [{"name": "near", "color": "red"}]


def test_what_belongs_together_holds_when_all_of_it_is_stated() -> None:
    shown = Shown({})
    shown.cell("width").cell.widget.value = "3 mm"
    assert "height is not stated, which width needs" in shown.cell("height").note.value
    assert shown.changes == []
    shown.cell("height").cell.widget.value = "4 mm"
    assert shown.changes == [{"width": "3 mm", "height": "4 mm"}]
    assert shown.cell("height").note.value == ""


def test_what_the_file_says_wrongly_is_told_and_stays() -> None:
    shown = Shown({"gaps": "none", "end": "glue", "round": 3, "edge": [1]})
    for name in ("gaps", "end", "round", "edge"):
        assert "fw-fault" in shown.cell(name).note.value, name
    assert shown.view.raw == {"gaps": "none", "end": "glue", "round": 3, "edge": [1]}
    assert shown.changes == []


def test_a_link_is_chosen_from_the_parts_of_the_job() -> None:
    def attempt(links: Mapping[str, Any]) -> None:
        if links.get("plane") == "hood":
            raise KitError("hood <makes> no plane")

    parts = {"bed": "The <bed>", "hood": ""}
    shown = Shown({}, takes={"plane": parts}, links={"plane": "bed"}, attempt=attempt)
    menu = shown.view.menus["plane"]
    assert [label for label, _ in menu.menu.options] == ["none", "bed: The <bed>", "hood"]
    menu.menu.value = "hood"
    assert "hood &lt;makes&gt; no plane" in menu.note.value
    assert (shown.view.links, len(shown.changes)) == ({"plane": "bed"}, 0)
    menu.menu.value = ""
    assert menu.note.value == ""
    assert (shown.view.links, len(shown.changes)) == ({}, 1)
    assert shown.view.unsaved_links == {"plane": None}


# -- in a panel ------------------------------------------------------------------------------------------------

BED = """\
format = 2
[parts.bed]
model = "level.plane"
gaps = [
    { x = "60 mm",  y = "500 mm", depth = "3.2 mm", u = "0.1 mm" }, # chalk mark
    # behind the fence
    { x = "640 mm", y = "500 mm", depth = "2.8 mm", u = "0.1 mm" },
]

[parts.other]
model = "level.plane"

[parts.pad]
model = "level.pads"
plane = "bed"   # the one that was measured

[[parts.pad.feet]] # by the door
name = "near"
x = "100 mm" # paced
y = "90 mm"

[[parts.pad.feet]]
name = "far"
x = "520 mm"
y = "390 mm"
"""


def bench(folder: Path, ends: str = "\n") -> Job:
    path = folder / "bench.toml"
    path.write_bytes(BED.replace("\n", ends).encode())
    return Job.open(path)


def field(made: Panel, name: str, row: int, column: str) -> w.Widget:
    made.inputs.opened.value = True
    table = made.inputs.editors[name]
    assert isinstance(table, RowsEditor)
    return table.rows[row].cells[column].widget


def test_without_a_job_a_gap_more_changes_the_plane() -> None:
    made = panel("level.plane")
    made.inputs.opened.value = True
    assert made.inputs.menus == {}
    table = made.inputs.editors["gaps"]
    assert isinstance(table, RowsEditor)
    assert made.build is not None
    table.adding.click()
    for column, typed in (("x", "60 mm"), ("y", "500 mm"), ("u", "0.1 mm"), ("depth", "3.2 mm")):
        assert made.build.number("gaps").base == 3
        table.rows[0].cells[column].widget.value = typed
    assert made.build.number("gaps").base == 4
    assert "3.2 mm" in made.static_view.html()


def test_a_changed_cell_is_shown_saved_and_taken_back(tmp_path: Path) -> None:
    job = bench(tmp_path)
    made = panel(job=job, part="bed")
    assert made.build is not None
    before = made.build.number("depth").base
    field(made, "gaps", 0, "depth").value = "3.6 mm"
    assert made.build.number("depth").base != before
    made.saving.reset.click()
    assert made.build.number("depth").base == before
    assert field(made, "gaps", 0, "depth").value == "3.2 mm"
    field(made, "gaps", 0, "depth").value = "deep"
    assert made.build.number("depth").base == before
    for button in (made.saving.save, made.saving.export, made.build_view.files):
        assert button.disabled
        button.click()
    assert made.saving.message.value.count("again") == 1, "nothing was saved or exported since the reset"
    for held in (made.saving.held, made.build_view.held):
        assert "not while gaps cannot be read; correct it, or Reset" in held.value
    assert not list(tmp_path.glob("sheets/*"))
    field(made, "gaps", 0, "depth").value = "3.2 mm"
    assert not made.saving.save.disabled
    assert made.saving.held.value == made.build_view.held.value == ""
    made.saving.save.click()
    assert "no changes" in made.saving.message.value


@pytest.mark.parametrize("ends", ["\n", "\r\n"])
def test_only_the_cells_that_changed_are_saved(tmp_path: Path, ends: str) -> None:
    job = bench(tmp_path, ends)
    bed, pad = panel(job=job, part="bed"), panel(job=job, part="pad")
    field(bed, "gaps", 0, "depth").value = "3.6 mm"
    bed.saving.save.click()
    assert "saved gaps" in bed.saving.message.value
    field(pad, "feet", 0, "x").value = "110 mm"
    pad.inputs.menus["plane"].menu.value = "other"
    pad.saving.save.click()
    assert "saved feet, plane" in pad.saving.message.value
    wanted = BED.replace('"3.2 mm"', '"3.6 mm"').replace('"100 mm"', '"110 mm"').replace('"bed" ', '"other" ')
    assert job.path.read_bytes().decode() == wanted.replace("\n", ends)
    pad.inputs.menus["plane"].menu.value = ""
    pad.saving.save.click()
    assert Job.open(job.path).links("pad") == {}


def test_a_row_that_someone_else_changed_is_asked_about(tmp_path: Path) -> None:
    job = bench(tmp_path)
    made = panel(job=job, part="bed")
    field(made, "gaps", 0, "depth").value = "3.6 mm"
    by_hand = BED.replace('"2.8 mm"', '"2.9 mm"')
    job.path.write_text(by_hand, encoding="utf-8")
    made.saving.save.click()
    assert "2.9 mm" in made.saving.message.value
    assert job.path.read_text(encoding="utf-8") == by_hand
    made.saving.theirs.click()
    assert field(made, "gaps", 0, "depth").value == "3.2 mm"
    assert field(made, "gaps", 1, "depth").value == "2.9 mm"
    field(made, "gaps", 0, "depth").value = "3.7 mm"
    job.path.write_text(BED, encoding="utf-8")
    made.saving.save.click()
    made.saving.mine.click()
    assert "saved gaps" in made.saving.message.value
    assert job.path.read_text(encoding="utf-8") == by_hand.replace('"3.2 mm"', '"3.7 mm"')


def test_a_link_brings_what_the_other_part_makes(tmp_path: Path) -> None:
    made = panel(job=bench(tmp_path), part="pad")
    made.inputs.opened.value = True
    assert made.build_view is not None
    first = made.build_view.signed()
    made.inputs.menus["plane"].menu.value = "other"
    second = made.build_view.signed()
    assert first is not None
    assert second is not None
    assert first.inputs != second.inputs
    assert list(made.judged.upstream) == ["other"]


def test_only_parts_that_make_it_are_offered_and_one_that_cannot_be_built_is_refused(tmp_path: Path) -> None:
    job = bench(tmp_path)
    broken = '[parts.slope]\nmodel = "level.plane"\ngaps = [{ x = "1 kg", y = "0 mm", depth = "1 mm" }]\n'
    job.path.write_text(f'{BED}\n[parts.plies]\nmodel = "knob.plies"\n{broken}')
    made = panel(job=Job.open(job.path), part="pad")
    made.inputs.opened.value = True
    menu = made.inputs.menus["plane"]
    assert [value for _, value in menu.menu.options] == ["", "bed", "other", "slope"]
    menu.menu.value = "slope"
    assert "1 kg" in menu.note.value
    assert made.links == {"plane": "bed"}


def test_the_sheet_shows_what_is_stated_after_the_givens(tmp_path: Path) -> None:
    made = panel(job=bench(tmp_path), part="pad")
    html = made.export(tmp_path).read_text(encoding="utf-8")
    headings = [html.index(f">{each}</h2>") for each in ("Givens", "Lists and options", "Derivation")]
    assert headings == sorted(headings)
    assert "520.0 mm" in html[headings[1] : headings[2]]


def test_a_layout_that_was_found_is_kept_by_saving(tmp_path: Path) -> None:
    path = tmp_path / "tiles.toml"
    path.write_text(
        'format = 2\n[job]\nname = "tiles"\n[parts.tiles]\nmodel = "cutting.stock"\n'
        'parts = [{ name = "tile", length = "300 mm", width = "200 mm", count = 4 }]\n',
        encoding="utf-8",
    )
    made = panel(job=Job.open(path), part="tiles")
    found = subject("cutting.stock").tasks["Pack"](build_input(made.job, "tiles"), lambda share, _words: share < 0.1)
    made.keep(found.kept)
    made.saving.save.click()
    reopened = Job.open(path)
    again = reopened.build("tiles")
    assert again is not None
    assert again.data.by == "kept"
    assert again.data.placed == panel(job=reopened, part="tiles").build.data.placed
    made.reset()
    assert "layout" not in made.raw


def test_rows_are_pasted_from_a_spreadsheet_and_moved() -> None:
    shown = Shown({"gaps": [{"name": "near", "depth": "2 ± 0.1 mm"}]})
    table = shown.rows("gaps")
    table.paste("name\tdepth\tside\topen\nfar\t3.2 ± 0.1 mm\tleft\tyes\nmid\tdeep\tnorth\t\n")
    assert [row.cells["name"].widget.value for row in table.rows] == ["near", "far", "mid"]
    assert table.rows[1].cells["open"].widget.value is True
    told = table.rows[2].told
    assert "deep" in told, "a fault stands below its row"
    assert "north" in told
    assert shown.view.raw["gaps"] == [{"name": "near", "depth": "2 ± 0.1 mm"}], (
        "what was stated holds until it is mended"
    )
    table.rows[2].cells["depth"].widget.value = "3.3 ± 0.1 mm"
    table.rows[2].cells["side"].widget.value = "right"
    table.rows[2].raising.click()
    assert [row["name"] for row in shown.view.raw["gaps"]] == ["near", "mid", "far"]
    assert shown.view.raw["gaps"][2] == {"name": "far", "depth": "3.2 ± 0.1 mm", "open": True, "side": "left"}
    assert table.rows[0].raising.disabled
    before = shown.view.raw
    table.paste("a\tb\tc\td\te\tf\tg\n")
    assert "7 cells" in table.note.value
    assert shown.view.raw == before


# -- where values come from ---------------------------------------------------------------------------

ORIGINS = """\
format = 2
[job]
name = "Bench"
example = true
[parts.bed]
model = "level.plane"
gaps = [
  { x = "100 mm", y = "40 mm", depth = "3.2 ± 0.1 mm" }, # near the foot
  { x = "200 mm", y = "40 mm", depth = { value = "3.4 ± 0.1 mm", origin = "measured", how = "cards" } },
]
"""


@pytest.fixture
def bed(tmp_path: Path) -> Panel:
    (tmp_path / "bench.toml").write_text(ORIGINS, encoding="utf-8")
    made = panel(job=Job.open(tmp_path / "bench.toml"), part="bed")
    made.inputs.opened.value = True
    return made


def gaps(made: Panel) -> RowsEditor:
    found = made.inputs.editors["gaps"]
    assert isinstance(found, RowsEditor)
    return found


def saved(made: Panel) -> Job:
    made.saving.save.click()
    assert made.job is not None
    return Job.open(made.job.path)


def test_a_cell_with_its_origin_survives_editing_undo_and_save(bed: Panel) -> None:
    near, far = gaps(bed).rows
    assert far.cells["depth"].widget.value == "3.4 ± 0.1 mm"
    assert (near.origin.opened.description, far.origin.opened.description) == ("example", "several origins")
    near.cells["x"].widget.value = "110 mm"
    job = saved(bed)
    assert job.raw_inputs("bed")["gaps"][1] == {
        "x": "200 mm", "y": "40 mm", "depth": {"value": "3.4 ± 0.1 mm", "origin": "measured", "how": "cards"},
    }  # fmt: skip
    assert job.raw_inputs("bed")["gaps"][0]["x"] == {"value": "110 mm", "origin": "chosen"}
    assert "# near the foot" in job.path.read_text(encoding="utf-8")
    assert job.verdict("bed").words == bed.judged.words
    far.cells["depth"].widget.value = "3.5 ± 0.1 mm"
    assert bed.raw["gaps"][1]["depth"] == {"value": "3.5 ± 0.1 mm", "origin": "chosen"}, "nobody measured that"
    far.cells["depth"].widget.value = "0.34 ± 0.01 cm"
    assert bed.raw["gaps"][1]["depth"]["how"] == "cards", "the same, in another unit"
    far.cells["depth"].widget.value = "3.4 ± 0.1 mm"
    near.cells["x"].widget.value = "100 mm"
    assert saved(bed).path.read_text(encoding="utf-8") == ORIGINS


def test_an_origin_is_entered_for_a_cell_and_an_example_s_half_width_is_asked_for(bed: Panel) -> None:
    near, before = gaps(bed).rows[0], bed.judged.examples
    near.origin.opened.value = True
    assert near.origin.editor is not None
    near.origin.which.value = ("depth",)
    near.origin.editor.day.value = date(2026, 6, 1)
    assert "the ± of depth is not yours yet" in near.origin.editor.words.value
    assert bed.saving.save.disabled
    assert bed.judged.examples == before
    near.origin.editor.half.value = "0.2"
    assert not bed.saving.save.disabled
    assert near.cells["depth"].widget.value == "3.2 ± 0.2 mm"
    near.origin.editor.by.value = "A. Turner"
    assert bed.raw["gaps"][0]["depth"] == {
        "value": "3.2 ± 0.2 mm", "origin": "measured", "measured": date(2026, 6, 1), "by": "A. Turner",
    }  # fmt: skip
    assert bed.judged.examples == before - 1
    near.origin.which.value = ()
    near.origin.editor.kind.value = "chosen"
    assert bed.raw["gaps"][0]["depth"]["by"] == "A. Turner", "what states its own keeps it"
    job = saved(bed)
    assert job.raw_inputs("bed")["gaps"][0]["origin"] == "chosen"
    assert job.verdict("bed").words == bed.judged.words
    bed.saving.reset.click()
    assert gaps(bed).rows[0].origin.opened.description == "several origins"


def test_a_row_with_an_example_s_half_width_is_not_measured_as_a_whole(bed: Panel) -> None:
    near = gaps(bed).rows[0]
    near.origin.opened.value = True
    assert near.origin.editor is not None
    near.origin.editor.how.value = "feeler"
    assert "the ± of depth is not yours yet" in near.origin.editor.words.value
    near.cells["depth"].widget.value = "3.1 ± 0.3 mm"
    assert not near.origin.refused
    near.origin.editor.how.value = "feeler"
    assert bed.raw["gaps"][0]["how"] == "feeler"
    assert bed.raw["gaps"][0]["origin"] == "measured"
    assert near.origin.opened.description == "several origins"


def test_an_option_has_its_origin_too_and_the_sheet_prints_all_of_them(tmp_path: Path) -> None:
    made = panel(job=copy_job(DATA / "boatshed.toml", folder=tmp_path), part="scale_zero")
    made.inputs.opened.value = True
    assert made.shown_build is not None
    (beside,) = made.shown_build.stated
    assert beside.title.endswith("State of all: example")
    field = made.inputs.editors["to"]
    assert isinstance(field, CellEditor)
    field.origin.opened.value = True
    assert field.origin.editor is not None
    field.origin.editor.day.value = date(2026, 6, 1)
    (beside,) = made.shown_build.stated
    assert sorted(row[-1] for row in beside.rows) == ["example", "measured; on 2026-06-01"]
    assert saved(made).verdict("scale_zero").words == made.judged.words
