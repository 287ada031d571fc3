"""Answering with a kept file: byte ranges, and caches that must ask again each time."""

from __future__ import annotations

from pathlib import Path

from flask import Response, request, send_file

# The browser may keep what it got, but asks before every use, so that a withdrawal bites at once.
CACHING = "private, no-cache, must-revalidate"


def send_kept(path: Path, *, sha256: str, media_type: str, name: str) -> Response:
    """A kept file, whole or the ranges asked for. The strong ETag is its checksum; its own file times stay unsaid."""
    answer = send_file(path, mimetype=media_type, download_name=name, conditional=False, etag=sha256)
    # By time alone a copy made before a closure was lifted and one made after cannot be told apart.
    answer.headers.pop("Last-Modified", None)
    answer.headers["Cache-Control"] = CACHING
    answer.make_conditional(request, accept_ranges=True, complete_length=path.stat().st_size)
    return answer


def send_made(answer: Response, *, etag: str) -> Response:
    """An answer made from records, with the same care for caches."""
    answer.set_etag(etag)
    answer.headers["Cache-Control"] = CACHING
    answer.make_conditional(request)
    return answer
