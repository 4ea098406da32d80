"""Every kind of fault in a table has its own sentence, and all of a table's faults are told at once."""

from collections.abc import Mapping
from pathlib import Path

import pytest

from kit.core.errors import KitError
from kit.core.tables import SCHEMAS, Table, TableError, table, with_rows
from kit.core.tables.read_csv import read_table

HEADER = "id,also,thickness [mm],mass_per_area [g/m^2],source,confidence,memory_columns,practice_columns,note"
GOOD = "thin card,,0.2,160,a mill's sheet,read,,,"


def read(tmp_path: Path, *lines: str) -> Table:
    path = tmp_path / "cards.csv"
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    return read_table(path, SCHEMAS["cards"])


def faults(tmp_path: Path, *lines: str) -> list[str]:
    with pytest.raises(TableError) as caught:
        read(tmp_path, *lines)
    assert all(str(fault) in str(caught.value) for fault in caught.value.faults)
    return [str(fault) for fault in caught.value.faults]


def test_a_good_table_reads(tmp_path: Path) -> None:
    row = read(tmp_path, "\ufeff" + HEADER, GOOD, "", 'felt,"wool felt; soft felt",1/8 in ± 0.02,,shop,practice,,,').row
    assert row("Thin  Card")["thickness"] == 0.2
    assert row("soft felt")["thickness"] == 3.175
    half = row("felt").entry("thickness").half
    assert half == pytest.approx(0.02 * 25.4)  # the half-width is in the unit typed
    assert row("thin card").entry("thickness").half is None
    assert row("thin card")["mass_per_area"] == pytest.approx(160e-12)  # g/m2 in tonne/mm2


@pytest.mark.parametrize(
    ("line", "sentence"),
    [
        (",,0.2,160,mill,read,,,", "column id: found nothing; a row needs a name"),
        (
            "Thin CARD,,0.2,160,mill,read,,,",
            "column id: found 'Thin CARD'; this name is taken by cards.csv line 2; choose another",
        ),
        (
            "stock,thin  card,0.2,160,mill,read,,,",
            "column also: found 'thin  card'; this name is taken by cards.csv line 2; choose another",
        ),
        ("stock,,0.2,160, ,read,,,", "column source: found nothing; say where the row is from"),
        (
            "stock,,0.2,160,mill,sure,,,",
            "column confidence: found 'sure'; the words are read, memory, practice, demo",
        ),
        (
            "stock,,0.2,160,mill,stated,,,",
            "column confidence: found 'stated'; the words are read, memory, practice, demo",
        ),
        (
            "stock,,0.2,160,mill,read,thicknes,,",
            "column memory_columns: found 'thicknes'; "
            "the columns are thickness, mass_per_area; did you mean 'thickness'?",
        ),
        (
            "stock,,0.2,,mill,read,mass_per_area,,",
            "column memory_columns: found 'mass_per_area'; this row has no figure in that column",
        ),
        (
            "stock,,0.2,160,mill,read,thickness,thickness,",
            "column practice_columns: found 'thickness'; that column stands in memory_columns already",
        ),
        (
            "stock,,200,160,mill,read,,,",
            "column thickness: found '200'; thickness of one sheet may be 0.02 mm to 20 mm",
        ),
        (
            "stock,,9 in,160,mill,read,,,",
            "column thickness: found '9 in'; thickness of one sheet may be 787.4×10⁻⁶ in to 0.7874 in",
        ),
        (
            "stock,,0.2 ± 0.19,160,mill,read,,,",
            "column thickness: found '0.2 ± 0.19'; thickness of one sheet may be 0.02 mm to 20 mm, its ± included",
        ),
        (
            "stock,,-0.2,160,mill,read,,,",
            "column thickness: found '-0.2'; thickness of one sheet may be 0.02 mm to 20 mm",
        ),
    ],
)
def test_each_fault_of_a_cell_has_its_sentence(tmp_path: Path, line: str, sentence: str) -> None:
    assert faults(tmp_path, HEADER, GOOD, line) == [f"cards.csv line 3, {sentence}"]


def test_a_row_with_a_cell_too_few(tmp_path: Path) -> None:
    short = "stock,,0.2,160,mill,read,,"
    assert faults(tmp_path, HEADER, GOOD, short) == ["cards.csv line 3: found 8 cells; the header has 9"]


@pytest.mark.parametrize("cell", ["thin", "nan", "inf", "1e999", "3 kg", "0.2 mm 3", "1;2", "=1+1"])
def test_what_is_no_figure_is_told_in_the_words_of_quantities(tmp_path: Path, cell: str) -> None:
    (fault,) = faults(tmp_path, HEADER, GOOD, f"stock,,{cell},160,mill,read,,,")
    assert fault.startswith(f"cards.csv line 3, column thickness: found {cell!r}; ")
    assert len(fault) > len(cell) + 60


@pytest.mark.parametrize(
    ("header", "beginning"),
    [
        (
            HEADER.replace(" [mm]", ""),
            "cards.csv line 1: found column 'thickness'; a unit in brackets is needed, such as 'thickness [mm]'",
        ),
        (
            HEADER.replace("[mm]", "[mm"),
            "cards.csv line 1: found column 'thickness [mm'; a unit in brackets is needed, such as 'thickness [mm]'",
        ),
        (
            HEADER.replace("[mm]", "[kg]"),
            "cards.csv line 1: found column 'thickness [kg]'; a length is needed, such as 'thickness [mm]', not a mass",
        ),
        (HEADER.replace("[mm]", "[furlong]"), "cards.csv line 1: found column 'thickness [furlong]'; "),
        (
            HEADER.replace("thickness", "thicknes"),
            "cards.csv line 1: found column 'thicknes [mm]'; the columns are id, also, source, confidence, "
            "read_columns, memory_columns, practice_columns, demo_columns, note, thickness [mm], "
            "mass_per_area [g/m^2]; did you mean 'thickness [mm]'?",
        ),
        (
            HEADER.replace("note", "note [mm]"),
            "cards.csv line 1: found column 'note [mm]'; the columns are id",
        ),
        (HEADER + ",note", "cards.csv line 1: found column 'note' twice; a column may stand once"),
        (HEADER.replace("source,", ""), "cards.csv line 1: found no column 'source'; every table needs it"),
    ],
)
def test_each_fault_of_the_header_has_its_sentence(tmp_path: Path, header: str, beginning: str) -> None:
    (fault,) = faults(tmp_path, header)
    assert fault.startswith(beginning)


def test_files_that_are_no_tables(tmp_path: Path) -> None:
    path = tmp_path / "cards.csv"
    for content, words in (
        (b"", "a header line is needed"),
        (b"id,\xff\n", "UTF-8"),
        (b'id,"open', "UTF-8 CSV"),
    ):
        path.write_bytes(content)
        with pytest.raises(TableError, match=words):
            read_table(path, SCHEMAS["cards"])


def test_all_faults_of_a_table_are_told_with_the_lines_of_the_file(tmp_path: Path) -> None:
    found = faults(
        tmp_path,
        HEADER,
        GOOD,
        'two lines,,0.2,160,"a source',
        'in two lines",read,,,',
        "",
        "no cells",
        "thick,,99 mm,-1,,maybe,,,",
        "thin card,,thin,160,mill,read,,,",
    )
    assert [fault.partition(": ")[0] for fault in found] == [
        "cards.csv line 6",
        "cards.csv line 7, column source",
        "cards.csv line 7, column confidence",
        "cards.csv line 7, column thickness",
        "cards.csv line 7, column mass_per_area",
        "cards.csv line 8, column id",
        "cards.csv line 8, column thickness",
    ]


ASH: Mapping[str, object] = {
    "id": "my ash",
    "modulus_along": "11.9 GPa",
    "source": "bent in the shop, 2026-05-02",
}


def test_a_job_adds_rows_and_the_table_itself_stays(tmp_path: Path) -> None:
    woods = table("woods")
    more = with_rows(woods, [ASH, {"id": "my oak", "modulus_bending": "1.8 Msi ± 0.1", "source": "bent"}])
    assert len(more) == len(woods) + 2
    assert "my ash" not in woods.ids
    entry = more.row("My ash").entry("modulus_along")
    assert (entry.base, entry.unit.text, entry.source, entry.confidence) == (
        11_900,
        "GPa",
        "bent in the shop, 2026-05-02",
        "stated",
    )
    derived = more.row("my oak").entry("modulus_along")
    assert derived.base == pytest.approx(1.1 * 1.8e6 * 0.006894757, rel=1e-6)
    assert derived.half == pytest.approx(1.1 * 0.1e6 * 0.006894757, rel=1e-6)
    assert more.row("hard maple") is woods.row("hard maple")


def test_a_job_row_cites_its_one_source_for_every_figure() -> None:
    row = with_rows(table("woods"), [{**ASH, "radial_ratio": "0.12", "radial_coefficient": "0.0017"}]).row("my ash")
    assert {entry.source for entry in row.entries.values()} == {ASH["source"]}
    assert row["radial_coefficient"] == pytest.approx(0.17)  # per 1 %, typed bare


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({"id": "Hard Maple"}, "this name is taken by the row 'hard maple'; choose another"),
        ({"id": "rock maple"}, "this name is taken by the row 'hard maple'; choose another"),
        ({"modulus_allong": "11 GPa"}, "did you mean 'modulus_along'"),
        (
            {"modulus_along": "11.9 MPa"},
            "elastic modulus along the grain, without shear may be 1000 MPa to 40000 MPa",
        ),
        ({"modulus_along": "11.9 kg"}, "column modulus_along: found '11.9 kg'"),
        ({"modulus_along": 11.9}, "found 11.9; put it in quotes, with its unit"),
        ({"source": ""}, "column source: found nothing; say where the row is from"),
        ({"confidence": "sure"}, "found 'sure'; the words are read, memory, practice, demo, stated"),
    ],
)
def test_a_wrong_row_in_a_job_has_its_sentence(change: Mapping[str, object], sentence: str) -> None:
    with pytest.raises(TableError) as caught:
        with_rows(table("woods"), [{**ASH, "id": "mine"}, ASH | change], origin="bench.toml")
    assert len(caught.value.faults) == 1
    assert "bench.toml, row 2 of woods" in str(caught.value)
    assert sentence in str(caught.value)


def test_what_is_not_there_is_told_with_a_remedy() -> None:
    with pytest.raises(KitError, match="no table 'wods'; did you mean 'woods'"):
        table("wods")
    with pytest.raises(KitError, match="no row 'hard mapel'; did you mean 'hard maple'"):
        table("woods").row("hard mapel")
    with pytest.raises(KitError, match="no row 'zzz'; its rows are A0, A1, A2"):
        table("papers").row("zzz")
    with pytest.raises(KitError, match="no column 'modulus_alog'; did you mean 'modulus_along'"):
        table("woods").row("hard maple").entry("modulus_alog")
    with pytest.raises(KitError) as caught:
        table("woods").row("beech")["tangential_ratio"]
    assert str(caught.value) == (
        "the table of woods has no tangential_ratio (modulus tangential to the growth rings, over the "
        "modulus along the grain) for 'beech', because its source gives none (note: Table 5-1 has no row for beech); "
        "measure it, type it, or add a row of your own to the job"
    )
