"""From a typed text without times to a mended transcript, by keyboard alone: brought, timed, mended, compared."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
import soundfile
from playwright.sync_api import Browser, Page, expect

from archive.audio.cutting import cut
from archive.interviews.intake.queries import recording
from archive.interviews.transcripts.lines import Line
from archive.interviews.transcripts.queries import lines_of
from archive.settings import Settings, shared_folder
from archive.store.homes import make_home
from archive.store.session import Store
from archive.values.timecode import Span
from tests.browser.conftest import serving, sign_in_on, tab_to, until
from tests.conftest import app_of, fill, with_accounts
from tests.small_collection import write_small_collection

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("browser")]

REF = "I-2-a"
PLACE = f"/workroom/recordings/{REF}"
LENGTH_MS = 41_200
# What is said in the first forty seconds of a voice of the demo, a line a sentence; two lines were never said.
TYPED = """
A: Edwin Quill, on the twenty-fifth of November, nineteen ninety-eight,
A: speaking to Harbin Locke.
B: Locke with an E.
B: Die sinker.
B: Not engraver,
B: not toolmaker,
B: though I can do both.
B: Die sinker.
A: How did you come to it?
B: Every summer they lent us bicycles and umbrellas for the seaside outing.
B: Indentured.
B: January nineteen forty-six, at fifteen years old.
B: Seven years, all but a fortnight.
B: The first year I swept,
B: and I sharpened other men's gravers,
B: and I fetched the tea.
B: The second year I was let to file.
B: It was a full three years before I cut anything
B: that touched metal that was sold.
B: Our neighbour's parrot whistled operas behind the bakery wall.
B: That is what seven years means.
A: Describe sinking a die.
"""


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    """The small collection, with forty seconds of speech for the tone of one interview."""
    wave, speech = tmp_path / "speech.wav", tmp_path / "speech.flac"
    cut(shared_folder("demo-collection") / "interviews" / "I-04" / "audio.webm", wave, Span(0, LENGTH_MS))
    soundfile.write(speech, *soundfile.read(wave, dtype="int16"))
    folder = write_small_collection(tmp_path / "small", **{"interviews/I-2/audio.flac": speech.read_bytes()})
    home = make_home(Settings(tmp_path / "home", testing=True))
    yield with_accounts(fill(home, folder))
    home.close()


@pytest.fixture
def page(browser: Browser, store: Store) -> Iterator[Page]:
    """A keeper's page, on which no script may fail."""
    complaints: list[str] = []
    for site in serving(app_of(store)):
        with browser.new_context(base_url=site, viewport={"width": 1280, "height": 900}) as context:
            context.set_default_timeout(60_000)
            page = context.new_page()
            page.on("pageerror", lambda error: complaints.append(str(error)))
            sign_in_on(page, "keeper")
            yield page
    assert complaints == []


def lines(store: Store) -> list[Line]:
    """The transcript as it is kept."""
    with store.session() as session:
        return lines_of(session, recording(session, REF))


def press(page: Page, *keys: str) -> None:
    """One key after the other."""
    for key in keys:
        page.keyboard.press(key)


def bring(page: Page, file: Path) -> None:
    """The file chosen, looked at, and kept; then its times asked for."""
    page.goto(f"{PLACE}/words")
    page.get_by_label("Typed transcript").set_input_files(file)
    for name in ("Show how it is understood", "Keep these words"):
        tab_to(page, page.get_by_role("button", name=name))
        press(page, "Enter")
        page.wait_for_load_state()
    tab_to(page, page.get_by_role("link", name="Find the times in the sound"))
    press(page, "Enter")
    expect(page.get_by_role("heading", name="Times for its words")).to_be_visible()
    tab_to(page, page.get_by_role("button", name="Find the times"))
    press(page, "Enter")
    expect(page.get_by_role("status")).to_contain_text("The times are found and kept")


def listen(page: Page) -> None:
    """Play the line slower, and go back two seconds."""
    press(page, "F8", "Alt+p")
    until(page, "!audio.paused && audio.currentTime > 1")
    press(page, "F2")
    until(page, "audio.paused")
    now = page.evaluate("document.querySelector('audio').currentTime")
    press(page, "F4")
    assert page.evaluate("document.querySelector('audio').currentTime") == pytest.approx(max(0, now - 2), abs=0.1)
    assert page.evaluate("document.querySelector('audio').playbackRate") == 0.9


def mend(page: Page) -> None:
    """Twenty lines, each deed by its own key; it begins at the first doubtful line."""
    press(page, "Alt+Delete", "Alt+n", "Alt+Delete")  # What was never said goes.
    press(page, *["Alt+ArrowUp"] * 20, "Control+End")
    page.keyboard.type(" [coughs]")
    press(page, "Alt+ArrowDown", "Alt+o")  # Another speaks.
    press(page, "Alt+ArrowDown", "Control+Home", "Alt+u")  # Its first word is not clear.
    press(page, "Alt+ArrowDown", "Control+End", "Alt+i")  # Nobody can make out its end.
    press(page, "Alt+ArrowDown", "Alt+j")  # Two are one,
    press(page, "Alt+ArrowDown", "Control+Home", *["ArrowRight"] * 6, "Control+Enter")  # and one is two.
    press(page, "Alt+ArrowDown", "Alt+Shift+.", "Alt+.")  # It starts 110 ms later.
    press(page, "Alt+ArrowDown", "Alt+Shift+[", "Alt+]")  # It ends 90 ms earlier.
    for _ in range(9):
        press(page, "Alt+ArrowDown", "Control+End")
        page.keyboard.type(" Yes.")
    press(page, "Control+z", "Control+z", "Control+y", "Control+y")
    press(page, *["Alt+ArrowDown"] * 20, "Control+End")
    page.keyboard.type(" Please.")
    press(page, "Alt+ArrowUp", "Alt+d")


def replace_and_tie(page: Page) -> None:
    """Find and replace with a preview; then the line that speaks of metal is tied to the word of the thesaurus."""
    press(page, "Alt+g")
    page.keyboard.type("die sinker")
    press(page, "Tab")
    page.keyboard.type("die-sinker")
    press(page, "Enter")
    expect(page.locator("[data-found] ins")).to_have_count(2)
    press(page, "Enter", "Escape", *["Alt+ArrowUp"] * 20, *["Alt+ArrowDown"] * 17)
    expect(page.locator("[data-suggested] button").first).to_contain_text("Tie")
    press(page, "Alt+a")
    expect(page.locator("[data-tied]")).to_contain_text("metal")


def ask_for_keys_and_versions(page: Page) -> None:
    """The list of keys by a question mark; then the list of versions, and on to what differs between the last two."""
    tab_to(page, page.get_by_role("button", name="This is checked"))
    press(page, "?")
    expect(page.get_by_role("heading", name="Keys", exact=True)).to_be_visible()
    press(page, "Escape")
    page.goto(page.url.partition("#")[0])
    tab_to(page, page.get_by_role("link", name="Versions"))
    press(page, "Enter")
    page.wait_for_selector(".versions")
    expect(page.locator(".versions tbody tr")).to_have_count(4)
    expect(page.locator(".versions")).to_contain_text("Times found in the sound")
    tab_to(page, page.get_by_role("button", name="Compare"))
    press(page, "Enter")
    expect(page.locator(".changes")).to_contain_text("[inaudible]")
    expect(page.locator(".changes")).to_contain_text("Our neighbour's parrot")


def test_a_typed_text_is_timed_and_twenty_lines_are_mended_without_a_mouse(
    page: Page, store: Store, tmp_path: Path
) -> None:
    """It is brought, its times are found, its doubts looked at and its lines mended; all is kept and compared."""
    file = tmp_path / "locke.txt"
    file.write_text(TYPED.strip().replace("\n", "\n\n"), "utf-8")
    bring(page, file)
    timed = lines(store)
    assert [at for at, line in enumerate(timed) if line.doubtful] == [9, 19]
    tab_to(page, page.get_by_role("link", name="Line 10", exact=True))
    press(page, "Enter")
    page.wait_for_selector("transcript-bench[data-ready]")
    expect(page.locator("textarea")).to_have_value(timed[9].text)
    listen(page)
    mend(page)
    replace_and_tie(page)
    page.wait_for_selector('transcript-bench[data-kept="kept"]')
    page.reload()
    page.wait_for_selector("transcript-bench[data-ready]")
    after, was = lines(store), [line for line in timed if not line.doubtful]
    assert page.locator(".mend").count() == len(after) == 20
    assert [line.text for line in after[:8]] == [
        f"{was[0].text} [coughs]",
        was[1].text,
        "[unclear: Locke] with an E.",
        "Die-sinker. [inaudible]",
        "Not engraver, not toolmaker,",
        "though",
        "I can do both.",
        "Die-sinker.",
    ]
    assert after[1].label != was[1].label
    assert (after[7].start_ms - was[7].start_ms, after[8].end_ms - was[8].end_ms) == (110, -90)
    assert [line.text for line in after[9:18]] == [f"{line.text} Yes." for line in was[9:18]]
    assert [line.doubtful for line in after[17:]] == [False, True, False]
    assert after[19].text == "Describe sinking a die. Please."
    ask_for_keys_and_versions(page)
