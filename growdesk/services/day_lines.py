"""The lines of a watering day's list, each plant with its verdict, jug and tick."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.domain import wording
from growdesk.domain.case import Case
from growdesk.services.planning import pour_l
from growdesk.services.values import Line

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from growdesk.domain.explain import Judgement
    from growdesk.services.judged_day import JudgedDay
    from growdesk.services.known import Known
    from growdesk.services.values import Done, Jug, MixPlan


def lines(day: JudgedDay, mix: MixPlan, done: Mapping[int, Done]) -> tuple[Line, ...]:
    """Give a line for each plant that was judged, in their order."""
    poured = Poured(mix)
    return tuple(
        poured.over(line(day, known, judgement, done))
        for known, judgement in day.judged
    )


class Poured:
    """What a mix says of each line: its jug, and whether it is outside the band."""

    def __init__(self, mix: MixPlan) -> None:
        self._jugs: dict[str, Jug] = {tag: jug for jug in mix.jugs for tag in jug.tags}
        self._outside = frozenset(mix.outside_band)

    def over(self, line: Line) -> Line:
        """Give a line with its jug; the same one where it says so already."""
        jug = self._jugs.get(line.tag)
        letter = None if jug is None else jug.letter
        strength = None if jug is None else jug.strength_ppm_n
        outside = line.tag in self._outside
        if (line.letter, line.jug_ppm_n, line.outside_band) == (
            letter,
            strength,
            outside,
        ):
            return line
        return replace(line, letter=letter, jug_ppm_n=strength, outside_band=outside)

    def all_over(self, lines: Iterable[Line]) -> Iterator[Line]:
        """Give each line with its jug."""
        return map(self.over, lines)


def line(
    day: JudgedDay, known: Known, judgement: Judgement, done: Mapping[int, Done]
) -> Line:
    """Give a plant's line; its jug is not said yet."""
    plant = known.plant
    case = Case(plant, known.kind, day.house, day.on)
    return Line(
        plant_id=known.plant_id,
        tag=plant.tag,
        name=plant.name,
        place=plant.place.name,
        bench=known.bench,
        bench_name=known.bench_name,
        together=known.together,
        verdict=judgement.verdict,
        water=judgement.water,
        strength_ppm_n=judgement.strength_ppm_n,
        volume_l=pour_l(plant, judgement, day.house),
        letter=None,
        short_reason=wording.short(judgement),
        looked_on=None if case.look is None else case.look.on,
        suspect=case.suspect,
        newcomer=case.newcomer_until is not None,
        done=done.get(known.plant_id),
    )
