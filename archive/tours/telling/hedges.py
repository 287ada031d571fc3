"""Whether a sentence is told as certain: the words by which a teller lets listeners know whose word it is. Pure."""

from __future__ import annotations

import re


def _phrases(*phrases: str) -> re.Pattern[str]:
    return re.compile(r"\b(?:" + "|".join(phrases) + r")\b", re.IGNORECASE)


# Several accounts that do not agree.
DIFFER = _phrases(

    r"some (?:say|said|will tell|tell|told|remember(?:ed)?|hold|held|think|thought|hands|people|men|women|swear|swore)",
    r"others? (?:say|says|said|tells?|told|remember(?:ed|s)?|hold|think|swear|swore)",
    r"accounts? (?:differ|vary|disagree|do not agree)", r"(?:do|did|does) not agree", r"disagree[sd]?", r"disputed?",
    r"contested", r"nobody (?:knows|can say|has settled)", r"no one (?:knows|can say)",
    r"(?:we|I) (?:do not|don't|cannot) (?:know|say|tell|settle)", r"not (?:settled|certain|sure)",
    r"un(?:settled|certain|sure)", r"(?:two|three) (?:stories|accounts|versions|answers|memories)",
    r"depends (?:on )?who(?:m)? you ask", r"denied|denies|deny", r"the other (?:says|said|remember(?:s|ed)?)",
    r"another (?:says|said|remember(?:s|ed)?)", r"argue[sd]?", r"argument",
    r"against (?:him|her|that|them)(?:,| stands)",
)  # fmt: skip
# Somebody is named, or meant, who said so.
TOLD_BY = _phrases(
    r"sa(?:id|ys?|ying)(?! (?:nothing|no\b))", r"told (?:us|me|her|him|them|it|of|that|the)(?! time| hours?)",
    r"tells (?:us|it|of|that)", r"tell (?:us|it|you)", r"told her story", r"remember(?:ed|s)", r"recall(?:ed|s)",
    r"according to", r"by (?:his|her|their|one) account",
    r"in (?:his|her|their|one (?:man|woman)'s) (?:own )?(?:words?|memory)",
    r"(?:he|she|they|hands?|one) (?:put|puts|had|has|told|describes?d?) it", r"describe[sd]", r"swore|swears",
    r"(?:as|so) (?:he|she|they) (?:told|had|put|saw|tells)", r"spoke of|speaks of",
    r"we (?:hear|heard|have it) (?:it )?from", r"(?:his|her) word (?:is|was|for)",
    r"(?:he|she|they|one of them) (?:believed|believes|thought|reckoned)",
    r"one (?:hand|man|woman|stamper|dipper|presser|polisher|gilder|carder|narrator|voice)'s (?:word|memory)",
    r"you (?:will|can|shall|may) hear (?:him|her|them|it)",
    r"we have (?:only )?(?:one|his|her) (?:voice|word|account)",
)  # fmt: skip
# Heard from others, at second hand.
HEARSAY = _phrases(
    r"(?:is|was|are|were) (?:told|said|supposed|reputed)", r"the story (?:goes|is|was|has it)",
    r"(?:they|people|hands|men|women|old (?:men|women|hands)) (?:say|said|told|tell|used to say)", r"hearsay",
    r"(?:handed|passed) down", r"(?:her|his) (?:aunt|mother|father|uncle|grandmother|grandfather)",
    r"heard (?:it )?(?:from|tell|of it)", r"you (?:may|will|might) (?:hear|be told)",
    r"never saw it (?:himself|herself|themselves)", r"second[- ]hand", r"rumou?r", r"tale", r"legend",
    r"stor(?:y|ies)", r"some hands",
)  # fmt: skip
# The teller leaves it open.
OPEN = _phrases(
    r"perhaps", r"possibly", r"probably", r"may (?:well )?have", r"might (?:well )?have", r"seems?", r"seemed",
    r"as far as (?:we|anyone) knows?", r"it is thought", r"we think", r"likely", r"if (?:it|that|the story) is true",
    r"if (?:he|she|they) (?:is|was|are|were) right",
)  # fmt: skip
# What is known to be only a tale.
ONLY_A_TALE = _phrases(
    r"tale", r"legend", r"stor(?:y|ies)", r"rumou?r", r"myth", r"no (?:proof|evidence|record|paper|sign|trace)",
    r"nobody (?:has|can|could) (?:shown?|prove|found|find)", r"nothing (?:bears|we have bears|shows)",
    r"(?:has|have) never (?:been )?(?:found|shown)", r"not true", r"untrue",
    r"we (?:cannot|can't|could not) (?:show|prove|find)", r"do(?:es)? not (?:know|believe)",
    r"some (?:people )?(?:will )?(?:say|tell)", r"(?:they|people) (?:say|used to say)",
    r"you (?:may|will|might) (?:hear|be told)", r"it (?:is|was) said", r"(?:is|was|are|were) supposed",
)  # fmt: skip
_LOOKS_BACK = re.compile(r"^(?:that|so|this|these|such)\b", re.IGNORECASE)
# Without a space before, an apostrophe may open or close what is quoted, but these marks always do.
_QUOTED = re.compile(r"[“\"][^”\"]{3,}[”\"]")


def left_open(sentence: str) -> bool:
    """Whether a sentence says by any sign that it is somebody's word, or not sure."""
    return bool(
        DIFFER.search(sentence)
        or TOLD_BY.search(sentence)
        or HEARSAY.search(sentence)
        or OPEN.search(sentence)
        or _QUOTED.search(sentence)
    )


def differs(sentence: str) -> bool:
    """Whether a sentence says that accounts differ, or that it is not known."""
    return bool(DIFFER.search(sentence) or OPEN.search(sentence))


def only_a_tale(sentence: str) -> bool:
    """Whether a sentence tells something as a tale, or says that nothing bears it out."""
    return bool(ONLY_A_TALE.search(sentence) or OPEN.search(sentence))


def looks_back(sentence: str) -> bool:
    """Whether a sentence speaks of the one before: "That is how she told it"."""
    return bool(_LOOKS_BACK.match(sentence))
