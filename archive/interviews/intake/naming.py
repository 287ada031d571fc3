"""What a file that comes in is called here, and the reference that its recording gets. Pure."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Collection, Iterator
from functools import reduce
from itertools import count
from string import ascii_lowercase

LONGEST_NAME = 120
_LONGEST_ENDING = 8
_LONGEST_REF = 64
_FORBIDDEN = re.compile(r'[:*?"<>|]')
_ENDING = re.compile(r"\.[A-Za-z0-9]{1,7}$")
# Names that Windows keeps for its devices.
_RESERVED = re.compile(r"(?:con|prn|aux|nul|com\d|lpt\d)(?:\..*)?", re.IGNORECASE)
_UNNAMED = "recording"
_TEXTS = (".toml", ".csv", ".vtt", ".txt", ".svg")


def kept_name(given: str, taken: Collection[str] = ()) -> str:
    """A plain file name that every system can keep, as near as may be to the one that was given.

    Folders before it, letters that are not seen (those that turn the direction of writing too) and what some systems
    forbid are left out; what is too long is cut before its ending. A name in `taken` is never given again.
    """
    last = re.split(r"[/\\]", given)[-1]
    seen = "".join(each for each in unicodedata.normalize("NFC", last) if unicodedata.category(each)[0] != "C")
    name = " ".join(_FORBIDDEN.sub("-", seen).split()).strip(". ")
    if not name or _RESERVED.fullmatch(name):
        name = f"{_UNNAMED} {name}".strip()
    found = _ENDING.search(name)
    ending = found.group() if found and found.start() else ""
    stem = name[: len(name) - len(ending)]
    there = {each.casefold() for each in taken}
    return next(each for each in _numbered(stem, ending) if each.casefold() not in there)


def master_name(given: str, taken: Collection[str] = ()) -> str:
    """A plain file name for a sound; what ends like the texts of a collection folder would lie in their place there."""
    plain = kept_name(given)
    return kept_name(f"{plain}.sound" if plain.lower().endswith(_TEXTS) else plain, taken)


def _numbered(stem: str, ending: str) -> Iterator[str]:
    for number in count(1):
        mark = f" ({number})" if number > 1 else ""
        room = LONGEST_NAME - len(ending) - len(mark)
        yield f"{stem[:room].rstrip('. ')}{mark}{ending}"


def next_ref(interview: str, taken: Collection[str]) -> str:
    """The next free reference of an interview's recordings: I-01-a, I-01-b, ... I-01-z, I-01-aa.

    `taken` are all references that stand or ever stood. The letters run on from the last one, so that a gap left by a
    recording that is gone is not filled.
    """
    room = interview[: _LONGEST_REF - 4]
    mine = re.compile(rf"{re.escape(room)}-([a-z]{{1,3}})")
    last = max((_number(found.group(1)) for ref in taken if (found := mine.fullmatch(ref))), default=0)
    return f"{room}-{_letters(last + 1)}"


def next_number(prefix: str, taken: Collection[str]) -> str:
    """The next free numbered reference: I-10 after I-09, P-52 after P-51."""
    numbers = [
        int(found.group(1)) for each in taken if (found := re.fullmatch(rf"{re.escape(prefix)}-(\d{{1,6}})", each))
    ]
    return f"{prefix}-{max(numbers, default=0) + 1:02d}"


def _number(letters: str) -> int:
    """a is 1, z is 26, aa is 27."""
    return reduce(lambda number, letter: number * 26 + ascii_lowercase.index(letter) + 1, letters, 0)


def _letters(number: int) -> str:
    letters = ""
    while number:
        number, rest = divmod(number - 1, 26)
        letters = ascii_lowercase[rest] + letters
    return letters
