"""Several machines at once."""

from __future__ import annotations

from archive.reckoners.hazard.acoustics import sum_of_levels_db
from archive.reckoners.hazard.cautions import NOISE_CAUTION
from archive.reckoners.hazard.spells import levels_written
from archive.reckoners.shape import Given, Output, Reckoner, Worked, text


def _work(given: Given) -> Worked:
    levels = levels_written(given.word("levels"), "levels", "Write levels in dB: 85; 85; 90")
    whole = sum_of_levels_db(levels)
    above = whole - max(levels)
    steps = (f"10 lg (sum of 10^(level / 10)) of {', '.join(f'{level:g}' for level in levels)} = {whole:.1f} dB.",)
    compare = "Two equal machines are 3 dB louder than one; ten are 10 dB louder, which sounds about twice as loud."
    return Worked({"whole": whole, "above": above}, steps, compare=compare)


SOUND_SUM = Reckoner(
    name="hazard/sound-sum",
    title="Several machines at once",
    about="What several levels at the same spot come to together.",
    inputs=(text("levels", "Levels", "Each by itself at the spot: 85 dB; 85 dB; 90 dB.", default="85; 85"),),
    outputs=(
        Output("whole", "Together", "dB", 1),
        Output("above", "More than the loudest alone", "dB", 1),
    ),
    formula="together = 10 lg (sum of 10^(level / 10))",
    work=_work,
    sources=("bies-hansen", "sound-advice"),
    good_for=("Machines that do not keep step with one another.",),
    caution=NOISE_CAUTION,
)
