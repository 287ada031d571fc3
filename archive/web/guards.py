"""What protects every answer: security headers with a strict content policy."""

from __future__ import annotations

from flask import Flask, Response, request

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
    """Put the headers on every answer; pages are never kept by caches, since rights may change today."""
    app.after_request(_guard)


def _guard(answer: Response) -> Response:
    for name, value in HEADERS.items():
        answer.headers.setdefault(name, value)
    if request.endpoint != "static":
        answer.headers.setdefault("Cache-Control", "no-store")
    return answer
