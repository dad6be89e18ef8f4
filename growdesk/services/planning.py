"""From judged plants to what stands ready at the bench: jugs, ladder, clear water.

The window's mixing pane, a tick and the week's sheet all take their jugs from here. It
opens no session: facts, judgements and the shelf are handed in.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.domain import mix_words, pouring
from growdesk.domain.facts import Verdict, Water
from growdesk.domain.mugs import the_mug
from growdesk.domain.vessels import VesselKind
from growdesk.services.jug_making import jugs_of
from growdesk.services.ladder_plan import ladder_plan
from growdesk.services.serving import plan_of, too_weak
from growdesk.services.small_doses import bottles_to_make, with_proposals
from growdesk.services.values import MixPlan, OneMore
from growdesk.services.water_ready import needs, poured_from, water_in_use

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from growdesk.domain.batches import Batch, BatchPlan
    from growdesk.domain.explain import Judgement
    from growdesk.domain.facts import House, Plant
    from growdesk.services.shelf import Shelf

    Judged = tuple[Plant, Judgement]


def mix_plan(judged: Sequence[Judged], house: House, shelf: Shelf) -> MixPlan:
    """Give the jugs, the ladder and the clear water for a round."""
    shelf = replace(shelf, on=judged[0][1].on if judged else None)
    plan = plan_of(judged, house, shelf)
    batches = _as_poured(plan.batches, judged, house)
    made = jugs_of(
        [(batch, pouring.spare_l(batch.volume_l)) for batch in batches], house, shelf
    )
    jugs = with_proposals(made, house, shelf)
    spared = tuple(
        replace(batch, volume_l=batch.volume_l + jug.spare_l)
        for batch, jug in zip(batches, jugs, strict=True)
    )
    steps = ladder_plan(spared, jugs, house, shelf)
    return MixPlan(
        jugs=tuple(replace(j, of_ladder=steps.shares.get(j.letter)) for j in jugs),
        ladder=steps.sentences,
        outside_band=(*plan.outside_band, *too_weak(judged)),
        volume_unknown=(*plan.volume_unknown, *_clear_unknown(judged, house)),
        clear_l=_litres(judged, house, Verdict.CLEAR_WATER),
        flush_l=_litres(judged, house, Verdict.FLUSH),
        water=water_in_use(shelf),
        tin=None if shelf.tin is None else shelf.tin.name,
        one_more=_one_more(judged, house, shelf, plan) if plan.outside_band else None,
        ladder_first=steps.first,
        ladder_why=steps.why,
        ladder_jugs=steps.jugs,
        bottles=bottles_to_make(jugs, house, shelf),
        remarks=_remarks(plan, house, shelf),
        waters=needs(jugs, judged, house, shelf),
        poured_from=poured_from(judged, shelf),
        mug=the_mug(shelf.vessels),
    )


def _remarks(plan: BatchPlan, house: House, shelf: Shelf) -> tuple[str, ...]:
    """Say where there are fewer jugs than are asked for."""
    found: list[str] = []
    if plan.recipes > house.jugs:
        found.append(mix_words.more_recipes(plan.recipes, house.jugs))
    standing = sum(
        vessel.how_many for vessel in shelf.vessels if vessel.kind is VesselKind.JUG
    )
    if 0 < standing < len(plan.batches):
        found.append(mix_words.more_than_stand(len(plan.batches), standing))
    return tuple(found)


def _one_more(
    judged: Iterable[Judged], house: House, shelf: Shelf, plan: BatchPlan
) -> OneMore:
    jugs = max(house.jugs, plan.recipes) + 1
    more = plan_of(judged, house, shelf, jugs)
    strengths = tuple(batch.strength_ppm_n for batch in more.batches)
    return OneMore(strengths, more.outside_band, more.fewest)


def _as_poured(
    batches: Iterable[Batch], judged: Iterable[Judged], house: House
) -> tuple[Batch, ...]:
    """Give the batches with the litres that are poured at the bench."""
    poured = {
        plant.tag: pour_l(plant, judgement, house) or 0.0 for plant, judgement in judged
    }
    return tuple(
        replace(batch, volume_l=round(math.fsum(poured[t] for t in batch.tags), 3))
        for batch in batches
    )


def pour_l(plant: Plant, judgement: Judgement, house: House) -> float | None:
    """Give the litres a plant gets by its verdict, and by its salts where flushed."""
    return pouring.pour_l(
        plant, house, judgement.verdict, judgement.water, judgement.flush_l
    )


def _clear_unknown(judged: Iterable[Judged], house: House) -> tuple[str, ...]:
    clear = (Verdict.CLEAR_WATER, Verdict.FLUSH)
    return tuple(
        plant.tag
        for plant, judgement in judged
        if judgement.verdict in clear
        and judgement.water is not Water.NONE
        and pour_l(plant, judgement, house) is None
    )


def _litres(judged: Iterable[Judged], house: House, verdict: Verdict) -> float:
    return math.fsum(
        pour_l(plant, judgement, house) or 0.0
        for plant, judgement in judged
        if judgement.verdict is verdict
    )
