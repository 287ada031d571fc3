"""Speaks the demo interviews: audio, transcript, ties and clips, from the scripts in making/voices.

Run from demo-collection, when a script has changed: python -m making.speak VOICES_FOLDER [I-01 ...]
VOICES_FOLDER is the folder of voice files that speak_voice.py tells of. The demo itself never needs this.
"""

from __future__ import annotations

import sys
import zlib
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from making.speak_script import Line, Script, read_script
from making.speak_sound import RATE, Sound, levelled, loudness, room, true_peak_db, write_sound
from making.speak_ties import close_spans, write_clips, write_ties
from making.speak_voice import Speaker, Voice, read_voices

HERE = Path(__file__).parent
SCRIPTS = HERE / "voices"
INTERVIEWS = HERE.parent / "interviews"
LEAD_IN_S = 1.2
LEAD_OUT_S = 1.8


@dataclass(frozen=True)
class Cue:
    """A line and when it is said, in milliseconds."""

    start_ms: int
    end_ms: int
    line: Line


def pause_before(line: Line, last: Line | None) -> float:
    """How long the room is silent before a line: longer where the speaker or the matter changes."""
    if last is None:
        return LEAD_IN_S
    chance = zlib.crc32(line.text.encode()) % 1000 / 1000
    pause = 0.3 + 0.3 * chance if last.text[-1] in ".?!" else 0.12
    if line.speaker != last.speaker:
        pause = 0.5 + 0.5 * chance
    return pause + last.parts[-1].pause_s + (0.35 if line.new_matter else 0.0)


def silence(seconds: float) -> Sound:
    return np.zeros(round(seconds * RATE), np.float32)


def spoken(line: Line, speaker: Speaker, voices: dict[str, Voice]) -> Sound:
    """One line as sound, its inner pauses kept."""
    pieces: list[Sound] = []
    for part in line.parts:
        pieces += [speaker.say(line.speaker, part.words), silence(part.pause_s)]
    whole = np.concatenate(pieces[:-1])
    if len(whole) < RATE // 2:
        return whole
    return levelled(whole) * np.float32(10 ** (voices[line.speaker].level_db / 20))


def perform(script: Script, speaker: Speaker, voices: dict[str, Voice]) -> tuple[Sound, list[Cue]]:
    """The whole interview as dry speech, and when each line is said."""
    pieces: list[Sound] = []
    cues: list[Cue] = []
    at, last = 0, None
    for line in script.lines:
        before, said = silence(pause_before(line, last)), spoken(line, speaker, voices)
        start = at + len(before)
        at = start + len(said)
        pieces += [before, said]
        cues.append(Cue(start * 1000 // RATE, -(-at * 1000 // RATE), line))
        last = line
    return np.concatenate([*pieces, silence(LEAD_OUT_S)]), cues


def stamp(ms: int) -> str:
    """A WebVTT time."""
    return f"{ms // 3600000:02d}:{ms // 60000 % 60:02d}:{ms // 1000 % 60:02d}.{ms % 1000:03d}"


def transcript(cues: list[Cue]) -> str:
    """The cues as WebVTT with voice spans."""
    blocks = ["WEBVTT"]
    for cue in cues:
        text = cue.line.text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
        blocks.append(f"{stamp(cue.start_ms)} --> {stamp(cue.end_ms)}\n<v {cue.line.speaker}>{text}</v>")
    return "\n\n".join(blocks) + "\n"


def make(ref: str, voices_folder: Path) -> tuple[str, list[tuple[int, int]]]:
    """Everything that is made of one script; gives a line of figures and the cues' times."""
    voices, said_as = read_voices(SCRIPTS / "voices.toml")
    script = read_script(SCRIPTS / f"{ref}.txt")
    who = {line.speaker for line in script.lines}
    speaker = Speaker(voices_folder, {ref: voice for ref, voice in voices.items() if ref in who}, said_as)
    dry, cues = perform(script, speaker, voices)
    sound = room(dry, seed=zlib.crc32(ref.encode()))
    folder = INTERVIEWS / ref
    folder.mkdir(parents=True, exist_ok=True)
    write_sound(sound, folder / "audio.webm")
    write_sound(sound, folder / "audio.mp3")
    (folder / "transcript.vtt").write_text(transcript(cues), encoding="utf-8", newline="\n")
    figures = f"{len(cues)} cues, {len(sound) / RATE:.1f} s, {loudness(sound):.2f} LUFS, {true_peak_db(sound):.1f} dBTP"
    return f"{ref}: {figures}", [(cue.start_ms, cue.end_ms) for cue in cues]


def main(arguments: list[str]) -> None:
    voices_folder = Path(arguments[0])
    refs = arguments[1:] or sorted(path.stem for path in SCRIPTS.glob("I-*.txt"))
    with ProcessPoolExecutor(2) as pool:
        for ref, (figures, times) in zip(refs, pool.map(make, refs, [voices_folder] * len(refs)), strict=True):
            script = read_script(SCRIPTS / f"{ref}.txt")
            write_ties(script, times, INTERVIEWS / ref / "ties.csv")
            close_spans(script, times, INTERVIEWS / ref / "interview.toml")
            print(figures)
    write_clips(SCRIPTS, INTERVIEWS, HERE.parent / "clips.csv")


if __name__ == "__main__":
    main(sys.argv[1:])
