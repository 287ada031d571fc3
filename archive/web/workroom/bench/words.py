"""What the bench's script says, in words that can be translated; names in braces are filled in by the script."""

from __future__ import annotations

from flask_babel import gettext as _


def words() -> list[tuple[str, str]]:
    """Every text by its name."""
    return [*_of_lines(), *_of_keeping(), *_of_ties(), *_of_deeds(), *_of_keys()]


def _of_lines() -> list[tuple[str, str]]:
    return [
        ("empty", _("(no words)")),
        ("nobody", _("Nobody named")),
        ("somebody-else", _("Somebody else…")),
        ("name-of-speaker", _("What to call who speaks")),
        ("who-speaks", _("Who speaks")),
        ("words-of", _("Words at {time}, {who}")),
        ("closed", _("closed")),
        ("doubtful", _("doubtful")),
        ("tied", _("{count} tied")),
        ("no-sound", _("The sound cannot be played. The words can be mended all the same.")),
    ]


def _of_keeping() -> list[tuple[str, str]]:
    return [
        ("kept-kept", _("Kept.")),
        ("kept-unsent", _("Not sent yet; it stands in this browser.")),
        ("kept-sending", _("Keeping…")),
        ("kept-offline", _("The server cannot be reached. It stands in this browser, and is sent as soon as it can.")),
        ("kept-refused", _("Not kept:")),
        ("kept-signed-out", _("You are signed out. It stands in this browser: sign in again, and come back here.")),
        ("kept-choose", _("Waits for you to choose.")),
        ("back-again", _("What had not been sent the last time is here again.")),
        ("merged", _("{who} changed the transcript meanwhile. Both are together now; {count} places are theirs.")),
        ("both-changed", _("{who} changed them too. Choose for each; everything else is together already.")),
        ("mine", _("Mine")),
        ("line-gone", _("(taken away)")),
    ]


def _of_ties() -> list[tuple[str, str]]:
    return [
        ("tie", _("Tie")),
        ("untie", _("Untie")),
        ("tied-to-none", _("Nothing yet.")),
        ("suggested-none", _("No word of the thesaurus, and no name, is in this line.")),
        ("proposed", _("proposed")),
        ("tied-now", _("Tied to {name}.")),
        ("untied", _("No longer tied to {name}.")),
        ("lift", _("Open again")),
        ("closed-none", _("Nothing is closed.")),
        ("closed-now", _("It is closed.")),
        ("lifted", _("It is open again.")),
        ("no-time", _("Write a time as 1:02.500.")),
    ]


def _of_deeds() -> list[tuple[str, str]]:
    return [
        ("undo-none", _("There is nothing to undo.")),
        ("redo-none", _("There is nothing to do again.")),
        ("undo-changed", _("Somebody else has changed those lines since, so they are left as they are.")),
        ("no-doubtful", _("No line is doubtful.")),
        ("found", _("{count} lines would change.")),
        ("found-none", _("Nothing would change.")),
        ("replaced", _("{count} lines changed.")),
        ("state-none", _("No words yet.")),
        ("state-draft", _("A draft, marked so wherever it is read.")),
        ("state-checked", _("Checked by a person.")),
        ("is-checked", _("This is checked")),
        ("is-draft", _("This is a draft after all")),
        ("checked-now", _("It counts as checked now.")),
        ("draft-now", _("It counts as a draft again.")),
    ]


def _of_keys() -> list[tuple[str, str]]:
    return [
        ("no-keys", _("none")),
        ("press-keys", _("Press the new keys for: {deed}. Escape leaves them as they are.")),
        (
            "keys-write",
            _("{keys} is needed for writing or moving. Take Ctrl or Alt with it, or F2 to F12."),
        ),
        ("keys-left", _("Left as they were.")),
        ("keys-changed", _("They are {keys} now.")),
        ("keys-taken", _("They are {keys} now. “{deed}” had them and has none now.")),
        ("as-first", _("All keys are as at first.")),
    ]
