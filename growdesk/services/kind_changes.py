"""Writing corrections of a kind or a plant, and taking them back, row by row."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import select

from growdesk.domain.kind_corrections import fitting
from growdesk.domain.kind_fields import FIELDS
from growdesk.domain.kind_words import cell
from growdesk.domain.phrases import inside
from growdesk.domain.speech import tr

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping, Sequence

    from growdesk.domain.kinds import Kind
    from growdesk.store.journal import Writing
    from growdesk.store.schema import KindCorrectionRow, PlantCorrectionRow

    Row = type[KindCorrectionRow | PlantCorrectionRow]
    Where = Mapping[str, object]


def named(names: Collection[str]) -> str:
    """Give one field by its title and several by their number, for titles."""
    if len(names) != 1:
        return tr("{count} fields").format(count=len(names))
    (name,) = names
    return inside(tr(FIELDS[name].title)) if name in FIELDS else name


def keep(
    writing: Writing,
    row: Row,
    where: Where,
    below: Kind,
    cells: Mapping[str, str],
    note: str,
) -> None:
    """Keep cells; one that says what holds without it is no correction and goes."""
    there = _rows(writing, row, where)
    for name, text in cells.items():
        values = {**where, "field": name, "value": text, "note": note}
        if cell(name, getattr(below, name)) == text:
            if name in there:
                writing.delete(row, there[name])
        elif name in there:
            writing.update(row, there[name], values)
        else:
            writing.insert(row, values)


def drop(writing: Writing, row: Row, where: Where, names: Collection[str]) -> None:
    """Take corrections away."""
    for name, row_id in _rows(writing, row, where).items():
        if name in names:
            writing.delete(row, row_id)


def gone(kept: Mapping[str, str], names: Sequence[str], below: Kind | None) -> set[str]:
    """Give the corrections that go, with those that would not fit without them."""
    asked = {name for name in names if name in kept}
    if below is None:
        return asked
    left = {name: text for name, text in kept.items() if name not in asked}
    before = {odd.field for odd in fitting(below, kept)[1]}
    return asked | ({odd.field for odd in fitting(below, left)[1]} - before)


def _rows(writing: Writing, row: Row, where: Where) -> dict[str, int]:
    wanted = select(row.field, row.id).filter_by(**where)
    return {found.field: found.id for found in writing.session.execute(wanted)}
