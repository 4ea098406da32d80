"""What a file says beside its content, in every format, read back by other programs' readers."""

import csv
import io
import zipfile
from pathlib import Path
from xml.etree import ElementTree

import ezdxf
import pypdf
import pytest
import trimesh

from kit.core.build import Table
from kit.core.quantity import Display
from kit.drawing.export import PaperPlan, save
from kit.drawing.mesh_files import write_solid
from kit.drawing.remarks import remarking, remarks
from kit.drawing.scene import Scene
from kit.drawing.table_files import csv_output

FAILS = ("LIMIT FAILS: the tip moves 0.06 mm, 0.04 mm more than the 0.02 mm allowed",)


@pytest.fixture
def scene() -> Scene:
    drawn = Scene("A long board", "a rectangle")
    drawn.polyline(((0, 0), (400, 0), (400, 300), (0, 300)), closed=True)
    return drawn


@pytest.fixture
def files(scene: Scene, tmp_path: Path) -> dict[str, Path]:
    with remarking(FAILS):
        written = save(scene, tmp_path, "board", paper=PaperPlan())
        for kind in ("stl", "3mf"):
            path = tmp_path / f"cube.{kind}"
            write_solid(trimesh.creation.box((10, 20, 30)), path)
            written.append(path)
        written += csv_output("list", "a list", Table("t", ("a",), (("1",),))).write(tmp_path, "x", Display())
    return {path.suffix: path for path in written}


def test_every_page_of_a_pdf_carries_it(files: dict[str, Path]) -> None:
    pages = pypdf.PdfReader(files[".pdf"]).pages
    assert len(pages) > 3  # a map and the sheets
    for page in pages:
        assert "LIMIT FAILS: the tip moves 0.06 mm" in page.extract_text()


def test_an_svg_carries_it_below_the_drawing(files: dict[str, Path], scene: Scene, tmp_path: Path) -> None:
    root = ElementTree.parse(files[".svg"]).getroot()
    texts = [each for each in root.iter() if each.get("class") == "fw-remark"]
    assert " ".join(each.text or "" for each in texts) == FAILS[0]
    (plain,) = save(scene, tmp_path / "plain", "board", ("svg",))
    height = float(ElementTree.parse(plain).getroot().attrib["viewBox"].split()[3])
    assert all(float(each.attrib["y"]) > height for each in texts)
    assert float(root.attrib["viewBox"].split()[3]) > height
    assert root.attrib["height"] == f"{root.attrib['viewBox'].split()[3]}mm", "still true to scale"


def test_a_dxf_carries_it_on_the_layer_of_words(files: dict[str, Path]) -> None:
    document = ezdxf.readfile(files[".dxf"])
    texts = [each for each in document.modelspace().query("TEXT") if each.dxf.text == FAILS[0]]
    assert [each.dxf.layer for each in texts] == ["WORDS"]
    assert texts[0].dxf.insert.y < 0


def test_solids_carry_it_and_stay_whole(files: dict[str, Path]) -> None:
    assert files[".stl"].read_bytes()[:80].decode("ascii").startswith("LIMIT FAILS: the tip moves 0.06 mm")
    for kind in (".stl", ".3mf"):
        solid = trimesh.load(files[kind], force="mesh")
        assert solid.is_watertight
        assert solid.volume == pytest.approx(6000)
    with zipfile.ZipFile(files[".3mf"]) as archive:
        assert archive.testzip() is None
        model = ElementTree.fromstring(archive.read(next(n for n in archive.namelist() if n.endswith(".model"))))
    told = [each for each in model if each.tag.endswith("}metadata") and each.get("name") == "Description"]
    assert [each.text for each in told] == [FAILS[0]]


def test_a_table_carries_it_before_its_heads(files: dict[str, Path]) -> None:
    rows = list(csv.reader(io.StringIO(files[".csv"].read_text())))
    assert rows == [[FAILS[0]], ["a"], ["1"]]


def test_it_ends_with_what_it_stands_around(scene: Scene, tmp_path: Path) -> None:
    assert remarks() == ()
    (path,) = save(scene, tmp_path, "board", ("svg",))
    assert "LIMIT" not in path.read_text()
