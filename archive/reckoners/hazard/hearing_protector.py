"""What reaches the ear behind a protector, by its SNR or by its high, medium and low figures."""

from __future__ import annotations

from archive.reckoners.hazard.cautions import NOISE_CAUTION
from archive.reckoners.shape import Given, Output, Reckoner, Worked, number, refuse, words

REAL_WORLD_DB = 4.0
TOO_MUCH_BELOW_DB, ENOUGH_BELOW_DB = 70.0, 80.0
# Level without protector, dB(A), and the SNR to look for. Source: HSE, calculator for protectors, as quoted.
SNR_WANTED = ((85, "20 or less"), (90, "20 to 30"), (95, "25 to 35"), (100, "30 or more"))


def at_ear_by_snr_db(level_c_db: float, snr_db: float) -> float:
    """L'_A = L_C - SNR. It needs the C-weighted level. Source: HSE."""
    return level_c_db - snr_db


def reduction_by_hml_db(level_a_db: float, level_c_db: float, high: float, medium: float, low: float) -> float:
    """Predicted reduction: M - (H - M) / 4 (LC - LA - 2) where LC - LA <= 2, else M - (M - L) / 8 (LC - LA - 2)."""
    more = level_c_db - level_a_db - 2
    return medium - (high - medium) / 4 * more if more <= 0 else medium - (medium - low) / 8 * more


def snr_wanted(level_a_db: float) -> str:
    """The SNR to look for at a level; none is tabled outside 85 to 105 dB(A)."""
    if not 85 <= level_a_db <= 105:
        return ""
    return [told for level, told in SNR_WANTED if level_a_db >= level][-1]


def verdict_told(at_ear_db: float) -> str:
    """Whether the level at the ear is as it should be. Source: EN 458, as quoted."""
    if at_ear_db > ENOUGH_BELOW_DB:
        return "too little: above 80 dB(A) at the ear"
    if at_ear_db < TOO_MUCH_BELOW_DB:
        return "over-protection: below 70 dB(A), people cannot hear and take it off"
    return "right: 70 to 80 dB(A) at the ear"


def _reduced(given: Given) -> tuple[float, str]:
    """The level at the ear before the allowance, by whichever method was given."""
    level_c, level_a, snr = given.number("level_c"), given.maybe("level_a"), given.maybe("snr")
    high, medium, low = given.maybe("high"), given.maybe("medium"), given.maybe("low")
    by_parts = high is not None or medium is not None or low is not None
    if (snr is not None) == by_parts:
        found = "Neither the SNR nor H, M and L are given" if snr is None else "Both SNR and H, M, L are given"
        raise refuse("snr", found, "Give the SNR, or H, M and L")
    if snr is not None:
        ear = at_ear_by_snr_db(level_c, snr)
        return ear, f"{level_c:g} dB(C) − {snr:g} = {ear:.1f} dB(A)."
    if high is None or medium is None or low is None:
        raise refuse("high", "One of H, M and L is wanting", "Give all three, from the packet")
    if level_a is None:
        raise refuse("level_a", "H, M and L need the A-weighted level too", "Give it")
    if not high >= medium >= low:
        raise refuse("high", "H, M and L are out of order", "Give H as the greatest and L as the least")
    taken = reduction_by_hml_db(level_a, level_c, high, medium, low)
    return level_a - taken, f"LC − LA = {level_c - level_a:.1f}: reduction {taken:.1f} dB, {level_a - taken:.1f} dB(A)."


def _work(given: Given) -> Worked:
    ear, first = _reduced(given)
    allowance, level_a = given.number("allowance"), given.maybe("level_a")
    real = ear + allowance
    values: dict[str, float | str] = {"rated": ear, "at_ear": real, "verdict": verdict_told(real)}
    if level_a is not None and (wanted := snr_wanted(level_a)):
        values["look_for"] = wanted
    steps = (first, f"Plus {allowance:g} dB as people really wear them: {real:.1f} dB(A) at the ear.")
    warnings = (
        "The SNR is not fit for strong low sounds, as of press shops. Use octave bands there.",
        "Taken off for a tenth of the time, a protector of 30 dB is worth about 10.",
        "Protectors come last. They count for the limit at the ear, never for the action values.",
    )
    return Worked(values, steps, warnings)


HEARING_PROTECTOR = Reckoner(
    name="hazard/hearing-protector",
    title="Behind ear defenders",
    about="What still reaches the ear, and whether that is too much or too little.",
    inputs=(
        number("level_c", "Level, dB(C)", "dB", 60, 140, "The C-weighted level, with the low sounds in it.",
               default="97 dB"),
        number("level_a", "Level, dB(A)", "dB", 60, 140, "Needed for H, M and L.", optional=True),
        number("snr", "SNR", "dB", 1, 45, "From the packet.", optional=True),
        number("high", "H", "dB", 1, 50, "From the packet, with M and L.", optional=True),
        number("medium", "M", "dB", 1, 50, "From the packet.", optional=True),
        number("low", "L", "dB", 0, 50, "From the packet.", optional=True),
        number("allowance", "As people really wear them", "dB", 0, 20, "4 dB is usual.", default="4 dB"),
    ),
    outputs=(
        Output("at_ear", "At the ear, dB(A)", "dB", 1),
        Output("rated", "At the ear by the packet, dB(A)", "dB", 1),
        words("verdict", "That is"),
        words("look_for", "SNR to look for"),
    ),
    formula="at the ear = dB(C) − SNR + 4; or dB(A) − reduction by H, M and L + 4",
    work=_work,
    sources=("hse-protectors", "noisemeters-snr", "hml-manual", "en-458", "noise-regulations"),
    good_for=("Steady noise without strong low sounds or single sharp blows.",),
    caution=NOISE_CAUTION,
)  # fmt: skip
