"""What is wrong with a table: one line per fault, all of them in one error."""

from collections.abc import Iterable
from dataclasses import dataclass

from kit.core.errors import KitError


@dataclass(frozen=True)
class Fault:
    """One thing that is wrong: where it is, what was found there, and what is allowed."""

    where: str
    found: str
    allowed: str

    def __str__(self) -> str:
        return f"{self.where}: found {self.found}; {self.allowed}"


class TableError(KitError):
    """The faults of a table, one line each; `faults` holds them."""

    def __init__(self, table: str, faults: Iterable[Fault]) -> None:
        self.faults = tuple(faults)
        count = f"{len(self.faults)} faults" if len(self.faults) > 1 else "1 fault"
        super().__init__("\n  ".join([f"the table of {table} has {count}:", *map(str, self.faults)]))
