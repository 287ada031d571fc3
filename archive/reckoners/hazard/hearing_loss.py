"""Hearing to be expected after years in the noise, beside what age alone would take."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from archive.reckoners.hazard.cautions import NOISE_CAUTION
from archive.reckoners.hazard.iso_1999 import (
    FREQUENCIES_HZ,
    OLDEST_2017_ABOVE_2_KHZ,
    age_shift_db,
    check_age,
    check_noise,
    median_age_shift_db,
    median_noise_shift_db,
    noise_shift_db,
    together_by_annex_db,
    together_db,
)
from archive.reckoners.shape import Given, Output, Reckoner, Worked, choice, number, refuse

_YOUNGEST_AT_WORK = 8
_JOINED: Mapping[str, Callable[[float, float], float]] = {"formula": together_db, "annex": together_by_annex_db}
_MEAN_OF = (1000, 2000, 4000)
Curve = dict[int, float]


def _curves(given: Given) -> dict[str, Curve]:
    """Six curves: age, noise and together, at the median and for the share asked for where it is known."""
    level, years, age = given.number("level"), given.number("years"), given.number("age")
    sex, edition, share = given.word("sex"), given.word("edition"), given.number("worse")
    join = _JOINED[given.word("joined")]
    found = {
        "age": {f: median_age_shift_db(f, age, sex, edition) for f in FREQUENCIES_HZ},
        "noise": {f: median_noise_shift_db(f, level, years) for f in FREQUENCIES_HZ},
        "noise_worse": {f: noise_shift_db(f, level, years, share) for f in FREQUENCIES_HZ},
    }
    found["both"] = {f: join(found["age"][f], found["noise"][f]) for f in FREQUENCIES_HZ}
    if edition == "2000":
        found["age_worse"] = {f: age_shift_db(f, age, sex, share) for f in FREQUENCIES_HZ}
        found["both_worse"] = {f: join(found["age_worse"][f], found["noise_worse"][f]) for f in FREQUENCIES_HZ}
    return found


def _work(given: Given) -> Worked:
    level, years, age = given.number("level"), given.number("years"), given.number("age")
    check_noise(level, years)
    check_age(age, given.word("edition"))
    if age - years < _YOUNGEST_AT_WORK:
        raise refuse("years", f"{years:g} years in the noise by the age of {age:g}", "Give fewer years")
    curves = _curves(given)
    values: dict[str, float | str] = {
        f"{name}_{hertz}": shift for name, curve in curves.items() for hertz, shift in curve.items()
    }
    for name in ("both", "both_worse"):
        if name in curves:
            values[f"mean_{name}"] = sum(curves[name][f] for f in _MEAN_OF) / len(_MEAN_OF)
    steps = tuple(_curve_told(name, curve, given) for name, curve in curves.items())
    share = given.number("worse")
    lost = curves["both"][4000]
    compare = f"At 4,000 Hz, where consonants live, the middle person needs a sound {lost:.0f} dB stronger than at 18."
    used = ("iso-7029-2000", "iso-7029-2000-spread") if given.word("edition") == "2000" else ("iso-7029-2017",)
    return Worked(values, steps, _warnings(given, share), compare, used)


_NAMES = {
    "age": "Age alone, median", "noise": "Noise alone, median", "both": "Both, median",
    "age_worse": "Age alone, share asked for", "noise_worse": "Noise alone, share asked for",
    "both_worse": "Both, share asked for",
}  # fmt: skip


def _curve_told(name: str, curve: Curve, given: Given) -> str:
    edition = f", ISO 7029:{given.word('edition')}" if name.startswith("age") else ""
    figures = ", ".join(f"{shift:.1f} at {hertz:,} Hz" for hertz, shift in curve.items())
    return f"{_NAMES[name]}{edition}: {figures} (dB)."


def _warnings(given: Given, share: float) -> tuple[str, ...]:
    edition = given.word("edition")
    told = [f"Age is by ISO 7029:{edition}. The editions of 2000 and 2017 differ by 8 dB for men of 60 at 4,000 Hz."]
    if edition == "2017":
        told.append(
            "The spread of hearing with age by the edition of 2017 is not held here, so the share asked for is told "
            "for noise alone. Its table of spreads would be needed; the edition of 2000 has them."
        )
        if given.number("age") > OLDEST_2017_ABOVE_2_KHZ:
            told.append("Above 70 years and above 2,000 Hz the edition of 2017 is for information only.")
    if not 5 <= share <= 95:
        told.append("For shares under 5 % or over 95 % the standard is not reliable.")
    return (*told, "It tells of groups. No one person's hearing can be told by it.")


def _outputs() -> tuple[Output, ...]:
    order = ("both", "noise", "age", "both_worse", "noise_worse", "age_worse")
    curves = [
        Output(f"{name}_{hertz}", f"{_NAMES[name]}, {hertz:,} Hz", "dB", 1)
        for name in order for hertz in FREQUENCIES_HZ
    ]  # fmt: skip
    return (
        *curves,
        Output("mean_both", "Both, median, mean of 1, 2 and 4 kHz", "dB", 1),
        Output("mean_both_worse", "Both, share asked for, mean of 1, 2 and 4 kHz", "dB", 1),
    )


HEARING_LOSS = Reckoner(
    name="hazard/hearing-loss",
    title="Hearing after years in the noise",
    about="What hearing people lose to years of noise, to age, and to both, by pitch: the figures of an audiogram.",
    inputs=(
        number("level", "Noise as a day of eight hours, dB(A)", "dB", 70, 140, "Over all the years.", default="95 dB"),
        number("years", "Years in the noise", "year", 0, 80, "At that level.", default="30 years"),
        number("age", "Age now", "year", 10, 110, "In years.", default="50 years"),
        choice("sex", "Men or women", {"male": "men", "female": "women"}, "Age takes them differently.",
               default="female"),
        choice("edition", "Edition of ISO 7029", {"2000": "of 2000", "2017": "of 2017"}, "The editions differ.",
               default="2000"),
        number("worse", "Share of people who hear worse", "%", 1, 99, "10 % tells of the worst tenth.", default="10 %",
               sound=(5, 95)),
        choice("joined", "Age and noise joined", {"formula": "by the formula everywhere",
               "annex": "by the formula only above 40 dB, as Annex C does"}, "A few decibels at most.",
               default="formula"),
    ),
    outputs=_outputs(),
    formula="noise = (u + v lg years) × (level − L0)²; age = a × (age − 18)²; both = age + noise − age × noise / 120",
    work=_work,
    sources=("iso-1999",),
    good_for=(
        "Groups of people, day-long noise of 75 to 100 dB(A) as a day of eight hours, 1 to 40 years.",
        "Screened ears: no other disease, no blows to the head, no guns.",
    ),
    caution=NOISE_CAUTION,
)  # fmt: skip
