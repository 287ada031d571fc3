"""The rooms of the ready reckoner, in the order and the words in which people meet them."""

from __future__ import annotations

from dataclasses import dataclass

from flask_babel import LazyString
from flask_babel import lazy_gettext as _l


@dataclass(frozen=True)
class Room:
    """One group of sums: its name in addresses, its heading, and what is asked in it."""

    key: str
    heading: LazyString
    asks: LazyString


ROOMS = (
    Room("metal", _l("Metal"), _l("What is it made of, how hard is it, and when must it go to the fire?")),
    Room("press", _l("Presses and stamps"), _l("How hard does it hit, and how many come out of one sheet?")),
    Room("heat", _l("Solder"), _l("What melts first?")),
    Room("finish", _l("Pickle, plating and polish"), _l("How much acid, how thick a coat, how much metal lost?")),
    Room("hazard", _l("What the work did to people"), _l("How loud, how much shaking, what was in the air?")),
    Room("output", _l("Output and wages"), _l("How many in a day, and what did they pay for it?")),
    Room("units", _l("Weights, gauges and money"), _l("What is that in today's measures?")),
)


def room_of(name: str) -> Room:
    """The room of a reckoner's name, such as "metal/fineness"."""
    key = name.partition("/")[0]
    return next(room for room in ROOMS if room.key == key)
