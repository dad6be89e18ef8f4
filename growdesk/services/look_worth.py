"""Which plants to look at first, and why: a day's bench ranked by what a look may turn.

A ``Bench`` comes with the day and is ranked where nobody waits for it. What a ranking
found for a plant is kept while nothing of it has changed.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.worth_looking import worth_looking
from growdesk.domain.worth_words import why
from growdesk.services.look_values import WorthLine

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable
    from datetime import date

    from growdesk.domain.explain import Judgement
    from growdesk.domain.facts import House
    from growdesk.domain.worth_looking import Worth
    from growdesk.services.known import Known
    from growdesk.services.look_values import Bench

LEAST_LIKELIHOOD = 0.05
"""Below one in twenty a look is not worth the walk."""


class Ranking:
    """Ranks one bench after another; for one thread at a time.

    ``give_way`` is called after each plant that had to be reckoned anew.
    """

    def __init__(self, give_way: Callable[[], object] = lambda: None) -> None:
        self._give_way = give_way
        self._under: tuple[date, House] | None = None
        self._kept: dict[int, tuple[Known, Worth]] = {}

    def rank(self, bench: Bench) -> tuple[WorthLine, ...]:
        """Give the plants worth a look, the likeliest to turn first.

        What was watered or passed by already is left out: a look turns no more there.
        """
        if self._under != (bench.on, bench.house):
            self._under, self._kept = (bench.on, bench.house), {}
        kept = {
            known.plant_id: self._worth(bench, known, judgement)
            for known, judgement in bench.judged
        }
        self._kept = kept
        return _ranked(
            _line(known, worth, bench.on)
            for known, worth in kept.values()
            if known.plant_id not in bench.done and worth.likelihood >= LEAST_LIKELIHOOD
        )

    def _worth(
        self, bench: Bench, known: Known, judgement: Judgement
    ) -> tuple[Known, Worth]:
        before = self._kept.get(known.plant_id)
        if before is not None and before[0] == known:
            return before
        worth = worth_looking(
            known.plant, known.kind, bench.house, bench.on, judgement=judgement
        )
        self._give_way()
        return known, worth


def _ranked(lines: Iterable[WorthLine]) -> tuple[WorthLine, ...]:
    return tuple(sorted(lines, key=lambda line: (-line.likelihood, line.tag)))


def _line(known: Known, worth: Worth, on: date) -> WorthLine:
    plant = known.plant
    turned, _water = worth.turns_to or (worth.verdict, worth.water)
    return WorthLine(
        plant_id=known.plant_id,
        tag=plant.tag,
        name=plant.name,
        place=plant.place.name,
        likelihood=worth.likelihood,
        why=why(worth, on),
        verdict_now=worth.verdict,
        would_turn_to=turned,
        sign=worth.key,
    )
