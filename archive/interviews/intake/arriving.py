"""The bytes of a file on its way in: written piece by piece to the disk, so that it goes on after any break.

The row of the upload says how much has arrived for good; what lies in the file beyond that is written over.
"""

from __future__ import annotations

import os
import shutil
from pathlib import Path

from archive.errors import Conflict, Fault, Unacceptable
from archive.interviews.intake import edits, queries
from archive.interviews.model import Upload
from archive.settings import Settings
from archive.store.session import Store
from archive.values.identifiers import is_ref

# What is kept free for the database, its log and the copies to listen to.
_KEPT_FREE = 256 << 20
# A file lies on the disk twice for a while: as it arrived, and as it is kept.
_TIMES = 2
_LARGEST = 1 << 62
_SAME_AGAIN = "These bytes are not those that came before. Choose the same file as at first, or drop it and begin anew."


def free_for_files(settings: Settings, expected: int = 0) -> int:
    """How large a file may be that begins to arrive now, beside what is still to come of others."""
    settings.home.mkdir(parents=True, exist_ok=True, mode=0o700)
    return max(0, (shutil.disk_usage(settings.home).free - _KEPT_FREE) // _TIMES - expected)


def place_of(settings: Settings, upload: Upload) -> Path:
    """Where the bytes of an upload lie."""
    return settings.incoming / upload.key


def begin(store: Store, *, interview: str, name: str, size: int, who: str) -> Upload:
    """Make ready for a file. Unacceptable when the interview is none, the file is empty or the disk too small."""
    store.settings.incoming.mkdir(parents=True, exist_ok=True, mode=0o700)
    with store.changing(who) as session:
        faults = []
        if not is_ref(interview) or interview not in queries.interview_refs(session):
            faults.append(Fault("interview", 0, f"there is no interview '{interview[:64]}'", "Choose one of the list"))
        if not 0 < size < _LARGEST:
            faults.append(Fault("file", 0, "it is empty", "Choose a file with sound in it"))
        room = free_for_files(store.settings, queries.bytes_expected(session))
        if size > room:
            found = f"it has {size / 1e9:.1f} GB, and the disk has room for {room / 1e9:.1f} GB"
            faults.append(Fault("file", 0, found, "Make room on the disk of the home, then try again"))
        if faults:
            raise Unacceptable(faults, "The file")
        return edits.begin_upload(session, interview, name, size, who)


def take_piece(store: Store, key: str, offset: int, piece: bytes, who: str) -> Upload:
    """Write a piece at its place, and note how far the file has come once it is safe on the disk.

    A piece may begin before what has arrived already: then those bytes must be the same. That is how a piece whose
    answer was lost is sent again, and how a file chosen again after a break is known to be the same file.
    """
    with store.changing(who) as session:
        row = queries.upload(session, key)
        if row.state != "arriving":
            raise Conflict(f"{row.file_name} is {row.state}; nothing more can be sent of it.")
        if offset > row.received:
            raise Conflict(f"The next byte is {row.received}, not {offset}. Go on from there.")
        if offset + len(piece) > row.size:
            raise Unacceptable([Fault("file", 0, "there is more of it than was said", "Begin anew")], row.file_name)
        edits.advance(row, max(row.received, _write(place_of(store.settings, row), row.received, offset, piece)))
        return row


def _write(place: Path, received: int, offset: int, piece: bytes) -> int:
    """Write what is new of a piece; gives where it ends."""
    known = piece[: received - offset]
    descriptor = os.open(place, os.O_RDWR | os.O_CREAT | getattr(os, "O_BINARY", 0), 0o600)
    with os.fdopen(descriptor, "r+b") as file:
        file.seek(offset)
        if file.read(len(known)) != known:
            raise Conflict(_SAME_AGAIN)
        file.seek(offset + len(known))
        file.write(piece[len(known) :])
        file.truncate(max(received, offset + len(piece)))
        file.flush()
        os.fsync(file.fileno())
    return offset + len(piece)


def drop(store: Store, key: str, who: str) -> Upload:
    """Give up an upload, and delete its bytes."""
    with store.changing(who) as session:
        row = queries.upload(session, key)
        edits.drop_upload(row)
    place_of(store.settings, row).unlink(missing_ok=True)
    return row
