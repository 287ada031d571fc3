"""Sounds as people and machines write them (respellings, IPA, ARPAbet), in the sounds that the decoder knows."""

from __future__ import annotations

import re

from archive.audio.aligning.letters import PHONES, sounds_of_letters

# The longest first, so that a diphthong is not taken for two vowels. A British r after a vowel is silent in the source
# and said by the decoder's American speakers; the vowel is kept and the r left to what stands there.
_IPA = {
    "tʃ": "CH", "dʒ": "JH", "aɪə": "AY ER", "aʊə": "AW ER", "eɪ": "EY", "aɪ": "AY", "ɔɪ": "OY", "aʊ": "AW", "əʊ": "OW",
    "oʊ": "OW", "ɪə": "IH R", "iə": "IH R", "eə": "EH R", "ɛə": "EH R", "ʊə": "UH R", "ɑː": "AA", "ɒ": "AA", "ɔː": "AO",
    "ɜː": "ER", "iː": "IY", "uː": "UW", "ɚ": "ER", "ɝ": "ER", "ɐ": "AH", "ʌ": "AH", "ə": "AH", "æ": "AE", "a": "AE",
    "ɛ": "EH", "e": "EH", "ɪ": "IH", "i": "IY", "ʊ": "UH", "u": "UW", "ɔ": "AO", "ɑ": "AA", "o": "OW", "ᵻ": "IH",
    "ŋ": "NG", "ʃ": "SH", "ʒ": "ZH", "θ": "TH", "ð": "DH", "ɹ": "R", "r": "R", "ɾ": "T", "ɡ": "G", "g": "G", "j": "Y",
    "x": "K", "ɬ": "L", "h": "HH", "b": "B", "d": "D", "f": "F", "k": "K", "l": "L", "m": "M", "n": "N", "p": "P",
    "s": "S", "t": "T", "v": "V", "w": "W", "z": "Z", "ʔ": "T",
}  # fmt: skip
_IPA_SIGN = re.compile("|".join(sorted(_IPA, key=len, reverse=True)))
# How people respell: what they write for one sound, where the rules of spelling would give another.
_RESPELT = {
    "air": "EH R", "ahr": "AA R", "ah": "AA", "aw": "AO", "ay": "EY", "ee": "IY", "eh": "EH", "er": "ER", "ew": "UW",
    "eye": "AY", "igh": "AY", "ih": "IH", "oh": "OW", "oo": "UW", "ow": "AW", "oy": "OY", "uh": "AH", "ur": "ER",
    "ng": "NG", "sh": "SH", "ch": "CH", "th": "TH", "zh": "ZH", "dh": "DH", "kh": "K", "ar": "AA R", "or": "AO R",
    "eer": "IH R", "ire": "AY ER", "y": "AY", "ck": "K", "ss": "S",
}  # fmt: skip
_RESPELT_SIGN = re.compile("|".join(sorted(_RESPELT, key=len, reverse=True)))
_ARPABET = re.compile(r"[A-Z]{1,2}[0-2]?(?: [A-Z]{1,2}[0-2]?)*")


def sounds_written(said_as: str) -> list[str]:
    """The sounds of a pronunciation as a person gave it: ARPAbet, IPA between slashes, or a plain respelling."""
    text = said_as.strip()
    if _ARPABET.fullmatch(text):
        sounds = [sound.rstrip("012") for sound in text.split()]
        if all(sound in PHONES for sound in sounds):
            return sounds
    if text[:1] in "/[" and text[-1:] in "/]" and len(text) > 2:
        return sounds_of_ipa(text[1:-1])
    return [sound for part in re.split(r"[-\s·.]+", text.casefold()) for sound in _respelt(part)]


def sounds_of_ipa(ipa: str) -> list[str]:
    """The sounds of a word in IPA; signs of stress and what is not known are passed over."""
    plain = re.sub(r"[ˈˌ_‍ ̩]", "", ipa)
    return [sound for match in _IPA_SIGN.finditer(plain) for sound in _IPA[match[0]].split()]


def _respelt(part: str) -> list[str]:
    """A syllable: the respeller's own signs, and the rules of spelling for what stands between them."""
    sounds: list[str] = []
    at = 0
    for match in _RESPELT_SIGN.finditer(part):
        if match[0] == "y" and match.start() == 0:
            continue
        sounds += sounds_of_letters(part[at : match.start()]) if at < match.start() else []
        sounds += _RESPELT[match[0]].split()
        at = match.end()
    return sounds + (sounds_of_letters(part[at:]) if at < len(part) else [])
