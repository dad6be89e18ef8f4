"""Judging makes reasons as data: no sentence is asked for until somebody is told."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest

from growdesk.domain import wording
from growdesk.domain.facts import House, Verdict
from growdesk.domain.judging import judge
from growdesk.domain.speech import Manner, speak
from growdesk.domain.week import walk_rounds
from growdesk.services.demo_unfold import as_facts, read_data, unfold
from growdesk.services.kinds import kind_of, table
from growdesk.services.serving import plan_of

if TYPE_CHECKING:
    from collections.abc import Iterator

ON = date(2026, 11, 25)
HOUSE = House()


class _Counting:
    """A catalogue that gives each text back as it is, and counts them."""

    def __init__(self) -> None:
        self.asked = 0

    def gettext(self, message: str, /) -> str:
        self.asked += 1
        return message

    def ngettext(self, one: str, many: str, count: int, /) -> str:
        self.asked += 1
        return one if count == 1 else many

    def pgettext(self, _context: str, message: str, /) -> str:
        self.asked += 1
        return message


@pytest.fixture
def texts() -> Iterator[_Counting]:
    counting = _Counting()
    speak(Manner(counting))
    yield counting
    speak()


def test_a_day_a_week_and_its_jugs_ask_for_no_text(texts: _Counting) -> None:
    plants = as_facts(unfold(read_data(), ON))
    kinds = [kind_of(plant, table()) for plant in plants]
    texts.asked = 0
    days = [ON, ON + timedelta(days=3)]
    walked = walk_rounds(plants, [kind for kind, _ in kinds], HOUSE, days)
    told = [
        judge(plant, kind, HOUSE, ON, kind_known=known, tells_salts=True)
        for plant, (kind, known) in zip(plants, kinds, strict=True)
    ]
    plan_of(zip(plants, told, strict=True), HOUSE)
    assert len({each.verdict for each in told}) == len(Verdict)
    assert sum(len(each.judged) for each in walked) == 2 * len(plants)
    assert texts.asked == 0

    for judged in told:
        wording.short(judged)
    assert texts.asked == len(told)  # a row of the list asks for one

    wording.tell(told[0])
    assert texts.asked > len(told) + 1
