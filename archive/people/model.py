"""What is kept of a person or a firm."""

from __future__ import annotations

from sqlalchemy import CheckConstraint, String, Text
from sqlalchemy.orm import Mapped, mapped_column

from archive.store.base import Base, Key, Name, Ref
from archive.values.dates import UncertainDate

ROLES = ("narrator", "interviewer", "worker", "maker", "staff")
KINDS = ("person", "firm")


class Person(Base):
    """A narrator, interviewer, worker spoken of, maker or member of staff.

    `name` of an unnamed person is for the keeper's file alone; `shown_name` in `rights.naming` decides what is shown.
    """

    __tablename__ = "person"
    __table_args__ = (
        CheckConstraint("kind in ('person', 'firm')", name="kind"),
        CheckConstraint("not unnamed or called <> ''", name="unnamed_is_called"),
    )

    id: Mapped[Key]
    ref: Mapped[Ref]
    name: Mapped[Name]
    kind: Mapped[str] = mapped_column(String(10), default="person")
    roles: Mapped[list[str]]
    trade: Mapped[str] = mapped_column(String(200), default="")
    born: Mapped[UncertainDate | None]
    died: Mapped[UncertainDate | None]
    unnamed: Mapped[bool] = mapped_column(default=False)
    called: Mapped[str] = mapped_column(String(200), default="")
    initials: Mapped[str] = mapped_column(String(20), default="")
    note: Mapped[str] = mapped_column(Text, default="")
