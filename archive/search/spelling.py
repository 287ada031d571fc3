"""One spelling for words that British and American English write in two ways, so that each finds the other.

The spelling chosen is for the index alone: nobody reads it, so it follows whichever rule is the simpler.
"""

from __future__ import annotations

import re
from functools import lru_cache

# -ize is turned into -ise, except where -ize is the only spelling.
_IZE = re.compile(r"(?<=..)i[sz](ation|ations|e|ed|er|ers|es|ing|ings|able)$")
_ONLY_IZE = re.compile(r"siz|^(re)?priz|^(re|un)?seiz|^maiz|^baiz")
_YZE = re.compile(r"yz(e|ed|er|ers|es|ing)$")

# -our is turned into -or after these roots only: hour, four, pour, flour and tour keep theirs.
_OUR = re.compile(
    r"^(un|dis|mis|be|re)?"
    r"(arb|ard|arm|behavi|cand|clam|col|demean|endeav|enam|fav|ferv|flav|glam|harb|hon|hum|lab|neighb|od|parl|ranc|rig|"
    r"rum|sav|splend|succ|tum|val|vap|vig)our"
)

# -er is turned into -re after these roots only.
_ER = re.compile(
    r"^(milli|centi|kilo|deci|epi)?(calib|cent|fib|lit|lust|manoeuv|meag|met|mit|nit|och|sab|saltpet|scept|sepulch|somb|"
    r"spect|theat)er(s|ed)?$"
)

# A doubled l before an ending is made single after these roots.
_DOUBLED = re.compile(
    r"^(un|re)?(barrel|bevel|cancel|carol|channel|chisel|cudgel|dial|duel|enamel|equal|fuel|gravel|initial|jewel|kennel|label|"
    r"level|marvel|metal|model|panel|pedal|pencil|quarrel|rival|shovel|shrivel|signal|snivel|spiral|stencil|swivel|total|"
    r"towel|travel|trowel|tunnel|unravel)l(?=e|i)"
)

_ROOTS = (
    ("gray", "grey"),
    ("mold", "mould"),
    ("molt", "moult"),
    ("smolder", "smoulder"),
    ("plow", "plough"),
    ("gage", "gauge"),
    ("sulf", "sulph"),
    ("aluminum", "aluminium"),
    ("maneuver", "manoeuvre"),
    ("jewelry", "jewellery"),
    ("skeptic", "sceptic"),
    ("anesthe", "anaesthe"),
    ("anemi", "anaemi"),
    ("archeolog", "archaeolog"),
    ("encyclopedi", "encyclopaedi"),
    ("hemo", "haemo"),
    ("diarrhea", "diarrhoea"),
    ("pediatric", "paediatric"),
    ("cozy", "cosy"),
    ("cozi", "cosi"),
    ("draft", "draught"),
    ("gaol", "jail"),
    ("pajama", "pyjama"),
    ("woolen", "woollen"),
    ("fulfil", "fulfill"),
    ("skilful", "skillful"),
    ("wilful", "willful"),
    ("enrol", "enroll"),
    ("catalogu", "catalog"),
    ("analogu", "analog"),
    ("dialogu", "dialog"),
    ("monologu", "monolog"),
)
_LONGER = {"fulfil", "skilful", "wilful", "enrol"}

_WORDS = {
    "ax": "axe",
    "tyre": "tire",
    "tyres": "tires",
    "kerb": "curb",
    "kerbs": "curbs",
    "programme": "program",
    "programmes": "programs",
    "vise": "vice",
    "vises": "vices",
    "defense": "defence",
    "offense": "offence",
    "license": "licence",
    "licensed": "licenced",
    "licensing": "licencing",
    "practise": "practice",
    "practised": "practiced",
    "practising": "practicing",
    "pretense": "pretence",
    "mum": "mom",
    "whisky": "whiskey",
    "burnt": "burned",
    "learnt": "learned",
    "spelt": "spelled",
    "spilt": "spilled",
    "spoilt": "spoiled",
    "judgement": "judgment",
    "ageing": "aging",
    "acknowledgement": "acknowledgment",
    "annexe": "annex",
}


@lru_cache(maxsize=65536)
def one_spelling(word: str) -> str:
    """The same word for every way of spelling it; takes and gives lower case without accents."""
    if word in _WORDS:
        return _WORDS[word]
    for found, kept in _ROOTS:
        if word.startswith(found) and not (found in _LONGER and word.startswith(kept)):
            word = kept + word[len(found) :]
            break
    word = _OUR.sub(lambda match: match.group(0)[:-3] + "or", word)
    word = _ER.sub(lambda match: f"{match.group(1) or ''}{match.group(2)}re{_after_re(match.group(3))}", word)
    word = _DOUBLED.sub(lambda match: match.group(0)[:-1], word)
    if not _ONLY_IZE.search(word):
        word = _IZE.sub(r"is\1", word)
    return _YZE.sub(r"ys\1", word)


def _after_re(ending: str | None) -> str:
    return {"s": "s", "ed": "d"}.get(ending or "", "")
