"""Write that plants left the collection, and that they are back.

What left takes part in no round; its tag, records and photos stay.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.domain.errors import InputError
from growdesk.domain.holding import Status
from growdesk.domain.speech import tr
from growdesk.services import checking, left_words
from growdesk.services.ledger import written
from growdesk.services.plant_drafts import refuse_left_early
from growdesk.services.plant_rows import counted, drafts_of, growing_drafts, refuse_none
from growdesk.store.schema import PlantRow

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.services.ledger import Ledger
    from growdesk.services.plant_values import Leaving
    from growdesk.services.values import Written


def leave(ledger: Ledger, plant_ids: Sequence[int], leaving: Leaving) -> Written:
    """Write what became of plants; refuse a day to come, or one before they came."""
    if leaving.status is Status.GROWING:
        hint = tr("Say that they were given away, sold or lost.")
        raise InputError("status", leaving.status.value, tr("is not to leave"), hint)
    checking.day_done("left_on", leaving.on, ledger.today())
    values = {
        "status": leaving.status,
        "left_on": leaving.on,
        "left_why": checking.text("left_why", leaving.why),
    }
    with ledger.reading() as session:
        drafts = growing_drafts(session, plant_ids)
    for draft in drafts.values():
        refuse_left_early(replace(draft, left_on=leaving.on))
    whom = counted([draft.tag for draft in drafts.values()])
    title = left_words.OF_PLANTS[leaving.status].format(whom=whom)
    with ledger.writing(title) as writing:
        growing_drafts(writing.session, plant_ids)
        writing.update_many(PlantRow, [(each, values) for each in drafts])
    return written(writing, title, tuple(drafts))


def back(ledger: Ledger, plant_ids: Sequence[int]) -> Written:
    """Have plants that had left grow here again; why they left is forgotten."""
    refuse_none(plant_ids)
    values = {"status": Status.GROWING, "left_on": None, "left_why": ""}
    with ledger.reading() as session:
        drafts = drafts_of(session, plant_ids)
    gone = {
        each: draft
        for each, draft in drafts.items()
        if draft.status is not Status.GROWING
    }
    if not gone:
        named = ", ".join(draft.tag for draft in drafts.values())
        hint = tr("Choose a plant that was given away, sold or lost.")
        raise InputError("plants", named, tr("never left"), hint)
    title = tr("{counted} back in the collection").format(
        counted=counted([draft.tag for draft in gone.values()])
    )
    with ledger.writing(title) as writing:
        writing.update_many(PlantRow, [(each, values) for each in gone])
    return written(writing, title, tuple(gone))
