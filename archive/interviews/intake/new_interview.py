"""A new interview as a form asks for it, read field by field. Pure."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Collection, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass

from archive.errors import Fault, Unacceptable
from archive.rights.decisions import AGREED
from archive.values.dates import UncertainDate, parse_date
from archive.values.identifiers import REF_ALLOWED, is_language_tag, is_ref

_FORBIDDEN = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff]")
_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
LONGEST = {"title": 300, "place": 200, "summary": 20_000, "new_narrator": 300, "note": 20_000}
NAME_FORMS = ("own", "initials")


@dataclass(frozen=True)
class NewInterview:
    """What is asked for. `allowed` are the purposes that the agreement allows from today on; all others stay closed."""

    ref: str
    title: str
    held: UncertainDate | None
    covers: UncertainDate | None
    place: str
    language: str
    summary: str
    narrators: tuple[str, ...]
    new_narrator: str
    interviewers: tuple[str, ...]
    signed: dt.date | None
    note: str
    allowed: tuple[str, ...]
    name_form: str


def read_new_interview(
    form: Mapping[str, str], lists: Mapping[str, Sequence[str]], *, taken: Collection[str], people: Collection[str]
) -> NewInterview:
    """The interview of a form; Unacceptable with every fault. `taken` are references that cannot be given again."""
    reader = _Reader(form, lists)
    asked = NewInterview(
        ref=reader.ref(taken),
        title=reader.text("title", required="Say in a few words what the interview is"),
        held=reader.date("held"),
        covers=reader.date("covers"),
        place=reader.text("place"),
        language=reader.language(),
        summary=reader.text("summary"),
        narrators=reader.each("narrators", people, "a person who is kept"),
        new_narrator=reader.text("new_narrator"),
        interviewers=reader.each("interviewers", people, "a person who is kept"),
        signed=reader.day("signed"),
        note=reader.text("note"),
        allowed=reader.each("allowed", AGREED, "one of the purposes"),
        name_form=form.get("name_form", "own"),
    )
    if not asked.narrators and not asked.new_narrator:
        reader.fault("narrators", "No narrator is named", "Choose one, or write a new narrator's name")
    if asked.allowed and asked.signed is None and not any(fault.where == "signed" for fault in reader.faults):
        reader.fault("signed", "Something is allowed, but no day is given", "Give the day the agreement was signed")
    if asked.name_form not in NAME_FORMS:
        reader.fault("name_form", "This is no way to show a name", "Choose the own name or initials")
    if reader.faults:
        raise Unacceptable(reader.faults, "The interview")
    return asked


class _Reader:
    def __init__(self, form: Mapping[str, str], lists: Mapping[str, Sequence[str]]) -> None:
        self._form, self._lists = form, lists
        self.faults: list[Fault] = []

    def fault(self, field: str, found: str, allowed: str) -> None:
        """Note one thing wrong."""
        self.faults.append(Fault(field, 0, found, allowed))

    def text(self, field: str, required: str = "") -> str:
        """A text without white space around it."""
        text = self._form.get(field, "").replace("\r\n", "\n").strip()
        if required and not text:
            self.fault(field, "This is empty", required)
        if _FORBIDDEN.search(text):
            self.fault(field, "It holds letters that cannot be shown", "Write it without them")
        if len(text) > LONGEST[field]:
            self.fault(field, f"It has {len(text)} letters", f"Up to {LONGEST[field]} are kept")
        return text

    def ref(self, taken: Collection[str]) -> str:
        """The reference, or "" for the next free one."""
        ref = self._form.get("ref", "").strip()
        if ref and not is_ref(ref):
            self.fault("ref", f"'{ref[:64]}' is no reference", REF_ALLOWED)
        elif ref in taken:
            self.fault("ref", f"'{ref}' stands already, or stood once", "Give one that was never used")
        return ref

    def date(self, field: str) -> UncertainDate | None:
        """A date that may be uncertain."""
        text = self._form.get(field, "").strip()
        try:
            return parse_date(text) if text else None
        except ValueError as problem:
            found, _, allowed = str(problem).partition(". ")
            self.fault(field, found, allowed)
            return None

    def day(self, field: str) -> dt.date | None:
        """A day that is certain."""
        text = self._form.get(field, "").strip()
        if not text:
            return None
        if _DAY.fullmatch(text):
            with suppress(ValueError):
                return dt.date.fromisoformat(text)
        self.fault(field, f"'{text[:20]}' is no day", "Write it as 2026-11-25")
        return None

    def language(self) -> str:
        """A language tag, or "" for the collection's own."""
        tag = self._form.get("language", "").strip()
        if tag and not is_language_tag(tag):
            self.fault("language", f"'{tag[:35]}' is no language tag", "Write a tag such as en-GB")
        return tag

    def each(self, field: str, known: Collection[str], what: str) -> tuple[str, ...]:
        """The values of a list, each of them known."""
        values = tuple(dict.fromkeys(value for value in self._lists.get(field, ()) if value))
        for value in values:
            if value not in known:
                self.fault(field, f"'{value[:64]}' is not {what}", "Choose from the list")
        return values
