"""What the command prints for other programs."""

from __future__ import annotations

import json
import sys
from typing import Any

from kit.core.version import __version__


def print_json(content: dict[str, Any]) -> None:
    """Print plain data as JSON, under the version and the layout's format number."""
    from kit.core.record import FORMAT

    plain = (sys.stdout.encoding or "utf-8").lower() != "utf-8"  # an escape is read back, a question mark is lost
    print(json.dumps({"fitwright": __version__, "format": FORMAT} | content, indent=2, ensure_ascii=plain))
