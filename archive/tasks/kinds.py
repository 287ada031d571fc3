"""What each kind of job does. A kind can be done twice without harm: after a kill it is done again from its start."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from archive.store.session import Store
from archive.tasks import aligning, copies, day_planning, drafting, intake, telling_apart, tour_planning
from archive.tasks.progress import Progress

# Gets the inputs as they were asked, and gives an outcome for JSON; {"address": ...} leads the asker on to a page.
Kind = Callable[[Store, dict[str, Any], Progress], Any]

KINDS: dict[str, Kind] = {
    tour_planning.KIND: tour_planning.plan_a_tour,
    day_planning.KIND: day_planning.plan_a_day,
    intake.KIND: intake.take_in_a_recording,
    aligning.KIND: aligning.align_a_transcript,
    drafting.KIND: drafting.draft_a_transcript,
    telling_apart.KIND: telling_apart.tell_voices_apart,
    intake.MEASURE: intake.measure_a_recording,
    copies.KIND: copies.make_copies,
}
