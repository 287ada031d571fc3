"""The planner's fields and reasons in the words of the Desk."""

from __future__ import annotations

import math

from flask_babel import gettext as _

from archive.tours.model import Tour


def field_words(field: str) -> str:
    """A field of the wishes as the form calls it."""
    words = {
        "date": _("Day"),
        "starts_at": _("Starts at"),
        "minutes": _("How long it may take"),
        "group_size": _("How many people"),
        "audience": _("Who they are"),
        "start": _("Where the group meets"),
        "finish": _("Ends at"),
        "depth": _("How deep"),
        "language": _("Language"),
        "themes": _("What they come for"),
        "must_stations": _("Must be visited"),
        "must_tellings": _("Must be told"),
        "not_stations": _("Not to be visited"),
        "not_tellings": _("Not to be told"),
        "step_free": _("Without steps"),
        "narrow": _("Wide enough for a wheelchair or pushchair"),
        "no_lift": _("Without the lift"),
        "quiet": _("Quiet"),
        "no_sudden_noise": _("No sudden noise"),
        "captions": _("Voices only with their words to read"),
        "spoken_description": _("Nothing that must be seen to be understood"),
        "seats_every": _("A seat at least every, in minutes"),
        "voice_every": _("A voice at least every, in minutes"),
        "follow_the_metal": _("Follow the metal"),
        "demonstrations": _("Machines may be run"),
        "demonstration_windows": _("When they may be run"),
        "closed_rooms": _("Rooms that are closed that day"),
        "guide": _("Guide"),
        "pinned": _("What is pinned"),
    }
    return str(words.get(field, field))


def how_sure(tour: Tour, *, as_planned: bool) -> str:
    """How near to the best a tour is, in plain words; of one that was changed by hand, that it was."""
    if "proven" not in tour.outcome:
        return str(_("Written by hand. “Finish the rest for me” plans what is not pinned."))
    if not as_planned:
        return str(_("Changed by hand since it was planned."))
    if tour.outcome["proven"]:
        return str(_("This is the best there is (proven)."))
    percent = math.ceil(100 * tour.outcome["gap"])
    return str(_("Within %(percent)s%% of the best there could be.", percent=max(percent, 1)))
