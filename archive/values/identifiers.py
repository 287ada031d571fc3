"""References, the short stable names that records are known and addressed by, and the tags of languages."""

from __future__ import annotations

import re

REF_ALLOWED = "A reference starts with a letter or digit and has up to 64 letters, digits, dots, hyphens or underscores"
REF = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{0,63}")
_LANGUAGE = re.compile(r"[A-Za-z]{2,3}(?:-[A-Za-z0-9]{2,8}){0,3}")


def is_ref(text: str) -> bool:
    """Whether the text can be the reference of a record."""
    return REF.fullmatch(text) is not None


def is_language_tag(text: str) -> bool:
    """Whether the text has the form of a language tag, such as en-GB."""
    return len(text) <= 35 and _LANGUAGE.fullmatch(text) is not None
