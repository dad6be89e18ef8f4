"""Kinds as they are shown: each field with its words, its correction, its source.

No collection is needed here; what one corrects comes in with the table.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.domain import seasons
from growdesk.domain.kind_corrections import read_field
from growdesk.domain.kind_fields import DECLARED, bears
from growdesk.domain.kind_words import cell, months_text, value_text
from growdesk.domain.kinds import GENERAL_KEY
from growdesk.domain.speech import tr
from growdesk.services import kinds
from growdesk.services.kind_values import FieldView, KindView

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from growdesk.domain.kind_fields import KindField
    from growdesk.domain.kinds import Kind, KindTable


def shipped_views() -> tuple[KindView, ...]:
    """Give all kinds as shipped, by title."""
    table = kinds.table()
    return by_title(view(table, kind, kind) for kind in table.kinds.values())


def view(
    table: KindTable,
    kind: Kind,
    below: Kind,
    *,
    notes: Mapping[str, str] | None = None,
    plants: int = 0,
    plant: tuple[int, str] | None = None,
) -> KindView:
    """Give a kind field by field beside what holds without its corrections.

    ``plant`` is the number and tag of the one plant it is for.
    """
    marked = kind.corrected if plant is None else kind.corrected_here
    return KindView(
        key=kind.key,
        title=tr(kind.title),
        fields=tuple(
            _field(declared, kind, below, (notes or {}).get(declared.name), marked)
            for declared in DECLARED
        ),
        names=_names(table, kind),
        short=tuple(
            f"{short.capitalize()}."
            for short, genus in table.abbreviations.items()
            if table.by_genus.get(genus) == kind.key
        ),
        source=tr(kind.source),
        plants=plants,
        plant_id=None if plant is None else plant[0],
        tag="" if plant is None else plant[1],
    )


def as_held_at(shown: KindView, latitude: float) -> KindView:
    """Give a kind with its rest's months as they hold at a latitude, and in the north.

    The table and its corrections have them as in the north.
    """
    if seasons.northern(latitude):
        return shown

    def told(cells: str, text: str) -> str:
        months = read_field("rest_months", cells)
        if not months:
            return text
        here = months_text(seasons.turned_months(months, latitude))
        return tr("{here} with you ({text} in the north)").format(here=here, text=text)

    fields = (
        replace(
            field,
            text=told(field.cell, field.text),
            below_text=told(field.below_cell, field.below_text),
        )
        if field.name == "rest_months"
        else field
        for field in shown.fields
    )
    return replace(shown, fields=tuple(fields))


def by_title(views: Iterable[KindView]) -> tuple[KindView, ...]:
    """Give kinds by title, the careful general one last."""
    return tuple(
        sorted(views, key=lambda v: (v.key == GENERAL_KEY, v.title.casefold()))
    )


def matching(views: Sequence[KindView], text: str) -> tuple[KindView, ...]:
    """Give the kinds that a typed text leads to: by its name first, then by any part.

    A genus, a hybrid genus, an abbreviation such as "Rlc." or a plant's whole name
    leads to one kind; any part of a title or a name finds the others.
    """
    wanted = " ".join(text.casefold().split())
    if not wanted:
        return tuple(views)
    led = kinds.table().find(text)
    part = wanted.rstrip(".")
    first = [each for each in views if led is not None and each.key == led.key]
    others = [each for each in views if each not in first and _holds(each, part)]
    return (*first, *others)


def _holds(shown: KindView, part: str) -> bool:
    in_english = shown.field("title").cell
    texts = (shown.title, in_english, shown.key, *shown.names, *shown.short)
    return any(part in text.casefold() for text in texts)


def _field(
    declared: KindField,
    kind: Kind,
    below: Kind,
    note: str | None,
    marked: Sequence[str],
) -> FieldView:
    name = declared.name
    value, base = getattr(kind, name), getattr(below, name)
    corrected = name in marked
    return FieldView(
        name=name,
        title=tr(declared.title),
        group=declared.group,
        text=value_text(name, value),
        cell=cell(name, value),
        below_text=value_text(name, base),
        below_cell=cell(name, base),
        corrected=corrected,
        note=(note or "") if corrected else "",
        from_memory=name in kind.memory,
        bears=bears(kind, name),
    )


def _names(table: KindTable, kind: Kind) -> tuple[str, ...]:
    """Give the names that lead to a kind, its own genera first."""
    found = dict.fromkeys(kind.genera)
    known = {name.casefold() for name in found}
    for name, key in table.by_genus.items():
        if key == kind.key and name not in known:
            found[name[:1].upper() + name[1:]] = None
    return tuple(found)
