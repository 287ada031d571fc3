"""Every deed at the bench that has a key: its name, its words, and the keys it has until somebody changes them."""

from __future__ import annotations

from dataclasses import dataclass

from flask_babel import gettext as _


@dataclass(frozen=True)
class Deed:
    """A deed, the group it stands in, and its first key."""

    name: str
    group: str
    words: str
    key: str


def deeds() -> list[Deed]:
    """All of them, in the order of the page's list of keys."""
    return [Deed(name, group, words, key) for group, rows in _groups() for name, words, key in rows]


def _groups() -> list[tuple[str, list[tuple[str, str, str]]]]:
    return [
        (_("Listen"), _listening()),
        (_("Move"), _moving()),
        (_("Mend the line"), _mending()),
        (_("Mend its times"), _timing()),
        (_("The whole transcript"), _whole()),
    ]


def _listening() -> list[tuple[str, str, str]]:
    return [
        ("play", _("Play or pause"), "F2"),
        ("back", _("Back two seconds"), "F4"),
        ("again", _("Play this line from its start"), "Alt+P"),
        ("slower", _("Slower, at the same pitch"), "F8"),
        ("faster", _("Faster, at the same pitch"), "F9"),
    ]


def _moving() -> list[tuple[str, str, str]]:
    return [
        ("next", _("Next line"), "Alt+ArrowDown"),
        ("previous", _("Line before"), "Alt+ArrowUp"),
        ("next-doubtful", _("Next doubtful line"), "Alt+N"),
        ("previous-doubtful", _("Doubtful line before"), "Alt+B"),
        ("here", _("To the line that is heard"), "Alt+L"),
    ]


def _mending() -> list[tuple[str, str, str]]:
    return [
        ("split", _("Split the line at the cursor"), "Ctrl+Enter"),
        ("join", _("Join with the next line"), "Alt+J"),
        ("speaker", _("Choose who speaks"), "Alt+S"),
        ("other-speaker", _("The next of those who speak here"), "Alt+O"),
        ("unclear", _("Mark the chosen words unclear"), "Alt+U"),
        ("inaudible", _("Mark inaudible here"), "Alt+I"),
        ("right", _("The line is right: doubtful no longer, and on"), "Alt+K"),
        ("doubt", _("The line is doubtful"), "Alt+D"),
        ("remove", _("Take the line away"), "Alt+Delete"),
        ("tie", _("Tie the line to the first suggestion"), "Alt+A"),
        ("ties", _("To what the line is tied to"), "Alt+T"),
        ("close", _("Close this passage"), "Alt+C"),
    ]


def _timing() -> list[tuple[str, str, str]]:
    return [
        ("start-earlier", _("Start 10 ms earlier"), "Alt+,"),
        ("start-later", _("Start 10 ms later"), "Alt+."),
        ("start-much-earlier", _("Start 100 ms earlier"), "Alt+Shift+,"),
        ("start-much-later", _("Start 100 ms later"), "Alt+Shift+."),
        ("end-earlier", _("End 10 ms earlier"), "Alt+["),
        ("end-later", _("End 10 ms later"), "Alt+]"),
        ("end-much-earlier", _("End 100 ms earlier"), "Alt+Shift+["),
        ("end-much-later", _("End 100 ms later"), "Alt+Shift+]"),
        ("start-here", _("Start where the sound is now"), "Alt+Home"),
        ("end-here", _("End where the sound is now"), "Alt+End"),
    ]


def _whole() -> list[tuple[str, str, str]]:
    return [
        ("undo", _("Undo"), "Ctrl+Z"),
        ("redo", _("Do again"), "Ctrl+Y"),
        ("replace", _("Find and replace"), "Alt+G"),
        ("keep", _("Keep now"), "Ctrl+S"),
        ("keys", _("Keys: see and change them"), "F1"),
    ]
