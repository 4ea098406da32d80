"""Saving drawings: names, what is written and what is refused."""

from pathlib import Path

import ezdxf
import pytest

from kit.core.errors import KitError
from kit.drawing.export import PaperPlan, TitleBlock, save
from kit.drawing.scene import Scene
from tests.drawing.pattern import pattern
from tests.drawing.pdf_reading import pages, words
from tests.drawing.reading import read

STEM = "30_chute_front"


def test_names_sort_and_say_what_they_are(tmp_path: Path) -> None:
    written = save(pattern(), tmp_path / "out" / "drawings", STEM)
    assert [path.name for path in written] == [
        "30_chute_front_fullsize_A4.pdf",
        "30_chute_front_fullsize.svg",
        "30_chute_front_fullsize.dxf",
    ]
    assert sorted(path.name for path in (tmp_path / "out" / "drawings").iterdir()) == sorted(p.name for p in written)


@pytest.mark.parametrize(
    ("paper", "name"),
    [
        (PaperPlan("us letter"), "30_chute_front_fullsize_Letter.pdf"),
        (PaperPlan(roll=914.4), "30_chute_front_fullsize_roll914.4.pdf"),
        (PaperPlan(scale=0.2), "30_chute_front_1to5_A4.pdf"),
        (PaperPlan(scale=2, paper="A3"), "30_chute_front_2to1_A3.pdf"),
    ],
)
def test_the_name_states_paper_and_scale(tmp_path: Path, paper: PaperPlan, name: str) -> None:
    (written,) = save(pattern(300, 250), tmp_path, STEM, ["pdf"], paper=paper)
    assert written.name == name


def test_every_format_holds_the_same_edge_at_the_plans_scale_and_dxf_at_full_size(tmp_path: Path) -> None:
    scene = Scene("Strip", "A strip.")
    scene.rectangle((0, 0), (600, 100))
    title = TitleBlock("2025-03-02")
    pdf, svg, dxf = save(scene, tmp_path, STEM, ("dxf", "svg", "pdf"), paper=PaperPlan(scale=0.2), title=title)
    assert "scale 1:5 · piece 1 of 1 · one page: print at actual size (100 %) · 2025-03-02" in words(
        pages(pdf.read_bytes())[0]
    )
    outline = max(read(svg.read_text(encoding="utf-8")).lines("outline"), key=len)
    assert outline[1][0] - outline[0][0] == pytest.approx(120, abs=1e-3)
    (edge,) = ezdxf.readfile(dxf).modelspace().query("LWPOLYLINE")
    xs = [x for x, _ in edge.get_points("xy")]
    assert max(xs) - min(xs) == pytest.approx(600)


def test_a_refused_drawing_leaves_older_files_alone(tmp_path: Path) -> None:
    before = {path: path.read_bytes() for path in save(pattern(), tmp_path, STEM)}
    with pytest.raises(KitError, match="does not fit on a roll"):
        save(pattern(5000, 4000), tmp_path, STEM, ("svg", "pdf"), paper=PaperPlan(roll=610))
    assert {path: path.read_bytes() for path in tmp_path.iterdir()} == before
    again = save(pattern(), tmp_path, STEM)
    assert {path: path.read_bytes() for path in again} == before, "the same input gives the same files"


@pytest.mark.parametrize(
    ("stem", "formats", "sentence"),
    [
        (STEM, ["pfd"], r"no format 'pfd'; did you mean 'pdf'\?; allowed are pdf, svg, dxf"),
        (STEM, "pdf", "formats were given as 'pdf'; give a list"),
        (STEM, [], "give a list with some of pdf, svg, dxf"),
        ("../up", ["pdf"], r"cannot be called '../up'"),
        ("", ["pdf"], "cannot be called ''"),
        (".hidden", ["pdf"], "does not begin with a dot"),
    ],
)
def test_wrong_names_and_formats_are_refused(tmp_path: Path, stem: str, formats: list[str], sentence: str) -> None:
    with pytest.raises(KitError, match=sentence):
        save(pattern(), tmp_path, stem, formats)
    assert not list(tmp_path.iterdir())


def test_a_folder_that_is_a_file_is_refused(tmp_path: Path) -> None:
    (tmp_path / "out").write_text("a note", encoding="utf-8")
    for folder in (tmp_path / "out", tmp_path / "out" / "deeper"):
        with pytest.raises(KitError, match="is a file; name a folder"):
            save(pattern(), folder, STEM, ["svg"])
