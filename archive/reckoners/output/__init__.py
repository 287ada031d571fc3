"""Output: strokes and shifts, gross and great gross, piece wages, the time that an order takes, trainings as told."""

from archive.reckoners.output.gross import GROSS
from archive.reckoners.output.order_time import ORDER_TIME
from archive.reckoners.output.piece_wages import PIECE_WAGES
from archive.reckoners.output.shift_output import SHIFT_OUTPUT
from archive.reckoners.output.training import TRAINING

RECKONERS = (SHIFT_OUTPUT, GROSS, PIECE_WAGES, ORDER_TIME, TRAINING)
