"""Reading scans: every kind, every fault; volumes known in closed form."""

import io
import json
import zipfile
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
import trimesh
from PIL import Image

from kit.core.errors import KitError
from kit.geometry.mesh import Scan, read
from kit.geometry.mesh import reader as reading_module
from kit.geometry.mesh import sniff as looking_module

BOX = trimesh.creation.box((10.0, 20.0, 30.0))


def exported(kind: str, mesh: trimesh.Trimesh = BOX, **options: object) -> bytes:
    data = mesh.export(file_type=kind, **options)
    return data if isinstance(data, bytes) else data.encode()


def opened(data: bytes | str, name: str) -> Scan:
    return read(io.BytesIO(data if isinstance(data, bytes) else data.encode()), name)


def volume(scan: Scan) -> float:
    """By the divergence theorem, independent of the reading library."""
    a, b, c = np.moveaxis(scan.vertices[scan.faces], 1, 0)
    return float(np.einsum("ij,ij->", a, np.cross(b, c)) / 6.0)


KINDS = [
    ("obj", {}),
    ("stl", {}),
    ("stl_ascii", {}),
    ("ply", {}),
    ("ply", {"encoding": "ascii"}),
    ("3mf", {}),
    ("glb", {}),
]


def in_millimeters(kind: str, mesh: trimesh.Trimesh) -> trimesh.Trimesh:
    """A mesh that comes back in millimeters: GLB is in meters (glTF 2.0, section 3.4)."""
    return mesh.copy().apply_scale(0.001) if kind == "glb" else mesh


@pytest.mark.parametrize(("kind", "options"), KINDS)
def test_every_kind_gives_the_box_of_6000(kind: str, options: dict[str, object]) -> None:
    scan = opened(exported(kind, in_millimeters(kind, BOX), **options), f"box.{kind.split('_')[0]}")
    assert (len(scan.vertices), len(scan.faces)) == (8, 12)
    assert volume(scan) == pytest.approx(10 * 20 * 30)
    assert scan.notes == ()


@pytest.mark.parametrize(("kind", "options"), KINDS)
@pytest.mark.parametrize("part", [0.1, 0.3, 0.5, 0.8])
def test_a_truncated_file_gets_a_sentence(kind: str, options: dict[str, object], part: float) -> None:
    """An OBJ file has no end mark: cut between two lines it is a smaller file, cut in the middle of one it is not."""
    data = exported(kind, trimesh.creation.icosphere(3), **options)
    name = f"cut.{kind.split('_')[0]}"
    cut = data[: int(part * len(data))]
    if kind == "obj":
        cut = cut[: cut.rindex(b"\n")] + b"\nv 1.0"
    with pytest.raises(KitError, match=name):
        opened(cut, name)


@pytest.mark.parametrize("kind", ["obj", "stl", "ply", "3mf", "glb"])
def test_a_wrong_name_is_told_with_the_right_one(kind: str) -> None:
    wrong = "ply" if kind != "ply" else "stl"
    with pytest.raises(KitError, match=rf"holds {kind.upper()}, not {wrong.upper()}; rename it to end in \.{kind}"):
        opened(exported(kind), f"scan.{wrong}")


def test_a_missing_material_file_does_not_matter() -> None:
    text = "mtllib nothing.mtl\nusemtl wood\nv 0 0 0\nv 1 0 0\nv 0 1 0\nvt 0 0\nf 1/1 2/1 3/1\n"
    assert len(opened(text, "scan.obj").faces) == 1


def test_seams_of_a_texture_are_welded() -> None:
    text = "v 0 0 0\nv 1 0 0\nv 0 1 0\nv 1 1 0\nvt 0 0\nvt 1 1\nf 1/1 2/1 3/1\nf 2/2 4/2 3/2\n"
    assert len(opened(text, "scan.obj").vertices) == 4


def test_quads_and_counts_from_the_end() -> None:
    assert len(opened("v 0 0 0\nv 1 0 0\nv 1 1 0\nv 0 1 0\nf 1 2 3 4\n", "scan.obj").faces) == 2
    assert len(opened("v 0 0 0\nv 1 0 0\nv 0 1 0\nf -3 -2 -1\n", "scan.obj").faces) == 1


def test_a_few_numbers_that_are_none_are_left_out_and_told() -> None:
    scan = opened("v 0 0 0\nv 1 0 0\nv 0 1 0\nv nan 0 0\nf 1 2 3\nf 1 2 4\n", "scan.obj")
    assert len(scan.faces) == 1
    assert np.isfinite(scan.vertices).all()
    assert "1 vertices of scan.obj are no finite numbers" in scan.notes[0]


def packed(**parts: str) -> bytes:
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as file:
        for name, content in parts.items():
            file.writestr(name.replace("__", "/").replace("_model", ".model"), content)
    return stream.getvalue()


def stl(claimed: int, body: bytes = b"") -> bytes:
    return b"x" * 80 + claimed.to_bytes(4, "little") + body


def ply(vertices: object, faces: object, body: bytes = b"\0" * 100) -> bytes:
    header = f"""ply
format binary_little_endian 1.0
element vertex {vertices}
property float x
property float y
property float z
element face {faces}
property list uchar int vertex_indices
end_header
"""
    return header.encode() + body


BAD = [
    (b"", "a.obj", "is empty"),
    (b"\0" * 500, "a.stl", "is empty"),
    (b" \n \n", "a.ply", "is empty"),
    (b"hello, this is a letter", "a.obj", "does not hold what its name says"),
    (b"<html><body>sign in</body></html>", "a.ply", "does not hold what its name says"),
    (b"\x89PNG\r\n\x1a\n" + bytes(range(256)) * 4, "a.png", "no mesh that can be read"),
    (b"v nan 0 0\nv inf 0 0\nv 0 1 0\nf 1 2 3\n", "a.obj", "no finite numbers, and most faces"),
    (b"v 1e300 0 0\nv 0 0 0\nv 0 1 0\nf 1 2 3\n", "a.obj", "no finite numbers"),
    (b"v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 9\n", "a.obj", "a.obj"),
    (b"v 0 0 0\nv 1 0 0\nv 0 1 0\n", "a.obj", "3 points but no face"),
    (b"v 0 0 0\nv 0 0 0\nv 0 0 0\nf 1 2 3\n", "a.obj", "lie at one place"),
    (b"v 0 0\nv 1 0 0\nf 1 2 x\n", "a.obj", "damaged OBJ"),
    (b"o nothing\n# no vertex\n", "a.obj", "a.obj"),
    (stl(4_000_000_000), "a.stl", "claims 0 vertices and 4,000,000,000 faces"),
    (stl(1_000_000, b"\0" * 50), "a.stl", "claims 1,000,000 triangles but holds 1"),
    (b"solid a\nfacet normal 0 0 1\nouter loop\nvertex 0 0 0\n", "a.stl", "stops before its end"),
    (
        b"solid a\nfacet normal 0 0 1\nouter loop\nvertex 0 0 q\nendloop\nendfacet\nendsolid a\n",
        "a.stl",
        "a.stl",
    ),
    (ply(4_000_000_000, 1), "a.ply", "claims 4,000,000,000 vertices"),
    (ply(3, 4_000_000_000), "a.ply", "4,000,000,000 faces"),
    (ply(400_000, 1), "a.ply", "stops before its end"),
    (ply(-3, 1), "a.ply", "no number"),
    (ply("many", 1), "a.ply", "no number"),
    (b"ply\nformat ascii 1.0\nelement vertex 3\n", "a.ply", "no end of its PLY header"),
    (ply(3, 0, b"\0" * 36), "a.ply", "no face"),
    (
        packed(**{"3D__3dmodel_model": '<!DOCTYPE a [<!ENTITY b "x">]><a>&b;</a>'}),
        "a.3mf",
        "own XML entities",
    ),
    (packed(**{"3D__3dmodel_model": "<a><b></a>"}), "a.3mf", "a.3mf"),
    (packed(readme="nothing"), "a.3mf", "without a 3MF model"),
    (b"PK\x03\x04" + b"\0" * 300, "a.3mf", "damaged 3MF"),
    (stl(0, b"\0" * 70), "a.stl", "counts 0 triangles but holds 70 bytes, no whole number of them"),
    (
        exported("ply", encoding="ascii").replace(b"element face 12", b"element face 7"),
        "a.ply",
        "holds 5 lines more",
    ),
    (exported("ply", encoding="ascii").replace(b"vertex 8", b"vertex 6"), "a.ply", "holds 2 lines more"),
    (exported("ply").replace(b"element face 12", b"element face 07"), "a.ply", "holds 65 bytes more"),
    (b"v 0 0 0\nv 1 1 1\nv 2 2 2\nv 3 3 3\nf 1 2 3\nf 2 2 4\n", "a.obj", "No face of a.obj has an area"),
    (
        b"v 0 0 0\nv 4e-7 0 0\nv 0 4e-7 0\nf 1 2 3\n",
        "a.obj",
        "longest side of a.obj is 4e-07, in its own unit",
    ),
    (
        b"v 0 0 0\nv 3e7 0 0\nv 0 1 0\nf 1 2 3\n",
        "a.obj",
        r"is 3e\+07, in its own unit; from 1e-06 to 10,000,000 is read",
    ),
    (exported("glb")[:-9], "a.glb", "stops before its end"),
    (b"glTF\1\0\0\0" + exported("glb")[8:], "a.glb", "GLB of version 1"),
]


def box_stl(head: bytes, claimed: int, more: bytes = b"") -> bytes:
    data = exported("stl")
    return head.ljust(80, b" ") + claimed.to_bytes(4, "little") + data[84:] + more


@pytest.mark.parametrize(
    ("data", "note"),
    [
        (box_stl(b"solid of facet normal endsolid", 12), None),
        (box_stl(b"solid of facet normal endsolid", 5), "a.stl counts 5 triangles but holds 12; all 12 were read."),
        (box_stl(b"scan", 0), "a.stl counts 0 triangles but holds 12; all 12 were read."),
        (
            box_stl(b"scan", 12, b"by an app"),
            "a.stl holds 9 bytes after the 12 triangles that it counts; they were left out.",
        ),
    ],
)  # fmt: skip
def test_a_binary_stl_is_read_by_its_bytes_whatever_its_header_says(data: bytes, note: str | None) -> None:
    scan = opened(data, "a.stl")
    assert volume(scan) == pytest.approx(10 * 20 * 30)
    assert scan.notes == ((note,) if note else ())


def glb(change: Callable[[dict[str, Any]], object], mesh: trimesh.Trimesh = BOX) -> bytes:
    """A GLB file whose JSON part is changed, its lengths put right (glTF 2.0, section 4.4)."""
    data = exported("glb", mesh)
    size = int.from_bytes(data[12:16], "little")
    told = json.loads(data[20 : 20 + size])
    change(told)
    text = json.dumps(told).encode()
    text += b" " * (-len(text) % 4)
    rest = data[20 + size :]
    head = b"glTF" + (2).to_bytes(4, "little") + (20 + len(text) + len(rest)).to_bytes(4, "little")
    return head + len(text).to_bytes(4, "little") + b"JSON" + text + rest


def test_a_glb_comes_in_millimeters_with_every_part_at_its_place() -> None:
    """Two boxes of 0.1 m, the second 1 m away, turned by 90° and twice as large: by the nodes of the scene."""
    scene = trimesh.Scene()
    cube = trimesh.creation.box((0.1, 0.1, 0.2))
    scene.add_geometry(cube)
    turned = trimesh.transformations.rotation_matrix(np.pi / 2, (0, 1, 0))
    turned[:3, :3] *= 2.0
    turned[0, 3] = 1.0
    scene.add_geometry(cube, transform=turned)
    data = scene.export(file_type="glb")
    assert isinstance(data, bytes)
    scan = opened(data, "phone.glb")
    assert len(scan.faces) == 24
    assert volume(scan) == pytest.approx(100.0 * 100.0 * 200.0 * (1.0 + 8.0), rel=1e-6)
    np.testing.assert_allclose(scan.extent, [1000.0 + 50.0 + 200.0, 200.0, 200.0], atol=1e-4)


def test_a_glb_with_a_texture_is_read_and_its_seams_are_welded() -> None:
    mesh = trimesh.creation.box((0.01, 0.02, 0.03))
    mesh.unmerge_vertices()
    picture = Image.new("RGB", (4, 4), "red")
    mesh.visual = trimesh.visual.TextureVisuals(uv=np.zeros((len(mesh.vertices), 2)), image=picture)
    scan = opened(exported("glb", mesh), "phone.glb")
    assert (len(scan.vertices), len(scan.faces)) == (8, 12)


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        (
            lambda told: told.update(extensionsRequired=["KHR_draco_mesh_compression"]),
            "is packed .KHR_draco_mesh",
        ),
        (lambda told: told["buffers"][0].update(uri="scan.bin"), "keeps its surface in another file"),
        (
            lambda told: told["buffers"][0].update(uri="file:///etc/passwd"),
            "keeps its surface in another file",
        ),
        (lambda told: told["accessors"][0].update(count=4_000_000), "claims .* MB of numbers but holds"),
        (lambda told: told["accessors"][0].update(count=-1), "damaged GLB"),
        (lambda told: told["accessors"].clear(), "damaged GLB"),
        (lambda told: told["nodes"].extend([{"children": [2]}, {"children": [1]}]), "in a circle"),
        (lambda told: told["nodes"].extend([{"children": [0]}, {"children": [0]}]), "more than once"),
        (
            lambda told: told["nodes"].extend([{"mesh": 0}] * 900_000),
            "claims .* and 10,800,012 faces; at most",
        ),
        (lambda told: told.clear(), "a.glb"),
    ],
)
def test_a_glb_that_cannot_be_true_gets_a_sentence(change: Callable[[dict[str, Any]], object], sentence: str) -> None:
    with pytest.raises(KitError, match=sentence):
        opened(glb(change), "a.glb")


@pytest.mark.parametrize("size", [1.1e-6, 0.5, 9e6])
def test_a_scan_of_any_unit_is_read(size: float) -> None:
    scan = opened(f"v 0 0 0\nv {size} 0 0\nv 0 {size} 0\nf 1 2 3\n", "a.obj")
    assert scan.extent.max() == pytest.approx(size)


@pytest.mark.parametrize(("data", "name", "sentence"), BAD, ids=[f"{row[1]}: {row[2]}" for row in BAD])
def test_a_bad_file_gets_a_sentence(data: bytes, name: str, sentence: str) -> None:
    with pytest.raises(KitError, match=sentence) as caught:
        opened(data, name)
    assert "\n" not in str(caught.value)
    assert len(str(caught.value)) < 300


def test_a_small_file_that_unpacks_to_a_huge_one_gets_a_sentence() -> None:
    bomb = packed(**{"3D__3dmodel_model": "<a>" + " " * 300_000_000})  # packed here: for seconds, so by one process
    test_a_bad_file_gets_a_sentence(bomb, "a.3mf", "unpacks to 300 MB")


def test_a_file_above_the_bound_is_not_read_to_its_end(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(looking_module, "MOST_BYTES", 100)
    with pytest.raises(KitError, match="at most 0 MB are read"):
        opened(exported("stl"), "a.stl")


@pytest.mark.parametrize(("kind", "options"), KINDS)
def test_a_large_file_is_read_in_a_process_of_its_own(
    kind: str, options: dict[str, object], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(reading_module, "LARGE", 0)
    name = f"box.{kind.split('_')[0]}"
    data = exported(kind, in_millimeters(kind, BOX), **options)
    assert volume(opened(data, name)) == pytest.approx(10 * 20 * 30)


def test_a_damaged_large_file_gets_the_same_sentence(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(reading_module, "LARGE", 0)
    with pytest.raises(KitError, match="damaged OBJ"):
        opened("v 0 0\nv 1 0 0\nf 1 2 x\n", "a.obj")


def test_reading_stops_when_its_time_is_over() -> None:
    """A file of 14 MB takes seconds; a twentieth of a second is not enough to start."""
    line = b"v 0.125 0.25 0.5\n"
    data = line * 800_000 + b"f 1 2 3\n"
    assert len(data) > reading_module.LARGE
    with pytest.raises(KitError, match=r"slow\.obj took more than the 0.05 s allowed"):
        read(io.BytesIO(data), "slow.obj", seconds=0.05)


@pytest.mark.parametrize("kind", ["obj", "stl", "stl_ascii", "ply", "3mf", "glb"])
def test_thousands_of_damaged_files_never_give_anything_but_a_scan_or_a_sentence(kind: str) -> None:
    """Bytes of a good file changed, left out or doubled at random places (seeded)."""
    good = bytearray(exported(kind))
    rng = np.random.default_rng(4)
    for _ in range(300):
        data = bytearray(good)
        for place in rng.integers(0, len(data), 4):
            data[place] = int(rng.integers(0, 256))
        if rng.random() < 0.3:
            cut = int(rng.integers(0, len(data)))
            data = data[:cut] + data[cut + int(rng.integers(1, 40)) :]
        try:
            scan = opened(bytes(data), f"a.{kind.split('_')[0]}")
        except KitError:
            continue
        assert np.isfinite(scan.vertices).all()
        assert scan.faces.max() < len(scan.vertices)


def test_a_3mf_in_inches_comes_in_millimeters() -> None:
    """1 in = 25.4 mm, exactly; unit after the 3MF core specification."""
    changed = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(exported("3mf"))) as old, zipfile.ZipFile(changed, "w") as new:
        for name in old.namelist():
            new.writestr(name, old.read(name).replace(b'unit="millimeter"', b'unit="inch"'))
    np.testing.assert_allclose(opened(changed.getvalue(), "a.3mf").extent, [254.0, 508.0, 762.0])
