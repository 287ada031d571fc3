"""Draws every object, or those named: python -m making.draw_objects [ACCESSION ...]"""

from __future__ import annotations

import importlib
import sys
from pathlib import Path

from making.draw_objects.catalogue import PICTURES

KINDS = ("machines", "stamps", "presses", "hearths", "vats", "polishing", "gate", "hand_tools", "press_tools",
         "products", "papers")
FOLDER = Path(__file__).parent.parent.parent / "pictures"


def main(wanted: list[str]) -> None:
    for kind in KINDS:
        importlib.import_module(f"making.draw_objects.{kind}")
    strangers = [ref for ref in wanted if ref not in PICTURES]
    if strangers:
        raise SystemExit(f"No picture is drawn for {', '.join(strangers)}. Those drawn: {', '.join(sorted(PICTURES))}.")
    FOLDER.mkdir(exist_ok=True)
    for ref in wanted or sorted(PICTURES):
        PICTURES[ref]().save(FOLDER / f"{ref}.webp", seed=ref)


if __name__ == "__main__":
    main(sys.argv[1:])
