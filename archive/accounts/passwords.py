"""Passwords, hashed by Argon2id (RFC 9106) with the library's own parameters."""

from __future__ import annotations

import argon2

LEAST_LENGTH = 10
_HASHER = argon2.PasswordHasher()
# Checked against when no account has the name, so that both answers take the same time.
_NOBODY = _HASHER.hash("nobody signs in with this")


def hash_password(password: str) -> str:
    """The hash to keep."""
    return _HASHER.hash(password)


def matches(password: str, kept_hash: str | None) -> bool:
    """Whether the password is the one that was hashed; never true without a hash."""
    try:
        _HASHER.verify(kept_hash or _NOBODY, password)
    except (argon2.exceptions.VerifyMismatchError, argon2.exceptions.InvalidHashError):
        return False
    return bool(kept_hash)
