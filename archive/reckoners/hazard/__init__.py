"""Hazard: noise and hearing, vibration, air, standing back, and lifting."""

from archive.reckoners.hazard.air_exposure import AIR_EXPOSURE
from archive.reckoners.hazard.air_mixture import AIR_MIXTURE
from archive.reckoners.hazard.hand_arm_vibration import HAND_ARM_VIBRATION
from archive.reckoners.hazard.hearing_loss import HEARING_LOSS
from archive.reckoners.hazard.hearing_protector import HEARING_PROTECTOR
from archive.reckoners.hazard.lifting import LIFTING
from archive.reckoners.hazard.noise_day import NOISE_DAY
from archive.reckoners.hazard.noise_time import NOISE_TIME
from archive.reckoners.hazard.noise_week import NOISE_WEEK
from archive.reckoners.hazard.room_sound import ROOM_SOUND
from archive.reckoners.hazard.sound_distance import SOUND_DISTANCE
from archive.reckoners.hazard.sound_sum import SOUND_SUM
from archive.reckoners.hazard.stand_back import STAND_BACK
from archive.reckoners.hazard.vapour_units import VAPOUR_UNITS

RECKONERS = (
    NOISE_DAY,
    NOISE_WEEK,
    NOISE_TIME,
    SOUND_SUM,
    SOUND_DISTANCE,
    ROOM_SOUND,
    HEARING_PROTECTOR,
    HEARING_LOSS,
    STAND_BACK,
    HAND_ARM_VIBRATION,
    AIR_EXPOSURE,
    AIR_MIXTURE,
    VAPOUR_UNITS,
    LIFTING,
)
