"""Read blooms, and say what a look tells of a bloom that is not written yet."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING, Any

from msgspec.structs import replace
from sqlalchemy import select

from growdesk.domain.bloom_season import expected
from growdesk.domain.bloom_words import coming_words, dated, expected_words
from growdesk.domain.facts import Flowering
from growdesk.domain.speech import tr
from growdesk.services.bloom_values import (
    BloomDraft,
    BloomView,
    PlantBlooms,
    Proposal,
)
from growdesk.store.schema import BloomRow

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from growdesk.domain.facts import Look
    from growdesk.store.session import Session

COMING = frozenset({Flowering.SPIKE, Flowering.BUDS})
OPEN = frozenset({Flowering.OPEN, Flowering.FADING})
OVER = frozenset({Flowering.SPENT})
NONE = frozenset({Flowering.NONE})

FORGOTTEN_DAYS = 300
"""A bloom begun longer ago and never closed is not the one a look of today shows."""


def of_plant(
    session: Session, plant_id: int, looks: Sequence[Look], on: date
) -> PlantBlooms:
    """Give the blooms of a plant, what is to be expected, and what a look proposes."""
    views = views_of(session, plant_id)
    past = [view.draft.first_open_on for view in views]
    found = expected(day for day in past if day is not None and day <= on)
    coming = None if found is None else found.coming(on)
    told = (expected_words(found), coming_words(coming, on))
    return PlantBlooms(
        blooms=views,
        expected=found,
        coming=coming,
        told=tuple(each for each in told if each),
        proposal=proposal(views, looks, on),
    )


def views_of(session: Session, plant_id: int) -> tuple[BloomView, ...]:
    """Give the blooms of a plant, the newest first."""
    rows = session.execute(
        select(BloomRow.__table__).where(BloomRow.plant_id == plant_id)
    )
    views = [BloomView(row.id, draft_of(row)) for row in rows]
    return tuple(sorted(views, key=_newest_first))


def draft_of(row: Any) -> BloomDraft:
    """Give a bloom from a row that has its columns."""
    return BloomDraft(
        spike_seen_on=row.spike_seen_on,
        first_open_on=row.first_open_on,
        last_faded_on=row.last_faded_on,
        flowers=row.flowers,
        spikes=row.spikes,
        size_mm=row.size_mm,
        note=row.note,
        award=row.award,
    )


def open_bloom(views: Sequence[BloomView], on: date) -> BloomView | None:
    """Give the bloom that is under way on a day."""
    for view in views:
        begins = view.draft.begins
        if view.draft.is_over or begins is None or begins > on:
            continue
        if on - begins <= timedelta(days=FORGOTTEN_DAYS):
            return view
    return None


def proposal(
    views: Sequence[BloomView], looks: Sequence[Look], on: date
) -> Proposal | None:
    """Give what the newest look that told of flowers says and no bloom does yet."""
    told = [look for look in looks if look.flowering is not None and look.on <= on]
    if not told:
        return None
    look = max(told, key=lambda each: each.on)
    under_way = open_bloom(views, look.on)
    if under_way is None:
        return _begun(views, look)
    return _gone_on(under_way, look)


def _begun(views: Sequence[BloomView], look: Look) -> Proposal | None:
    """Propose to begin a bloom that a look shows; one just closed is not begun anew."""
    signs = look.flowering or frozenset()
    closed = [view.draft.last_faded_on for view in views]
    if any(day is not None and day >= look.on for day in closed):
        return None
    day = dated(look.on)
    if signs & OPEN:
        return Proposal(
            tr("The look of {day} saw open flowers, and no bloom is on record.").format(
                day=day
            ),
            tr("Begin a bloom that opened then"),
            BloomDraft(first_open_on=look.on),
        )
    if signs & COMING:
        return Proposal(
            tr("The look of {day} saw a spike, and no bloom is on record.").format(
                day=day
            ),
            tr("Begin a bloom"),
            BloomDraft(spike_seen_on=look.on),
        )
    return None


def _gone_on(view: BloomView, look: Look) -> Proposal | None:
    """Propose to bring the bloom under way up to what a look shows."""
    signs, draft, day = look.flowering or frozenset(), view.draft, dated(look.on)
    if signs & OPEN and draft.first_open_on is None:
        return Proposal(
            tr("The look of {day} saw open flowers.").format(day=day),
            tr("Write that it opened then"),
            replace(draft, first_open_on=look.on),
            view.bloom_id,
        )
    is_over = bool(signs & OVER) or signs == NONE
    if is_over and not signs & (OPEN | COMING) and draft.first_open_on is not None:
        if look.on < draft.first_open_on:
            return None
        seen = tr("spent flowers") if signs & OVER else tr("no flowers any more")
        return Proposal(
            tr("The look of {day} saw {seen}.").format(day=day, seen=seen),
            tr("Write that the last one had faded then"),
            replace(draft, last_faded_on=look.on),
            view.bloom_id,
        )
    return None


def _newest_first(view: BloomView) -> tuple[int, int]:
    begins = view.draft.begins
    return (-begins.toordinal() if begins else 0, -view.bloom_id)
