"""How each word of a text sounds: dictionary, the museum's own word, its parts, a speaking program, rules."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import cache
from pathlib import Path

from archive.audio.aligning.letters import sounds_of_letters
from archive.audio.aligning.speaker import sounds_by_speaker
from archive.audio.aligning.written_sounds import sounds_written

Sounds = tuple[str, ...]
Speaker = Callable[[Sequence[str]], Mapping[str, Sequence[str]]]
_HISSING = frozenset(["S", "Z", "SH", "ZH", "CH", "JH"])
_VOICELESS = frozenset(["P", "T", "K", "F", "TH"])
_SHORTEST_PART = 3
# British spellings and how an American dictionary writes them.
_SPELLINGS = (("our", "or"), ("ise", "ize"), ("isa", "iza"), ("yse", "yze"), ("tre", "ter"), ("ogue", "og"),
              ("lled", "led"), ("lling", "ling"), ("ence", "ense"), ("ae", "e"), ("oe", "e"),
              ("sulph", "sulf"))  # fmt: skip


class Lexicon:
    """The sounds of words, ways of saying them in order of use. `said_as` are the museum's own pronunciations."""

    def __init__(self, said_as: Mapping[str, str] | None = None, speaker: Speaker = sounds_by_speaker) -> None:
        self._own = _own_words(said_as or {})
        self._speaker = speaker

    @property
    def known(self) -> frozenset[str]:
        """Words of which the sounds are known without guessing."""
        return frozenset(dictionary()) | frozenset(self._own)

    def sounds(self, words: Iterable[str]) -> dict[str, tuple[Sounds, ...]]:
        """The ways of saying each word; every word has at least one."""
        found = {word: self._looked_up(word) for word in dict.fromkeys(words)}
        left = [word for word, ways in found.items() if not ways]
        spoken = self._speaker(left) if left else {}
        for word in left:
            found[word] = (tuple(spoken.get(word) or _joined(word) or sounds_of_letters(word) or ("AH",)),)
        return found

    def _looked_up(self, word: str) -> tuple[Sounds, ...]:
        own = self._own.get(word)
        ways = (own, *dictionary().get(word, ())) if own else dictionary().get(word, ())
        if ways:
            return tuple(dict.fromkeys(ways))
        grown = _inflected(word, self._own)
        return (grown,) if grown else ()


@cache
def dictionary() -> dict[str, tuple[Sounds, ...]]:
    """The decoder's own dictionary: every word with its ways of being said."""
    import pocketsphinx

    place = Path(pocketsphinx.get_model_path("en-us/cmudict-en-us.dict"))
    found: dict[str, tuple[Sounds, ...]] = {}
    for line in place.read_text("utf-8").splitlines():
        word, *sounds = line.split()
        word = re.sub(r"\(\d+\)$", "", word)
        found[word] = (*found.get(word, ()), tuple(sounds))
    return found


def write_dictionary(sounds: Mapping[str, Sequence[Sounds]], place: Path) -> None:
    """The file that the decoder reads."""
    rows = [
        f"{word}{f'({number})' if number > 1 else ''} {' '.join(way)}"
        for word, ways in sorted(sounds.items())
        for number, way in enumerate(ways, 1)
    ]
    place.write_text("\n".join(rows) + "\n", "utf-8")


def _own_words(said_as: Mapping[str, str]) -> dict[str, Sounds]:
    """Word by word; a pronunciation of several words is taken where it has as many parts as there are words."""
    own: dict[str, Sounds] = {}
    for term, said in said_as.items():
        words = re.findall(r"[a-z']+", term.casefold())
        parts = [said] if len(words) == 1 else said.split()
        if len(words) != len(parts):
            continue
        for word, part in zip(words, parts, strict=True):
            sounds = tuple(sounds_written(part))
            if sounds:
                own.setdefault(word, sounds)
    return own


def _inflected(word: str, own: Mapping[str, Sounds]) -> Sounds | None:
    """A known word with an ending, or in another spelling."""
    stem = _known(word.replace("'", ""), own)
    if stem:
        return stem
    for ending in ("'s", "s'", "es", "s", "ed", "d", "ing", "in'", "er", "ers", "ly"):
        if not word.endswith(ending) or len(word) - len(ending) < _SHORTEST_PART:
            continue
        bare = word[: -len(ending)]
        doubled = bare[:-1] if len(bare) > _SHORTEST_PART and bare[-1] == bare[-2] else ""
        for stem_word in (bare, f"{bare}e" if ending[0] in "edi" else "", doubled):
            stem = _known(stem_word, own)
            if stem:
                return (*stem, *_ending(ending, stem[-1]))
    return None


def _known(word: str, own: Mapping[str, Sounds]) -> Sounds | None:
    if word in own:
        return own[word]
    for spelling in (word, *(word.replace(here, there) for here, there in _SPELLINGS if here in word)):
        ways = dictionary().get(spelling)
        if ways:
            return ways[0]
    return None


def _ending(ending: str, last: str) -> Sounds:
    if ending in ("'s", "s'", "es", "s"):
        return ("IH", "Z") if last in _HISSING else ("S",) if last in _VOICELESS else ("Z",)
    if ending in ("ed", "d"):
        return ("IH", "D") if last in ("T", "D") else ("T",) if last in _VOICELESS | {"S", "SH", "CH"} else ("D",)
    return {"ing": ("IH", "NG"), "in'": ("IH", "N"), "er": ("ER",), "ers": ("ER", "Z"), "ly": ("L", "IY")}[ending]


def _joined(word: str) -> Sounds | None:
    """Two known words in one: hammer-man. The longest first part wins."""
    for at in range(len(word) - _SHORTEST_PART, _SHORTEST_PART - 1, -1):
        first, second = dictionary().get(word[:at]), dictionary().get(word[at:]) or _plural_of(word[at:])
        if first and second:
            return (*first[0], *second[0])
    return None


def _plural_of(word: str) -> tuple[Sounds, ...]:
    grown = _inflected(word, {}) if len(word) > _SHORTEST_PART + 1 else None
    return (grown,) if grown else ()
