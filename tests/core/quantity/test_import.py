"""Quantities load nothing heavy: pint only when a pint quantity is asked for."""

import subprocess
import sys

HEAVY = ("pint", "sympy", "numpy", "scipy", "matplotlib", "ipywidgets")


def loaded_after(statement: str) -> set[str]:
    script = f"import sys\n{statement}\nprint(*(m for m in {HEAVY!r} if m in sys.modules))"
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    return set(done.stdout.split())


def test_reading_and_showing_load_nothing_heavy() -> None:
    assert (
        loaded_after(
            "from kit.core.quantity import Display, parse, show, tex\n"
            "q = parse('23 3/4 ± 1/64 in', 'mm'); show(q.base, 'mm', Display(system='in')); tex(q.base, 'mm'); str(q)"
        )
        == set()
    )


def test_pint_is_loaded_on_use() -> None:
    assert "pint" in loaded_after("from kit.core.quantity import parse\nparse('5 mm', 'mm').pint")
