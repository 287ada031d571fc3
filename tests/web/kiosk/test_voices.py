"""The voices: clips and interviews with their words."""

from __future__ import annotations

import pytest
from flask.testing import FlaskClient

from tests.small_collection import CLOSED_WORD
from tests.web.kiosk.test_plan import text_of


@pytest.mark.parametrize("time", ["soon", "5,2", "-1", "1:99"])
def test_a_time_that_is_none_is_refused(client: FlaskClient, time: str) -> None:
    """A time that cannot be read is told as a fault of the address."""
    answer = client.get("/kiosk/voices/C-1", query_string={"t": time})
    assert answer.status_code == 400
    assert "Give a time in seconds" in answer.get_data(as_text=True)


def test_a_voice_plays_its_stretch_and_no_more(client: FlaskClient) -> None:
    """The sources are the clip's own sound, first the one form and then the other, with captions in step with it."""
    page = text_of(client, "/kiosk/voices/C-1")
    webm = page.index('src="/media/clips/C-1.webm?for=kiosk#t=0.000"')
    assert webm < page.index('src="/media/clips/C-1.mp3?for=kiosk#t=0.000"')
    assert 'kind="captions" src="/media/clips/C-1.vtt?for=kiosk"' in page
    assert "/media/recordings/" not in page


@pytest.mark.parametrize(("asked", "starts"), [("4", "4.000"), ("00:06", "6.000"), ("90", "0.000")])
def test_a_line_is_a_link_to_its_time(client: FlaskClient, asked: str, starts: str) -> None:
    """Without script a line's link starts the voice at its time; a time outside the clip starts it at its beginning."""
    page = text_of(client, f"/kiosk/voices/C-1?t={asked}")
    assert f"C-1.webm?for=kiosk#t={starts}" in page
    assert "?recording=I-1-a&amp;t=4.0" in page


def test_times_are_the_recordings_and_the_sound_begins_with_the_clip(client: FlaskClient) -> None:
    """A clip from 0:12, asked for from 0:14, starts two seconds into its sound; lines go by the player's clock."""
    page = text_of(client, "/kiosk/voices/C-2?t=14")
    assert "<time>0:00</time>" in page
    assert "<time>0:06</time>" in page
    assert 'data-begins="12.0" data-start="12.0" data-end="23.5"' in page
    assert "C-2.webm?for=kiosk#t=2.000" in page
    assert 'data-begins="0.0"' in text_of(client, "/kiosk/interviews/I-1")


def test_a_voice_has_its_words_under_the_names_allowed(client: FlaskClient) -> None:
    """The transcript of the clip is there in full, by shown names; what was closed is not."""
    page = text_of(client, "/kiosk/voices/C-1")
    assert "Can you tell me about the first morning?" in page
    assert "keep my fingers out" in page
    assert "A.B." in page
    assert "Ada" not in page
    assert CLOSED_WORD not in page


def test_advice_stands_before_the_voice(client: FlaskClient) -> None:
    """Content advice is read before anything can be played: the player is folded away behind it."""
    page = text_of(client, "/kiosk/voices/C-2")
    advice = page.index("An injury is spoken of")
    assert advice < page.index('<details class="gate">') < page.index("<audio")
    assert "autoplay" not in page


def test_a_voice_without_advice_plays_at_once(client: FlaskClient) -> None:
    """Where there is nothing to warn of, no gate stands before the player."""
    assert 'class="gate"' not in text_of(client, "/kiosk/voices/C-1")


def test_what_kind_of_voice_it_is_is_said(client: FlaskClient) -> None:
    """The note on the voice stands beside every player."""
    assert "The voice is a tone." in text_of(client, "/kiosk/voices/C-1")
    assert "The voice is a tone." in text_of(client, "/kiosk/interviews/I-1")


def test_an_interview_starts_at_the_time_asked_for(client: FlaskClient) -> None:
    """An interview has its clips, and starts at a line's time when asked for by recording and time."""
    page = text_of(client, "/kiosk/interviews/I-1?recording=I-1-a&t=12")
    assert "I-1-a.webm?for=kiosk#t=12.000,24.000" in page
    assert 'href="/kiosk/voices/C-2"' in page
    assert CLOSED_WORD not in page
    assert "#t=0.000" in text_of(client, "/kiosk/interviews/I-1?recording=other&t=12")


def test_only_open_voices_are_listed(client: FlaskClient) -> None:
    """The list of voices knows nothing of an interview that is closed to the kiosk."""
    page = text_of(client, "/kiosk/voices/")
    assert 'href="/kiosk/voices/C-1"' in page
    assert "C-3" not in page
    assert "I-2" not in page


def test_a_title_does_not_give_away_a_name(client: FlaskClient) -> None:
    """A narrator shown by initials is not named in the interview's title either."""
    assert "Ada" not in text_of(client, "/kiosk/interviews/I-1")
    assert "Ada" not in text_of(client, "/kiosk/voices/")
