"""Makes a recording of spoken parts: room, noise floor, loudness, and the two files people can play."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import av
import numpy as np
import pyloudnorm
from numpy.typing import NDArray
from scipy.signal import butter, fftconvolve, resample_poly, sosfilt

Sound = NDArray[np.float32]
RATE = 24000
LOUDNESS_LUFS = -23.0
PEAK_DBTP = -3.5
_FLOOR_DB = -64.0
_FRAME = 960
FORMS = {
    "audio.webm": ("libopus", 48000, 20000, {"application": "audio", "vbr": "on", "compression_level": "10"}),
    "audio.mp3": ("libmp3lame", 24000, 32000, {}),
}


def room(dry: Sound, seed: int) -> Sound:
    """The speech in a small furnished room, with the faint noise that every room has."""
    chance = np.random.default_rng(seed)
    length = int(0.18 * RATE)
    decay = np.exp(-np.arange(length) / (RATE * chance.uniform(0.022, 0.038)))
    echo = chance.standard_normal(length) * decay
    echo[: int(0.004 * RATE)] = 0
    echo *= 10 ** (-13 / 20) / np.sqrt((echo**2).sum())
    wet = dry + fftconvolve(dry, echo)[: len(dry)]
    noise = np.cumsum(chance.standard_normal(len(dry)) * 0.06)
    noise = sosfilt(butter(2, [70, 5000], "bandpass", fs=RATE, output="sos"), noise)
    noise += 0.3 * noise.std() * chance.standard_normal(len(dry))
    noise *= 10 ** (_FLOOR_DB / 20) / noise.std()
    clean = sosfilt(butter(2, 65, "highpass", fs=RATE, output="sos"), wet)
    return np.asarray(levelled(clean) + noise, np.float32)


def loudness(sound: Sound) -> float:
    """Integrated loudness in LUFS."""
    return float(pyloudnorm.Meter(RATE, filter_class="DeMan").integrated_loudness(sound.astype(np.float64)))


def true_peak_db(sound: Sound) -> float:
    """The highest point between samples too, in dB under full scale."""
    return float(20 * np.log10(np.abs(resample_poly(sound, 4, 1)).max()))


def rounded(sound: Sound) -> Sound:
    """The peaks above the ceiling rounded off, all else untouched."""
    knee = 10 ** ((PEAK_DBTP - 4) / 20)
    room_left = 10 ** (PEAK_DBTP / 20) - knee
    over = np.abs(sound) > knee
    soft = sound.copy()
    soft[over] = np.sign(sound[over]) * (knee + room_left * np.tanh((np.abs(sound[over]) - knee) / room_left))
    return soft


def levelled(sound: NDArray[np.floating]) -> Sound:
    """At the target loudness, which is found again after each rounding of the peaks."""
    level = np.asarray(sound, np.float32)
    for _ in range(4):
        level = rounded(level * np.float32(10 ** ((LOUDNESS_LUFS - loudness(level)) / 20)))
    return level


def write_sound(sound: Sound, path: Path) -> None:
    """The recording as the file that the name asks for."""
    codec, rate, bits, options = FORMS[path.name]
    samples = resample_poly(sound, rate // RATE, 1) if rate != RATE else sound
    whole = np.round(np.clip(samples, -1, 1) * 32767).astype(np.int16)
    with av.open(str(path), "w", options={"fflags": "+bitexact"}) as container:
        stream = container.add_stream(codec, rate=rate, options=options, layout="mono")
        stream.bit_rate = bits
        shape = "s16" if codec == "libopus" else "s16p"
        for start in range(0, len(whole), _FRAME):
            frame = av.AudioFrame.from_ndarray(whole[None, start : start + _FRAME], format=shape, layout="mono")
            frame.sample_rate, frame.pts, frame.time_base = rate, start, Fraction(1, rate)
            container.mux(stream.encode(frame))
        container.mux(stream.encode(None))
