"""How a typed transcript is understood: who says what, from when, and what of the file is no words. Pure.

Whatever is not taken as words is left out with a reason; the words of all lines, their speakers and notes, and of all
that is left out, are the words of the file.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from archive.exchange.typed import labels, stamps
from archive.exchange.typed.furniture import furniture
from archive.exchange.typed.model import Block, LeftOut, Options, Raw, Times, TypedLine, TypedTranscript, Way
from archive.exchange.typed.sentences import MOST_LETTERS, in_pieces
from archive.exchange.typed.tables import captions, heads_of
from archive.interviews.transcripts.marks import in_convention

BEFORE = "before the first speaker or time"
ASKED = "before the first line that you chose"
LATE = "a time after the end of the recording"
EARLY = "a time that is earlier than the one above it"
NO_WORDS = "a name without words"
LONE_TIME = "a time without words"
# What stands before the first speaker is a title page. So much more is the talk itself, and a colon within it no name.
_LONGEST_HEAD = 40


@dataclass(frozen=True)
class _Read:
    """A block with the time at its start taken off."""

    block: Block
    text: str
    stamp: stamps.Stamp | None


@dataclass
class _Telling:
    """The lines so far, and who speaks."""

    options: Options
    speaker: str = ""
    unsaid: LeftOut | None = None
    pending: stamps.Stamp | None = None
    latest_ms: int = 0
    lines: list[TypedLine] = field(default_factory=list)
    out: list[LeftOut] = field(default_factory=list)

    def why_not(self, start_ms: int) -> str:
        """Why a time cannot be a line's, "" if it can."""
        if self.options.duration_ms is not None and start_ms >= self.options.duration_ms:
            return LATE
        return EARLY if start_ms < self.latest_ms else ""

    def take(self, stamp: stamps.Stamp, where: str) -> stamps.Stamp | None:
        """The time, if it can be the next line's; else it is left out."""
        if self.options.times is Times.NONE:
            return stamps.Stamp(stamp.at, stamp.after, -1, None, stamp.written)
        if why := self.why_not(stamp.start_ms):
            self.out.append(LeftOut(where, stamp.written, why))
            return None
        return stamp

    def speak(self, name: str, where: str) -> None:
        """Somebody begins; a name above it after which nothing was said is left out."""
        self.drop_unsaid()
        self.speaker, self.unsaid = name, LeftOut(where, name, NO_WORDS)

    def drop_unsaid(self) -> None:
        """Leave out a name that had no words."""
        if self.unsaid:
            self.out.append(self.unsaid)
        self.unsaid = None

    def wait(self, stamp: stamps.Stamp | None, where: str) -> None:
        """A time that stands alone is the next line's."""
        if self.pending and stamp:
            self.out.append(LeftOut(where, self.pending.written, LONE_TIME))
        self.pending = stamp or self.pending

    def say(self, text: str, stamp: stamps.Stamp | None, where: str, *, notes: Sequence[str] = ()) -> None:
        """One line, in several where it is long."""
        if not text.strip():
            self.wait(stamp, where)
            return
        if stamp is None:
            stamp = self.pending
        elif self.pending:
            self.out.append(LeftOut(where, self.pending.written, LONE_TIME))
        self.pending = None
        self.unsaid = None
        timed = stamp is not None and stamp.start_ms >= 0
        start = stamp.start_ms if stamp and timed else None
        end = stamp.end_ms if stamp and timed else None
        self.latest_ms = start if start is not None else self.latest_ms
        written = [stamp.written] if stamp and stamp.written else []
        self._lines(text, start, end, [*notes, *written], where)

    def _lines(self, text: str, start: int | None, end: int | None, notes: list[str], where: str) -> None:
        whole = " ".join(text.split())
        long = len(whole) > MOST_LETTERS or (self.options.split and end is None)
        pieces = in_pieces(whole) if long else [whole]
        for number, piece in enumerate(pieces):
            said, gone = _in_convention(piece)
            note = "; ".join([*(notes if number == 0 else ()), *gone])
            until = end if len(pieces) == 1 else None
            self.lines.append(TypedLine(start if number == 0 else None, until, self.speaker, said, note, where))


def understand(raw: Raw, options: Options) -> TypedTranscript:
    """The lines of a file, and what is left out of it."""
    rows, out = captions(raw.blocks, options)
    columns = heads_of(raw.blocks)
    blocks = [block for block in rows if block.text.strip()]
    around = furniture(blocks)
    for at, block in enumerate(blocks):
        if at in around or block.number < options.first:
            out.append(LeftOut(block.where, block.text, around.get(at, ASKED)))
    read = _read(
        [block for at, block in enumerate(blocks) if at not in around and block.number >= options.first], options
    )
    way = _way(read, options)
    telling = _Telling(options, out=out)
    begun = 0 if options.first else _begin(read, way, options)
    telling.out += [LeftOut(each.block.where, each.block.text, BEFORE) for each in read[:begun]]
    for each in read[begun:]:
        _tell(each, way, telling)
    telling.drop_unsaid()
    if telling.pending:
        telling.out.append(LeftOut("the end", telling.pending.written, LONE_TIME))
    left = tuple(each for each in (*raw.left_out, *telling.out) if each.text.strip())
    return TypedTranscript(tuple(telling.lines), left, raw.form, raw.told, way, columns)


def _read(blocks: Sequence[Block], options: Options) -> list[_Read]:
    """Every block without the time at its start. Times without brackets are times where several lines begin so."""
    looked = [stamps.leading(b.text, options.times, bare=True) for b in blocks if b.start_ms is None]
    bare = sum(1 for stamp in looked if stamp is not None) > 1
    found = []
    for block in blocks:
        stamp = None if block.start_ms is not None else stamps.leading(block.text, options.times, bare=bare)
        found.append(_Read(block, block.text[stamp.after :].lstrip() if stamp else block.text.lstrip(), stamp))
    return found


def _way(read: Sequence[_Read], options: Options) -> Way:
    if any(each.block.speaker for each in read) and options.speakers is Way.AUTO:
        return Way.NONE
    if options.speakers is not Way.AUTO:
        return options.speakers
    return labels.best_way([(each.block, each.text) for each in read], options)


def _begin(read: Sequence[_Read], way: Way, options: Options) -> int:
    """The place of the first block that has a time or names a speaker; 0 where none does, or far down alone."""
    for at, each in enumerate(read):
        given = each.block.start_ms is not None or each.block.speaker or each.stamp
        if given or (each.text and labels.find(each.block, each.text, way, options)):
            return at if at <= _LONGEST_HEAD else 0
    return 0


def _tell(each: _Read, way: Way, telling: _Telling) -> None:
    """One block: the time and the speaker at its start, and its words, which times in the middle divide."""
    block, text, where = each.block, each.text, each.block.where
    if block.speaker:
        telling.speak(block.speaker, where)
    if block.start_ms is not None:
        _tell_caption(block, way, telling)
        return
    stamp = telling.take(each.stamp, where) if each.stamp else None
    if label := labels.find(block, text, way, telling.options):
        telling.speak(label.name, where)
        text = text[label.after :]
        if stamp is None and (inner := stamps.leading(text, telling.options.times, bare=False)):
            stamp, text = telling.take(inner, where), text[inner.after :]
    _tell_words(text, stamp, where, telling)


def _tell_caption(block: Block, way: Way, telling: _Telling) -> None:
    assert block.start_ms is not None
    text = block.text
    label = None if block.speaker else labels.find(block, text, way, telling.options)
    if label:
        telling.speak(label.name, block.where)
        text = text[label.after :]
    elif not block.speaker and way is Way.NONE:
        telling.speaker = ""
    given = stamps.Stamp(0, 0, block.start_ms, block.end_ms, "")
    why = telling.why_not(block.start_ms)
    if why:
        from_to = f"{block.start_ms / 1000:g}"
        telling.out.append(LeftOut(block.where, from_to, f"{why}, in seconds"))
    telling.say(text, None if why else given, block.where)


def _tell_words(text: str, stamp: stamps.Stamp | None, where: str, telling: _Telling) -> None:
    at, last = 0, stamp
    for inner in stamps.bracketed(text, telling.options.times):
        latest = last.start_ms if last and last.start_ms >= 0 else telling.latest_ms
        none = telling.options.times is Times.NONE
        if not none and (inner.start_ms < latest or telling.why_not(inner.start_ms)):
            continue
        telling.say(text[at : inner.at], last, where)
        last, at = telling.take(inner, where), inner.after
    telling.say(text[at:], last, where)


def _in_convention(text: str) -> tuple[str, list[str]]:
    """The words with the marks of what was not heard written the one way, and how the file wrote them."""
    pieces = in_convention(text)
    said = "".join(piece.text for piece in pieces if piece.kind != "gone")
    return said, [piece.text for piece in pieces if piece.kind == "gone"]


def all_words(transcript: TypedTranscript) -> Iterable[str]:
    """Every text that an understanding carries, for whoever counts that nothing is lost."""
    for line in transcript.lines:
        yield from (line.speaker, line.text, line.note)
    yield from (each.text for each in transcript.left_out)
