"""Finish: pickling, plating and polishing."""

from archive.reckoners.finish.pickle_dilution import PICKLE_DILUTION
from archive.reckoners.finish.pickle_oxide import PICKLE_OXIDE
from archive.reckoners.finish.plating import PLATING
from archive.reckoners.finish.polishing_loss import POLISHING_LOSS

RECKONERS = (PICKLE_DILUTION, PICKLE_OXIDE, PLATING, POLISHING_LOSS)
