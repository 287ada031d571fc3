"""Metal: fineness, alloys, working, annealing and hardening."""

from archive.reckoners.metal.alloy_table import ALLOY
from archive.reckoners.metal.annealing import ANNEAL_WINDOW
from archive.reckoners.metal.cold_reduction import COLD_REDUCTION
from archive.reckoners.metal.colours import HEAT_COLOUR
from archive.reckoners.metal.density import DENSITY
from archive.reckoners.metal.fineness import FINENESS
from archive.reckoners.metal.lever import COPPER_ZINC, SILVER_COPPER
from archive.reckoners.metal.mixing import MIXING
from archive.reckoners.metal.recrystallisation import RECRYSTALLISATION
from archive.reckoners.metal.season_cracking import SEASON_CRACKING
from archive.reckoners.metal.tool_steel import TOOL_STEEL

RECKONERS = (
    FINENESS,
    MIXING,
    DENSITY,
    ALLOY,
    SILVER_COPPER,
    COPPER_ZINC,
    COLD_REDUCTION,
    ANNEAL_WINDOW,
    RECRYSTALLISATION,
    HEAT_COLOUR,
    TOOL_STEEL,
    SEASON_CRACKING,
)
