"""Press: blows of stamps and fly presses, cutting, drawing, striking, and blanks from a sheet."""

from archive.reckoners.press.blanking import BLANKING
from archive.reckoners.press.coining import COINING
from archive.reckoners.press.cup_drawing import CUP_DRAWING
from archive.reckoners.press.drop_stamp import DROP_STAMP_BLOW
from archive.reckoners.press.fly_press import FLY_PRESS_BLOW
from archive.reckoners.press.sheet_layout import SHEET_LAYOUT

RECKONERS = (DROP_STAMP_BLOW, FLY_PRESS_BLOW, BLANKING, CUP_DRAWING, COINING, SHEET_LAYOUT)
