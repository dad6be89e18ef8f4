"""Move plants to another place or bench, with an entry where the place is another."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct
from sqlalchemy import select

from growdesk.domain.errors import InputError
from growdesk.domain.facts import CareKind
from growdesk.domain.speech import tr
from growdesk.services import checking
from growdesk.services.ledger import written
from growdesk.services.plant_rows import (
    counted,
    growing_drafts,
    last_number,
    refuse_no_place,
)
from growdesk.store.schema import CareRow, PlaceRow, PlantRow

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from growdesk.services.ledger import Ledger
    from growdesk.services.values import Written


class Where(Struct, frozen=True):
    """A place, a bench of it, and the day of the move."""

    place_id: int | None
    bench_id: int | None
    on: date


def move(ledger: Ledger, plant_ids: Sequence[int], where: Where) -> Written:
    """Let plants stand last on a bench, or past the benches of a place.

    What stands there already stays where it is and is named. A plant that only changes
    its bench has no entry of a move.
    """
    checking.day_done("on", where.on, ledger.today())
    there = (where.place_id, where.bench_id)
    with ledger.reading() as session:
        drafts = growing_drafts(session, plant_ids)
        name = refuse_no_place(session, *there)
        rows = session.execute(select(PlaceRow.id, PlaceRow.name))
        names = {row.id: row.name for row in rows}
    moved = {k: d for k, d in drafts.items() if (d.place_id, d.bench_id) != there}
    stay = ", ".join(d.tag for k, d in drafts.items() if k not in moved)
    if not moved:
        raise InputError(
            "plants", stay, tr("stand there already"), tr("Choose another place.")
        )
    whom = counted([draft.tag for draft in moved.values()])
    title = (
        tr("{counted} moved").format(counted=whom)
        if name is None
        else tr("{counted} moved to {name}").format(counted=whom, name=name)
    )
    with ledger.writing(title) as writing:
        first = last_number(writing.session, *there) + 1
        writing.update_many(
            PlantRow,
            [
                (
                    plant_id,
                    {
                        "place_id": where.place_id,
                        "bench_id": where.bench_id,
                        "bench": number,
                    },
                )
                for number, plant_id in enumerate(moved, first)
            ],
        )
        writing.insert_many(
            CareRow,
            [
                {
                    "plant_id": plant_id,
                    "day": where.on,
                    "what": CareKind.MOVE,
                    "from_place": names.get(draft.place_id or 0),
                    "to_place": name,
                }
                for plant_id, draft in moved.items()
                if draft.place_id != where.place_id
            ],
        )
    stood = (tr("Already there: {stay}.").format(stay=stay),) if stay else ()
    return written(writing, title, tuple(moved), stood)
