"""Words in: a typed transcript is looked at as it is understood, named once, then kept; nothing before that."""

from __future__ import annotations

import io
import re

import docx
import pytest
from flask.testing import FlaskClient
from sqlalchemy import select

from archive.interviews.model import Recording, Segment, TranscriptFile, TranscriptVersion
from archive.store.session import Store
from tests.conftest import SignIn, app_of, sign_in

WORDS = "/workroom/recordings/I-1-a/words"
TYPED = """Transcript of a talk

NED: Where did you start?
ADA: In the press shop. (laughs)
SOMEBODY: Tea is ready.
[0:15] ADA: I set my own tool (indistinct).
END OF TAPE
"""


@pytest.fixture
def keeper(home: Store) -> FlaskClient:
    """A keeper's browser on a home of this test's own."""
    return sign_in(app_of(home).test_client(), "keeper")


def token(browser: FlaskClient, address: str = WORDS) -> str:
    """The token of the form on a page."""
    found = re.search(r'name="csrf_token" value="([^"]+)"', browser.get(address).get_data(as_text=True))
    assert found
    return found[1]


def bring(browser: FlaskClient, content: bytes | str = TYPED, name: str = "talk.txt") -> str:
    """Bring a file, and give the address of its preview."""
    given = content.encode() if isinstance(content, str) else content
    form = {"csrf_token": token(browser), "file": (io.BytesIO(given), name)}
    answer = browser.post(WORDS, data=form)
    assert answer.status_code == 303, answer.get_data(as_text=True)
    return answer.headers["Location"]


def send(browser: FlaskClient, address: str, **form: str) -> tuple[int, str]:
    """Send a form of the preview, and give what comes of it."""
    answer = browser.post(address, data={"csrf_token": token(browser), **form}, follow_redirects=True)
    return answer.status_code, answer.get_data(as_text=True)


def lines(home: Store) -> list[tuple[str, str]]:
    """The transcript as it stands: whose reference or label, and the words."""
    with home.session() as session:
        mine = select(Segment).join(Recording).where(Recording.ref == "I-1-a").order_by(Segment.position)
        return [(s.speaker.ref if s.speaker else s.speaker_label, s.text) for s in session.scalars(mine)]


@pytest.mark.parametrize("role", ["reader", "guide"])
def test_only_keepers_bring_words(client: FlaskClient, as_role: SignIn, role: str) -> None:
    """Strangers are sent to sign in, other roles are refused."""
    assert client.get(WORDS).status_code == 303
    assert as_role(role).get(WORDS).status_code == 403


def test_a_form_from_elsewhere_is_refused(keeper: FlaskClient) -> None:
    """Without its token nothing is taken in, however large it is."""
    answer = keeper.post(WORDS, data={"file": (io.BytesIO(b"ADA: Yes."), "a.txt")})
    assert answer.status_code == 400


@pytest.mark.parametrize(
    ("content", "name", "told"),
    [
        (b"", "a.txt", "it is empty"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1rest", "a.doc", "old Word"),
        (b"PK\x03\x04 cut off", "a.docx", "cannot be unpacked"),
        (b"WEBVTT\n\n0:00 --> 0:05\nYes.\n", "a.vtt", "line 3"),
    ],
)
def test_a_file_that_cannot_be_read_is_told_beside_its_field(
    keeper: FlaskClient, home: Store, content: bytes, name: str, told: str
) -> None:
    """What it is and what to do, and nothing is laid aside."""
    form = {"csrf_token": token(keeper), "file": (io.BytesIO(content), name)}
    answer = keeper.post(WORDS, data=form)
    assert answer.status_code == 400
    page = answer.get_data(as_text=True)
    assert told in page.split('id="file-fault"')[1].split("</p>")[0]
    assert list(home.settings.incoming.glob("words/*")) == []


def test_no_file_is_told_too(keeper: FlaskClient) -> None:
    """The form asks for one."""
    answer = keeper.post(WORDS, data={"csrf_token": token(keeper)})
    assert (answer.status_code, "Choose a file first." in answer.get_data(as_text=True)) == (400, True)


def test_a_preview_of_another_recording_or_key_is_not_there(keeper: FlaskClient) -> None:
    """A key holds for the recording that the file was brought for."""
    address = bring(keeper)
    assert keeper.get(address.replace("I-1-a", "I-2-a")).status_code == 404
    assert keeper.get(f"{WORDS}/12345").status_code == 404


def test_a_choice_that_is_none_is_told_beside_its_field(keeper: FlaskClient, home: Store) -> None:
    """A person nobody knows, a paragraph that is no number, a way that is none: all told, and nothing kept."""
    address = bring(keeper)
    wrong = {"label-0": "NED", "name-0": "P-nobody", "first": "two", "speakers": "loudly"}
    status, page = send(keeper, f"{address}/keep", **wrong)
    assert status == 400
    for name in ("name-0", "first", "speakers"):
        assert f'id="{name}-fault"' in page
    assert lines(home)[0] == ("P-3", "Can you tell me about the first morning?")


def test_the_preview_keeps_nothing(keeper: FlaskClient, home: Store) -> None:
    """It tells lines, guessed times, who is meant, and what is left out and why."""
    before = lines(home)
    page = keeper.get(bring(keeper)).get_data(as_text=True)
    assert "I set my own tool [inaudible]." in page
    assert "(indistinct)" in page
    assert "Because: before the first speaker or time" in page
    assert "END OF TAPE" in page
    assert '<option value="P-1" selected>Ada Birch, narrator</option>' in page
    assert '<option value="P-3" selected>Ned Sallow, interviewer</option>' in page
    assert "5 lines that stand there now" in page
    assert lines(home) == before


def test_names_given_once_hold_throughout_and_the_file_is_kept(keeper: FlaskClient, home: Store) -> None:
    """The lines are a new version with the speakers named; the older version and the file's own bytes stay."""
    address = bring(keeper)
    chosen = {"label-0": "NED", "name-0": "P-3", "label-1": "ADA", "name-1": "P-1", "label-2": "SOMEBODY", "name-2": ""}
    status, page = send(keeper, f"{address}/keep", **chosen)
    assert status == 200
    assert "as version 1" in page
    assert lines(home) == [
        ("P-3", "Where did you start?"),
        ("P-1", "In the press shop. (laughs)"),
        ("SOMEBODY", "Tea is ready."),
        ("P-1", "I set my own tool [inaudible]."),
    ]
    with home.session() as session:
        kept = session.scalars(select(TranscriptFile)).one()
        assert home.files.path(kept.sha256).read_bytes() == TYPED.encode()
        assert (kept.file_name, kept.form, kept.who) == ("talk.txt", "text", "keeper")
        versions = session.scalars(select(TranscriptVersion).order_by(TranscriptVersion.number)).all()
        assert [version.number for version in versions] == [0, 1]
        assert versions[0].lines[0][4] == "Can you tell me about the first morning?"
        recording = session.scalars(select(Recording).where(Recording.ref == "I-1-a")).one()
        assert recording.transcript_state == "draft"
        assert [(s.doubtful, s.confidence) for s in recording.segments] == [(True, 0.0)] * 3 + [(False, None)]
        with keeper.get(f"{WORDS}/files/{kept.id}") as answer:
            assert answer.get_data() == TYPED.encode()
    assert list(home.settings.incoming.glob("words/*")) == []


def test_guessed_words_near_a_closure_stay_hidden(home: Store, keeper: FlaskClient) -> None:
    """Between 0:00 and 0:15 stands a closure, so no reader may have a line whose place in it is a guess."""
    send(keeper, f"{bring(keeper)}/keep")
    reader = sign_in(app_of(home).test_client(), "reader")
    page = reader.get("/reading/interviews/I-1").get_data(as_text=True)
    assert "I set my own tool" in page
    for words in ("Where did you start", "In the press shop", "Tea is ready"):
        assert words not in page


def test_a_label_that_is_no_speaker_becomes_words(keeper: FlaskClient, home: Store) -> None:
    """Said once, it holds when the file is shown anew, and can be taken back."""
    address = bring(keeper)
    status, page = send(keeper, address, **{"label-2": "SOMEBODY", "name-2": "no"})
    assert status == 200
    assert "SOMEBODY: Tea is ready." in page
    assert '<option value="no" selected>' in page
    send(keeper, f"{address}/keep")
    assert ("P-1", "SOMEBODY: Tea is ready.") in lines(home)


def test_the_file_alone_leaves_the_transcript_as_it_is(keeper: FlaskClient, home: Store) -> None:
    """It stands beside the transcript, to be opened as it came."""
    before = lines(home)
    _status, page = send(keeper, f"{bring(keeper)}/file")
    assert "talk.txt" in page
    assert lines(home) == before
    with home.session() as session:
        assert session.scalars(select(TranscriptVersion)).all() == []


def test_dropping_keeps_nothing(keeper: FlaskClient, home: Store) -> None:
    """Neither the file nor what lay aside."""
    address = bring(keeper)
    send(keeper, f"{address}/drop")
    assert keeper.get(address).status_code == 404
    with home.session() as session:
        assert session.scalars(select(TranscriptFile)).all() == []


def test_somebody_who_changed_it_meanwhile_is_not_written_over(keeper: FlaskClient, home: Store) -> None:
    """The second is told; only after that may the words be kept, and then all versions stand."""
    first, second = bring(keeper), bring(keeper, "ADA: Quite other words.\nNED: Yes.\n", "other.txt")
    send(keeper, f"{second}/keep")
    status, page = send(keeper, f"{first}/keep")
    assert status == 409
    assert "Nothing was kept" in page
    assert lines(home)[0][1] == "Quite other words."
    status, _page = send(keeper, f"{first}/keep")
    assert status == 200
    with home.session() as session:
        numbers = [each.number for each in session.scalars(select(TranscriptVersion))]
    assert sorted(numbers) == [0, 1, 2]


def test_a_word_document_with_names_in_bold_is_kept_with_its_times(keeper: FlaskClient, home: Store) -> None:
    """Bold names and times in brackets; the header of the pages is left out and told."""
    document = docx.Document()
    document.sections[0].header.paragraphs[0].text = "Works archive"
    for time, name, words in (("[0:00]", "Ned Sallow", "Were you there?"), ("[0:13]", "Ada Birch", "I was.")):
        paragraph = document.add_paragraph(f"{time} ")
        paragraph.add_run(f"{name}: ").bold = True
        paragraph.add_run(words)
    file = io.BytesIO()
    document.save(file)
    address = bring(keeper, file.getvalue(), "talk.docx")
    assert "Works archive" in keeper.get(address).get_data(as_text=True)
    send(keeper, f"{address}/keep")
    assert lines(home) == [("P-3", "Were you there?"), ("P-1", "I was.")]


def test_a_large_file_is_told_its_limit(keeper: FlaskClient) -> None:
    """Beside the field, although it is far over what other forms may send."""
    parts = (("csrf_token", "", token(keeper).encode()), ("file", '; filename="long.txt"', b"word " * (5 << 20)))
    body = b"".join(
        f'--cut\r\nContent-Disposition: form-data; name="{name}"{more}\r\n\r\n'.encode() + content + b"\r\n"
        for name, more, content in parts
    )
    sent = io.BytesIO(body + b"--cut--\r\n")
    answer = keeper.post(WORDS, input_stream=sent, content_type="multipart/form-data; boundary=cut",
                         content_length=sent.getbuffer().nbytes)  # fmt: skip
    assert answer.status_code == 400
    assert "it is larger than 20 MB" in answer.get_data(as_text=True)


@pytest.mark.parametrize(("typed", "means"), [("Q: When?\n\nA: Then.", True), ("A: When?\n\nB: Then.", False)])
def test_letters_alone_are_people_where_one_asks_and_one_answers(keeper: FlaskClient, typed: str, means: bool) -> None:
    """Q and A are interviewer and narrator; A and B may be anybody, and are not guessed."""
    page = keeper.get(bring(keeper, typed)).get_data(as_text=True)
    assert ('<option value="P-1" selected' in page) is means
