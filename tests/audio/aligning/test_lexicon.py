"""How words sound, from the dictionary to rules of our own."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive.audio.aligning import speaker
from archive.audio.aligning.letters import PHONES, sounds_of_letters
from archive.audio.aligning.lexicon import Lexicon, write_dictionary
from archive.audio.aligning.speaker import sounds_by_speaker
from archive.audio.aligning.written_sounds import sounds_of_ipa, sounds_written

WORDS = st.text("abcdefghijklmnopqrstuvwxyz'", min_size=1, max_size=20)


def silent(_words: object) -> dict[str, list[str]]:
    """A machine without a speaking program."""
    return {}


@pytest.mark.parametrize(
    ("said_as", "sounds"),
    [
        ("uh-NEEL-ing", "AH N IY L IH NG"),
        ("/əˈniːlɪŋ/", "AH N IY L IH NG"),
        ("AH0 N IY1 L", "AH N IY L"),
        ("THRUH-ul", "TH R AH AH L"),
    ],
)
def test_a_pronunciation_is_read_as_it_was_given(said_as: str, sounds: str) -> None:
    """Respelling, IPA between slashes and ARPAbet are told apart by their looks."""
    assert " ".join(sounds_written(said_as)) == sounds


def test_the_museums_own_word_comes_first() -> None:
    """What the thesaurus says of a word goes before the dictionary, which stays as a second way."""
    ways = Lexicon({"lead time": "led TYME"}, speaker=silent).sounds(["lead"])["lead"]
    assert ways[0] == ("L", "EH", "D")
    assert ("L", "IY", "D") in ways


def test_an_own_word_of_another_length_is_passed_over() -> None:
    """A pronunciation with fewer parts than the term has words tells nothing of either."""
    lexicon = Lexicon({"lead time": "led"}, speaker=silent)
    assert lexicon.sounds(["lead"]) == Lexicon(speaker=silent).sounds(["lead"])


@pytest.mark.parametrize(
    ("word", "sounds"),
    [
        ("planished's", None),
        ("flywheel", "F L AY W IY L"),
        ("colouring", "K AH L ER R IH NG"),
        ("swaged", None),
        ("gunmetal", "G AH N M EH T AH L"),
    ],
)
def test_parts_and_spellings_of_known_words(word: str, sounds: str | None) -> None:
    """Compounds and endings are put together of what the dictionary has, without any speaking program."""
    (way,) = Lexicon(speaker=silent).sounds([word])[word]
    assert set(way) <= PHONES
    if sounds:
        assert " ".join(way) == sounds


@pytest.mark.parametrize(
    ("word", "sounds"),
    [("swarf", "S W AO R F"), ("tup", "T AH P"), ("kirtle", "K ER T AH L"), ("sprue", "S P R UW"), ("", "")],
)
def test_rules_for_words_that_nothing_knows(word: str, sounds: str) -> None:
    """Trade words come out as an English reader would say them."""
    assert " ".join(sounds_of_letters(word)) == sounds


@given(WORDS)
def test_every_word_gets_sounds_that_the_decoder_knows(word: str) -> None:
    """No word is without sounds, on a machine that has nothing but Python."""
    for way in Lexicon(speaker=silent).sounds([word])[word]:
        assert way
        assert set(way) <= PHONES


@given(st.text(max_size=30))
def test_signs_that_are_no_ipa_are_passed_over(text: str) -> None:
    """Whatever a program answers, only known sounds come of it."""
    assert set(sounds_of_ipa(text)) <= PHONES


def test_without_a_speaking_program_there_are_no_sounds(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where it is not installed, or answers with another number of lines, the rules are left to do it."""
    monkeypatch.setattr(speaker.shutil, "which", lambda name: None)
    assert sounds_by_speaker(["swarf"]) == {}
    monkeypatch.setattr(speaker.shutil, "which", lambda name: "true")
    assert sounds_by_speaker(["swarf"]) == {}


def test_the_dictionary_file_numbers_the_ways(tmp_path: Path) -> None:
    """A second way of saying a word is numbered, as the decoder reads it."""
    write_dictionary({"a": [("AH",), ("EY",)]}, tmp_path / "words.dict")
    assert (tmp_path / "words.dict").read_text() == "a AH\na(2) EY\n"
