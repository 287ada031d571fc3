"""Sounds of a word from its letters alone, by rules: for words that no dictionary has. In ARPAbet."""

from __future__ import annotations

import re
from functools import cache

VOWELS = frozenset([
    "AA", "AE", "AH", "AO", "AW", "AY", "EH", "ER", "EY", "IH", "IY", "OW", "OY", "UH", "UW",
])  # fmt: skip
PHONES = VOWELS | frozenset([
    "B", "CH", "D", "DH", "F", "G", "HH", "JH", "K", "L", "M", "N", "NG", "P", "R", "S", "SH", "T", "TH", "V",
    "W", "Y", "Z", "ZH",
])  # fmt: skip

# What stands before, the letters, what follows, and their sounds. The first rule that fits is taken.
# ^ and $ are the ends of the word, C a consonant, V a vowel letter, E one of e, i, y.
_RULES = """
    | a    | $          | AH
    | aigh |            | EY
    | air  |            | EH R
    | ai   |            | EY
    | ay   |            | EY
    | augh | t          | AO
    | au   |            | AO
    | aw   |            | AO
    | arr  | V          | AE R
  w | ar   | C|$        | AO R
    | are  | $          | EH R
    | ar   | C|$        | AA R
    | all  | $          | AO L
    | al   | k          | AO
    | alm  |            | AA M
    | ange |            | EY N JH
    | aste | $          | EY S T
    | age  | $          | IH JH
    | ate  | $          | EY T
    | able |            | AH B AH L
    | a    | C?(tion|sion) | EY
    | a    | CE         | EY
    | a    | Cle$       | EY
  w | a    | [nst]      | AA
    | a    |            | AE
    | bb   |            | B
  m | b    | $          |
    | b    |            | B
    | cch  |            | CH
    | tch  |            | CH
  ^ | ch   | [lr]       | K
    | ch   |            | CH
    | ck   |            | K
    | cc   | E          | K S
    | cc   |            | K
    | cial |            | SH AH L
    | cious|            | SH AH S
  s | c    | E          |
    | c    | E          | S
    | c    |            | K
    | dge  |            | JH
    | dd   |            | D
  [td] | ed | $         | IH D
  [pkfsxc]|ed| $        | T
  sh | ed  | $          | T
  ch | ed  | $          | T
  CC | ed  | $          | D
  VC | ed  | $          | D
    | d    |            | D
    | eau  |            | OW
    | eer  |            | IH R
    | ear  | [nld]      | ER
    | ear  |            | IH R
    | ea   | [dv]       | EH
    | ea   |            | IY
    | eigh |            | EY
    | ei   |            | IY
    | ee   |            | IY
    | eu   |            | Y UW
    | ew   |            | Y UW
    | ey   | $          | IY
    | ere  | $          | IH R
    | er   | C|$        | ER
    | es   | $          | Z
    | e    | $          |
  C | e    | ly$|ment$|ful$ |
    | e    | CEC?$      | IY
    | e    |            | EH
    | ff   |            | F
    | f    |            | F
    | gg   |            | G
    | ght  |            | T
    | gh   | $          |
  ^ | gh   |            | G
    | gh   |            |
    | gn   | $          | N
  ^ | gn   |            | N
  n | g    | $          |
    | ge   | $          | JH
    | g    | E          | JH
    | g    |            | G
  ^ | h    |            | HH
    | h    | V          | HH
    | h    |            |
    | igh  |            | AY
    | ight |            | AY T
    | ing  | $          | IH NG
    | ie   | $          | IY
    | ied  | $          | AY D
    | ie   |            | IY
    | ier  |            | IY ER
    | ire  |            | AY ER
    | ir   | C|$        | ER
    | ish  |            | IH SH
    | ism  |            | IH Z AH M
    | ise  |            | AY Z
    | ize  |            | AY Z
    | ild  | $          | AY L D
    | ind  | $          | AY N D
    | ique |            | IY K
    | i    | ve$        | IH
    | i    | C[e]       | AY
    | i    | Cle$       | AY
    | i    | CingC?$    | AY
    | ia   |            | IY AH
    | io   |            | IY OW
    | i    |            | IH
    | j    |            | JH
  ^ | kn   |            | N
    | k    |            | K
  C | le   | $          | AH L
  C | les  | $          | AH L Z
    | ll   |            | L
    | l    |            | L
    | mm   |            | M
    | m    |            | M
    | nn   |            | N
    | ng   | $          | NG
    | ng   | [sl]       | NG
    | nk   |            | NG K
    | n    |            | N
    | oa   |            | OW
    | oar  |            | AO R
    | oe   | $          | OW
    | oi   |            | OY
    | oy   |            | OY
    | ook  |            | UH K
    | oor  |            | AO R
    | oo   |            | UW
    | ough | t          | AO
    | ough |            | OW
    | ould |            | UH D
    | our  | $          | ER
    | ous  | $          | AH S
    | ou   |            | AW
    | ow   | $          | OW
    | ow   |            | AW
    | ore  |            | AO R
  w | or   | C          | ER
    | or   | C|$        | AO R
    | old  |            | OW L D
    | olt  |            | OW L T
    | oll  | $          | OW L
    | o    | ck         | AA
    | o    | Ce         | OW
    | o    | Cing$      | OW
    | o    | $          | OW
    | o    |            | AA
    | ph   |            | F
    | pp   |            | P
  ^ | ps   |            | S
    | p    |            | P
    | que  | $          | K
    | qu   |            | K W
    | q    |            | K
    | rrh  |            | R
    | rr   |            | R
    | rh   |            | R
    | r    |            | R
    | sch  |            | SH
    | sh   |            | SH
    | sion |            | ZH AH N
    | ssion|            | SH AH N
    | ss   |            | S
  V | s    | V          | Z
  [bdgvmnlrwyaeiou] | s | $ | Z
    | s    |            | S
    | tion |            | SH AH N
    | ture |            | CH ER
    | tial |            | SH AH L
    | the  | $          | DH
    | th   |            | TH
    | tt   |            | T
    | t    |            | T
    | ure  | $          | Y ER
    | ur   | C|$        | ER
    | ui   |            | UW
    | ue   | $          | UW
  g | u    | E          |
    | u    | Ce         | UW
    | u    | $          | UW
    | u    |            | AH
    | v    |            | V
  ^ | wh   |            | W
  ^ | wr   |            | R
    | w    |            | W
  ^ | x    |            | Z
    | x    |            | K S
  ^ | y    |            | Y
    | y    | $          | IY
    | y    | Ce         | AY
    | y    |            | IH
    | zz   |            | Z
    | z    |            | Z
"""
_CLASSES = {"C": "[bcdfghjklmnpqrstvwxz]", "V": "[aeiouy]", "E": "[eiy]"}


def sounds_of_letters(word: str) -> list[str]:
    """The sounds of a word in ASCII letters; a word without letters has none."""
    plain = "".join(sign for sign in word.casefold() if "a" <= sign <= "z")
    found: list[str] = []
    at = 0
    while at < len(plain):
        for before, letters, after, sounds in _rules()[plain[at]]:
            end = at + len(letters)
            fits = plain.startswith(letters, at) and after.match(plain, end)
            if fits and (before is None or before.search(plain[:at])):
                found += sounds
                at = end
                break
    return found or ["AH"] * bool(plain)


@cache
def _rules() -> dict[str, list[tuple[re.Pattern[str] | None, str, re.Pattern[str], tuple[str, ...]]]]:
    """The rules by first letter, longer letters first, in their order otherwise."""
    rules: dict[str, list[tuple[re.Pattern[str] | None, str, re.Pattern[str], tuple[str, ...]]]] = {}
    for row in _RULES.strip().splitlines():
        before, letters, *middle, sounds = row.split("|")
        after = "|".join(middle)
        first = letters.strip()
        entry = (
            re.compile(f"(?:{_classes(before)})$") if before.strip() else None,
            first,
            re.compile(_classes(after)),
            tuple(sounds.split()),
        )
        rules.setdefault(first[0], []).append(entry)
    for mine in rules.values():
        mine.sort(key=lambda rule: -len(rule[1]))
    return rules


def _classes(pattern: str) -> str:
    return "".join(_CLASSES.get(sign, sign) for sign in pattern.strip())
