"""What a narrator signed, out of interview.toml."""

from __future__ import annotations

from archive.exchange.draft_voices import AgreementDraft, PermissionDraft
from archive.exchange.toml_files import TomlTable

PURPOSES = ("research", "tour", "kiosk", "web", "publication")
NAME_FORMS = ("own", "initials", "other")
SHORT = 200


def read_agreement(interview: TomlTable) -> AgreementDraft | None:
    """The agreement; None where there is none, and then nothing is allowed."""
    table = interview.table("agreement")
    if table is None:
        return None
    permissions = [(purpose, table.table(purpose)) for purpose in PURPOSES]
    draft = AgreementDraft(
        origin=table.place(),
        signed=table.day("signed"),
        note=table.text("note"),
        permissions=tuple(_permission(purpose, row) for purpose, row in permissions if row is not None),
    )
    table.finish()
    return draft


def _permission(purpose: str, row: TomlTable) -> PermissionDraft:
    form, shown_as = row.choice("name", NAME_FORMS, default="own"), row.text("shown_as", limit=SHORT)
    if form == "other" and not shown_as:
        row.fault("shown_as", "'name' is \"other\", and no other name is given", "Write the name to show in shown_as")
    draft = PermissionDraft(
        origin=row.place(),
        purpose=purpose,
        allowed=row.flag("allowed"),
        from_date=row.day("from"),
        withdrawn_on=row.day("withdrawn"),
        name_form=form,
        shown_as=shown_as,
    )
    row.finish()
    return draft
