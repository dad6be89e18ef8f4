"""The weekly mixing sheet as facts: the week walked forward, each round with its jugs.

The judging, the jugs and the words are the watering day's own, so the paper and the
screen say the same. Drawing it is the window's business.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain import cautions
from growdesk.services.drawing_down import weighed
from growdesk.services.long_work import quietly
from growdesk.services.settings import Settings
from growdesk.services.sheet_rounds import Bench, sheet_round
from growdesk.services.sheet_values import Sheet
from growdesk.services.sheet_words import assumed
from growdesk.services.water_ready import week_lines
from growdesk.services.week_walk import walked_week

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import date

    from growdesk.services.ledger import Ledger
    from growdesk.services.long_work import Step
    from growdesk.services.values import MixPlan
    from growdesk.services.week_walk import WalkedWeek


class Sheets:
    """The weekly sheets of one collection."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger

    def week(self, on: date, step: Step = quietly) -> Sheet:
        """Give the sheet of the week that holds a day.

        ``step`` is told of each round walked, and may stop before the next.

        Of this week only what is left is on it. Rounds still to come are taken as
        done; those that are past go by what was ticked, even if nothing was.
        """
        with self._ledger.reading() as session:
            walked = walked_week(session, on, self._ledger.today(), step)
        mixes = walked.mixes()
        rounds = [(each.on, mix) for each, mix in zip(walked.left, mixes, strict=True)]
        return Sheet(
            collection=self._name(),
            week_of=walked.days.begins,
            made_at=self._ledger.clock.now(),
            rounds=tuple(
                sheet_round(
                    Bench(
                        walked.known, walked.house, walked.done[each.on], walked.shelf
                    ),
                    each,
                    mix,
                    _assumes(walked, each.on),
                )
                for each, mix in zip(walked.left, mixes, strict=True)
            ),
            cautions_short=tuple(cautions.SHORT),
            cautions_full=_cautions(mixes),
            waters=week_lines(rounds, walked.shelf),
        )

    def _name(self) -> str:
        return Settings(self._ledger).word("collection", self._ledger.name)


def _assumes(walked: WalkedWeek, on: date) -> str | None:
    """Say what a round goes by of the rounds before it."""
    earlier = [day for day in (*walked.days.before, *walked.days.rounds) if day < on]
    past = [day for day in earlier if day < walked.today]
    return assumed(
        [day for day in earlier if day >= walked.today],
        [day for day in past if walked.done[day]],
        [day for day in past if not walked.done[day]],
    )


def _cautions(mixes: Iterable[MixPlan]) -> tuple[str, ...]:
    """Give the whole block, with that of stock bottles where one is drawn from."""
    drawn = any(
        dose.bottle
        for mix in mixes
        for jug in mix.jugs
        for _, doses in weighed(jug)
        for dose in doses
    )
    return (*cautions.FULL, *(cautions.STOCKS if drawn else ()))
