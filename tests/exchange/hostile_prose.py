"""Hostile variants of processes, hazards, interviews, statements, tellings and tours."""

from __future__ import annotations

from tests.exchange.hostile import added, swapped, whole
from tests.small_collection import UNNAMED, tone

_CUT, _PACK, _HZ = "processes/pr-cut.md", "processes/pr-pack.md", "hazards/hz-fingers.md"


def _turned(text: str) -> str:
    """The first two headings changed about."""
    first, second = "## What goes in\n", "## What is done\n"
    before, between, after = (
        text.partition(first)[0],
        text.partition(first)[2].partition(second)[0],
        text.partition(second)[2],
    )
    return before + second + after.replace("## What comes out\n", first + between + "## What comes out\n")


PROSE = [
    whole(_CUT, "", "The first line must be +++", line=1),
    whole(_CUT, "# Cutting\n", "The first line must be +++", line=1),
    whole(_CUT, '+++\nref = "pr-cut"\n', "is not closed", line=1),
    whole(_CUT, b"+++\n\xc3\x28\n+++\n", "not UTF-8", line=2),
    swapped(_CUT, 'ref = "pr-cut"', 'ref = "pr-cutting"', "that it lies under", line=2),
    swapped(_CUT, 'ref = "pr-cut"', "ref pr-cut", "it is not TOML", line=2),
    swapped(_CUT, 'summary = "Strip is cut into blanks."', "", "'summary' is missing"),
    swapped(_CUT, '"st-press"', '"st-gone"', "there is no station 'st-gone'", line=5),
    swapped(_CUT, '"hz-noise"', '"hz-gone"', "there is no hazard 'hz-gone'", line=6),
    swapped(_CUT, '"t-brass"', '"t-gone"', "there is no term 't-gone'", line=7),
    swapped(_CUT, '"t-brass"', "7", "It must be a list of texts", line=7),
    swapped(_CUT, '"women-at-work"', '"gossip"', "It may have metal", line=9),
    swapped(_CUT, "comes_after = []", 'comes_after = [{process = "pr-pack", passes = "x"}]', "runs in a loop: pr-"),
    swapped(
        _CUT,
        "comes_after = []",
        'comes_after = [{process = "pr-cut", passes = "x"}]',
        "in a loop: pr-cut comes after pr-cut",
        line=2,
    ),
    swapped(_CUT, "comes_after = []", 'comes_after = ["pr-pack"]', "It must be a list of tables", line=8),
    swapped(_PACK, 'process = "pr-cut"', 'process = "pr-cud"', "the nearest is 'pr-cut'", line=2),
    swapped(_PACK, 'passes = "finished badges"', 'pass = "x"', "'pass' is not known", line=8),
    swapped(_CUT, "comes_after = []", 'comes_after = []\ncolour = "red"', "'colour' is not known", line=9),
    swapped(
        _CUT,
        "+++\n\n##",
        '[[reckonings]]\nname = "output/gross"\ninputs = {day = 1979-05-27}\nabout = ""\n+++\n\n##',
        "a table of words",
    ),
    swapped(
        _CUT,
        "+++\n\n##",
        '[[reckonings]]\nname = "output/gross"\ninputs = {pieces = nan}\nabout = ""\n+++\n\n##',
        "a table of words",
    ),
    swapped(_CUT, "## At a glance", "## At one glance", "'At one glance' is not known", line=25),
    swapped(_CUT, "## At a glance", "### At a glance", "'At a glance' is missing"),
    swapped(_CUT, "One swing, one blank.\n", "", "'At a glance' is empty", line=25),
    swapped(_CUT, "## A closer look", "## At a glance", "stands twice", line=29),
    swapped(_CUT, "## What goes in", "Some text.\n\n## What goes in", "before the first heading", line=12),
    swapped(_CUT, "## What goes in\n\nSoft strip.\n\n", "", "'What goes in' is missing"),
    swapped(_CUT, "1. Set the strip against the stop.\n2. Swing the arm once.", "Swing.", "no numbered list", line=16),
    whole(_CUT, _turned, "not in their order", name="sections out of order"),
    swapped(_HZ, "- A guard in front of the punch.", "A guard.", "Write a list", line=16),
    swapped(_HZ, "## Then", "## Long ago", "'Long ago' is not known", line=8),
    swapped(_HZ, 'limits = ""', "limits = 3", "It must be text", line=5),
    added(_HZ, "\n## Then\n\nAgain.\n", "stands twice", line=25),
]

_I, _IV, _T = "interviews/I-1/interview.toml", "interviews/I-1/transcript.vtt", "interviews/I-1/ties.csv"
_TXT = "interviews/I-2/transcript.txt"

INTERVIEWS = [
    whole(_I, None, "is not in the folder", name="no interview.toml"),
    swapped(_I, 'ref = "I-1"', 'ref = "I-2"', "that it lies under", line=1),
    swapped(_I, 'narrators = ["P-1"]', 'narrators = ["P-9"]', "there is no person 'P-9'", line=6),
    swapped(_I, 'narrators = ["P-1"]', "", "'narrators' is missing"),
    swapped(_I, 'held = "2009-05"', 'held = "spring"', "is not a date", line=3),
    swapped(_I, 'covers = "1949/1971"', 'covers = "1971/1949"', "ends before it starts"),
    swapped(_I, "signed = 2009-05-03", 'signed = "last May"', "Write a day as", line=13),
    swapped(_I, "signed = 2009-05-03", "signed = 2009-05-03T10:00:00", "It must be text", line=13),
    swapped(_I, "signed = 2009-05-03", "signed = 2009-02-30", "it is not TOML", line=13),
    swapped(_I, "[agreement.kiosk]", "[agreement.cinema]", "'cinema' is not known", line=24),
    swapped(_I, "[agreement.kiosk]\nallowed = true", '[agreement.kiosk]\nallowed = "yes"', "true or false", line=25),
    swapped(_I, "[agreement.kiosk]\nallowed = true\n", "[agreement.kiosk]\n", "'allowed' is missing"),
    swapped(_I, 'name = "initials"', 'name = "nickname"', "It may be own, initials or other"),
    swapped(_I, 'name = "initials"', 'name = "other"', "no other name is given"),
    swapped(_I, 'start = "0:08.06"', 'start = "0:80"', "Write a time as", line=38),
    swapped(_I, 'start = "0:08.06"', "start = 8", "It must be text", line=38),
    swapped(_I, 'end = "0:11.95"', 'end = "0:08"', "The end comes later", line=39),
    swapped(_I, 'end = "0:11.95"', 'end = "0:25"', "The recording ends at 0:24"),
    swapped(_I, 'recording = "I-1-a"', 'recording = "I-2-a"', "no recording of this interview"),
    swapped(_I, "review = 2040-01-01", 'review = "never"', "Write a day as"),
    swapped(_I, 'ref = "I-1-a"', 'ref = "I-2-a"', "described twice", where="interviews/I-2/interview.toml"),
    swapped(_I, 'audio = "audio.flac"', 'audio = "../I-2/audio.flac"', "plain name of a file", line=45),
    swapped(_I, 'audio = "audio.flac"', 'audio = "/dev/zero.flac"', "plain name of a file", line=45),
    swapped(_I, 'audio = "audio.flac"', 'audio = "gone.flac"', "is not in the folder", line=45),
    swapped(
        _I, 'audio = "audio.flac"', 'audio = "transcript.vtt"', "text, not sound", where="interviews/I-1/transcript.vtt"
    ),
    swapped(_I, 'also = ["audio.mp3"]', 'also = ["audio.flac"]', "It must end in .webm or .mp3", line=46),
    swapped(_I, 'also = ["audio.mp3"]', 'also = ["audio.mp3", "audio.mp3"]', "more than once", line=46),
    swapped(_I, 'audio = "audio.flac"', 'audio = "audio.mp3"', "is used twice", line=46),
    whole("interviews/I-1/audio.flac", None, "is not in the folder", name="no master", where=_I, line=45),
    whole("interviews/I-1/audio.flac", b"", "it is empty", name="an empty master"),
    whole(
        "interviews/I-1/audio.flac",
        "#EXTM3U\nhttp://x.example/a.mp3\n",
        "it is a playlist",
        name="a playlist called sound",
    ),
    whole("interviews/I-1/audio.flac", b"fLaC" + b"\0" * 200, "", name="a broken master"),
    whole(
        "interviews/I-1/audio.mp3",
        tone(220, 5, "MP3"),
        "A copy holds the same sound",
        name="a copy of another length",
        where=_I,
        line=46,
    ),
    whole(_IV, None, "is not in the folder", name="no transcript", where=_I, line=47),
    whole(_IV, "", "begins with WEBVTT", line=1),
    whole(_IV, "WEBVTTX\n", "begins with WEBVTT", line=1),
    whole(_IV, b"WEBVTT\n\n\xff\xfe", "not UTF-8", line=3),
    swapped(_IV, "00:04.000 --> 00:08.000", "00:04,000 --> 00:08,000", "Write a cue's times", line=8),
    swapped(_IV, "00:04.000 --> 00:08.000", "00:08.000 --> 00:04.000", "end before they start", line=8),
    swapped(_IV, "00:04.000 --> 00:08.000", "00:04.000 --> 00:60.000", "Write a cue's times", line=8),
    swapped(_IV, "00:04.000 --> 00:08.000", "00:04.00 --> 00:08.000", "Write a cue's times", line=8),
    swapped(_IV, "00:04.000 --> 00:08.000", "00:04.000 -> 00:08.000", "belongs to no cue", line=7),
    swapped(_IV, "00:04.000 --> 00:08.000", "00:13.000 --> 00:14.000", "starts before the one above", line=12),
    swapped(
        _IV, "00:04.000 --> 00:08.000", "00:04.000 --> 00:08.000 align:middle", "the setting 'align:middle'", line=8
    ),
    swapped(_IV, "00:04.000 --> 00:08.000", "00:04.000 --> 00:08.000 line:0 line:1", "stands twice", line=8),
    swapped(_IV, "00:04.000 --> 00:08.000", "00:04.000 --> 00:08.000 region:r", "is not described", line=8),
    swapped(_IV, "00:18.500 --> 00:23.500", "00:18.500 --> 00:24.500", "The recording ends at", line=20),
    swapped(_IV, "&amp;", "&", "Write a plain & as &amp;", line=9),
    swapped(_IV, "&amp;", "&nosuch;", "no letter's name", line=9),
    swapped(_IV, "&amp;", "<", "Write a plain < as &lt;", line=9),
    swapped(_IV, "&amp;", "<script>alert(1)</script>", "no mark of a cue", line=9),
    swapped(_IV, "&amp;", "<i>and", "<i> is not closed", line=9),
    swapped(_IV, "&amp;", "and</b>", "closes nothing", line=9),
    swapped(_IV, "&amp;", "-->", "inside the text", line=9),
    swapped(_IV, "<v P-1>He had", "<v>He had", "<v> has no name", line=13),
    swapped(_IV, "<v P-1>He had the quatrefoil cough, poor man.", "<v P-1>", "a cue without words", line=12),
    swapped(_IV, "<v Someone at the door>", f"<v {'x' * 300}>", "a speaker's label of 300", line=20),
    added(_IV, "\nSTYLE\n::cue {}\n", "STYLE after the first cue", line=23),
    added(_IV, "\nNOTE a --> b\n", "an arrow --> inside NOTE", line=23),
    added(_IV, "\nStray words.\n", "belongs to no cue", line=23),
    swapped(_TXT, "[0:00] P-3: Where", "P-3: Where", "before the first time", line=1),
    swapped(_TXT, "[0:15]", "[0:05]", "Times rise", line=3),
    swapped(_TXT, "[0:15]", "[0:61]", "is not a time", line=6),
    swapped(_TXT, "[0:19]", "[0:24]", "inside the recording", line=8),
    swapped(_TXT, "[0:19] P-2: Never, that I heard.", "[0:19]", "a time without words", line=8),
    swapped(_TXT, "[0:19] P-2:", "P-2:", "speaks here without a time", line=8),
    swapped(_T, "I-1-a,0:04,0:08", "I-2-a,0:04,0:08", "no recording of this interview", line=2),
    swapped(_T, "I-1-a,0:04,0:08", "I-1-a,0:08,0:04", "The end comes later", line=2),
    swapped(_T, "I-1-a,0:04,0:08", "I-1-a,0:04,1:08", "The recording ends at", line=2),
    swapped(_T, "I-1-a,0:04,0:08", "I-1-a,0:23.6,0:23.9", "no words are spoken then", line=2),
    swapped(_T, "object,SM.1", "object,SM.11", "the nearest is 'SM.1'", line=2),
    swapped(_T, "object,SM.1", "thing,SM.1", "It may be object", line=2),
    swapped(_T, "period,195X", "period,the war", "is not a date", line=5),
    swapped(_T, "proposed,,", "guessed,,", "It may be accepted or proposed", line=4),
    swapped(_T, "P-3,2010-02-01", "P-3,2010-02-31", "Write a day as", line=2),
]

CLIPS = [
    swapped("clips.csv", "C-2,", "C-1,", "described twice", line=3),
    swapped("clips.csv", "0:12,0:23.5", "0:12,0:30", "The recording ends at 0:24", line=3),
    swapped("clips.csv", "0:12,0:23.5", "0:12,0:12", "The end comes later", line=3),
    swapped("clips.csv", "0:12,0:23.5", "12,23", "Write a time as", line=3),
    swapped("clips.csv", "C-3,I-2,I-2-a", "C-3,I-1,I-2-a", "is a recording of 'I-2'", line=4),
    swapped("clips.csv", "C-3,I-2,I-2-a", "C-3,I-2,I-2-b", "there is no recording 'I-2-b'", line=4),
    swapped("clips.csv", "st-press,SM.1,pr-cut", "st-press,SM.8,pr-cut", "there is no object 'SM.8'", line=2),
    swapped("clips.csv", "The yella", "", "'title' is missing", line=3),
]

_S, _D, _TL, _TO = "statements.toml", "demonstrations.toml", "tellings.toml", "tours/t-short.toml"

TOURS = [
    swapped(_S, 'ref = "s-tools"', 'ref = "s-book"', "described twice", line=14),
    swapped(_S, 'text = "Press hands set their own tools."', "", "'text' is missing"),
    swapped(_S, 'stations = ["st-press"], objects', 'places = ["st-press"], objects', "'places' is not known", line=4),
    swapped(_S, 'side = "for"', 'side = "maybe"', "It may be for or against", line=7),
    swapped(_S, 'kind = "object"', 'kind = "rumour"', "It may be segment", line=8),
    swapped(_S, 'object = "SM.3"', 'object = "SM.4"', "there is no object 'SM.4'", line=11),
    swapped(_S, 'object = "SM.3"', 'document = "x"', "'object' is missing"),
    swapped(_S, 'at = "0:13"', 'at = "0:23.8"', "nobody speaks at 0:23.800", line=25),
    swapped(_S, 'at = "0:13"', 'at = "13 s"', "Write a time as", line=25),
    swapped(_S, 'recording = "I-1-a"', 'recording = "I-1-b"', "there is no recording", line=24),
    swapped(_S, 'document = "The Sandle Post, 3 May 1911"', "", "'document' is missing"),
    swapped(_S, "firsthand = true", "firsthand = 1", "true or false", line=10),
    swapped(_D, 'object = "SM.1"', 'object = "SM.2"', "is no machine", line=3),
    swapped(_D, "minutes = 4.0", "minutes = 0", "It may be from 0.1", line=5),
    swapped(_D, "noise_db = 78.0", "noise_db = 500", "It may be from 0 to 194", line=7),
    swapped(_D, 'cautions = ["Nobody within reach."]', "cautions = []", "has steps and cautions", line=11),
    swapped(_D, 'kind = "operator"', 'kind = "blessing"', "It may be condition survey"),
    swapped(_D, "runs_out = 2034-01-09\nnote", "runs_out = 2023-01-09\nnote", "before it is dated", line=18),
    swapped(_D, 'who = "P-5"', 'who = "P-6"', "there is no person 'P-6'"),
    swapped(_TL, 'kind = "talk"', 'kind = "song"', "It may be talk", line=4),
    swapped(_TL, 'clip = "C-1"', 'clip = "C-9"', "there is no clip 'C-9'"),
    swapped(_TL, 'clip = "C-1"\n', "", "'clip' is missing"),
    swapped(_TL, 'demonstration = "dm-press"\n', "", "'demonstration' is missing"),
    swapped(_TL, 'themes = ["town"]', 'themes = ["weather"]', "It may have metal", line=8),
    swapped(_TL, 'depth = "glance"', 'depth = "deep"', "It may be glance", line=9),
    swapped(_TL, '"families", "school"', '"pirates", "school"', "It may have families", line=10),
    swapped(_TL, "minutes = 2.0", "minutes = -2.0", "It may be from", line=6),
    swapped(_TL, 'statements = ["s-book"]', 'statements = ["s-none"]', "there is no statement", line=12),
    swapped(_TO, 'ref = "t-short"', 'ref = "t-long"', "that it lies under", line=1),
    swapped(_TO, "minutes = 15", "minutes = 9", "its stops take 10.0 minutes", line=5),
    swapped(_TO, "minutes = 15", "minutes = inf", "It may be from", line=5),
    swapped(_TO, "group_size = 8", "group_size = 0", "It may be from 1", line=6),
    swapped(_TO, 'needs = ["quiet"]', 'needs = ["lunch"]', "It may have step-free", line=7),
    swapped(_TO, 'finish = "st-bench"', 'finish = "st-pub"', "there is no station", line=9),
    swapped(_TO, 'tellings = ["tl-badge"]', 'tellings = ["tl-run"]', "is told at 'st-press'", line=24),
    swapped(_TO, 'tellings = ["tl-badge"]', 'tellings = ["tl-none"]', "there is no telling", line=24),
    swapped(_TO, 'inputs = {themes = ["machines"], depth = "glance"}', "inputs = 5", "It must be a table", line=10),
]

_SPACED = UNNAMED.upper().replace(" ", " \n")

UNNAMED_FOUND = [
    swapped("people.csv", "Ned Sallow", UNNAMED, "the name of an unnamed person", line=4),
    swapped("people.csv", "A hand in the loft", f"Not {UNNAMED}", "the name of an unnamed person", line=3),
    swapped("objects.csv", "A finished badge.", f"Worn by {UNNAMED}.", "the name of an unnamed person", line=3),
    swapped("objects.csv", "P-4,1911~", f"{UNNAMED},1911~", "the name of an unnamed person", line=2),
    swapped("terms.csv", "Copper and zinc", UNNAMED.lower(), "the name of an unnamed person", line=3),
    swapped("collection.toml", "A works so small", UNNAMED.upper(), "the name of an unnamed person", line=8),
    swapped("collection.toml", "A works so small", "\\u005aebedee Oakapple Quince", "the name of an unnamed person"),
    swapped(_I, 'title = "Ada Birch', f'title = "{UNNAMED}', "the name of an unnamed person", line=2),
    swapped(_IV, "poor man.", f"poor {_SPACED}.", "the name of an unnamed person", line=13),
    swapped(_IV, "poor man.", "poor Zebedee <i>Oakapple</i> Quince.", "the name of an unnamed person", line=12),
    swapped(_IV, "poor man.", "poor Zebedee&nbsp;Oakapple Quince.", "the name of an unnamed person", line=13),
    swapped(_IV, "<v Someone at the door>", f"<v {UNNAMED}>", "the name of an unnamed person", line=21),
    swapped(_TXT, "P-2: Never", f"{UNNAMED}: Never", "the name of an unnamed person", line=8),
    swapped(_CUT, "Soft strip.", f"Soft strip from {UNNAMED}.", "the name of an unnamed person", line=14),
    swapped("plan/ground.svg", "<title>Ground floor", f"<title>{UNNAMED}", "the name of an unnamed person", line=2),
    swapped(_TO, "Door, press, bench.", f"As {UNNAMED} walked.", "the name of an unnamed person", line=3),
    added(_S, f"# {UNNAMED}\n", "the name of an unnamed person"),
]

VARIANTS = [*PROSE, *INTERVIEWS, *CLIPS, *TOURS, *UNNAMED_FOUND]
