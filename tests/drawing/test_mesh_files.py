"""Solids written and read back, and the drawing of a pad."""

import zipfile
from pathlib import Path

import numpy as np
import pytest
import trimesh

from kit.core.errors import KitError
from kit.core.quantity import Display
from kit.drawing.mesh_files import stl, write_solid
from kit.drawing.svg import svg
from kit.geometry.outline.rounded import rounded
from kit.subjects.level.pad_drawing import draw_pad
from kit.subjects.level.pad_solid import Pad, Process, make_pad, model


@pytest.fixture(scope="module")
def pad() -> Pad:
    outline = rounded([(0, 0), (62, 0), (62, 48), (0, 48)], 8)
    return make_pad(outline, height=3.3, lip_width=5, lip_height=8, clearance=0.3)


@pytest.mark.parametrize("kind", ["stl", "3mf", "STL"])
def test_read_back(tmp_path: Path, pad: Pad, kind: str) -> None:
    solid = trimesh.Trimesh(*model(pad, Process(0.004, 0.002, 0.2, 0.2)))
    path = tmp_path / f"pad.{kind}"
    write_solid(solid, path)
    read = trimesh.load_mesh(path, file_type=kind.lower())
    assert isinstance(read, trimesh.Trimesh)
    assert read.is_watertight
    assert read.body_count == 1
    assert read.volume == pytest.approx(solid.volume, rel=1e-6)
    assert read.bounds == pytest.approx(solid.bounds, abs=1e-4)
    assert [part.name for part in tmp_path.iterdir()] == [path.name]  # nothing half-written is left


def test_stl_is_binary_and_3mf_says_millimeters(tmp_path: Path, pad: Pad) -> None:
    solid = trimesh.Trimesh(*model(pad))
    write_solid(solid, tmp_path / "pad.stl")
    content = (tmp_path / "pad.stl").read_bytes()
    assert len(content) == 84 + 50 * len(solid.faces)  # header, count, 50 bytes a triangle (3D Systems, 1989)
    assert int(np.frombuffer(content, "<u4", count=1, offset=80)[0]) == len(solid.faces)
    write_solid(solid, tmp_path / "pad.3mf")
    with zipfile.ZipFile(tmp_path / "pad.3mf") as package:
        text = package.read("3D/3dmodel.model").decode()
    assert 'unit="millimeter"' in text


@pytest.mark.parametrize("kind", ["stl", "3mf"])
def test_the_same_solid_gives_the_same_bytes(tmp_path: Path, pad: Pad, kind: str) -> None:
    solid = trimesh.Trimesh(*model(pad))
    for name in ("one", "two"):
        write_solid(solid, tmp_path / f"{name}.{kind}")
    one = (tmp_path / f"one.{kind}").read_bytes()
    assert one == (tmp_path / f"two.{kind}").read_bytes()
    solid.apply_scale(2)
    write_solid(solid, tmp_path / f"two.{kind}")
    assert one != (tmp_path / f"two.{kind}").read_bytes()


def test_stl_is_what_another_library_writes(pad: Pad) -> None:
    """Byte for byte, with a face without area and one that a crooked placing turns."""
    solid = trimesh.Trimesh(*model(pad), process=False).apply_transform(
        trimesh.transformations.random_rotation_matrix()
    )
    solid.faces = np.concatenate([solid.faces, [[0, 1, 1]]])
    written = solid.export(file_type="stl")
    assert isinstance(written, bytes)
    assert stl(solid)[80:] == written[80:]


def test_refusals(tmp_path: Path, pad: Pad) -> None:
    solid = trimesh.Trimesh(*model(pad))
    with pytest.raises(KitError, match=r"'pad.obj' is not a solid's file; end its name in .stl or .3mf"):
        write_solid(solid, tmp_path / "pad.obj")
    open_ = solid.copy()
    open_.update_faces(np.arange(len(open_.faces)) > 3)
    with pytest.raises(KitError, match="is not closed"):
        write_solid(open_, tmp_path / "pad.stl")
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize("display", [Display(), Display(system="in")], ids=["mm", "in"])
def test_drawing_for_wood(pad: Pad, display: Display) -> None:
    scene = draw_pad(pad, display)
    text = svg(scene)
    for words in ("From above", "Section A–A", "grain") + (
        ("67.6 mm", "53.6 mm", "3.30 mm") if display.system == "mm" else ()
    ):
        assert words in text
