"""Which water each round takes, and how much of it: one plan for jugs and clear water.

Clear water and flushes are of the water in use. Where that is no weaker than a pot may
be, so that the plant is to have rain or RO water, its litres are of such a water, if
the shelf has one.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from msgspec.structs import replace

from growdesk.domain import pouring
from growdesk.domain.facts import Verdict
from growdesk.domain.rules import potting
from growdesk.domain.stocktaking import Good, Sort
from growdesk.domain.water_ready import WaterNeed, WaterStand, over_days, together
from growdesk.domain.water_templates import SPOKEN
from growdesk.domain.water_words import ready_text, short_name, spoken
from growdesk.services import drawing_down
from growdesk.services.water_rows import water_analysis

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence
    from datetime import date

    from growdesk.domain.explain import Judgement
    from growdesk.domain.facts import House, Plant
    from growdesk.domain.water_ready import WaterWeek
    from growdesk.services.drawing_down import Uses
    from growdesk.services.shelf import Shelf
    from growdesk.services.values import Jug, MixPlan, WaterView

    Judged = tuple[Plant, Judgement]


def poured_from(judged: Iterable[Judged], shelf: Shelf) -> tuple[tuple[str, int], ...]:
    """Give the water of each plant, by tag, whose clear water is not the one in use."""
    pure = purest(shelf)
    if pure is None or pure.water_id == shelf.water_id:
        return ()
    return tuple(
        (plant.tag, pure.water_id)
        for plant, judgement in judged
        if any(reason.key == potting.WATER_TOO_SALTY for reason in judgement.reasons)
    )


def purest(shelf: Shelf) -> WaterView | None:
    """Give the rain or RO water on the shelf that holds least; None without any."""
    pure = [view for view in shelf.waters if _is_pure(view)]
    return min(pure, key=lambda view: view.draft.ec_ms_per_cm or 0.0, default=None)


def water_in_use(shelf: Shelf) -> str | None:
    """Give the water in use as a jug names it: its kind, a blend by its name."""
    water = shelf.water
    return None if water is None else short_name(water.name or "", water.kind)


def needs(
    jugs: Iterable[Jug], judged: Sequence[Judged], house: House, shelf: Shelf
) -> tuple[WaterNeed, ...]:
    """Give the litres of each water on the shelf that a round takes."""
    other = dict(poured_from(judged, shelf))
    found = [
        need for jug in jugs for need in _split(drawing_down.of_jug(jug, shelf), shelf)
    ]
    for verdict, field in (
        (Verdict.CLEAR_WATER, "clear_l"),
        (Verdict.FLUSH, "flush_l"),
    ):
        litres: dict[int | None, list[float]] = {}
        for plant, judgement in judged:
            if judgement.verdict is verdict:
                volume_l = pouring.pour_l(
                    plant, house, verdict, judgement.water, judgement.flush_l
                )
                key = other.get(plant.tag, shelf.water_id)
                litres.setdefault(key, []).append(volume_l or 0.0)
        for key, volumes in litres.items():
            uses = drawing_down.of_water(math.fsum(volumes), key, shelf)
            blended = _blend_name(key, shelf)
            found += (
                replace(
                    need,
                    blended=blended,
                    blended_l=need.clear_l + need.flush_l if blended else 0.0,
                )
                for need in _split(uses, shelf, field)
            )
    return tuple(_with_spare(need) for need in together(found))


def over_week(
    rounds: Sequence[tuple[date, MixPlan]], shelf: Shelf
) -> tuple[WaterWeek, ...]:
    """Give each water's litres over the rounds, against what stands of it."""
    if not rounds:
        return ()
    first = min(on for on, _mix in rounds)
    stands = {view.water_id: _stand(view, shelf, first) for view in shelf.waters}
    instead = {view.water_id: _instead(view, shelf) for view in shelf.waters}
    return over_days(
        [(on, [_left(need, shelf, on) for need in mix.waters]) for on, mix in rounds],
        stands,
        {key: name for key, name in instead.items() if name},
    )


def stands(shelf: Shelf, on: date) -> tuple[tuple[int, float], ...]:
    """Give the litres that stand of each water on a day; none of one never counted."""
    found = ((view.water_id, _stand(view, shelf, on)) for view in shelf.waters)
    return tuple(
        (key, stand.there_l) for key, stand in found if stand.there_l is not None
    )


def week_lines(rounds: Sequence[tuple[date, MixPlan]], shelf: Shelf) -> tuple[str, ...]:
    """Say what to have ready of each water over the rounds, one sentence for each."""
    return tuple(ready_text(week) for week in over_week(rounds, shelf))


def _split(uses: Uses, shelf: Shelf, field: str = "jugs_l") -> Iterator[WaterNeed]:
    views = {view.water_id: view for view in shelf.waters}
    for good, litres in uses.items():
        view = views.get(good.key)
        if good.sort is Sort.WATER and view is not None:
            need = WaterNeed(view.water_id, _name(view, shelf), view.draft.kind)
            told: dict[str, Any] = {field: litres}
            yield replace(need, **told)


def _blend_name(key: int | None, shelf: Shelf) -> str:
    view = shelf.water_view(key)
    return "" if view is None or view.blend is None else view.draft.called


def spoken_of(view: WaterView, shelf: Shelf) -> str:
    """Give a water as it is spoken of on a jug: "rain water", "Soft"."""
    return spoken(_name(view, shelf), view.draft.kind)


def _name(view: WaterView, shelf: Shelf) -> str:
    """Give the name of a water; empty where its kind alone tells it from the others."""
    kind = view.draft.kind.casefold()
    alike = [each for each in shelf.waters if each.draft.kind.casefold() == kind]
    is_told = len(alike) == 1 and kind in SPOKEN
    return "" if is_told else view.draft.name or ""


def _with_spare(need: WaterNeed) -> WaterNeed:
    clear_l = need.clear_l + need.flush_l
    if clear_l <= 0:
        return need
    spare_l = pouring.spare_l(clear_l)
    return need + WaterNeed(need.key, need.name, need.kind, spare_l=spare_l)


def _left(need: WaterNeed, shelf: Shelf, on: date) -> WaterNeed:
    """Give a need less what the ticks of its day took already."""
    taken_l = shelf.record.taken_on(Good(Sort.WATER, need.key), on)
    return replace(need, taken_l=taken_l)


def _stand(view: WaterView, shelf: Shelf, on: date) -> WaterStand:
    hand = shelf.record.on_hand(Good(Sort.WATER, view.water_id), on)
    there_l = None if hand is None else hand.there
    return WaterStand(there_l, view.draft.capacity_l)


def _is_pure(view: WaterView) -> bool:
    return water_analysis(view.draft, view.water_id).is_pure


def _instead(view: WaterView, shelf: Shelf) -> str:
    """Name what may be taken for a water that runs short: a tap, which never does."""
    for other in shelf.waters:
        if other.water_id != view.water_id and other.draft.kind.casefold() == "tap":
            return spoken(_name(other, shelf), other.draft.kind)
    return ""
