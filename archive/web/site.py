"""The faces of the app, one blueprint each."""

from __future__ import annotations

from flask import Blueprint

from archive.web.api.views import api
from archive.web.desk.day.views import days
from archive.web.desk.giving.outing_views import outings_at_desk
from archive.web.desk.giving.views import giving, worker
from archive.web.desk.jobs.views import jobs
from archive.web.desk.noise_views import noise
from archive.web.desk.out_of_use.views import out_of_use
from archive.web.desk.planning.bench_views import bench
from archive.web.desk.planning.views import planning
from archive.web.desk.running.views import running
from archive.web.desk.telling.views import tellings
from archive.web.desk.views import desk
from archive.web.door.views import door
from archive.web.kiosk.views import kiosk
from archive.web.media.views import media
from archive.web.reading.views import reading
from archive.web.reckoning.views import reckoning
from archive.web.workroom.aligning.views import aligning
from archive.web.workroom.bench.deed_views import mends
from archive.web.workroom.bench.version_views import versions
from archive.web.workroom.bench.views import mending
from archive.web.workroom.closing.views import closing
from archive.web.workroom.drafting.views import drafting
from archive.web.workroom.intake.upload_views import uploads
from archive.web.workroom.intake.views import recordings
from archive.web.workroom.machines.views import machines
from archive.web.workroom.turns.views import turns
from archive.web.workroom.views import workroom
from archive.web.workroom.words.views import words


def blueprints() -> tuple[Blueprint, ...]:
    """All of them."""
    return (
        door,
        kiosk,
        desk,
        planning,
        bench,
        days,
        jobs,
        giving,
        worker,
        outings_at_desk,
        noise,
        tellings,
        out_of_use,
        running,
        reading,
        workroom,
        machines,
        words,
        aligning,
        drafting,
        turns,
        mending,
        mends,
        versions,
        closing,
        recordings,
        uploads,
        reckoning,
        media,
        api,
    )
