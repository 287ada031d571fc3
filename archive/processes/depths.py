"""The three depths at which a process is explained, and how easily each should read."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Depth:
    """A depth by its heading, and the least reading ease that suits those it is written for."""

    heading: str
    least_ease: float


# Flesch's own scale: 80 and over is easy, 60 to 70 plain, 50 fairly hard.
DEPTHS = (Depth("At a glance", 80), Depth("A closer look", 60), Depth("For people who know metal", 40))
