"""Builds the store of stated models into the wheel, so that an installed copy starts without sympy."""

import subprocess
import sys
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface


class ShipStore(BuildHookInterface):
    """States every page once, in a process of its own, and adds the files to the wheel."""

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Write the store below the build folder. A clone that is installed as it lies gets none: it would be stale."""
        if version == "editable":
            return
        folder = Path(self.directory, "store").resolve()
        subprocess.run([sys.executable, "-m", "kit.subjects.shipping", folder], cwd=self.root, check=True)
        build_data["force_include"][str(folder)] = "kit/_store"
