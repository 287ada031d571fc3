"""Words explained where they stand."""

from __future__ import annotations

from archive.store.session import Store
from archive.web.kiosk.explaining import Explainer


def test_markup_in_a_text_stays_text(shared_home: Store) -> None:
    """Marking words opens no way for markup: what was written as a tag is shown as written."""
    with shared_home.session() as session:
        shown = Explainer(session, near=[3])('A <script>blank</script> & a "blank"')
    assert "<script>" not in shown
    assert "&lt;script&gt;" in shown
    assert "&amp; a " in shown


def test_dialect_counts_only_near_its_subject(shared_home: Store) -> None:
    """A word of everyday English is left alone, unless the page's subject names its term."""
    with shared_home.session() as session:
        far, near = Explainer(session), Explainer(session, near=range(1, 10))
        assert "<button" not in far("stuff and a slug")
        assert near("stuff and a slug").count("<button") == 2


def test_several_words_count_everywhere(shared_home: Store) -> None:
    """Words that belong together are the trade's wherever they stand."""
    with shared_home.session() as session:
        explain = Explainer(session)
        assert "yellow metal</button>" in explain("yellow metal")
        assert [word.preferred for word in explain.words] == ["brass"]


def test_a_page_explains_a_word_once(shared_home: Store) -> None:
    """A word marked in one text of a page is not marked again in the next; its own page leaves it alone."""
    with shared_home.session() as session:
        explain = Explainer(session, near=range(1, 10))
        assert "<button" in explain("brass")
        assert "<button" not in explain("brass")
        own = Explainer(session, near=range(1, 10))
        own.pass_over(explain.words[0].id)
        assert "<button" not in own("brass")
