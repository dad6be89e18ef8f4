"""Check a piece of care by its kind: what it needs, and what belongs to another."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.domain.errors import InputError
from growdesk.domain.facts import CareKind
from growdesk.domain.facts_look import GIVEN_L, GIVEN_PPM_N, RAIN_MM
from growdesk.domain.facts_plant import POT_L
from growdesk.domain.speech import mark, tr
from growdesk.services import checking

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date

    from growdesk.services.care_values import CareDraft

POURED = (CareKind.FEED, CareKind.CLEAR_WATER, CareKind.FLUSH)
BELONGS: Mapping[str, tuple[tuple[CareKind, ...], str]] = {
    "strength_ppm_n": ((CareKind.FEED,), mark("a feed")),
    "volume_l": (POURED, mark("what was poured")),
    "rain_mm": ((CareKind.RAIN,), mark("rain")),
    "product": ((CareKind.TREAT,), mark("a treatment")),
    "repeat_on": ((CareKind.TREAT,), mark("a treatment")),
    "medium": ((CareKind.REPOT,), mark("a repot")),
    "pot_volume_l": ((CareKind.REPOT,), mark("a repot")),
    "from_place": ((CareKind.MOVE,), mark("a move")),
    "to_place": ((CareKind.MOVE,), mark("a move")),
}
"""The kinds of care that a field belongs to, and how they are called."""

REPEAT_MOST_DAYS = 366
NEEDS_PRODUCT = mark('Write what its label says, or "by hand" where nothing was used.')
NEEDS_NOTE = mark("Write what was done, and against what.")


def checked(draft: CareDraft, today: date) -> CareDraft:
    """Give the care as it is kept, or refuse the first slip in it."""
    checking.day_done("on", draft.on, today)
    for field, (kinds, named) in BELONGS.items():
        value = getattr(draft, field)
        if value not in {None, ""} and draft.what not in kinds:
            said = tr(named)
            hint = tr("Leave it empty, or write it as {named}.").format(named=said)
            raise InputError(
                field, value, tr("belongs to {named} only").format(named=said), hint
            )
    product, note = draft.product, checking.text("note", draft.note)
    if draft.what is CareKind.TREAT:
        product = checking.needed_text("product", product, tr(NEEDS_PRODUCT))
        if not note:
            raise InputError("note", note, tr("is empty"), tr(NEEDS_NOTE))
    return replace(
        draft,
        strength_ppm_n=checking.number(
            "strength_ppm_n", draft.strength_ppm_n, GIVEN_PPM_N
        ),
        volume_l=checking.number("volume_l", draft.volume_l, GIVEN_L),
        rain_mm=checking.number("rain_mm", draft.rain_mm, RAIN_MM),
        pot_volume_l=checking.number("pot_volume_l", draft.pot_volume_l, POT_L),
        product=product,
        note=note,
        repeat_on=_repeat(draft),
        from_place=_named("from_place", draft.from_place),
        to_place=_named("to_place", draft.to_place),
    )


def _repeat(draft: CareDraft) -> date | None:
    again = draft.repeat_on
    if again is None:
        return None
    if again <= draft.on:
        raise InputError(
            "repeat_on",
            again.isoformat(),
            tr("is not after the treatment"),
            tr("Give a day after {isoformat}, as the label says, or none.").format(
                isoformat=draft.on.isoformat()
            ),
        )
    if again - draft.on > timedelta(days=REPEAT_MOST_DAYS):
        raise InputError(
            "repeat_on",
            again.isoformat(),
            tr("is over a year away"),
            tr("Look at the year."),
        )
    return again


def _named(field: str, value: str | None) -> str | None:
    return checking.line(field, value or "", checking.NAME) or None
