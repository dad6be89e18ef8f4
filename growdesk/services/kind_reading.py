"""The kinds of a collection read for showing, and what of its corrections is unused."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from sqlalchemy import select

from growdesk.domain.kind_corrections import fitting
from growdesk.domain.kind_fields import FIELDS
from growdesk.domain.phrases import inside
from growdesk.domain.speech import tr
from growdesk.services import kind_rows, kinds
from growdesk.services.kind_values import KindProblem
from growdesk.services.kind_views import as_held_at, by_title, view
from growdesk.services.settings import read_house
from growdesk.services.standing import growing
from growdesk.store.schema import KindCorrectionRow, PlantCorrectionRow, PlantRow

if TYPE_CHECKING:
    from collections.abc import Iterator

    from growdesk.domain.kind_corrections import Unused
    from growdesk.domain.kinds import KindTable
    from growdesk.services.kind_values import KindView
    from growdesk.services.known import Known
    from growdesk.store.session import Session


def all_views(session: Session) -> tuple[KindView, ...]:
    """Give all kinds by title, the careful general one last."""
    table = kind_rows.table_of(session)
    shipped = kinds.table().kinds
    notes = _kind_notes(session)
    counts = _plants_by_kind(session, table)
    latitude = read_house(session).latitude
    return by_title(
        as_held_at(
            view(table, kind, shipped[key], notes=notes.get(key), plants=counts[key]),
            latitude,
        )
        for key, kind in table.kinds.items()
    )


def plant_view(session: Session, known: Known) -> KindView:
    """Give the kind of one plant, field by field, beside what its kind has."""
    table = kind_rows.table_of(session)
    rows = session.execute(
        select(PlantCorrectionRow.field, PlantCorrectionRow.note).where(
            PlantCorrectionRow.plant_id == known.plant_id
        )
    )
    key = known.kind.key
    seen = view(
        table,
        known.kind,
        table.kinds[key],
        notes={row.field: row.note for row in rows},
        plants=_plants_by_kind(session, table)[key],
        plant=(known.plant_id, known.plant.tag),
    )
    return as_held_at(seen, read_house(session).latitude)


def problems_of(session: Session) -> tuple[KindProblem, ...]:
    """Name the corrections that are kept and cannot be judged by."""
    table, unused = kind_rows.table_and_unused(session)
    told = [
        KindProblem(_line(_title(table, each.kind), each), each.kind, None, each.field)
        for each in unused
    ]
    return (*told, *_plant_problems(session, table))


def _plant_problems(session: Session, table: KindTable) -> Iterator[KindProblem]:
    own = kind_rows.of_plants(session)
    rows = session.execute(
        select(PlantRow.id, PlantRow.tag, PlantRow.kind, PlantRow.name)
        .where(growing())
        .order_by(PlantRow.id)
    ).all()
    for row in rows:
        if row.id in own:
            kind = table.find(row.kind or row.name) or table.general
            for each in fitting(kind, dict(own[row.id]), here=True)[1]:
                line = _line(tr("Plant {tag}").format(tag=row.tag), each)
                yield KindProblem(line, each.kind, row.id, each.field)


def _line(of: str, unused: Unused) -> str:
    declared = FIELDS.get(unused.field)
    field = unused.field if declared is None else inside(tr(declared.title))
    shown = tr("“{name}”").format(name=unused.value) if unused.value else tr("empty")
    return tr(
        "{of}: your {field}, {shown}, {problem}; it is kept and not judged by."
    ).format(of=of, field=field, shown=shown, problem=unused.problem)


def _title(table: KindTable, key: str) -> str:
    return (
        tr(table.kinds[key].title)
        if key in table.kinds
        else tr("Kind {key}").format(key=key)
    )


def _kind_notes(session: Session) -> dict[str, dict[str, str]]:
    rows = session.execute(
        select(KindCorrectionRow.kind, KindCorrectionRow.field, KindCorrectionRow.note)
    )
    found: dict[str, dict[str, str]] = {}
    for kind, field, note in rows:
        found.setdefault(kind, {})[field] = note
    return found


def _plants_by_kind(session: Session, table: KindTable) -> Counter[str]:
    rows = session.execute(select(PlantRow.kind, PlantRow.name).where(growing()))
    kinds_of = (table.find(kind or name) or table.general for kind, name in rows)
    return Counter(kind.key for kind in kinds_of)
