"""What is kept of a term of the thesaurus."""

from __future__ import annotations

from sqlalchemy import CheckConstraint, String, Text, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column, relationship

from archive.store.base import Base, Key, Name, Ref, link


class Term(Base):
    """A concept with its preferred word, other words and meaning."""

    __tablename__ = "term"

    id: Mapped[Key]
    ref: Mapped[Ref]
    preferred: Mapped[Name]
    language: Mapped[str] = mapped_column(String(35))
    meaning: Mapped[str] = mapped_column(Text)
    other_words: Mapped[list[str]]
    said_as: Mapped[str] = mapped_column(String(120), default="")

    relations: Mapped[list[TermRelation]] = relationship(
        foreign_keys="TermRelation.term_id", cascade="all, delete-orphan", passive_deletes=True
    )


class TermRelation(Base):
    """A term's tie to a broader or a related term; narrower is broader read backwards."""

    __tablename__ = "term_relation"
    __table_args__ = (
        UniqueConstraint("term_id", "other_id", "kind"),
        CheckConstraint("kind in ('broader', 'related')", name="kind"),
        CheckConstraint("term_id <> other_id", name="not_itself"),
    )

    id: Mapped[Key]
    term_id: Mapped[int] = link("term")
    other_id: Mapped[int] = link("term")
    kind: Mapped[str] = mapped_column(String(10))

    other: Mapped[Term] = relationship(foreign_keys=[other_id])
