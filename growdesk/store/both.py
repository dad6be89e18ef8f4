"""What SQLite and a server say differently, as one expression for queries.

Queries are written once. Where both have no word in common it stands here, with what it
is in each; anything that gives the same in both by itself needs nothing of this.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sqlalchemy import BigInteger, Boolean, Date, Text, literal_column
from sqlalchemy.ext.compiler import compiles
from sqlalchemy.sql.functions import FunctionElement

if TYPE_CHECKING:
    from sqlalchemy import ColumnElement
    from sqlalchemy.sql.compiler import SQLCompiler

_SERVER = "postgresql"


class month_of(FunctionElement[str]):  # noqa: N801 -- reads as a function in a query
    """The month of a day, as ``2026-05``."""

    type = Text()
    inherit_cache = True


class later_of(FunctionElement[Any]):  # noqa: N801 -- as above
    """The later of two days that are both there, or neither."""

    type = Date()
    inherit_cache = True


class is_image(FunctionElement[bool]):  # noqa: N801 -- as above
    """Whether an image of the journal can be read; on a server all can.

    There nothing but growdesk writes them, and the server proves its own pages.
    """

    type = Boolean()
    inherit_cache = True


class _Field(FunctionElement[Any]):
    inherit_cache = True


class _Number(_Field):
    type = BigInteger()
    inherit_cache = True


class _Word(_Field):
    type = Text()
    inherit_cache = True


def image_number(image: ColumnElement[str | None], name: str) -> ColumnElement[int]:
    """Give a whole number out of an image; nothing where the image has none."""
    return _Number(image, literal_column(name))


def image_text(image: ColumnElement[str | None], name: str) -> ColumnElement[str]:
    """Give a text out of an image; nothing where the image has none."""
    return _Word(image, literal_column(name))


def _parts(element: FunctionElement[Any], compiler: SQLCompiler) -> list[str]:
    return [compiler.process(each) for each in element.clauses]


@compiles(month_of)
def _month(element: month_of, compiler: SQLCompiler, **_: Any) -> str:
    return "substr({}, 1, 7)".format(*_parts(element, compiler))


@compiles(month_of, _SERVER)
def _month_there(element: month_of, compiler: SQLCompiler, **_: Any) -> str:
    return "to_char({}, 'YYYY-MM')".format(*_parts(element, compiler))


@compiles(later_of)
def _later(element: later_of, compiler: SQLCompiler, **_: Any) -> str:
    return "max({}, {})".format(*_parts(element, compiler))


@compiles(later_of, _SERVER)
def _later_there(element: later_of, compiler: SQLCompiler, **_: Any) -> str:
    return "greatest({}, {})".format(*_parts(element, compiler))


@compiles(is_image)
def _image(element: is_image, compiler: SQLCompiler, **_: Any) -> str:
    return "json_valid({})".format(*_parts(element, compiler))


@compiles(is_image, _SERVER)
def _image_there(element: is_image, compiler: SQLCompiler, **_: Any) -> str:
    return "({} IS NOT NULL)".format(*_parts(element, compiler))


@compiles(_Field)
def _field(element: _Field, compiler: SQLCompiler, **_: Any) -> str:
    return "json_extract({}, '$.{}')".format(*_parts(element, compiler))


@compiles(_Number, _SERVER)
def _number_there(element: _Number, compiler: SQLCompiler, **_: Any) -> str:
    return "CAST(CAST({} AS json) ->> '{}' AS BIGINT)".format(
        *_parts(element, compiler)
    )


@compiles(_Word, _SERVER)
def _word_there(element: _Word, compiler: SQLCompiler, **_: Any) -> str:
    return "(CAST({} AS json) ->> '{}')".format(*_parts(element, compiler))
