"""Units: gauges, weights and money turned into each other."""

from archive.reckoners.units.gauge import GAUGE
from archive.reckoners.units.old_money import OLD_MONEY
from archive.reckoners.units.temperature import TEMPERATURE
from archive.reckoners.units.weight import WEIGHT

RECKONERS = (GAUGE, WEIGHT, OLD_MONEY, TEMPERATURE)
