"""A number with what it counts, as one says it."""

from __future__ import annotations


def counted(number: float, one: str, many: str = "") -> str:
    """Say "1 thing", "2 things", "2.5 minutes"; `many` is given where it is not `one` with an s."""
    return f"{number:g} {one if number == 1 else many or one + 's'}"
