"""Which plants to look at first, and why: a day's bench ranked by what a look may turn.

Reading and reckoning are apart: a ``Bench`` is read in one go, and ranked where nobody
waits for it. What a ranking found for a plant is kept while nothing of it has changed.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from growdesk.domain.worth_looking import worth_looking
from growdesk.domain.worth_words import why
from growdesk.services import day_rows
from growdesk.services.judged_day import house_with_water
from growdesk.services.known import load_known
from growdesk.services.settings import read_house
from growdesk.services.shelf import read_shelf

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import date

    from sqlalchemy.orm import Session

    from growdesk.domain.facts import House, Verdict
    from growdesk.domain.worth_looking import Worth
    from growdesk.services.known import Known

LEAST_LIKELIHOOD = 0.05
"""Below one in twenty a look is not worth the walk."""


@dataclass(frozen=True, slots=True)
class WorthLine:
    """A plant worth a look: how likely (0 to 1) a look turns today's verdict, and why.

    The number ranks plants on one day; it is no forecast of any one of them.
    """

    plant_id: int
    tag: str
    name: str
    place: str
    likelihood: float
    why: str
    verdict_now: Verdict
    would_turn_to: Verdict


@dataclass(frozen=True, slots=True)
class Bench:
    """All plants as known on a day, and which of them are done already."""

    on: date
    house: House
    plants: tuple[Known, ...]
    done: frozenset[int]


class Ranking:
    """Ranks one bench after another; for one thread at a time."""

    def __init__(self) -> None:
        self._under: tuple[date, House] | None = None
        self._kept: dict[int, tuple[Known, Worth]] = {}

    def rank(self, bench: Bench) -> tuple[WorthLine, ...]:
        """Give the plants worth a look, the likeliest to turn first.

        What was watered or passed by already is left out: a look turns no more there.
        """
        if self._under != (bench.on, bench.house):
            self._under, self._kept = (bench.on, bench.house), {}
        kept = {known.plant_id: self._worth(bench, known) for known in bench.plants}
        self._kept = kept
        return _ranked(
            _line(known, worth, bench.on)
            for known, worth in kept.values()
            if known.plant_id not in bench.done and worth.likelihood >= LEAST_LIKELIHOOD
        )

    def _worth(self, bench: Bench, known: Known) -> tuple[Known, Worth]:
        before = self._kept.get(known.plant_id)
        if before is not None and before[0] == known:
            return before
        worth = worth_looking(known.plant, known.kind, bench.house, bench.on)
        return known, worth


def read_bench(session: Session, on: date) -> Bench:
    """Read all that ranking a day asks for."""
    house = house_with_water(read_house(session), read_shelf(session))
    done = frozenset(day_rows.done_on(session, on))
    return Bench(on, house, load_known(session, on), done)


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
    )
