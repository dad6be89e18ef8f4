"""What runs short before a round, in sentences, from its jugs and the shelf's record.

Only goods that were ever entered are told of. A round half done needs its rest alone.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.domain.measuring import bottle_name
from growdesk.domain.shortage import JugNeed, Short, is_short, reaches, stand_in
from growdesk.domain.stock_words import past_its_day_text
from growdesk.domain.stocktaking import Good, Sort
from growdesk.domain.stocktaking_words import short_text
from growdesk.services import drawing_down
from growdesk.services.shelf import products_of
from growdesk.services.water_ready import stands

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import date

    from growdesk.domain.shortage import StandIn
    from growdesk.domain.stocktaking import OnHand
    from growdesk.services.drawing_down import Uses
    from growdesk.services.shelf import Shelf
    from growdesk.services.values import MixPlan, WaterDraft


def with_short(mix: MixPlan, shelf: Shelf, on: date) -> MixPlan:
    """Give a plan that says what runs short for it, and what stands of its waters."""
    told = tuple(short_text(each) for each in shorts(mix, shelf, on))
    short = (*told, *_past_their_day(mix, shelf, on))
    return replace(mix, short=short, stands=stands(shelf, on))


def _past_their_day(mix: MixPlan, shelf: Shelf, on: date) -> tuple[str, ...]:
    """Say which bottles of stock solution a round is dosed from after their day."""
    used = {
        dose.bottle_key
        for jug in mix.jugs
        for _, doses in drawing_down.weighed(jug)
        for dose in doses
    }
    return tuple(
        past_its_day_text(bottle_name(made.name), made.keep_by, on)
        for made in shelf.record.stocks
        if made.stock_id in used and made.keep_by is not None and made.keep_by < on
    )


def with_short_over(
    rounds: Iterable[tuple[date, MixPlan]], shelf: Shelf
) -> tuple[MixPlan, ...]:
    """Give the plans of several rounds, each with what those before it leave."""
    told: list[MixPlan] = []
    for on, mix in rounds:
        told.append(with_short(mix, shelf, on))
        shelf = after(mix, shelf, on)
    return tuple(told)


def after(mix: MixPlan, shelf: Shelf, on: date) -> Shelf:
    """Give the shelf as it stands once the rest of a round is done.

    The round takes no more than is there.
    """
    taken = shelf.record.with_taken(_within_reach(mix, shelf, on), on)
    return replace(shelf, record=taken)


def rest_of(mix: MixPlan, shelf: Shelf, on: date) -> Uses:
    """Give what a round still takes, less what its ticks took already."""
    return {
        good: max(amount - shelf.record.taken_on(good, on), 0.0)
        for good, amount in drawing_down.of_round(mix, shelf).items()
    }


def _within_reach(mix: MixPlan, shelf: Shelf, on: date) -> Uses:
    """Give what is left of a round, less what is not there."""
    found = {}
    for good, needed in rest_of(mix, shelf, on).items():
        hand = shelf.record.on_hand(good, on)
        found[good] = needed if hand is None else min(needed, hand.there)
    return found


def shorts(mix: MixPlan, shelf: Shelf, on: date) -> tuple[Short, ...]:
    """Give the goods that do not reach for what is left of a round."""
    found: list[Short] = []
    for good, needed in rest_of(mix, shelf, on).items():
        hand = shelf.record.on_hand(good, on)
        is_there = bool(named(good, shelf))
        if hand is not None and is_there and is_short(needed, hand.there):
            found.append(_short(good, needed, hand, mix, shelf, on))
    return tuple(found)


def _short(
    good: Good, needed: float, hand: OnHand, mix: MixPlan, shelf: Shelf, on: date
) -> Short:
    is_rest = shelf.record.taken_on(good, on) > 0
    whole: tuple[str, ...] = ()
    part = None
    if good.sort is not Sort.WATER and not is_rest:
        whole, part = reaches(_needs(good, mix, shelf), hand.there)
    return Short(
        name=named(good, shelf),
        unit=unit_of(good, shelf),
        needed=needed,
        there=hand.there,
        is_rest=is_rest,
        is_overdrawn=hand.is_overdrawn,
        whole=whole,
        part=part,
        stand_in=_stand_in(good, needed, shelf, on),
    )


def named(good: Good, shelf: Shelf) -> str:
    """Give what a good on the shelf is called; nothing where it was put away."""
    if good.sort is Sort.WATER:
        view = shelf.water_view(good.key)
        return "" if view is None else water_name(view.draft)
    if good.sort is Sort.TIN:
        names = (v.draft.name for v in shelf.tins if v.tin_id == good.key)
        return next(names, "")
    made = (
        m.name for m in shelf.record.stocks if m.is_there and m.stock_id == good.key
    )
    return next(map(bottle_name, made), "")


def water_name(draft: WaterDraft) -> str:
    """Give what a water is called, its kind where it has no name."""
    return draft.called[:1].upper() + draft.called[1:]


def unit_of(good: Good, shelf: Shelf) -> str:
    """Give the unit that a good is counted in."""
    if good.sort is Sort.WATER:
        return "L"
    liquid = {v.tin_id for v in shelf.tins if v.draft.density_g_per_ml is not None}
    is_dry = good.sort is Sort.TIN and good.key not in liquid
    return "g" if is_dry else "mL"


def _needs(good: Good, mix: MixPlan, shelf: Shelf) -> list[JugNeed]:
    return [
        JugNeed(
            jug.letter,
            jug.volume_l + jug.spare_l,
            drawing_down.of_jug(jug, shelf).get(good, 0.0),
        )
        for jug in mix.jugs
    ]


def _stand_in(good: Good, needed: float, shelf: Shelf, on: date) -> StandIn | None:
    """Give the tin that could take another's place, of those that were counted."""
    if good.sort is not Sort.TIN:
        return None
    products = products_of({v.tin_id: v.draft for v in shelf.tins})
    ours = products.get(good.key)
    if ours is None:
        return None
    density = ours.analysis.density_g_per_ml
    others = []
    for key, product in products.items():
        hand = shelf.record.on_hand(Good(Sort.TIN, key), on)
        if key != good.key and hand is not None:
            others.append((product, hand.there))
    return stand_in(ours, needed * (density or 1.0), others)
