"""Heat: solders against the metal they join, and the order of soldering a whole piece."""

from archive.reckoners.heat.solder_margin import SOLDER_MARGIN
from archive.reckoners.heat.step_soldering import STEP_SOLDERING

RECKONERS = (SOLDER_MARGIN, STEP_SOLDERING)
