"""Files that came fit for browsers: passed on only without the words that their tags carry."""

from __future__ import annotations

from functools import partial

from archive.errors import Fault, LemelError
from archive.interviews import rendition_edits as edits
from archive.interviews import rendition_queries as queries
from archive.interviews.rendition_jobs import MadeFile
from archive.store.session import Store


def take_words_out(store: Store, who: str) -> tuple[Fault, ...]:
    """Put a copy without tags in the place of each supplied file that has any; the master itself is left as it is.

    Gives the faults of files that cannot be read.
    """
    with store.session() as session:
        supplied = [(row.id, row.form, row.sha256) for row in queries.supplied(session)]
    faults: list[Fault] = []
    for key, form, sha256 in supplied:
        try:
            bare = _bare_copy(store, form, sha256)
        except LemelError as error:
            faults.append(Fault(f"supplied file {sha256[:12]}", 0, "it cannot be read", str(error)))
            continue
        if bare is not None:
            _replace(store, who, key, bare)
    return tuple(faults)


def _bare_copy(store: Store, form: str, sha256: str) -> MadeFile | None:
    """A kept copy without words, or None where there are none to take out."""
    # Imported here for the same reason as in rendition_jobs.
    from archive.audio.words import bears_words, copy_without_words

    source = store.files.path(sha256)
    if not bears_words(source):
        return None
    return MadeFile(form, *store.files.keep_made(partial(copy_without_words, source, form=form)))


def _replace(store: Store, who: str, key: int, bare: MadeFile) -> None:
    with store.changing(who) as session:
        unused = edits.put_in_place(session, key, bare)
    for sha256 in unused:
        store.files.remove(sha256)
