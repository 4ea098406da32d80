"""Of a notebook the cells that a reader works with first, and whatever they rest on."""

import ast
from pathlib import Path

import nbformat

WORKED_WITH = ("panel", "ask", "exercise")
"""What a cell calls that is operated: of each kind the first cell is kept."""


def excerpt(notebook: Path) -> Path:
    """Leave in a notebook, a copy, its first panel, question and exercise, and the cells whose names these use."""
    content = nbformat.read(notebook, as_version=nbformat.NO_CONVERT)
    cells = [cell for cell in content["cells"] if cell["cell_type"] == "code"]
    trees = [ast.parse(cell["source"]) for cell in cells]
    kept = {next(at for at, tree in enumerate(trees) if kind in _called(tree)) for kind in WORKED_WITH}
    needed: set[str] = set()
    for at in reversed(range(len(trees))):
        if at in kept or needed & _named(trees[at], ast.Store):
            kept.add(at)
            needed |= _named(trees[at], ast.Load)
    content["cells"] = [cell for at, cell in enumerate(cells) if at in kept]
    nbformat.write(content, notebook)
    return notebook


def _called(tree: ast.AST) -> set[str]:
    """Return the names of functions and methods that are called."""
    called = (node.func for node in ast.walk(tree) if isinstance(node, ast.Call))
    return {func.attr if isinstance(func, ast.Attribute) else getattr(func, "id", "") for func in called}


def _named(tree: ast.AST, how: type[ast.expr_context]) -> set[str]:
    """Return the names that are read, or those that are given a value, imports among them."""
    found = {node.id for node in ast.walk(tree) if isinstance(node, ast.Name) and isinstance(node.ctx, how)}
    if how is ast.Store:
        imports = (node for node in ast.walk(tree) if isinstance(node, ast.Import | ast.ImportFrom))
        found |= {alias.asname or alias.name for node in imports for alias in node.names}
    return found
