"""Several fumes and dusts at once."""

from __future__ import annotations

import re
from collections.abc import Iterable

from archive.reckoners.hazard.air_limits import MG, PPM, Limit, limits, substances
from archive.reckoners.hazard.cautions import AIR_CAUTION
from archive.reckoners.hazard.spells import pieces
from archive.reckoners.quantities import read_amount
from archive.reckoners.shape import Given, Output, Reckoner, Worked, refuse, text, words
from archive.reckoners.unread import NotRead

_HOW = "Write each substance of the table with its level over eight hours: copper-dust 0.4 mg/m³; silver 0.02 mg/m³"
_ROUNDING = 1e-9
_PART = re.compile(r"(?P<what>[a-z][a-z0-9 -]*?)\s+(?P<level>[\d.].*)", re.IGNORECASE)


def mixture_share(parts: Iterable[tuple[float, float]]) -> float:
    """Sum of C / L for substances that harm alike; 1 is the limit. Source: EH40; 29 CFR 1910.1000 (d)(2)."""
    return sum(level / limit for level, limit in parts)


def _part(piece: str) -> tuple[Limit, float]:
    """One substance and its level."""
    found = _PART.fullmatch(piece)
    key = found["what"].strip().lower().replace(" ", "-") if found else ""
    if not found or key not in substances():
        raise refuse("parts", f"“{piece[:40]}” names no substance of the table", f"They are: {', '.join(substances())}")
    unit = PPM if found["level"].lower().endswith("ppm") else MG
    if (key, unit) not in limits():
        raise refuse("parts", f"The limits of {key} are not told in {unit}", _HOW)
    try:
        amount = read_amount(found["level"], unit)
    except NotRead as error:
        raise refuse("parts", error.found, _HOW) from error
    if not amount.exact or not 0 <= amount.point <= 1e5:
        raise refuse("parts", f"“{piece[:40]}” is not one level", _HOW)
    return limits()[(key, unit)], amount.point


def _work(given: Given) -> Worked:
    parts = [_part(piece) for piece in pieces(given.word("parts"), "parts", _HOW)]
    british = [(level, limit.uk_twa) for limit, level in parts if limit.uk_twa]
    american = [(level, limit.us_twa) for limit, level in parts if limit.us_twa]
    uk, us = mixture_share(british), mixture_share(american)
    values: dict[str, float | str] = {"verdict": _verdict(uk, us)}
    values |= {key: share for key, share, held in (("uk", uk, british), ("us", us, american)) if held}
    steps = tuple(_told(limit, level) for limit, level in parts)
    missing = [limit.name for limit, _ in parts if not limit.uk_twa or not limit.us_twa]
    warnings = [f"No eight-hour limit of both countries is held for {', '.join(missing)}."] if missing else []
    warnings.append("Only for substances that harm in the same way. If they do not, judge each by itself.")
    sources = tuple(key for limit, _ in parts for key in (limit.uk_source, limit.us_source) if key)
    return Worked(values, steps, tuple(warnings), sources=sources)


def _verdict(uk: float, us: float) -> str:
    over = [name for name, share in (("British", uk), ("American", us)) if share > 1 + _ROUNDING]
    return f"above the {' and the '.join(over)} limit" if over else "not above the limits held here"


def _told(limit: Limit, level: float) -> str:
    pairs = (("UK", limit.uk_twa), ("US", limit.us_twa))
    shares = ", ".join(f"{name} {level:g} / {twa:g} = {level / twa:.3f}" for name, twa in pairs if twa)
    return f"{limit.name}: {shares or 'no limit held here'}."


AIR_MIXTURE = Reckoner(
    name="hazard/air-mixture",
    title="Several fumes at once",
    about="Whether several substances together pass the limit, though each alone does not.",
    inputs=(
        text("parts", "Substances and levels", "Over eight hours each: copper-dust 0.4 mg/m³; silver 0.02 mg/m³.",
             default="copper-dust 0.4 mg/m³; silver 0.02 mg/m³"),
    ),
    outputs=(
        Output("uk", "Sum by British limits (1 is the limit)", "times", 2),
        Output("us", "Sum by American limits (1 is the limit)", "times", 2),
        words("verdict", "That is"),
    ),
    formula="sum of level / limit, at most 1",
    work=_work,
    sources=("eh40", "osha-twa"),
    good_for=("Substances that harm in the same way, over eight hours.",),
    caution=AIR_CAUTION,
)  # fmt: skip
