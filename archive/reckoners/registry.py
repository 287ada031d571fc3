"""Every reckoner by name: only what is whole stands here."""

from __future__ import annotations

from collections.abc import Mapping

from archive.errors import NotFound
from archive.reckoners import finish, hazard, heat, metal, output, press, units
from archive.reckoners.reading import Written
from archive.reckoners.reckoning import work_out
from archive.reckoners.shape import Reckoner, Result

_ROOMS = (
    metal.RECKONERS,
    press.RECKONERS,
    heat.RECKONERS,
    finish.RECKONERS,
    hazard.RECKONERS,
    output.RECKONERS,
    units.RECKONERS,
)
RECKONERS: Mapping[str, Reckoner] = {one.name: one for room in _ROOMS for one in room}


def reckoner_named(name: str) -> Reckoner:
    """The reckoner with this name, such as "metal/fineness"; raises NotFound with the names that there are."""
    found = RECKONERS.get(name)
    if found is None:
        raise NotFound(f"There is no reckoner “{name[:60]}”. The reckoners are {', '.join(sorted(RECKONERS))}.")
    return found


def reckon(name: str, given: Mapping[str, Written]) -> Result:
    """Works out the reckoner of this name with what was given, as people write it.

    Raises NotFound for the name, Unacceptable with every fault of the fields, OutOfRange beyond the method.
    """
    return work_out(reckoner_named(name), given)
