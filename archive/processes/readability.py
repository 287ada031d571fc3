"""How easily a text reads: words, sentences and syllables, and the two Flesch figures from them. Pure.

R. Flesch, "A new readability yardstick", Journal of Applied Psychology 32, 1948; J. P. Kincaid and others, Research
Branch Report 8-75, 1975. The measures know only lengths, not whether a text is clear: they are a hint to its writer.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

_WORD = re.compile(r"[A-Za-zÀ-ÖØ-öø-ɏ]+(?:['’][A-Za-z]+)*")
_SENTENCE_END = re.compile(r"[.!?]+[”\"')\]*_]*(?=\s|$)|\n\s*\n|\n(?=\s*(?:\d+[.)]|-)\s)")
_GROUPS = re.compile(r"[aeiouyà-öø-ɏ]+")

# Vowels side by side that are spoken apart, and endings that add a syllable.
_MORE = (
    re.compile(r"(?<![cgqstx])i[aou](?!nt|ns?$)"),  # radius, brilliance; not station, special, onion
    re.compile(r"(?<![gq])u[ao](?!y)"),  # gradual, actual
    re.compile(r"(?<!p)eo(?!u)|eum$|(?<=\w\w)ea$|tio$|iet|ier$"),  # geometry; museum, area; ratio; quiet, carrier
    re.compile(r"[aeo]y[aeo](?=[^ds]|s.)"),  # layer, beyond
    re.compile(r"[aeiouy]ing|(?<=[^aeiouy])les$|ism$"),  # seeing, handles, prism
)
# Letters that look like a syllable and are silent.
_LESS = (
    re.compile(r"(?<=[^aeiouy])e$(?<![^aeiouylr]le)"),  # plate; not handle
    re.compile(r"(?<=[^aeioudty])ed$(?<![^aeiouylr]led)"),  # rolled; not handled, heated
    re.compile(r"(?<=[^aeioucghsxyz])es$"),  # plates; not presses
    re.compile(r"(?<=[^aeiouy])e(?=(?:body|ful|house|less|ly|man|men|ment|ness|one|thing|work)s?$)"),  # somebody
    re.compile(r"^every"),
)
_BY_HAND = {
    "anyone": 3, "breathes": 1, "business": 2, "cheque": 1, "cheques": 1, "crooked": 2, "everyone": 3, "everywhere": 3,
    "hundred": 2, "hundreds": 2, "many": 2, "metre": 2, "metres": 2, "millimetre": 4, "millimetres": 4, "million": 2,
    "millions": 2, "naked": 2, "nowhere": 2, "recipe": 3, "recipes": 3, "rhythm": 2, "sacred": 2, "scoured": 2,
    "somewhere": 2, "the": 1, "tired": 2, "wicked": 2,
}  # fmt: skip


@dataclass(frozen=True)
class Reading:
    """The counts of a text, and what they make."""

    words: int
    sentences: int
    syllables: int

    @property
    def ease(self) -> float:
        """Flesch reading ease: the higher the easier; 206.835 − 1.015 words/sentences − 84.6 syllables/words."""
        return 206.835 - 1.015 * self.words / self.sentences - 84.6 * self.syllables / self.words

    @property
    def grade(self) -> float:
        """Flesch-Kincaid grade, in years of school: 0.39 words/sentences + 11.8 syllables/words − 15.59."""
        return 0.39 * self.words / self.sentences + 11.8 * self.syllables / self.words - 15.59


def reading_of(text: str) -> Reading | None:
    """The counts of a stretch of prose; None where it has no word. Figures and signs are no words."""
    words = _WORD.findall(text)
    if not words:
        return None
    sentences = sum(1 for stretch in _SENTENCE_END.split(text) if _WORD.search(stretch))
    return Reading(len(words), sentences, sum(map(syllables, words)))


def syllables(word: str) -> int:
    """The syllables of an English word: groups of vowels, less those that are silent, with exceptions by hand."""
    plain = word.lower().replace("’", "'")
    stem = plain.removesuffix("'s").replace("'", "")
    if stem in _BY_HAND:
        return _BY_HAND[stem]
    count = len(_GROUPS.findall(stem))
    count += sum(len(pattern.findall(stem)) for pattern in _MORE)
    count -= sum(len(pattern.findall(stem)) for pattern in _LESS)
    return max(1, count)
