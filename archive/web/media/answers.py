"""Answering with a kept file: byte ranges, and caches that must ask again each time."""

from __future__ import annotations

from pathlib import Path

from flask import Response, request

# The browser may keep what it got, but asks before every use, so that a withdrawal bites at once.
CACHING = "private, no-cache, must-revalidate"
_BLOCK = 1 << 18


class KeptBytes:
    """The bytes of a kept file, block by block, from wherever it was told to start.

    The file is open only while a block is read: a listener who pauses, or leaves, holds nothing open.
    """

    def __init__(self, path: Path) -> None:
        self._path = path
        self._at = 0

    def seekable(self) -> bool:
        """That a range need not read what comes before it."""
        return True

    def seek(self, at: int) -> None:
        """Start there."""
        self._at = at

    def tell(self) -> int:
        """Where the next block starts."""
        return self._at

    def __iter__(self) -> KeptBytes:
        return self

    def __next__(self) -> bytes:
        with self._path.open("rb") as file:
            file.seek(self._at)
            block = file.read(_BLOCK)
        if not block:
            raise StopIteration
        self._at += len(block)
        return block


def send_kept(path: Path, *, sha256: str, media_type: str, name: str) -> Response:
    """A kept file, whole or the range asked for. The strong ETag is its checksum.

    It has no Last-Modified: by time alone a copy made before a closure was lifted and one made after look alike.
    """
    size = path.stat().st_size
    answer = Response(KeptBytes(path), mimetype=media_type, direct_passthrough=True)
    answer.content_length = size
    answer.headers.set("Content-Disposition", "inline", filename=name)
    answer.headers["Cache-Control"] = CACHING
    answer.set_etag(sha256)
    answer.make_conditional(request, accept_ranges=True, complete_length=size)
    return answer


def send_made(answer: Response, *, etag: str) -> Response:
    """An answer made from records, with the same care for caches."""
    answer.headers["Cache-Control"] = CACHING
    answer.set_etag(etag)
    answer.make_conditional(request)
    return answer
