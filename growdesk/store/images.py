"""What the journal keeps of a row before and after a change, packed as JSON.

The rule, for good. Of a row that came or went an image leaves out its number and each
value that is *absent*: the default that the schema declares for the column, or nothing
where it declares none. Of a row that changed it holds the columns that differ, and in
the image after also what readers look for (``READ``). Read back, a column that is not
there is absent: so a column added later has the value that its migration gave all rows,
as long as that is its default and the default never changes.
"""

from __future__ import annotations

import json
from datetime import date
from functools import lru_cache
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Mapping

    from sqlalchemy import Column, Table

Values = dict[str, Any]
Pair = tuple[Values | None, Values | None]
PUT_BACK = "_put_back"
"""What an image says of the change that its row was put back from."""
READ = ("plant_id", "tag")
LATER = "later"
"""Marks a column of a later program, which this one hands on as it is."""


def absent(column: Column[Any]) -> object:
    """Give the value that an image leaves out."""
    return getattr(column.default, "arg", None)


def whole(table: Table, values: Mapping[str, Any]) -> Values:
    """Give the values of all columns, those that are not given as absent."""
    ours, later = _left_out(table)
    filled = {**ours, **values}
    if len(filled) > len(ours) and (unknown := filled.keys() - ours.keys() - later):
        raise KeyError(f"{table.name} has no column {sorted(unknown)}")
    return filled


@lru_cache(128)
def _left_out(table: Table) -> tuple[Mapping[str, Any], frozenset[str]]:
    """Give what each column's absent value is, and the columns of a later program."""
    later = frozenset(column.name for column in table.c if LATER in column.info)
    ours = {each.name: absent(each) for each in table.c if each.name not in later}
    return ours, later


def packed(
    table: Table, before: Values | None, after: Values | None, put_back: int = 0
) -> tuple[str | None, str | None]:
    """Give the images of a change as texts."""
    if before is None or after is None:
        mark = {PUT_BACK: put_back} if put_back else {}
        return (
            None if before is None else _text(_kept(table, before)),
            None if after is None else _text(mark | _kept(table, after)),
        )
    differ = [name for name, value in after.items() if before.get(name) != value]
    reads = {name: after[name] for name in READ if name in after}
    return (
        _text({name: before[name] for name in differ if name in before}),
        _text(reads | {name: after[name] for name in differ}),
    )


def unpacked(table: Table, row_id: int, before: str | None, after: str | None) -> Pair:
    """Give the images of a change back, of the columns that the table has now.

    Of a row that came or went the image is whole, of one that changed it is in part.
    """
    one, two = _values(table, before), _values(table, after)
    if one is None or two is None:
        return _filled(table, row_id, one), _filled(table, row_id, two)
    return one, two


def _kept(table: Table, image: Values) -> Values:
    ours, later = _left_out(table)
    kept = {
        name: value
        for name, value in image.items()
        if (later and name in later) or value != ours[name]
    }
    kept.pop("id", None)
    return kept


def _filled(table: Table, row_id: int, image: Values | None) -> Values | None:
    return None if image is None else whole(table, {"id": row_id} | image)


def _values(table: Table, text: str | None) -> Values | None:
    if text is None:
        return None
    columns = table.c
    kept: Values = {}
    for key, value in json.loads(text).items():
        if key not in columns:
            continue
        is_day = isinstance(value, str) and _is_of_days(columns[key])
        kept[key] = date.fromisoformat(value) if is_day else value
    return kept


def _is_of_days(column: Column[Any]) -> bool:
    return LATER not in column.info and column.type.python_type is date


def _text(image: Values) -> str:
    return _ENCODER.encode(image)


def _plain(value: object) -> str:
    if isinstance(value, date):
        return value.isoformat()
    raise TypeError(f"{value!r} cannot be kept in the journal")


_ENCODER = json.JSONEncoder(default=_plain, separators=(",", ":"), ensure_ascii=False)
