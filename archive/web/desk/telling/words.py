"""The words of a telling's page: kinds, depths, audiences, themes, fields, and what to do about a warning."""

from __future__ import annotations

from flask_babel import gettext as _

from archive.tours.telling.judging import Trouble, Warning


def kinds() -> dict[str, str]:
    """The five kinds."""
    return {
        "talk": _("Talk"),
        "clip": _("Voice"),
        "object": _("Object in hand"),
        "demonstration": _("Demonstration"),
        "question": _("Question to the group"),
    }


def depths() -> dict[str, str]:
    """How far it goes."""
    return {"glance": _("At a glance"), "closer": _("A closer look"), "metal": _("For people who know metal")}


def audiences() -> dict[str, str]:
    """Whom it suits."""
    return {
        "families": _("Families"),
        "school": _("School groups"),
        "adults": _("Adults"),
        "metal": _("People who know metal"),
    }


def themes() -> dict[str, str]:
    """What it is about."""
    return {
        "metal": _("Metal"),
        "machines": _("Machines"),
        "skill": _("Skill"),
        "women-at-work": _("Women at work"),
        "health": _("Health"),
        "money": _("Money"),
        "making": _("Making"),
        "metal-saved": _("Metal saved"),
        "town": _("The town"),
    }


def fields() -> dict[str, str]:
    """What each field is called on the page."""
    return {
        "station": _("Station"),
        "kind": _("Kind"),
        "title": _("Title"),
        "script": _("Words"),
        "minutes": _("Minutes"),
        "clip": _("Voice"),
        "object": _("Object"),
        "demonstration": _("Demonstration"),
        "themes": _("Themes"),
        "depth": _("Depth"),
        "audiences": _("Suited to"),
        "language": _("Language"),
        "statements": _("Rests on"),
    }


def warning_words(warning: Warning) -> tuple[str, str]:
    """What a sentence says beyond the evidence, and what to do about it."""
    said = {
        Trouble.FIGURE: (
            _("Nothing that this telling rests on bears out “%(what)s”.", what=warning.what),
            _("Tie the statement it comes from, say whose figure it is, or leave it out."),
        ),
        Trouble.UNSUPPORTED: (
            _("Nothing bears this out: “%(what)s”", what=warning.what),
            _("Tell it as a tale and say that nothing shows it, or leave it out."),
        ),
        Trouble.CONTESTED: (
            _("Accounts differ on this: “%(what)s”", what=warning.what),
            _("Say that some say so and others do not, or leave it out."),
        ),
        Trouble.HANDED_DOWN: (
            _("This was only heard from others: “%(what)s”", what=warning.what),
            _("Say “some hands told us”, or leave it out."),
        ),
        Trouble.ONE_VOICE: (
            _("One voice alone tells this: “%(what)s”", what=warning.what),
            _("You may say whose word it is: “One of the hands told us”."),
        ),
    }
    return said[warning.trouble]


def reading_words(ease: float) -> str:
    """How easily words are followed by ear, from their reading ease."""
    steps = ((80, _("very easy to follow")), (65, _("easy to follow")), (50, _("asks for attention")))
    return str(next((words for least, words in steps if ease >= least), _("hard to follow by ear")))
