"""The fault of a quantity that cannot be read; the reading of fields turns it into one fault among all."""

from __future__ import annotations

from archive.errors import LemelError


class NotRead(LemelError):
    """What was written cannot be read as the quantity asked for."""

    def __init__(self, found: str, allowed: str) -> None:
        self.found, self.allowed = found, allowed
        super().__init__(f"{found}. {allowed}")
