"""The error tree: everything the kit says about wrong input is a `KitError`."""


class KitError(ValueError):
    """What was given, what is allowed, and what to do, in one sentence."""


def near_misses(name: str, known: list[str]) -> str:
    """Return ``"; did you mean 'a', 'b' or 'c'?"`` for an unknown name, or an empty string."""
    from difflib import get_close_matches

    close = [repr(match) for match in get_close_matches(name, known, n=3, cutoff=0.5)]
    if not close:
        return ""
    listed = close[0] if len(close) == 1 else f"{', '.join(close[:-1])} or {close[-1]}"
    return f"; did you mean {listed}?"
