"""All plants judged on one day, with the house and the shelf they were judged under.

The list, a tick and the sheet read the same round from here, so that they cannot
disagree.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.facts import Verdict
from growdesk.domain.judging import judge
from growdesk.services.known import load_known
from growdesk.services.planning import mix_plan
from growdesk.services.serving import plan_of
from growdesk.services.settings import read_house
from growdesk.services.shelf import house_with_water, read_shelf
from growdesk.services.shortages import with_short
from growdesk.services.water_in_jugs import with_water_flags

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import date

    from growdesk.domain.explain import Judgement
    from growdesk.domain.facts import House
    from growdesk.services.known import Known
    from growdesk.services.shelf import Shelf
    from growdesk.services.values import MixPlan
    from growdesk.store.session import Session


class JudgedDay(Struct, frozen=True):
    """One round: each plant with its judgement, by place and bench.

    ``taken_as_done`` are the days whose planned care the plants are taken to have had;
    ``planned`` is what to have ready where the week has lettered it already.
    """

    on: date
    house: House
    shelf: Shelf
    judged: tuple[tuple[Known, Judgement], ...]
    taken_as_done: tuple[date, ...] = ()
    planned: MixPlan | None = None

    def mix(self) -> MixPlan:
        """Give what to have ready at the bench."""
        if self.planned is not None:
            return self.planned
        pairs = [(known.plant, judgement) for known, judgement in self.judged]
        plan = mix_plan(pairs, self.house, self.shelf)
        kinds = {known.plant.tag: known.kind for known, _ in self.judged}
        flagged = with_water_flags(plan, kinds, self.shelf)
        return with_short(flagged, self.shelf, self.on)

    def strengths(self) -> dict[str, int]:
        """Give the strength of the jug that each fed plant is served from, by tag."""
        fed = [
            (known.plant, judgement)
            for known, judgement in self.judged
            if judgement.verdict is Verdict.FEED
        ]
        return {
            tag: batch.strength_ppm_n
            for batch in plan_of(fed, self.house, self.shelf).batches
            for tag in batch.tags
        }


def judged_day(session: Session, on: date) -> JudgedDay:
    """Judge all plants that grow here on a day."""
    return _judged(session, on, None)


def judged_apart(session: Session, on: date, plant_id: int) -> JudgedDay:
    """Judge one plant alone on a day, even if it has left."""
    return _judged(session, on, plant_id)


def _judged(session: Session, on: date, plant_id: int | None) -> JudgedDay:
    shelf = read_shelf(session)
    house = house_with_water(read_house(session), shelf)
    judged = judged_of(load_known(session, on, plant_id), house, on)
    return JudgedDay(on, house, shelf, judged)


def judged_of(
    plants: Iterable[Known], house: House, on: date
) -> tuple[tuple[Known, Judgement], ...]:
    """Give plants with their judgements of a day."""
    return tuple(
        (
            known,
            judge(known.plant, known.kind, house, on, kind_known=known.kind_known),
        )
        for known in plants
    )
