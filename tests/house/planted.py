"""A small collection with things in it that nobody may find."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from archive.rights.decisions import Role
from tests.small_collection import CLOSED_WORD, UNNAMED, append, swap, write_small_collection

# Words that stand only in what is closed: in titles, summaries, transcripts, clips, advice, statements and names.
EMBARGOED = "hollyhock"
WITHDRAWN = "sarsaparilla"
# Only in the interview that is open for research and tours, but not at the kiosk.
NOT_FOR_VISITORS = "forewoman"
# The name of a narrator who gave the kiosk initials alone; the interviewer says it.
BY_INITIALS = "Birch"
# Only in what keepers and the house itself write for keepers: names of files, notes, older words, work in hand.
OFFICE = "cornflower"
REFS = (EMBARGOED, WITHDRAWN)

_INTERVIEW = """
ref = "{word}"
title = "The {word} talk"
held = "2012"
place = "{word} House"
language = "en-GB"
narrators = ["P-{word}"]
interviewers = ["P-3"]
covers = "1881/1889"
summary = "All about {word}."
[agreement]
note = "{word}"
{permissions}
[[recordings]]
ref = "{word}-a"
audio = "audio.flac"
transcript = "transcript.txt"
"""
# A clip that lies in the guard alone.
_GUARDED = f"C-8,I-1,I-1-a,0:08,0:08.05,The {CLOSED_WORD} clip,{CLOSED_WORD},{CLOSED_WORD},st-press,SM.1,pr-cut,\n"
_TRANSCRIPT = """[0:00] P-3: Tell me of the {word}.

[0:05] P-{word}: The {word} stood by the press in eighteen eighty-three.

[0:15] {word}: That was the {word}.
"""
_TIES = """recording,start,end,kind,ref,state,made_by,made_on
{word}-a,0:05,0:15,object,SM.1,accepted,P-3,2013-01-01
{word}-a,0:05,0:15,process,pr-cut,accepted,P-3,2013-01-01
{word}-a,0:05,0:15,station,st-press,accepted,P-3,2013-01-01
{word}-a,0:05,0:15,period,188X,accepted,P-3,2013-01-01
"""
_CLIP = "C-{word},{word},{word}-a,0:05,0:15,The {word} clip,Of {word},{word} advice,st-press,SM.1,pr-cut,hz-fingers\n"
_PERSON = "P-{word},Wilf {word}er,person,narrator,{word} hand,1881,,no,,W.,{word}\n"
_STATEMENT = """
[[statements]]
ref = "s-{word}"
text = "The {word} stood by the press."
about = {{stations = ["st-press"], processes = ["pr-cut"], objects = ["SM.1"]}}
[[statements.evidence]]
side = "for"
kind = "segment"
source = "P-{word}"
firsthand = true
recording = "{word}-a"
at = "0:06"
"""
_TELLING = """
[[tellings]]
ref = "tl-{word}"
station = "st-bench"
kind = "clip"
title = "Hear of the {word}"
minutes = 0.5
clip = "C-{word}"
themes = ["town"]
depth = "glance"
audiences = ["families"]
language = "en-GB"
statements = ["s-{word}"]

[[tellings]]
ref = "tl-talk-{word}"
station = "st-press"
kind = "talk"
title = "Say of the {word}"
minutes = 0.5
script = "The {word} stood just here."
themes = ["town"]
depth = "glance"
audiences = ["families"]
language = "en-GB"
statements = ["s-{word}", "s-book"]
"""
_PURPOSES = ("research", "tour", "kiosk", "web", "publication")


def write_planted_collection(folder: Path) -> Path:
    """The small collection with one interview embargoed for every purpose and one withdrawn."""
    embargoed = "\n".join(f"[agreement.{purpose}]\nallowed = true\nfrom = 2031-05-03" for purpose in _PURPOSES)
    withdrawn = "\n".join(f"[agreement.{purpose}]\nallowed = true\nwithdrawn = 2020-01-01" for purpose in _PURPOSES)
    both = ((EMBARGOED, embargoed), (WITHDRAWN, withdrawn))
    files: dict[str, Any] = {
        "clips.csv": append(_GUARDED + "".join(_CLIP.format(word=word) for word in REFS)),
        "people.csv": append("".join(_PERSON.format(word=word) for word in REFS)),
        "statements.toml": append("".join(_STATEMENT.format(word=word) for word in REFS)),
        "tellings.toml": append("".join(_TELLING.format(word=word) for word in REFS)),
        "interviews/I-1/transcript.vtt": _with_more_said,
        "tours/t-short.toml": swap('["tl-badge"]', '["tl-badge", "tl-hollyhock", "tl-sarsaparilla"]'),
    }
    for word, permissions in both:
        place = f"interviews/{word}"
        files[f"{place}/interview.toml"] = _INTERVIEW.format(word=word, permissions=permissions)
        files[f"{place}/transcript.txt"] = _TRANSCRIPT.format(word=word)
        files[f"{place}/ties.csv"] = _TIES.format(word=word)
        files[f"{place}/audio.flac"] = _sound()
    return write_small_collection(folder, **files)


def _with_more_said(text: str) -> str:
    """The interviewer says a name; and the closed word is said where only the guards of the closure reach."""
    named = swap("tell me about", f"tell me, Mrs {BY_INITIALS}, about")(text)
    guarded = f"00:08.000 --> 00:08.050\n<v P-1>{CLOSED_WORD.title()}, eightpence.\n\n3\n00:08.060 --> 00:11.950"
    return swap("00:08.000 --> 00:12.000", guarded)(named)


def forbidden_words(role: Role) -> tuple[str, ...]:
    """What no answer to this role may hold, in any case of letters."""
    everyone = (CLOSED_WORD, UNNAMED, *UNNAMED.split(), "eighteen eighty", "1880s", "named man's illness")
    if role is Role.KEEPER:
        # The keeper may learn that a record exists, by its reference and dates, and nothing else of it.
        return (*everyone, *(f"{word} {more}" for word in REFS for more in ("talk", "clip", "house", "hand")))
    return (*everyone, *REFS, OFFICE, *((NOT_FOR_VISITORS, BY_INITIALS) if role is Role.VISITOR else ()))


# The pages of a keeper's own work show closed words, to a keeper alone, so that they can be mended. At just these
# addresses, and for just that role, closed words are no leak; the name of a person who is not to be named always is.
IN_CARE = frozenset({"mending.transcript", "versions.compared", "words.typed_file", "closing.page", "closing.one"})
NEVER = (UNNAMED, *UNNAMED.split())


def _sound() -> bytes:
    from tests.small_collection import RECORDING_SECONDS, tone

    return tone(440, RECORDING_SECONDS, "FLAC")
