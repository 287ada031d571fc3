"""What the page's script says, in words that can be translated; names in braces are filled in by the script."""

from __future__ import annotations

from flask_babel import gettext as _


def words() -> list[tuple[str, str]]:
    """Every text by its name."""
    return [
        ("start-now", _("From {time}.")),
        ("end-now", _("To {time}.")),
        ("no-sound", _("The sound cannot be played. The times can be typed all the same.")),
        ("no-edge", _("This could not be played. Load the page again.")),
        ("offline", _("The server cannot be reached. Try again in a moment.")),
        ("signed-out", _("You are signed out. Sign in again; what you typed is lost when you leave this page.")),
        ("playing", _("{what}: playing.")),
        ("ready", _("The new copies are ready.")),
    ]
