"""The list of pictures: which function draws which object."""

from __future__ import annotations

from collections.abc import Callable

from making.draw_objects.hand import Drawing

Picture = Callable[[], Drawing]
PICTURES: dict[str, Picture] = {}


def pictures(accession: str) -> Callable[[Picture], Picture]:
    """Marks a function as the picture of one object."""

    def keep(draw: Picture) -> Picture:
        if accession in PICTURES:
            raise ValueError(f"{accession} is drawn twice: by {PICTURES[accession].__name__} and {draw.__name__}.")
        PICTURES[accession] = draw
        return draw

    return keep
