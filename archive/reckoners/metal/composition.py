"""Reads a composition as people write it: "Cu 90, Zn 10" or "92.5 silver 7.5 copper"."""

from __future__ import annotations

import re

from archive.reckoners.shape import refuse

ELEMENTS = {"Ag": "silver", "Au": "gold", "Cu": "copper", "Zn": "zinc", "Ni": "nickel", "Sn": "tin"}
_WHOLE_MAY_MISS = 0.5
_BY_WORD = {word.lower(): key for key, name in ELEMENTS.items() for word in (key, name)}
_PART = re.compile(r"(?:([a-z]+)\s*(\d+(?:\.\d+)?)|(\d+(?:\.\d+)?)\s*%?\s*([a-z]+))\s*%?", re.IGNORECASE)
_HOW = "Write parts that make 100, such as: Cu 90, Zn 10"


def composition_written(text: str, key: str) -> dict[str, float]:
    """Per cent by weight of each element; raises Unacceptable for the field `key`."""
    parts: dict[str, float] = {}
    for piece in re.split(r"[,;+]|\band\b", text):
        element, share = _part(piece.strip(), key)
        if element in parts:
            raise refuse(key, f"{ELEMENTS[element]} is given twice", _HOW)
        parts[element] = share
    whole = sum(parts.values())
    if abs(whole - 100) > _WHOLE_MAY_MISS:
        raise refuse(key, f"The parts make {whole:g}, not 100", _HOW)
    return {element: 100 * share / whole for element, share in parts.items()}


def _part(piece: str, key: str) -> tuple[str, float]:
    found = _PART.fullmatch(piece)
    if not found:
        raise refuse(key, f"“{piece[:40]}” is not a part of a composition", _HOW)
    word, share = (found[1], found[2]) if found[1] else (found[4], found[3])
    element = _BY_WORD.get(word.lower())
    if element is None:
        known = ", ".join(f"{name} ({symbol})" for symbol, name in ELEMENTS.items())
        raise refuse(key, f"“{word[:40]}” is not an element known here", f"The elements are {known}")
    return element, float(share)
