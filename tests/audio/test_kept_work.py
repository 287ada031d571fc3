"""Finished listening, kept in a folder."""

from __future__ import annotations

from pathlib import Path

from archive.audio.kept_work import KeptWork
from archive.values.timecode import Span


def test_finished_work_is_found_again(tmp_path: Path) -> None:
    """What was heard is there after a kill, a line cut short apart; for another text it is thrown away."""
    source = tmp_path / "sound.wav"
    source.write_bytes(b"sound")
    work = KeptWork(tmp_path / "work", source, ["the words"])
    work.keep(Span(0, 9_000), [("tup", 100, 300)])
    with (tmp_path / "work" / "heard.jsonl").open("a") as file:
        file.write("[9000, 18000, [[")
    again = KeptWork(tmp_path / "work", source, ["the words"])
    again.keep(Span(18_000, 27_000), [])
    assert again.heard() == {Span(0, 9_000): [["tup", 100, 300]], Span(18_000, 27_000): []}
    assert KeptWork(tmp_path / "work", source, ["other words"]).heard() == {}
