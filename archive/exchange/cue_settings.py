"""The settings after a WebVTT cue's times: where it stands on a screen. They are checked and then left.

Source: W3C WebVTT (Candidate Recommendation, 4 April 2019), section 4.4.
"""

from __future__ import annotations

import re

from archive.exchange.faults import shown

_PERCENT = r"(?:100(?:\.0+)?|\d{1,2}(?:\.\d+)?)%"
_SETTINGS = {
    "vertical": re.compile(r"rl|lr"),
    "line": re.compile(rf"(?:-?\d{{1,4}}|{_PERCENT})(?:,(?:start|center|end))?"),
    "position": re.compile(rf"{_PERCENT}(?:,(?:line-left|center|line-right))?"),
    "size": re.compile(_PERCENT),
    "align": re.compile(r"start|center|end|left|right"),
    "region": re.compile(r"\S+"),
}
_ALLOWED = "A setting is one of vertical, line, position, size, align or region, a colon and its value; or leave it out"


def setting_fault(text: str, regions: set[str]) -> tuple[str, str] | None:
    """What was found and what is allowed, for the first setting that a reader would drop; None if all are good."""
    seen = set()
    for setting in text.split():
        name, _, value = setting.partition(":")
        form = _SETTINGS.get(name)
        if form is None or not form.fullmatch(value):
            return f"the setting {shown(setting)}", _ALLOWED
        if name in seen:
            return f"the setting {shown(name)} stands twice", "Give each setting once"
        if name == "region" and value not in regions:
            return f"the region {shown(value)} is not described", "Describe it in a REGION block, or leave it out"
        seen.add(name)
    return None
