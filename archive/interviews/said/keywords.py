"""The words of a line that tell what it is about, brought to their roots; and how rare each is. Pure."""

from __future__ import annotations

import math
import re
from collections import Counter
from collections.abc import Collection, Iterable
from functools import lru_cache

from archive.interviews.said.units import UNITS as MEASURES
from archive.interviews.said.words import BEINGS, LINKS, SEASONS, listed
from archive.values.numerals import PARTS, SCALES, TENS, UNITS

_WORD = re.compile(r"[a-z]{3,}(?:['’][a-z]+)?")
_EVERYDAY = listed(
    "about above after again ago all almost alone along already also although always among another any anybody anyone "
    "anything around away aye back because become been before began begin behind being below best better between big "
    "bit bits both bring brought call called came can can't cannot care come comes could couldn't course day days did "
    "didn't different do does doesn't doing don't done down each either else end enough even ever every everybody "
    "everyone everything far few find first for found from full gave get gets getting give given goes going gone good "
    "got great had half hand hands hard has hasn't have haven't having heard hear her here herself him himself his how "
    "however isn't its itself just keep kept kind knew know known last later least left less let like little long look "
    "looked lot made make makes many matter maybe mean meant might mind mine more most mostly much must mustn't myself "
    "name near nearly never new next nobody none nor not nothing now odd off often old once one ones only open other "
    "others ought our ours out over own part perhaps place please put quite rather really remember right round said "
    "same saw say saying says see seen self send sent set seven shall she should shouldn't since small some somebody "
    "someone something sometimes soon sort stand still stood stop stopped such sure take taken takes tell than thank "
    "that their theirs them themselves then there these they thing things think this those though thought through "
    "time times today together told too took top toward towards tried true try turn turned twice two under until upon "
    "used using very want wanted was wasn't way ways well went were weren't what when where whether which while who "
    "whole whom whose why will wish with within without won't word words work worked world would wouldn't yes yet you "
    "your yours yourself year years morning night week went start started talk laugh love miss mrs"
)
_PASSED = _EVERYDAY | LINKS | BEINGS | SEASONS | {*UNITS, *TENS, *SCALES, *PARTS, *MEASURES}
_ENDINGS = ("nesses", "ings", "ing", "ers", "er", "ies", "ied", "ed", "es", "s")
_SHORTEST = 4


@lru_cache(maxsize=65_536)
def roots(text: str) -> tuple[str, ...]:
    """The roots of the words of a text that may tell what it is about, in order."""
    words = (match[0].replace("’", "'").removesuffix("'s") for match in _WORD.finditer(text.lower()))
    return tuple(root(word) for word in words if word not in _PASSED and "'" not in word)


@lru_cache(maxsize=65_536)
def root(word: str) -> str:
    """A word without its endings: lifters, lifter and lifting meet in one root."""
    for ending in _ENDINGS:
        stem = word.removesuffix(ending)
        if stem != word and len(stem) >= _SHORTEST - (ending in {"s", "es"}):
            word = f"{stem}y" if ending in {"ies", "ied"} else stem
            break
    if len(word) > _SHORTEST and word[-1] == word[-2] and word[-1] not in "sl":
        word = word[:-1]
    return word.removesuffix("e") if len(word) > _SHORTEST else word


class Rarity:
    """In how many lines each key stands; what is rare tells more (inverse document frequency)."""

    def __init__(self, lines: Iterable[Collection[str]]) -> None:
        self._held: Counter[str] = Counter()
        self.lines = 0
        for keys in lines:
            self._held.update(set(keys))
            self.lines += 1

    def held(self, key: str) -> int:
        """In how many lines a key stands."""
        return self._held[key]

    def weight(self, key: str) -> float:
        """How much a key tells: the logarithm of how many times fewer lines have it than there are."""
        return math.log((self.lines + 1) / (self._held[key] + 0.5))
