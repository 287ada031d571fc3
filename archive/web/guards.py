"""What protects every answer: an end to long addresses, and security headers with a strict content policy."""

from __future__ import annotations

from flask import Flask, Response, abort, request

POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self'",
        "media-src 'self'",
        "connect-src 'self'",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
    )
)

# Far more than any page of ours asks; each part of an address is told back in several places of a page.
LONGEST_QUERY = 16_000
LARGEST_KEY = 2**63 - 1

HEADERS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "same-origin",
    "Permissions-Policy": "camera=(), geolocation=(), microphone=()",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "X-Frame-Options": "DENY",
}


def install(app: Flask) -> None:
    """Refuse what is too long, and put the headers on every answer; no cache keeps a page: rights may change today."""
    app.before_request(_refuse_long_addresses)
    app.before_request(_refuse_large_keys)
    app.after_request(_guard)


def _refuse_long_addresses() -> None:
    if len(request.query_string) > LONGEST_QUERY:
        abort(414)


def _refuse_large_keys() -> None:
    """No record has a key that its database cannot hold."""
    if any(isinstance(value, int) and value > LARGEST_KEY for value in (request.view_args or {}).values()):
        abort(404)


def _guard(answer: Response) -> Response:
    for name, value in HEADERS.items():
        answer.headers.setdefault(name, value)
    if request.endpoint != "static":
        answer.headers.setdefault("Cache-Control", "no-store")
    return answer
