"""The hood's files: drawings of the boards, solids of the boards and of the whole, the frame, tables."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from kit.core.build import Output, Table
from kit.core.quantity import Display
from kit.drawing.export import FORMATS, PaperPlan, TitleBlock, save
from kit.drawing.mesh_files import write_solid
from kit.drawing.paper import SCALES
from kit.drawing.pdf import fitted
from kit.drawing.table_files import csv_output
from kit.geometry.solids.closed import Mesh
from kit.subjects.hood.geometry.openings import pierced
from kit.subjects.hood.geometry.rails import Rail
from kit.subjects.hood.geometry.solid import assembled, frame
from kit.subjects.hood.hood_boards import HoodBoards, smooth
from kit.subjects.hood.shape_pictures import board_scene
from kit.subjects.hood.shape_tables import BEVELS, ORDER, RAILS


def outputs(made: HoodBoards, rails: Sequence[Rail], tables: Sequence[Table], paper: PaperPlan) -> tuple[Output, ...]:
    """Return what can be written of a hood; `paper` is what drawings are printed on."""

    def drawn(folder: Path, stem: str, display: Display, formats: Sequence[str], scales: Sequence[float]) -> list[Path]:
        fine = smooth(made.form)
        written = []
        for number, board in enumerate(fine.boards, 1):
            scene = board_scene(board, fine.openings.get(board.name, {}), display)
            title = TitleBlock(piece=number, pieces=len(fine.boards))
            name = f"{stem}_{board.name.replace(' ', '_')}"
            written += save(scene, folder, name, formats, paper=fitted(scene, paper, scales), title=title)
        return written

    def drawings(folder: Path, stem: str, display: Display) -> list[Path]:
        return drawn(folder, stem, display, FORMATS, SCALES)

    def templates(folder: Path, stem: str, display: Display) -> list[Path]:
        return drawn(folder, f"{stem}_template", display, ("pdf",), (1.0,))

    def solids(folder: Path, stem: str, _display: Display) -> list[Path]:
        return _written({**board_meshes(made), "assembled": assembled(made.form, made.boards)}, folder, stem)

    def sticks(folder: Path, stem: str, _display: Display) -> list[Path]:
        return _written({"frame": frame(made.form, made.boards, rails[0].width)}, folder, stem)

    found = [
        Output("boards", "a drawing of each board: PDF to print, SVG, and DXF at full size", drawings),
        Output("templates", "each board at full size on sheets to tape", templates),
        Output("solids", "each board and the whole hood as STL in millimeters", solids),
    ]
    names = {BEVELS: "bevels", ORDER: "cutting_order", RAILS: "rails"}
    found += [
        csv_output(names[table.title], f"{table.title.lower()}, for a spreadsheet", table)
        for table in tables
        if table.title in names
    ]
    if rails:
        found.append(Output("frame", "rails and posts as STL in millimeters", sticks))
    return tuple(found)


def board_meshes(made: HoodBoards) -> dict[str, Mesh]:
    """Return every board with its openings as a closed mesh, arcs fine."""
    fine = smooth(made.form)
    return {board.name: Mesh(*pierced(board, fine.openings.get(board.name, {}))) for board in fine.boards}


def _written(meshes: dict[str, Mesh], folder: Path, stem: str) -> list[Path]:
    folder.mkdir(parents=True, exist_ok=True)
    paths = []
    for name, mesh in meshes.items():
        path = folder / f"{stem}_{name.replace(' ', '_')}.stl"
        write_solid(mesh, path)
        paths.append(path)
    return paths
