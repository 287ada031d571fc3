"""References for new tellings: readable, unique, and never given twice. Pure."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable

_LONGEST = 56
_LITTLE_WORDS = """
    a an and are as at by come for from had has her his how in is it of on or that the this to was were who you
    your
"""
_LITTLE = frozenset(_LITTLE_WORDS.split())


def new_ref(station: str, title: str, taken: Callable[[str], bool]) -> str:
    """ "tl-gate-brass-check" for "The brass check" at st-gate; with a number after it where that is taken."""
    plain = unicodedata.normalize("NFKD", title).encode("ascii", "ignore").decode().lower()
    words = re.findall(r"[a-z0-9]+", plain)
    place = station.removeprefix("st-")
    said = {*place.split("-"), *_LITTLE}
    telling = [word for word in words if word not in said][:3] or words[:3] or ["telling"]
    base = "-".join(["tl", place, *telling])[:_LONGEST].strip("-.")
    ref, number = base, 1
    while taken(ref):
        number += 1
        ref = f"{base}-{number}"
    return ref
