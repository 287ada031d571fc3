"""What was breathed over a day, against the limits of two countries."""

from __future__ import annotations

from collections.abc import Iterable

from archive.reckoners.hazard.air_limits import MG, PPM, Limit, limits, substances
from archive.reckoners.hazard.cautions import AIR_CAUTION
from archive.reckoners.hazard.noise_law import time_told
from archive.reckoners.hazard.spells import Spell, spells_written
from archive.reckoners.shape import Given, Output, Reckoner, Worked, choice, refuse, text, words

REFERENCE_HOURS = 8.0
SHORT_TERM_HOURS = 0.25
_HOW = "Write each spell with its time: 0.12 mg/m³ 7 h 20 min; 0.05 mg/m³ 30 min. Or all in ppm"


def average_8_h(spells: Iterable[tuple[float, float]]) -> float:
    """Time-weighted average: sum of C T / 8 h, whatever the length of the shift. Source: EH40; 29 CFR 1910.1000 (d)."""
    return sum(level * hours for level, hours in spells) / REFERENCE_HOURS


def _limit_for(substance: str, unit: str) -> Limit:
    found = limits().get((substance, unit))
    if found is None:
        allowed = [one for key, one in limits() if key == substance]
        name = substances()[substance]
        raise refuse("spells", f"The limits of {name} are not told in {unit}", f"Give it in {' or '.join(allowed)}")
    return found


def _work(given: Given) -> Worked:
    spells = spells_written(given.word("spells"), "spells", (MG, PPM), 0.0, 1e5, _HOW)
    units = {spell.unit for spell in spells}
    if len(units) > 1:
        raise refuse("spells", "Some spells are in mg/m³ and some in ppm", "Give all in the same")
    unit = units.pop()
    limit = _limit_for(given.word("substance"), unit)
    average = average_8_h((spell.figures[0], spell.hours) for spell in spells)
    values: dict[str, float | str] = {"average_mg" if unit == MG else "average_parts": average}
    shares = {"uk_share": limit.uk_twa, "us_share": limit.us_twa}
    values |= {key: 100 * average / twa for key, twa in shares.items() if twa}
    values["verdict"] = _verdict(average, limit)
    told = " + ".join(f"{spell.figures[0]:g} × {spell.hours:.4g} h" for spell in spells)
    steps = (f"({told}) / 8 h = {average:.4g} {unit} over eight hours.", *_limits_told(limit))
    sources = tuple(key for key in (limit.uk_source, limit.us_source) if key)
    return Worked(values, steps, _peaks(spells, limit), sources=sources)


def _limits_told(limit: Limit) -> tuple[str, ...]:
    rows = (
        ("United Kingdom, eight hours", limit.uk_twa), ("United Kingdom, 15 minutes", limit.uk_stel),
        ("United States (OSHA), eight hours", limit.us_twa),
        ("United States (OSHA), never to be passed", limit.us_ceiling),
    )  # fmt: skip
    return tuple(f"{name}: {f'{value:g} {limit.unit}' if value else 'no limit held here'}." for name, value in rows)


def _verdict(average: float, limit: Limit) -> str:
    over = [
        name
        for name, twa in (("United Kingdom", limit.uk_twa), ("United States", limit.us_twa))
        if twa and average > twa
    ]
    if over:
        return f"above the eight-hour limit of the {' and the '.join(over)}"
    return (
        "not above the eight-hour limits held here" if limit.uk_twa or limit.us_twa else "no eight-hour limit held here"
    )


def _peaks(spells: list[Spell], limit: Limit) -> tuple[str, ...]:
    """Spells that pass a short-term limit or a ceiling."""
    told = []
    for spell in spells:
        level = spell.figures[0]
        short = level * min(1.0, spell.hours / SHORT_TERM_HOURS)
        if limit.uk_stel and short > limit.uk_stel:
            told.append(f"{level:g} {limit.unit} for {time_told(spell.hours)} passes the UK limit over 15 minutes.")
        if limit.us_ceiling and level > limit.us_ceiling:
            told.append(f"{level:g} {limit.unit} passes the US ceiling.")
    return (*told, "A limit is no line between safe and unsafe: less is better.")


AIR_EXPOSURE = Reckoner(
    name="hazard/air-exposure",
    title="Fume and dust over a day",
    about="What was breathed over a day, against British and American limits.",
    inputs=(
        choice("substance", "Substance", substances(), "One of the table.", default="copper-dust"),
        text("spells", "Levels and times", "0.12 mg/m³ 7 h 20 min; 0.05 mg/m³ 30 min. Or all in ppm.",
             default="0.12 mg/m³ 7 h 20 min"),
    ),
    outputs=(
        Output("average_mg", "Over eight hours", "mg/m³", 3),
        Output("average_parts", "Over eight hours", "ppm", 2),
        Output("uk_share", "Of the British limit", "%", 1),
        Output("us_share", "Of the American limit", "%", 1),
        words("verdict", "That is"),
    ),
    formula="average = sum of level × time / 8 h",
    work=_work,
    sources=("eh40", "osha-twa"),
    good_for=(
        "Limits of EH40/2005, 4th edition 2020, and of OSHA. Many are second-hand or from memory: see the sources.",
        "Levels in the air breathed. Limits are never turned from ppm into mg/m³ here, for the law rounds them.",
    ),
    caution=AIR_CAUTION,
)  # fmt: skip
