"""The grower's corrections of kinds: checked as they are given, laid over the table.

A correction is a field with the cell that the table of kinds would hold. One that the
shipped table no longer fits is never lost and never judged by: it comes back as unused.
A plant's own word goes before the kind's, and that before what is shipped.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from msgspec import Struct
from msgspec.structs import replace

from growdesk.domain import kind_words
from growdesk.domain.errors import InputError
from growdesk.domain.facts_fields import read_text, words_joined
from growdesk.domain.kind_fields import (
    CORRECTABLE,
    FIELDS,
    KindField,
    Sort,
    together,
)
from growdesk.domain.kinds import KindTable, faults, read_cell
from growdesk.domain.speech import Phrases, tr

if TYPE_CHECKING:
    from growdesk.domain.kinds import Kind

Cells = Mapping[str, str]

TEXT_CHARACTERS = 1000
_BONDS = Phrases(
    {
        "rest": "A rest has months and no rest has none; only a leafless "
        "one has what ends it, and a length of roots goes only "
        "with that. Correct them together.",
        "light": "Give a low that is at most the high, or correct both together.",
        "growth": "They rise from where growth begins over the best range to where it "
        "stops. Correct them together.",
        "feed": "Too cold lies below too hot. Correct both together.",
    }
)


class Unused(Struct, frozen=True):
    """A correction that is kept and cannot be judged by, and why."""

    kind: str
    field: str
    value: str
    problem: str


def read_field(name: str, text: str) -> Any:
    """Give the value of one field from its cell, or refuse it with the way out."""
    if name not in FIELDS:
        raise InputError(
            name,
            text,
            tr("is not a field of a kind that can be corrected"),
            tr("Use one of {list}.").format(list=", ".join(CORRECTABLE)),
        )
    declared, bare = FIELDS[name], text.strip()
    if declared.sort is Sort.TEXT:
        bare = " ".join(read_text(name, bare, TEXT_CHARACTERS).split())
    if not bare and not declared.optional:
        raise InputError(name, text, tr("is empty"), way_out(declared))
    try:
        value = read_cell("", name, bare)
    except InputError as error:
        raise InputError(name, text, error.problem, way_out(declared)) from None
    allowed = declared.allowed
    if allowed is not None and value is not None and not allowed.holds(value):
        raise InputError(name, text, tr("cannot be meant"), way_out(declared))
    return _in_one_run(name, text, value) if declared.sort is Sort.MONTHS else value


def _in_one_run(name: str, text: str, months: tuple[int, ...]) -> tuple[int, ...]:
    """Give the months of one rest in their order; two rests a year are not judged."""
    found = kind_words.runs(months)
    if len(found) > 1:
        hint = tr("Give months that follow one another, over the turn of the year too.")
        raise InputError(name, text, tr("is more than one run of months"), hint)
    return tuple(found[0]) if found else ()


def way_out(declared: KindField) -> str:
    """Say what a field takes."""
    unit = f" {tr(declared.unit)}" if declared.unit else ""
    asked = {
        Sort.CHOICE: tr("Use {words_joined}").format(
            words_joined=words_joined(list(declared.choices or ()))
        ),
        Sort.YES_NO: tr("Use yes or no"),
        Sort.MONTHS: tr("Give months from 1 to 12, as 11;12;1"),
        Sort.TEXT: tr("Write a few words"),
        Sort.NUMBER: tr("Give a number {allowed}{unit}").format(
            allowed=declared.allowed, unit=unit
        ),
        Sort.WHOLE: tr("Give a whole number {allowed}{unit}").format(
            allowed=declared.allowed, unit=unit
        ),
    }[declared.sort]
    return (
        tr("{asked}, or leave it empty.").format(asked=asked)
        if declared.optional
        else f"{asked}."
    )


def corrected(kind: Kind, cells: Cells, *, here: bool = False) -> Kind:
    """Give a kind with some fields as the grower has them, or refuse the first slip.

    ``here`` are corrections for one plant. An ``InputError`` names field and value.
    """
    values = {name: read_field(name, text) for name, text in cells.items()}
    if not values:
        return kind
    mark = "corrected_here" if here else "corrected"
    named = {*getattr(kind, mark), *values}
    changes: dict[str, Any] = {
        **values,
        mark: tuple(name for name in CORRECTABLE if name in named),
        "memory": tuple(name for name in kind.memory if name not in values),
    }
    made = replace(kind, **changes)
    for column, _value, _problem in faults(made):
        raise _misfit(made, column, cells)
    return made


def _misfit(kind: Kind, column: str, cells: Cells) -> InputError:
    """Give the slip of a cell that does not go with the others of its bond."""
    bond = together(column)
    given = column if column in cells else next(f for f in bond if f in cells)
    others = ", ".join(kind_words.told(kind, name) for name in bond if name != given)
    problem = tr("does not go with {others}").format(others=others)
    return InputError(given, cells[given], problem, _BONDS[FIELDS[column].bond])


def fitting(
    kind: Kind, cells: Cells, *, here: bool = False
) -> tuple[Kind, tuple[Unused, ...]]:
    """Give a kind with all corrections that still fit it, and those that do not."""
    kept: dict[str, str] = {}
    unused: list[Unused] = []
    for name, text in cells.items():
        try:
            read_field(name, text)
        except InputError as error:
            unused.append(Unused(kind.key, name, text, error.problem))
        else:
            kept[name] = text
    while True:
        try:
            return corrected(kind, kept, here=here), tuple(unused)
        except InputError as error:
            for name in together(error.field):
                if name in kept:
                    text = kept.pop(name)
                    unused.append(Unused(kind.key, name, text, error.problem))


def corrected_table(
    table: KindTable, by_kind: Mapping[str, Cells]
) -> tuple[KindTable, tuple[Unused, ...]]:
    """Give the table with the corrections that fit it, and those that do not."""
    kinds, unused = dict(table.kinds), list[Unused]()
    for key, cells in by_kind.items():
        if key not in kinds:
            unused += [
                Unused(
                    key, name, text, tr("belongs to a kind that is not in the table")
                )
                for name, text in cells.items()
            ]
            continue
        kinds[key], odd = fitting(kinds[key], cells)
        unused += odd
    return KindTable(kinds, table.by_genus, table.abbreviations), tuple(unused)


def as_kept(kind: Kind, cells: Cells) -> dict[str, str]:
    """Give the cells in the one form in which they are kept, checked by the kind."""
    made = corrected(kind, cells)
    return {name: kind_words.cell(name, getattr(made, name)) for name in cells}


def in_use(kind: Kind, *, here: bool = False) -> dict[str, str]:
    """Give the corrections that a kind carries, each with its cell."""
    names = kind.corrected_here if here else kind.corrected
    return {name: kind_words.cell(name, getattr(kind, name)) for name in names}
