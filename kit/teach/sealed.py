"""Questions that a page without a kernel can judge: what is said of each option, sealed by the option's own text.

Nothing of a reason stands readable in the page, and no length or order tells which option is right. This keeps answers
from being read or searched for in a file that everybody has. It is no secret: with two or three options to try, whoever
writes a program opens them all. A test that counts is written on paper.
"""

from __future__ import annotations

import hashlib
from base64 import b64encode
from collections.abc import Sequence
from secrets import token_bytes

ROUNDS = 2000  # of the hash, so that trying takes a moment
_SALT = 16
_BLOCK = 32


def seal(options: Sequence[str], told: Sequence[str]) -> tuple[str, list[str]]:
    """Return a salt and what is told of each option, sealed by its text and filled up to one length, all in base64."""
    salt = token_bytes(_SALT)
    plain = [words.encode() for words in told]
    length = max(map(len, plain)) // _BLOCK * _BLOCK + _BLOCK
    sealed = [
        bytes(a ^ b for a, b in zip(words.ljust(length), _stream(salt, option, length), strict=True))
        for option, words in zip(options, plain, strict=True)
    ]
    return b64encode(salt).decode(), [b64encode(each).decode() for each in sealed]


def _stream(salt: bytes, option: str, length: int) -> bytes:
    """Return bytes that follow from an option's text: a hash repeated, then one block after the other."""
    key = hashlib.sha256(salt + option.encode()).digest()
    for _ in range(ROUNDS):
        key = hashlib.sha256(key).digest()
    blocks = (hashlib.sha256(key + at.to_bytes(4, "big")).digest() for at in range(length // _BLOCK))
    return b"".join(blocks)
