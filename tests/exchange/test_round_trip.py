"""Load, export and load again: the same records, and the same files."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from archive.errors import Conflict
from archive.exchange.cues import one_line
from archive.exchange.draft_voices import CollectionDraft, RecordingDraft, SegmentDraft, TieDraft
from archive.exchange.drafting import draft_of
from archive.exchange.folder import read_folder
from archive.exchange.loading import load
from archive.exchange.reading_tours import segment_at
from archive.exchange.reading_voices import tied
from archive.exchange.stretches import moment_of, tie_rows
from archive.exchange.writing import write_draft, write_folder
from archive.interviews.intake.queries import recording
from archive.settings import Settings, shared_folder
from archive.store.homes import make_home
from archive.store.queries import kept_files
from archive.store.session import Store
from archive.values.dates import parse_date
from archive.values.timecode import Span
from tests.small_collection import write_small_collection


def held(store: Store) -> tuple[CollectionDraft, set[str]]:
    """The records of a home in a form to compare, and the checksums of masters, copies that came and pictures."""
    with store.session() as session:
        files = {kept.sha256 for kept in kept_files(session) if kept.media_type != "application/octet-stream"}
        return draft_of(session, store.files), files


def test_a_folder_that_is_not_empty_is_not_written_over(home: Store, tmp_path: Path) -> None:
    """Neither a folder with something in it, nor a file."""
    (tmp_path / "full").mkdir()
    (tmp_path / "full" / "mine.txt").write_text("mine")
    (tmp_path / "file").write_text("mine")
    for name in ("full", "full/mine.txt", "file"):
        with pytest.raises(Conflict, match="Choose another name"):
            write_folder(home, tmp_path / name)
    assert (tmp_path / "full" / "mine.txt").read_text() == "mine"


@pytest.mark.parametrize("name", ["side one", "side one.dat", "tape.vtt.sound"])
def test_a_master_of_any_name_comes_back(home: Store, tmp_path: Path, name: str) -> None:
    """Whether a file holds sound was found out by reading it, whatever it is called."""
    with home.changing("tests") as session:
        row = recording(session, "I-1-a")
        row.master_name, sha256 = name, row.master_sha256
    write_folder(home, tmp_path / "out")
    store = make_home(Settings(tmp_path / "again", testing=True))
    load(store, tmp_path / "out")
    with store.session() as session:
        again = recording(session, "I-1-a")
        assert (again.master_name, again.master_sha256) == (name, sha256)
    store.close()


def test_a_failed_export_leaves_nothing(home: Store, tmp_path: Path) -> None:
    """A kept file that is lost stops it, and no half folder stands there."""
    for path in home.settings.files.glob("??/*"):
        path.unlink()
    with pytest.raises(Exception, match="Restore it from a backup"):
        write_folder(home, tmp_path / "out" / "collection")
    assert list((tmp_path / "out").glob("*")) == []


def test_an_empty_home_has_nothing_to_export(empty_home: Store, tmp_path: Path) -> None:
    """It says how to fill it."""
    with pytest.raises(Conflict, match="lemel load"):
        write_folder(empty_home, tmp_path / "out")


def test_the_small_collection_comes_back_the_same(home: Store, tmp_path: Path) -> None:
    """Records read from the folder, held by the home, exported and loaded again are all alike."""
    out = tmp_path / "out"
    write_folder(home, out)
    second = make_home(Settings(tmp_path / "second", testing=True))
    load(second, out)
    first_records, first_files = held(home)
    assert read_folder(tmp_path / "small") == first_records
    assert read_folder(out) == first_records
    assert held(second)[0] == first_records
    assert held(second)[1] == first_files
    second.close()


def test_exporting_twice_writes_the_same_bytes(home: Store, tmp_path: Path) -> None:
    """So that two exports can be compared file by file."""
    write_folder(home, tmp_path / "a")
    write_folder(home, tmp_path / "b")
    names = sorted(path.relative_to(tmp_path / "a") for path in (tmp_path / "a").rglob("*") if path.is_file())
    assert len(names) > 20
    assert all((tmp_path / "a" / name).read_bytes() == (tmp_path / "b" / name).read_bytes() for name in names)


def test_an_empty_folder_may_be_the_target(home: Store, tmp_path: Path) -> None:
    """As when a person made it first."""
    (tmp_path / "out").mkdir()
    write_folder(home, tmp_path / "out")
    assert (tmp_path / "out" / "collection.toml").is_file()


def test_the_demo_collection_comes_back_the_same(demo_home: Store, tmp_path: Path) -> None:
    """The whole of it: read from its folder, held by a home, exported and read again."""
    write_folder(demo_home, tmp_path / "out")
    records, _ = held(demo_home)
    assert read_folder(shared_folder("demo-collection")) == records
    assert read_folder(tmp_path / "out") == records


# -- collections that are made up -------------------------------------------------------------------------------------

LETTERS = st.characters(exclude_categories=("Cc", "Cs", "Cn", "Co")) | st.sampled_from("\"'\\,;|<>&#+-=[]{}%\n")
TEXT = st.text(LETTERS, max_size=40).map(lambda text: text.replace("\x85", " ").strip())
LINE = TEXT.map(one_line).map(lambda text: text.strip())
GIVEN = LINE.filter(bool)
ENTRY = GIVEN.map(lambda text: text.replace(";", ",").replace("|", "/").strip()).filter(bool)
DATE = st.none() | st.sampled_from(["1952", "1952~", "195X", "1931-04", "1948/1971", "1944/.."]).map(parse_date)
DAY = st.none() | st.dates(dt.date(1900, 1, 1), dt.date(2100, 1, 1))
NUMBER = st.floats(0.5, 900, allow_nan=False)
INPUTS = st.dictionaries(
    ENTRY.filter(str.isprintable),
    st.booleans() | st.integers(-999, 999) | NUMBER | st.lists(st.integers(0, 9)),
    max_size=3,
)


def some(options: list[str]) -> st.SearchStrategy[frozenset[str]]:
    """Any of the references."""
    return st.frozensets(st.sampled_from(options))


@st.composite
def collections(draw: Callable[[st.SearchStrategy[Any]], Any], base: CollectionDraft) -> CollectionDraft:
    """The small collection with its texts, dates, numbers and ties replaced by whatever the format can hold."""
    people = tuple(
        replace(
            person,
            name=person.name if person.unnamed else draw(GIVEN),
            trade=draw(LINE),
            born=draw(DATE),
            note=draw(TEXT),
        )
        for person in base.people
    )
    terms = tuple(
        replace(
            term,
            preferred=draw(GIVEN),
            meaning=draw(TEXT.filter(bool)),
            other_words=tuple(dict.fromkeys(draw(st.lists(ENTRY, max_size=3)))),
        )
        for term in base.terms
    )
    objects = tuple(
        replace(
            thing,
            name=draw(GIVEN),
            description=draw(TEXT.filter(bool)),
            made=draw(DATE),
            made_by=draw(some(["pr-cut", "pr-pack"])),
            workers=draw(some(["P-1", "P-2"])),
        )
        for thing in base.objects
    )
    statements = tuple(
        replace(statement, text=draw(TEXT.filter(bool)), note=draw(TEXT), stations=draw(some(["st-door", "st-press"])))
        for statement in base.statements
    )
    tellings = tuple(replace(telling, title=draw(GIVEN), script=draw(TEXT)) for telling in base.tellings)
    tours = tuple(replace(tour, name=draw(GIVEN), minutes=900.0, inputs=draw(INPUTS)) for tour in base.tours)
    interviews = tuple(
        replace(
            interview,
            title=draw(GIVEN),
            covers=draw(DATE),
            agreement=replace(interview.agreement, signed=draw(DAY), note=draw(TEXT)) if interview.agreement else None,
            recordings=tuple(replace(r, segments=draw(transcripts())) for r in interview.recordings),
        )
        for interview in base.interviews
    )
    evidence_free = tuple(
        replace(s, evidence=tuple(replace(e, segment=0) for e in s.evidence if e.kind != "segment")) for s in statements
    )
    return replace(
        base,
        people=people,
        terms=terms,
        objects=objects,
        statements=evidence_free,
        tellings=tellings,
        tours=tours,
        interviews=interviews,
    )


TIES = st.frozensets(
    st.builds(
        TieDraft,
        st.just("object"),
        st.sampled_from(["SM.1", "SM.2"]),
        st.sampled_from(["accepted", "proposed"]),
        LINE,
        DAY,
    ),
    max_size=2,
)


@st.composite
def transcripts(draw: Callable[[st.SearchStrategy[Any]], Any]) -> tuple[SegmentDraft, ...]:
    """Segments one after the other, some with ties."""
    segments, start = [], 0
    for length, gap in draw(st.lists(st.tuples(st.integers(1, 4000), st.integers(0, 500)), max_size=5)):
        speaker = draw(st.sampled_from(["", "P-1", "P-3"]))
        label = (
            ""
            if speaker
            else draw(st.just("") | GIVEN.filter(lambda text: text not in ("P-1", "P-2", "P-3", "P-4", "P-5")))
        )
        span = Span(start + gap, start + gap + length)
        segments.append(SegmentDraft(span=span, speaker=speaker, label=label, text=draw(GIVEN), ties=draw(TIES)))
        start += gap + length
    return tuple(segments)


@pytest.fixture(scope="module")
def base(tmp_path_factory: pytest.TempPathFactory) -> CollectionDraft:
    """The small collection as a draft."""
    return read_folder(write_small_collection(tmp_path_factory.mktemp("base") / "small"))


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(data=st.data())
def test_any_collection_that_is_written_is_read_again(base: CollectionDraft, data: st.DataObject) -> None:
    """Whatever its texts, dates, figures and ties are."""
    draft = data.draw(collections(base))
    with TemporaryDirectory() as folder:
        write_draft(draft, Path(folder))
        assert read_folder(Path(folder)) == draft


@settings(max_examples=6, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(data=st.data())
def test_any_collection_that_is_loaded_is_held(base: CollectionDraft, data: st.DataObject) -> None:
    """The records say what the folder said."""
    draft = data.draw(collections(base))
    with TemporaryDirectory() as folder:
        write_draft(draft, Path(folder) / "collection")
        store = make_home(Settings(Path(folder) / "home", testing=True))
        load(store, Path(folder) / "collection")
        assert held(store)[0] == draft
        store.close()


# -- segments that overlap --------------------------------------------------------------------------------------------

SPANS = st.lists(st.tuples(st.integers(0, 40), st.integers(1, 20)), min_size=1, max_size=6).map(
    lambda pairs: tuple(
        SegmentDraft(span=Span(start, start + length), speaker="", label="", text="x")
        for start, length in sorted(pairs)
    )
)


@given(SPANS, st.lists(st.tuples(st.integers(0, 60), st.integers(1, 20)), max_size=4))
def test_ties_fall_on_the_same_segments_again(
    base: CollectionDraft, segments: tuple[SegmentDraft, ...], rows: list[tuple[int, int]]
) -> None:
    """Though segments overlap, and ties reach over several of them."""
    empty = replace(base.interviews[0].recordings[0], segments=segments)
    ties = [(Span(start, start + length), TieDraft("term", f"t-{n % 2}")) for n, (start, length) in enumerate(rows)]
    recording: RecordingDraft = tied(empty, ties)
    assert tied(empty, tie_rows(recording)) == recording


@given(SPANS, st.integers(0, 60))
def test_a_moment_leads_back_to_its_segment(base: CollectionDraft, segments: tuple[SegmentDraft, ...], at: int) -> None:
    """The time written for evidence finds the segment that the evidence is."""
    recording = replace(base.interviews[0].recordings[0], segments=segments)
    position = segment_at(recording, at)
    if position is not None:
        assert segment_at(recording, moment_of(recording, position)) == position
