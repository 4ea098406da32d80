"""From typed text to tokens: one spelling for each mark, then one pass of one regular expression."""

import re
import unicodedata
from typing import NamedTuple

from kit.core.quantity.errors import UnreadError, said

MAX_LENGTH = 200

_SAME_MARK = {
    "-": "\u2212\u2010\u2011\u2012\u2013\ufe63\uff0d",  # minus, hyphens, figure and en dash
    "'": "\u2032\u2018\u2019\u02b9",  # prime, curly quotes, modifier prime
    '"': "\u2033\u201c\u201d\u02ba",
    "/": "\u2044\u2215",  # fraction slash, division slash
    "°": "\u00ba\u02da",  # ordinal sign and ring, which some keyboards give for the degree sign
    "µ": "\u03bc",
    "·": "\u22c5\u2219",
    "×": "\u2715",
}
_ONE_SPELLING = str.maketrans({odd: mark for mark, odds in _SAME_MARK.items() for odd in odds})
_SPACES = str.maketrans(
    dict.fromkeys("\u00a0\u1680\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u205f\u3000", " ")
)

VULGAR = {
    "¼": (1, 4), "½": (1, 2), "¾": (3, 4), "⅓": (1, 3), "⅔": (2, 3), "⅛": (1, 8), "⅜": (3, 8), "⅝": (5, 8),
    "⅞": (7, 8), "⅙": (1, 6), "⅚": (5, 6), "⅕": (1, 5), "⅖": (2, 5), "⅗": (3, 5), "⅘": (4, 5),
}  # fmt: skip
LOWER = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻", "0123456789+-")
RAISE = str.maketrans("0123456789-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻")

_TOKEN = re.compile(
    r"(?P<space> +)"
    r"|(?P<pm>±|\+/-|\+-)"
    r"|(?P<number>(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?)"
    rf"|(?P<vulgar>[{''.join(VULGAR)}])"
    r"|(?P<word>°[CF](?![A-Za-z])|[°%]|[A-Za-zµ]+)(?:\.(?![0-9A-Za-z]))?"  # "in." as an abbreviation
    r"""|(?P<mark>''|["'])"""
    r"|(?P<power>[⁺⁻]?[⁰¹²³⁴⁵⁶⁷⁸⁹]+)"
    r"|(?P<op>\*\*|[-+*/^()·×])"
)


class Token(NamedTuple):
    """One piece of the text; `spaced` says that a blank stands before it."""

    kind: str
    text: str
    spaced: bool

    @property
    def is_int(self) -> bool:
        """Whether this is a whole number written with digits only."""
        return self.kind == "number" and self.text.isdigit()


END = Token("end", "", True)


def tokens(text: object) -> list[Token]:
    """Return the tokens of `text`, closed by `END`.

    Raises:
        UnreadError: not text, too long, or a character that no quantity has.
    """
    if not isinstance(text, str):
        raise UnreadError("is not text", "; type it like '600 mm'")
    if len(text) > MAX_LENGTH:
        raise UnreadError(f"has {len(text)} characters, where at most {MAX_LENGTH} are read")
    plain = text.translate(_SPACES).translate(_ONE_SPELLING)
    found: list[Token] = []
    at, spaced = 0, False
    while at < len(plain):
        match = _TOKEN.match(plain, at)
        if match is None:
            raise _stray(text, plain[at])
        kind = match.lastgroup or ""
        if kind == "space":
            spaced = True
        else:
            piece = match.group(kind)
            piece = '"' if piece == "''" else piece.translate(LOWER) if kind == "power" else piece
            found.append(Token(kind, piece, spaced))
            spaced = False
        at = match.end()
    found.append(END)
    return found


def _stray(text: str, character: str) -> UnreadError:
    if character == ",":
        return UnreadError("has a comma", f"; {_without_comma(text)}")
    if unicodedata.category(character).startswith("C"):
        return UnreadError(f"has an invisible character, {ascii(character)[1:-1]}", "; type it again")
    return UnreadError(f"has the character {said(character)}, which no quantity has")


def _without_comma(text: str) -> str:
    """Say what to type instead of the first number with a comma in it."""
    found = re.search(r"[0-9][0-9.,]*[0-9]", text)
    number = found.group() if found else ""
    head, _, tail = number.rpartition(",")
    if not head:
        return "write a decimal point, and no mark between thousands"
    if "." in tail or "," in head:
        return f"write {said(number.replace(',', ''))}, with no mark between thousands"
    if "." in head:
        return f"write {said(head.replace('.', '') + '.' + tail)}, with a decimal point and no other mark"
    if len(tail) == 3:
        return f"write {said(head + tail)} if it separates thousands, {said(head + '.' + tail)} if decimals"
    return f"write {said(head + '.' + tail)} with a decimal point"
