"""The checks of a demonstration as data for the page's script, which must do without the network."""

from __future__ import annotations

from typing import Any

from flask_babel import gettext as _

from archive.objects.running.checks import RENEWS, Checks


def checks_data(checks: Checks) -> dict[str, Any]:
    """Everything that <start-check> needs, with all its words."""
    subject = checks.subject
    return {
        "demonstration": subject.ref,
        "machine": subject.machine,
        "title": subject.title,
        "minutes": subject.minutes,
        "day": checks.on.isoformat(),
        "until": checks.until.isoformat() if checks.until else "",
        "lacking": list(checks.lacking),
        "operators": [
            {"ref": each.ref, "name": each.name, "until": each.until.isoformat()} for each in checks.operators
        ],
        "checks": [{"key": each.key, "words": each.words, "why": each.why} for each in checks.checks],
        "steps": list(subject.steps),
        "cautions": list(subject.cautions),
        "words": words(),
    }


def words() -> dict[str, str]:
    """The words of its controls and messages."""
    return {
        "operator": _("Who runs the machine?"),
        "confirm": _("Confirm each, in order"),
        "start": _("Start the machine"),
        "left": _("Still to confirm: %(count)s", count="{count}"),
        "choose": _("Choose the operator first"),
        "ready": _("All is confirmed. Call the start, then press the button."),
        "starting": _("Asking whether it may start."),
        "refused": _("It does not start. This is lacking:"),
        "mayNot": _("It may not be run"),
        "ranOut": _("Its papers, as kept here, ran out on {day}."),
        "older": _("These checks are from {day}. Load the page again in reach of the network."),
        "renews": _(RENEWS),
        "running": _("It is running"),
        "elapsed": _("Minutes since the start"),
        "planned": _("planned: {minutes} min"),
        "stop": _("Stop"),
        "steps": _("Steps"),
        "cautions": _("Cautions"),
        "offline": _("The network is out of reach. The run is kept on this device and handed in later."),
        "ended": _("It has stopped"),
        "minutes": _("Minutes that it ran"),
        "faults": _("Faults, if there were any"),
        "faultsHelp": _("A noise, a loose part, a guard that sticks. The keeper is told; it stands here until mended."),
        "write": _("Write it in the log"),
        "written": _("The run is in the log."),
        "kept": _("The run is kept on this device. It is handed in when the network is back."),
        "lapsed": _("It was kept, marked as run without a clearance in force:"),
        "notTaken": _("The run could not be taken. It stays on this device. Show this to the keeper:"),
        "signedOut": _("You are no longer signed in. Sign in again in another window, then press the button again."),
        "broken": _("The house did not answer as it should. Try again in a moment."),
    }
