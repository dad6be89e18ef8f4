"""What other house rules would do on a day, told before they are kept.

All plants are judged under the rules that hold and under those proposed, from one
reading; nothing is written.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.judging import judge
from growdesk.services.known import load_known
from growdesk.services.plant_rows import tag_order
from growdesk.services.serving import plan_of
from growdesk.services.settings import checked_house, read_house
from growdesk.services.shelf import house_with_water, read_shelf

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from datetime import date

    from growdesk.domain.explain import Judgement
    from growdesk.domain.facts import House, Verdict, Water
    from growdesk.services.known import Known
    from growdesk.services.ledger import Ledger
    from growdesk.services.shelf import Shelf


class Outcome(Struct, frozen=True):
    """What a plant gets on a day; ``strength_ppm_n`` is as poured, none unless fed."""

    verdict: Verdict
    water: Water
    strength_ppm_n: float | None
    volume_l: float | None


class PlantEffect(Struct, frozen=True):
    """One plant that would get something else."""

    plant_id: int
    tag: str
    name: str
    before: Outcome
    after: Outcome

    @property
    def turns(self) -> bool:
        """Tell whether the verdict itself, or how to water, would be another."""
        return (self.before.verdict, self.before.water) != (
            self.after.verdict,
            self.after.water,
        )


class HouseEffect(Struct, frozen=True):
    """What proposed house rules would change on a day, by tag.

    ``jugs_before`` and ``jugs_after`` are the strengths of the feed jugs, in whole
    ppm N, strongest first.
    """

    on: date
    plants: tuple[PlantEffect, ...]
    jugs_before: tuple[int, ...]
    jugs_after: tuple[int, ...]

    @property
    def changes_nothing(self) -> bool:
        """Tell whether the day would go as it does now."""
        return not self.plants and self.jugs_before == self.jugs_after


class RuleEffects:
    """The preview of house rules for one collection."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger

    def of(self, house: House, on: date) -> HouseEffect:
        """Give what a house would change on a day; a rule out of range is refused."""
        proposed = checked_house(house)
        with self._ledger.reading() as session:
            shelf = read_shelf(session)
            held = house_with_water(read_house(session), shelf)
            known = load_known(session, on)
        proposed = house_with_water(proposed, shelf)
        before = _round(known, held, shelf, on)
        after = _round(known, proposed, shelf, on)
        return HouseEffect(
            on=on,
            plants=tuple(_changed(known, *map(_outcomes, (before, after)))),
            jugs_before=before.jugs,
            jugs_after=after.jugs,
        )


class _Round(Struct, frozen=True):
    """A day's plants judged under one house, with the strength in each one's jug."""

    judged: tuple[Judgement, ...]
    poured_ppm_n: tuple[int | None, ...]
    jugs: tuple[int, ...]


def _round(known: Sequence[Known], house: House, shelf: Shelf, on: date) -> _Round:
    judged = tuple(
        judge(each.plant, each.kind, house, on, kind_known=each.kind_known)
        for each in known
    )
    pairs = [(each.plant, found) for each, found in zip(known, judged, strict=True)]
    batches = plan_of(pairs, house, shelf).batches
    poured = {tag: batch.strength_ppm_n for batch in batches for tag in batch.tags}
    return _Round(
        judged,
        tuple(poured.get(each.plant.tag) for each in known),
        tuple(sorted((each.strength_ppm_n for each in batches), reverse=True)),
    )


def _changed(
    known: Iterable[Known], before: Iterable[Outcome], after: Iterable[Outcome]
) -> list[PlantEffect]:
    found = [
        PlantEffect(each.plant_id, each.plant.tag, each.plant.name, old, new)
        for each, old, new in zip(known, before, after, strict=True)
        if old != new
    ]
    return sorted(found, key=lambda effect: tag_order(effect.tag))


def _outcomes(each: _Round) -> list[Outcome]:
    return [
        Outcome(
            verdict=judgement.verdict,
            water=judgement.water,
            strength_ppm_n=judgement.strength_ppm_n
            if poured is None
            else float(poured),
            volume_l=judgement.volume_l,
        )
        for judgement, poured in zip(each.judged, each.poured_ppm_n, strict=True)
    ]
