"""Processes and hazards out of their prose files."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TypeVar

from archive.exchange.chains import find_loop
from archive.exchange.checking_reckonings import check_reckoning
from archive.exchange.draft import HazardDraft, LinkDraft, ProcessDraft, ReckoningDraft
from archive.exchange.faults import shown
from archive.exchange.folder_files import FolderFiles
from archive.exchange.front_matter import Prose, check_numbered, list_items, parse_prose
from archive.exchange.known import Known
from archive.exchange.toml_files import TomlTable
from archive.processes.model import HAZARD_SECTIONS, SECTIONS
from archive.tours.model import THEMES

T = TypeVar("T")
NAME = 300


def read_hazards(files: FolderFiles, known: Known) -> tuple[HazardDraft, ...]:
    """hazards/*.md"""

    def hazard(prose: Prose) -> HazardDraft:
        head = prose.head
        draft = HazardDraft(
            origin=head.place("ref"),
            ref=head.ref("ref"),
            name=head.text("name", required=True, limit=NAME),
            summary=head.text("summary", required=True),
            limits=head.text("limits"),
            then=prose.body("Then"),
            now=prose.body("Now"),
            controls=list_items(prose, "What keeps it from hurting", files.faults),
            cautions=prose.body("Cautions"),
        )
        head.finish()
        return draft

    return _read_all(files, "hazards", HAZARD_SECTIONS, known, "hazard", hazard)


def read_processes(files: FolderFiles, known: Known) -> tuple[ProcessDraft, ...]:
    """processes/*.md, a chain without loops."""

    def process(prose: Prose) -> ProcessDraft:
        head = prose.head
        check_numbered(prose, "What is done", files.faults)
        draft = ProcessDraft(
            origin=head.place("ref"),
            ref=head.ref("ref"),
            name=head.text("name", required=True, limit=NAME),
            summary=head.text("summary", required=True),
            themes=head.choices("themes", THEMES),
            stations=frozenset(known.ties("station", head, "stations")),
            hazards=frozenset(known.ties("hazard", head, "hazards")),
            terms=frozenset(known.ties("term", head, "terms")),
            comes_after=tuple(_link(row) for row in head.tables("comes_after")),
            reckonings=tuple(_reckoning(row) for row in head.tables("reckonings")),
            sections=tuple(prose.body(heading) for heading in SECTIONS),
        )
        head.finish()
        return draft

    drafts = _read_all(files, "processes", SECTIONS, known, "process", process)
    _check_chain(drafts, known)
    return drafts


def _read_all(
    files: FolderFiles, folder: str, headings: Sequence[str], known: Known, kind: str, read: Callable[[Prose], T]
) -> tuple[T, ...]:
    drafts = []
    for file_name in files.names(folder, ".md"):
        name = f"{folder}/{file_name}"
        text = files.text(name)
        prose = None if text is None else parse_prose(text, name, headings, files.faults)
        if prose is None:
            known.unsure.add(kind)
            continue
        drafts.append(read(prose))
        check_own_name(prose.head, file_name.removesuffix(".md"))
        known.add(kind, prose.head.ref("ref"), prose.head.place("ref"))
    return tuple(drafts)


def check_own_name(head: TomlTable, name: str) -> None:
    """Tell a record whose file or folder is not named by its reference."""
    ref = head.values.get("ref")
    if isinstance(ref, str) and ref.strip() != name:
        head.fault(
            "ref", f"the reference {shown(ref)} is not the name {shown(name)} that it lies under", "Make them one"
        )


def _link(row: TomlTable) -> LinkDraft:
    draft = LinkDraft(origin=row.place(), process=row.ref("process"), passes=row.text("passes", limit=NAME))
    row.finish()
    return draft


def _reckoning(row: TomlTable) -> ReckoningDraft:
    draft = ReckoningDraft(
        origin=row.place("name"),
        name=row.text("name", required=True, limit=80),
        inputs=row.free("inputs"),
        about=row.text("about"),
    )
    row.finish()
    check_reckoning(row, "name", draft.name, draft.inputs)
    return draft


def _check_chain(drafts: Sequence[ProcessDraft], known: Known) -> None:
    for draft in drafts:
        before = [link.process for link in draft.comes_after if link.process]
        known.only("process", before, draft.origin)
        for ref in sorted({ref for ref in before if before.count(ref) > 1}):
            known.faults.add(draft.origin, f"it comes after {shown(ref)} more than once", "Name it once")
    loop = find_loop({draft.ref: [link.process for link in draft.comes_after if link.process] for draft in drafts})
    if loop:
        place = next(draft.origin for draft in drafts if draft.ref == loop[0])
        found = f"the chain of processes runs in a loop: {' comes after '.join(loop)}"
        known.faults.add(place, found, "A process cannot come after itself; take one of the ties out")
