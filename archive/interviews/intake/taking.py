"""Taking one master in, from its bytes to its records: at every moment there is either all of a recording or none.

The bytes are kept by their checksum first; then the pass reads what is kept; then one commit makes the records. A
process that is killed before the commit leaves files that no record names, which are found again or swept.
"""

from __future__ import annotations

import re
import shutil
import stat
import time
from collections.abc import Callable
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from tempfile import mkdtemp
from typing import TYPE_CHECKING, Any

from archive.errors import CannotRead
from archive.interviews.intake import edits, queries
from archive.interviews.intake.aside import set_aside
from archive.interviews.intake.facts import (
    ENDINGS,
    MEDIA_TYPES,
    damage_told,
    kept_facts,
    likeness_kept,
    likeness_read,
    recorded_at,
)
from archive.interviews.intake.naming import kept_name
from archive.interviews.intake.passing import Progress, Stop, pass_over
from archive.interviews.rendition_jobs import Job, MadeFile, do
from archive.store.session import Store

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sqlalchemy.orm import Session

    from archive.audio.one_pass import TakenIn

FORMS = ("webm", "mp3")
_DRAWN_MS = 100
_MAKING = "making"
_OLD_S = 24 * 3600
_SHARE_OF_KEEPING = 0.02


@dataclass(frozen=True)
class Came:
    """What came of a file: "taken in", "same file", "same sound", "unreadable" or "stopped".

    `recording` is the new one, or the one that holds the same; `damage` says what of it could not be read.
    """

    state: str
    says: str
    recording: str = ""
    damage: str = ""
    sha256: str = ""


@dataclass(frozen=True)
class Given:
    """A file to take in, and how: `all_the_same` takes in what another interview holds already.

    `note` is called in the very transaction that makes the recording, so that whoever asked knows for good.
    """

    source: Path
    interview: str
    name: str
    who: str
    all_the_same: bool = False
    note: Callable[[Session, Came], None] = lambda session, came: None


def take_in(
    store: Store,
    given: Given,
    *,
    progress: Progress = lambda share, says: None,
    stop: Stop = lambda: False,
) -> Came:
    """Take a file in. Raises NotFound for an interview that is none, CannotRead for what is no plain file.

    Everything else that may be wrong is told.
    """
    with store.session() as session:
        queries.interview(session, given.interview)
    _check_plain(given)
    progress(0.0, "Keeping the file as it is")
    sha256, size = store.files.keep(given.source)
    with store.session() as session:
        twin = queries.same_file(session, sha256, given.interview)
    if twin is not None and _is_enough(twin, given):
        return _same(twin, given, "same file", sha256)
    try:
        with _folder(store) as folder:
            copies = {form: folder / f"copy.{form}" for form in FORMS}
            found = _passed(store, given, sha256, copies, progress, stop)
            if found is None:
                _forget(store, sha256)
                return Came("stopped", "Stopped. Nothing was kept.", sha256=sha256)
            return _kept(store, given, sha256, size, found, copies)
    except CannotRead as problem:
        return _unreadable(store, given, sha256, problem)


def _check_plain(given: Given) -> None:
    """A link could have been put in a file's place to lead outside; a pipe or a device never ends."""
    if not stat.S_ISREG(given.source.lstat().st_mode):
        allowed = "Give the sound file itself, not a folder, a link, a pipe or a device"
        raise CannotRead(kept_name(given.name), 0, "it is not a plain file", allowed)


def measure(
    store: Store,
    ref: str,
    who: str,
    *,
    progress: Progress = lambda share, says: None,
    stop: Stop = lambda: False,
) -> bool:
    """Find out what was never measured of a recording that came in a collection folder; False when it was stopped."""
    with store.session() as session:
        sha256 = queries.recording(session, ref).master_sha256
    apart = not store.settings.testing
    found = pass_over(store.files.path(sha256), {}, ref, apart=apart, progress=progress, stop=stop)
    if found is None:
        return False
    with store.changing(who) as session:
        row = queries.measurable(session, ref)
        if row is not None and row.master_sha256 == sha256 and not row.likeness:
            alike = likeness_kept(found.fingerprint)
            edits.measured(session, row, kept_facts(found), damage_told(found.breaks), alike, who)
    return True


def tidy(store: Store) -> None:
    """Delete what processes that were killed have left of their work."""
    left = [*store.settings.incoming.glob(f"{_MAKING}/*"), *store.settings.files.glob(".new-*")]
    for place in left:
        if time.time() - place.stat().st_mtime > _OLD_S:
            shutil.rmtree(place) if place.is_dir() else place.unlink(missing_ok=True)


def _passed(
    store: Store, given: Given, sha256: str, copies: dict[str, Path], progress: Progress, stop: Stop
) -> TakenIn | None:
    apart = not store.settings.testing

    def tell(share: float, says: str) -> None:
        progress(_SHARE_OF_KEEPING + (1 - _SHARE_OF_KEEPING) * share, says)

    name = kept_name(given.name)
    found = pass_over(store.files.path(sha256), copies, name, apart=apart, progress=tell, stop=stop)
    if found is not None and found.sha256 != sha256:
        raise CannotRead(name, 0, "it changed on the disk while it was read", "Check the disk, then try again")
    return found


def _kept(store: Store, given: Given, sha256: str, size: int, found: TakenIn, copies: dict[str, Path]) -> Came:
    """Keep the copies, and then the records in one commit."""
    if not given.all_the_same and (twin := _same_sound(store, given, found)):
        _forget(store, sha256)
        return _same(twin, given, "same sound", sha256)
    master = _master(store, given, sha256, size, found, copies)
    with store.changing(given.who) as session:
        twin = queries.same_file(session, sha256, given.interview)
        if twin is not None and _is_enough(twin, given):
            return _same(twin, given, "same file", sha256)
        if not store.files.holds(sha256):
            # Another process took the same file and let it go again.
            store.files.keep(given.source)
        row = edits.add_recording(session, queries.interview(session, given.interview), master)
        says = f"Taken in as {row.ref}." + (f" It is damaged: {master.damage}." if master.damage else "")
        came = Came("taken in", says, row.ref, master.damage, sha256)
        given.note(session, came)
    return came


def _master(
    store: Store, given: Given, sha256: str, size: int, found: TakenIn, copies: dict[str, Path]
) -> edits.Master:
    levels = {zoom: store.files.keep_bytes(each.to_bytes()) for zoom, each in found.levels.items()}
    encoded = {form: path for form, path in copies.items() if path.exists()}
    made = [MadeFile(form, *store.files.keep(path)) for form, path in encoded.items()]
    made += _by_own_packets(store, sha256, found.duration_ms, [form for form in FORMS if form not in encoded])
    made.append(MadeFile("waveform", *levels[_DRAWN_MS]))
    container = found.facts.container
    return edits.Master(
        sha256=sha256,
        size=size,
        media_type=MEDIA_TYPES.get(container, "application/octet-stream"),
        name=_with_ending(given.name, container),
        duration_ms=found.duration_ms,
        codec=found.facts.codec,
        sample_rate=found.facts.rate,
        channels=found.facts.channels,
        facts=kept_facts(found),
        damage=damage_told(found.breaks),
        likeness=likeness_kept(found.fingerprint),
        copies=tuple(made),
        finer={zoom: MadeFile(f"levels {zoom}", *each) for zoom, each in levels.items() if zoom != _DRAWN_MS},
        recorded=_recorded(found),
    )


def _by_own_packets(store: Store, sha256: str, duration_ms: int, forms: list[str]) -> list[MadeFile]:
    """The copies that are made without the pass, in the one way in which missing copies are made."""
    if not forms:
        return []
    outcome = do(Job(0, "", sha256, sha256, duration_ms, (), "", tuple(forms), store.files))
    return list(outcome.made)


def _recorded(found: TakenIn) -> tuple[Any, str] | None:
    broadcast = found.facts.broadcast
    at = recorded_at(broadcast.origination_date, broadcast.origination_time) if broadcast else None
    if broadcast is None or at is None:
        return None
    by = ", ".join(part for part in (broadcast.originator, broadcast.originator_reference) if part)
    return at, by or "the recorder's own clock"


def _with_ending(name: str, container: str) -> str:
    """A file whose name has no ending gets that of its kind, so that it can be opened elsewhere."""
    kept = kept_name(name)
    return (
        kept if re.search(r"\.[A-Za-z0-9]{2,4}$", kept) else kept_name(kept + ENDINGS.get(container, f".{container}"))
    )


def _same_sound(store: Store, given: Given, found: TakenIn) -> queries.Twin | None:
    """The recording that holds the same sound; those about as long that were never measured are measured first."""
    from archive.audio.same_sound import likeness

    with store.session() as session:
        unmeasured = queries.unmeasured(session, found.duration_ms)
    for ref in unmeasured:
        measure(store, ref, given.who)
    with store.session() as session:
        known = queries.likenesses(session)
        alike = ((likeness(likeness_read(kept), found.fingerprint), twin) for twin, kept in known)
        same = [(how, twin) for how, twin in alike if how.same]
    return max(same, key=lambda each: each[0].share)[1] if same else None


def _is_enough(twin: queries.Twin, given: Given) -> bool:
    """Whether what is there already settles it: in the same interview always, else unless the keeper said otherwise."""
    return twin.interview == given.interview or not given.all_the_same


def _same(twin: queries.Twin, given: Given, state: str, sha256: str) -> Came:
    if state == "same file":
        says = f"This very file is {twin.ref} already, of interview {twin.interview}."
    else:
        says = f"This is the same sound as {twin.ref} of interview {twin.interview}, in another file."
    return Came(state, f"{says} It was not taken in again.", twin.ref, sha256=sha256)


def _unreadable(store: Store, given: Given, sha256: str, problem: CannotRead) -> Came:
    fault = problem.faults[0]
    name, reason = kept_name(given.name), f"{fault.found}. {fault.allowed}"
    place = set_aside(store.settings, given.source, sha256, name, given.interview, reason)
    with store.changing(given.who) as session:
        edits.set_aside(session, sha256, name, fault.found)
        came = Came("unreadable", f"Nothing of it can be read: {reason}. It is kept aside in {place}.", sha256=sha256)
        given.note(session, came)
    _forget(store, sha256)
    return came


def _forget(store: Store, sha256: str) -> None:
    """Let go of a file that became no recording, unless records rest on it. Nobody else writes meanwhile."""
    with store.changing("intake") as session:
        if not edits.is_kept(session, sha256):
            store.files.remove(sha256)


@contextmanager
def _folder(store: Store) -> Iterator[Path]:
    """A folder for copies that are being made, on the disk of the home."""
    making = store.settings.incoming / _MAKING
    making.mkdir(parents=True, exist_ok=True, mode=0o700)
    folder = Path(mkdtemp(dir=making))
    try:
        yield folder
    finally:
        shutil.rmtree(folder)
