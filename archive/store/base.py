"""The declarative base of every record, with names for constraints and the column types we share."""

from __future__ import annotations

import datetime as dt
from typing import Annotated, Any

from sqlalchemy import JSON, Column, ForeignKey, MetaData, String, Table, TypeDecorator
from sqlalchemy.engine import Dialect
from sqlalchemy.orm import DeclarativeBase, mapped_column

from archive.values.dates import UncertainDate, parse_date

NAMING = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
    "pk": "pk_%(table_name)s",
}


class UncertainDateType(TypeDecorator[UncertainDate]):
    """An uncertain date, kept as its EDTF text."""

    impl = String(64)
    cache_ok = True

    def process_bind_param(self, value: UncertainDate | None, dialect: Dialect) -> str | None:
        return None if value is None else value.text

    def process_result_value(self, value: str | None, dialect: Dialect) -> UncertainDate | None:
        return None if value is None else parse_date(value)


class Base(DeclarativeBase):
    """What every mapped record is."""

    metadata = MetaData(naming_convention=NAMING)
    type_annotation_map = {  # noqa: RUF012
        UncertainDate: UncertainDateType(),
        dict[str, Any]: JSON(),
        list[str]: JSON(),
        list[Any]: JSON(),
    }


Key = Annotated[int, mapped_column(primary_key=True)]
Ref = Annotated[str, mapped_column(String(64), unique=True)]
Name = Annotated[str, mapped_column(String(300))]


def link(target: str) -> Any:
    """A foreign key to another table's key; the row goes when what it belongs to goes."""
    return mapped_column(ForeignKey(f"{target}.id", ondelete="CASCADE"), index=True)


def tie_table(name: str, left: str, right: str) -> Table:
    """A table of plain many-to-many ties between two kinds of record."""
    return Table(
        name,
        Base.metadata,
        Column(f"{left}_id", ForeignKey(f"{left}.id", ondelete="CASCADE"), primary_key=True),
        Column(f"{right}_id", ForeignKey(f"{right}.id", ondelete="CASCADE"), primary_key=True, index=True),
    )


def utc_now() -> dt.datetime:
    """The present moment, in UTC, as the database keeps it (without zone, to the second)."""
    return dt.datetime.now(dt.UTC).replace(tzinfo=None, microsecond=0)
