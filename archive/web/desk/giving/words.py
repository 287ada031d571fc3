"""What the scripts of the giving page say, in the reader's language; {…} is filled in on the device."""

from __future__ import annotations

import json

from flask_babel import gettext as _


def giving_words() -> dict[str, str]:
    """Every sentence by its name."""
    return {**_keeping_time(), **_log(), **_keeping(), **_handing_in()}


def words_as_json() -> str:
    """The same as JSON, in one order."""
    return json.dumps(giving_words(), ensure_ascii=False, sort_keys=True)


def _keeping_time() -> dict[str, str]:
    return {
        "start": _("Start"),
        "arrive": _("Arrived: {name}"),
        "leave": _("Leave for {name}"),
        "finish": _("Finish"),
        "again": _("Give it again"),
        "before": _("Not started yet."),
        "on_time": _("On time."),
        "behind": _("{minutes} behind."),
        "ahead": _("{minutes} ahead."),
        "ends": _("You end at {clock}."),
        "ends_late": _("You end at {clock}, {minutes} late."),
        "over": _("Finished after {minutes}."),
        "minutes": _("{minutes} min"),
        "no_drop": _("Nothing is left that could be dropped to save time."),
        "drop_saves": _("saves {minutes}"),
        "drop_none": _("Even with all dropped that may be, you end {minutes} late. Ask the group, or leave from here."),
    }


def _log() -> dict[str, str]:
    return {
        "question": _("Question"),
        "note": _("Note"),
        "incident": _("Incident"),
        "written": _("Written down."),
        "taken_back": _("The last step was taken back."),
        "log_fails": _("This device cannot keep the log: {problem}. Write it on paper."),
        "log_short": _("This log lasts only while this page is open. Save it as a file before you close it."),
        "log_saved": _("Saved as a file. Hand it in at the Desk, under Outings."),
    }


def _keeping() -> dict[str, str]:
    return {
        "keep_none": _("This page cannot be kept here: its address is not a secure one (https). Carry the pack."),
        "keep_asks": _("Being kept for when you are out of reach…"),
        "keep_done": _("Kept here: page, plan, sheet and voices ({sounds}), since {since}, to be used until {until}."),
        "keep_part": _("Only {kept} of {count} parts are kept on this device. Stay in reach and load this page again."),
        "keep_unreached": _("Out of reach. What is kept here is from {since}, to be used until {until}."),
        "keep_signed_out": _("You are signed out. What is kept here is from {since}. Sign in to bring it up to date."),
        "keep_refused": _("This tour is no longer open to you. What was kept of it is gone from this device."),
        "keep_missing": _("Nothing is kept on this device yet."),
    }


def _handing_in() -> dict[str, str]:
    return {
        "hand_waiting": _("Lines of the log that wait on this device to be handed in: {count}."),
        "hand_unreached": _(
            "Out of reach. Lines of the log that wait here: {count}. Back in reach they are handed in."
        ),
        "hand_signed_out": _("Your sign-in has run out. Lines of the log that are safe here: {count}."),
        "hand_refused": _("The log could not be taken. It is kept here. Tell the keeper."),
        "hand_done": _("The log is handed in."),
    }
