"""Metal: fineness, alloys, working, annealing and hardening."""

from archive.reckoners.metal.fineness import FINENESS

RECKONERS = (FINENESS,)
