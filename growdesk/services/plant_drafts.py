"""A plant as a form holds it: checked, as the values of a row, and back."""

from __future__ import annotations

from operator import attrgetter
from typing import TYPE_CHECKING, Any

from msgspec.structs import replace

from growdesk.domain.errors import InputError
from growdesk.domain.facts_fields import LAST_YEAR, Range
from growdesk.domain.facts_plant import (
    INTERVAL_DAYS,
    NAME_CHARACTERS,
    POT_L,
    ROUND_L,
    TAG_CHARACTERS,
)
from growdesk.domain.holding import Status
from growdesk.domain.speech import tr
from growdesk.services import checking
from growdesk.services.values import PlantDraft
from growdesk.store.mapping import (
    descent_of,
    held_as_of,
    medium_of,
    overrule_of,
    overrule_values,
    size_of,
    status_of,
)

if TYPE_CHECKING:
    from datetime import date

    from growdesk.domain.facts import Overrule

BENCH = Range(0, 100_000)
MIXED_PPM_N = Range(1, 1000)
"""Strengths that a jug can have: whole mg N per litre."""

HOW_MANY = Range(1, 100_000)
"""How many plants share a tag."""

_SAME = (
    "tag",
    "name",
    "kind",
    "place_id",
    "bench",
    "hybrid",
    "pot_volume_l",
    "volume_l",
    "mounted",
    "under_cover",
    "repotted_on",
    "slow_release_until",
    "full_strength_ppm_n",
    "feed_ceiling_ppm_n",
    "feed_interval_days",
    "ignores_rest",
    "acquired_on",
    "source",
    "note",
    "left_on",
    "left_why",
    "bench_id",
    "parent_id",
    "parentage",
    "papers",
    "how_many",
    "quarantine_until",
)
_same_of = attrgetter(*_SAME)


def draft_of(row: Any) -> PlantDraft:
    """Give the plant that a row holds."""
    same: dict[str, Any] = dict(zip(_SAME, _same_of(row), strict=True))
    return PlantDraft(
        **same,
        medium=medium_of(row),
        size=size_of(row),
        overrule=overrule_of(row),
        status=status_of(row),
        held_as=held_as_of(row),
        parent_how=descent_of(row),
    )


def values_of(draft: PlantDraft) -> dict[str, object]:
    """Give the values of a plant's row."""
    return {
        **dict(zip(_SAME, _same_of(draft), strict=True)),
        "medium": draft.medium,
        "size": draft.size,
        "status": draft.status,
        "held_as": draft.held_as,
        "parent_how": draft.parent_how,
        **overrule_values(draft.overrule),
    }


def checked(draft: PlantDraft, today: date) -> PlantDraft:
    """Give the plant as it is kept, or refuse the first slip in it."""
    kept = replace(
        draft,
        tag=checking.needed_text(
            "tag", draft.tag, tr("Give the number on its label."), TAG_CHARACTERS
        ),
        name=checking.text("name", draft.name, checking.NAME),
        kind=checking.text("kind", draft.kind, NAME_CHARACTERS),
        bench=checking.whole("bench", draft.bench, BENCH),
        pot_volume_l=checking.number("pot_volume_l", draft.pot_volume_l, POT_L),
        volume_l=checking.number("volume_l", draft.volume_l, ROUND_L),
        repotted_on=checking.day_done("repotted_on", draft.repotted_on, today),
        full_strength_ppm_n=checking.number(
            "full_strength_ppm_n", draft.full_strength_ppm_n, MIXED_PPM_N
        ),
        feed_ceiling_ppm_n=checking.number(
            "feed_ceiling_ppm_n", draft.feed_ceiling_ppm_n, MIXED_PPM_N
        ),
        feed_interval_days=checking.whole(
            "feed_interval_days", draft.feed_interval_days, INTERVAL_DAYS
        ),
        overrule=checked_overrule(draft.overrule, today),
        acquired_on=checking.day_done("acquired_on", draft.acquired_on, today),
        source=checking.text("source", draft.source),
        note=checking.text("note", draft.note),
        left_on=checking.day_done("left_on", draft.left_on, today),
        left_why=checking.text("left_why", draft.left_why),
        parentage=checking.line("parentage", draft.parentage),
        papers=checking.text("papers", draft.papers),
        how_many=checking.whole("how_many", draft.how_many, HOW_MANY),
        quarantine_until=_later_day("quarantine_until", draft.quarantine_until),
    )
    _refuse_unfit(kept)
    return kept


def refuse_past(overrule: Overrule | None, before: Overrule | None, on: date) -> None:
    """Refuse an overrule that is over before it holds; one that ran out may stay."""
    if overrule is None or overrule.until >= on:
        return
    if before is None or before.until != overrule.until:
        hint = tr("Give a day from today, {isoformat}, on.").format(
            isoformat=on.isoformat()
        )
        raise InputError(
            "until", overrule.until.isoformat(), tr("is over already"), hint
        )


def refuse_left_early(draft: PlantDraft) -> None:
    """Refuse a plant that left before it came."""
    left, came = draft.left_on, draft.acquired_on
    if left is not None and came is not None and left < came:
        problem = tr("is before {tag} came, on {isoformat}").format(
            tag=draft.tag, isoformat=came.isoformat()
        )
        hint = tr("Give a later day, or put the day it was acquired right.")
        raise InputError("left_on", left.isoformat(), problem, hint)


def _refuse_unfit(draft: PlantDraft) -> None:
    """Refuse what says nothing without something else that is not there."""
    grows = draft.status is Status.GROWING
    if grows and draft.left_on is not None:
        hint = tr("Say what became of it, or leave the day empty.")
        value = draft.left_on.isoformat()
        raise InputError(
            "left_on", value, tr("is the day a plant left, and it grows"), hint
        )
    if grows and draft.left_why:
        hint = tr("Say what became of it, or leave this empty.")
        raise InputError(
            "left_why", draft.left_why, tr("says why it left, and it grows"), hint
        )
    refuse_left_early(draft)
    if draft.how_many is not None and draft.held_as is None:
        hint = tr(
            "Say that it is a compot, a flask or a tray, or leave the count empty."
        )
        raise InputError(
            "how_many", draft.how_many, tr("counts plants of one pot"), hint
        )
    if draft.parent_how is not None and draft.parent_id is None:
        hint = tr("Name the plant that it was taken from, or leave this open.")
        raise InputError(
            "parent_how", draft.parent_how.value, tr("is of no plant named"), hint
        )
    until, came = draft.quarantine_until, draft.acquired_on
    if until is not None and came is not None and until < came:
        problem = tr("is before {tag} came, on {isoformat}").format(
            tag=draft.tag, isoformat=came.isoformat()
        )
        hint = tr("Give a later day, or leave it empty.")
        raise InputError("quarantine_until", until.isoformat(), problem, hint)


def _later_day(field: str, day: date | None) -> date | None:
    """Give a day that may be still to come; refuse a year that cannot be meant."""
    if day is not None and not checking.FIRST_YEAR <= day.year <= LAST_YEAR:
        raise InputError(
            field, day.isoformat(), tr("cannot be meant"), tr("Look at the year.")
        )
    return day


def checked_overrule(overrule: Overrule | None, today: date) -> Overrule | None:
    """Give the grower's own word with a reason, and with its first day."""
    if overrule is None:
        return None
    hint = tr("Say in a few words why, so that it is understood later.")
    reason = checking.needed_text("overrule", overrule.reason, hint)
    since = overrule.since or min(today, overrule.until)
    if overrule.until < since:
        hint = tr("Give a day from {isoformat} on.").format(isoformat=since.isoformat())
        raise InputError(
            "overrule", overrule.until.isoformat(), tr("ends before it begins"), hint
        )
    return replace(overrule, reason=reason, since=since)
