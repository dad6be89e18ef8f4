"""Give many plants the same values in the fields that are touched, as one action."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from msgspec.structs import replace

from growdesk.domain.errors import InputError
from growdesk.domain.speech import tr
from growdesk.services import action_titles, checking
from growdesk.services.ledger import written
from growdesk.services.plant_drafts import checked, values_of
from growdesk.services.plant_rows import drafts_of, refuse_none
from growdesk.services.plant_values import CHANGEABLE
from growdesk.store.schema import PlantRow

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.services.ledger import Ledger
    from growdesk.services.plant_values import ManyChanges
    from growdesk.services.values import PlantDraft, Written


def change_many(
    ledger: Ledger, plant_ids: Sequence[int], changes: ManyChanges
) -> Written:
    """Change plants; what is not touched stays, and one that fits none stops all."""
    refuse_none(plant_ids)
    for field in changes.values:
        if field not in CHANGEABLE:
            hint = tr("Change it plant by plant.")
            raise InputError(
                field, "", tr("is not changed of many plants at once"), hint
            )
    more = checking.text("note", changes.note)
    if not changes.values and not more:
        hint = tr("Change one field or more, or leave.")
        raise InputError("plants", tr("nothing"), tr("is to be changed"), hint)
    today = ledger.today()
    with ledger.reading() as session:
        before = drafts_of(session, plant_ids)
    after = {
        plant_id: _changed(draft, changes.values, more, today)
        for plant_id, draft in before.items()
    }
    touched = (*changes.values, *(("note",) if more else ()))
    tags = [draft.tag for draft in before.values()]
    title = action_titles.plants_changed(tags, touched)
    with ledger.writing(title) as writing:
        drafts_of(writing.session, plant_ids)
        rows = [(key, _touched(draft, touched)) for key, draft in after.items()]
        writing.update_many(PlantRow, rows)
    return written(writing, title, tuple(after))


def _changed(draft: PlantDraft, values: Any, more: str, today: Any) -> PlantDraft:
    """Give a plant with the new values; a slip names its tag where it is its own."""
    note = "\n".join(filter(None, (draft.note, more)))
    return checked(replace(draft, **values, note=note), today)


def _touched(draft: PlantDraft, touched: Sequence[str]) -> dict[str, object]:
    values = values_of(draft)
    return {field: values[field] for field in touched}
