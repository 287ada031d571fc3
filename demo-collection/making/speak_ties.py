"""Writes what the lines of a script speak of, its clips and its closures, at the times of the cues."""

from __future__ import annotations

import csv
import re
import tomllib
import zlib
from collections.abc import Iterable, Iterator
from pathlib import Path

from making.speak_script import Script, read_script

Times = list[tuple[int, int]]
MADE_BY, MADE_ON = "keeper", "2019-11-05"
_KINDS = (
    ("object", r"TY\..+"), ("process", r"pr-.+"), ("station", r"st-.+"),
    ("person", r"P-\d+"), ("term", r"t-.+"), ("period", r"\d{3}[\dX].*"),
)
_CLIP_COLUMNS = "ref interview recording start end title summary content_advice stations objects processes".split()
_CUE = re.compile(r"(\d+):(\d\d):(\d\d)\.(\d{3}) --> (\d+):(\d\d):(\d\d)\.(\d{3})")


def clock(ms: int) -> str:
    """A time as the collection's tables write it, `m:ss.mmm`."""
    return f"{ms // 60000}:{ms // 1000 % 60:02d}.{ms % 1000:03d}"


def kind_of(ref: str) -> str:
    for kind, pattern in _KINDS:
        if re.fullmatch(pattern, ref):
            return kind
    raise ValueError(f"'{ref}' in a script is no object, process, station, person, term or period")


def _runs(script: Script) -> Iterator[tuple[int, int, str]]:
    """Each tie with the first and last line of every unbroken run of lines that carry it."""
    refs = sorted({ref for line in script.lines for ref in line.ties})
    for ref in refs:
        start = None
        for number, line in enumerate([*script.lines, None]):
            holds = line is not None and ref in line.ties
            if holds and start is None:
                start = number
            elif not holds and start is not None:
                yield start, number - 1, ref
                start = None


def _state(ref: str, at: int) -> str:
    """A few ties to terms are left as proposed, for the keeper's list of work to do."""
    return "proposed" if kind_of(ref) == "term" and zlib.crc32(f"{ref}{at}".encode()) % 9 == 0 else "accepted"


def write_ties(script: Script, times: Times, path: Path) -> None:
    """The interview's ties.csv, in order of time."""
    rows = (
        [f"{script.ref}-a", clock(times[first][0]), clock(times[last][1]), kind_of(ref), ref,
         _state(ref, first), MADE_BY, MADE_ON]
        for first, last, ref in sorted(_runs(script))
    )
    _write_table(path, "recording start end kind ref state made_by made_on".split(), rows)


def _write_table(path: Path, columns: list[str], rows: Iterable[list[str]]) -> None:
    with path.open("w", encoding="utf-8", newline="") as table:
        writer = csv.writer(table, lineterminator="\n")
        writer.writerow(columns)
        writer.writerows(rows)


def close_spans(script: Script, times: Times, path: Path) -> None:
    """Sets the times of the interview's closures, from a breath before the first word to one after the last."""
    spans = [span for name, span in sorted(script.spans.items()) if name.startswith("X")]
    if not spans:
        return
    text = path.read_text(encoding="utf-8")
    head, *blocks = text.split("[[closures]]\n")
    if len(blocks) != len(spans):
        raise ValueError(f"{path}: {len(blocks)} closures stand there, the script marks {len(spans)}")
    for number, (first, last) in enumerate(spans):
        start = max(times[first][0] - 120, times[first - 1][1])
        end = min(times[last][1] + 200, times[last + 1][0])
        block = re.sub(r'(?m)^start = ".*"$', f'start = "{clock(start)}"', blocks[number])
        blocks[number] = re.sub(r'(?m)^end = ".*"$', f'end = "{clock(end)}"', block)
    path.write_text("[[closures]]\n".join([head, *blocks]), encoding="utf-8", newline="\n")


def read_times(transcript: Path) -> Times:
    """The cues' times of a transcript."""
    found = (list(map(int, match.groups())) for match in _CUE.finditer(transcript.read_text(encoding="utf-8")))
    return [tuple(((h * 60 + m) * 60 + s) * 1000 + f for h, m, s, f in (at[:4], at[4:])) for at in found]


def _clip_rows(scripts: Path, interviews: Path) -> Iterator[list[str]]:
    told = tomllib.loads((scripts / "clips.toml").read_text(encoding="utf-8"))
    for path in sorted(scripts.glob("I-*.txt")):
        script, times = read_script(path), read_times(interviews / path.stem / "transcript.vtt")
        for ref, (first, last) in script.spans.items():
            if not ref.startswith("C"):
                continue
            refs = list(dict.fromkeys(tie for line in script.lines[first : last + 1] for tie in line.ties))
            ties = ["; ".join(r for r in refs if kind_of(r) == kind) for kind in ("station", "object", "process")]
            words = told[ref]
            yield [ref, script.ref, f"{script.ref}-a", clock(times[first][0]), clock(times[last][1]),
                   words["title"], words["summary"], words.get("content_advice", ""), *ties]


def write_clips(scripts: Path, interviews: Path, path: Path) -> None:
    """The collection's clips.csv, in order of reference."""
    _write_table(path, _CLIP_COLUMNS, sorted(_clip_rows(scripts, interviews)))
