"""What is said with every sum about harm to people, beside the caution that all reckoners carry."""

from __future__ import annotations

from archive.reckoners.shape import CAUTION

NOISE_CAUTION = f"Hearing lost to noise does not come back. {CAUTION}"
AIR_CAUTION = (
    "Limits change, and the figures here are of the editions named. Only measurement in the air breathed, by someone "
    f"competent, tells an exposure. {CAUTION}"
)
VIBRATION_CAUTION = f"Harm from vibration does not heal once it has set in. {CAUTION}"
LIFTING_CAUTION = (
    "A sum of work tells nothing of a back: posture, reach, grip and turning decide. No load here is said to be safe. "
    f"{CAUTION}"
)
