"""Words as a sheet shows them."""


def sentence(words: str) -> str:
    """Return words with a capital and a full stop."""
    end = "" if words.endswith((".", "?", "!")) else "."
    return words[:1].upper() + words[1:] + end
