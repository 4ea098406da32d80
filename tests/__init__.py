"""The tests. This file makes `tests` the clone's own package, whatever else of that name is installed."""

from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
NOTEBOOKS = ROOT / "notebooks"
DATA = ROOT / "data"
