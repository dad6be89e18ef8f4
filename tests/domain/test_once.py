from __future__ import annotations

import gc
from datetime import date, timedelta
from functools import partial
from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.domain.facts import House, Place, Reading
from growdesk.domain.once import ByDay, once
from growdesk.domain.place_day import MOST_KINDS, PlaceDay, place_day
from growdesk.services.kinds import table

if TYPE_CHECKING:
    from growdesk.domain.place_day import Seasonal

ON = date(2026, 6, 3)
HOUSE = House()


class _Asked:
    def __init__(self) -> None:
        self.times = 0

    @once
    def answer(self) -> int:
        """Give the answer."""
        self.times += 1
        return 42


class _Made:
    def __init__(self, of: list[int], house: House, on: date) -> None:
        self.of, self.house, self.on = of, house, on


def test_is_reckoned_once() -> None:
    asked = _Asked()
    assert (asked.answer, asked.answer, asked.times) == (42, 42, 1)
    assert _Asked.answer.__doc__ == "Give the answer."


def test_what_is_kept_is_of_the_same_value_house_and_day() -> None:
    by_day: ByDay[list[int], _Made] = ByDay(_Made)
    one, twin = [1], [1]
    made = by_day(one, HOUSE, ON)
    assert by_day(one, HOUSE, ON) is made
    for other in (
        by_day(twin, HOUSE, ON),
        by_day(one, replace(HOUSE), ON),
        by_day(one, HOUSE, ON + timedelta(days=1)),
    ):
        assert other is not made


def test_a_value_that_is_gone_is_never_taken_for_another() -> None:
    by_day: ByDay[list[int], _Made] = ByDay(_Made, most=8)
    for number in range(200):
        of = [number]
        assert by_day(of, HOUSE, ON).of == [number]
        del of
        gc.collect(0)


def test_no_more_is_kept_than_it_says() -> None:
    by_day: ByDay[list[int], _Made] = ByDay(_Made, most=3)
    for number in range(10):
        by_day([number], HOUSE, ON)
        assert len(by_day) <= 3


def test_a_place_read_anew_is_another_place() -> None:
    cool = Place(readings=(Reading(ON, mean_c=12.0),))
    warm = replace(cool, readings=(*cool.readings, Reading(ON, mean_c=20.0)))
    assert place_day(cool, HOUSE, ON).over(7).mean_c == 12.0
    assert place_day(warm, HOUSE, ON).over(7).mean_c == 16.0
    assert place_day(cool, HOUSE, ON + timedelta(days=8)).over(7).read == ()


def test_what_the_season_is_for_a_kind_is_made_once_a_place_and_day() -> None:
    here = PlaceDay(Place(), HOUSE, ON)
    one, other = list(table().kinds.values())[:2]
    first = here.for_kind(one, lambda: (("one", 1.0, {}),))
    assert here.for_kind(one, lambda: (("again", 1.0, {}),)) is first
    assert here.for_kind(other, lambda: (("other", 1.0, {}),)) is not first


def test_no_more_kinds_are_kept_at_a_place_than_it_says() -> None:
    here = PlaceDay(Place(), HOUSE, ON)
    kind = next(iter(table().kinds.values()))
    for number in range(3 * MOST_KINDS):
        made = here.for_kind(replace(kind), partial(_named, float(number)))
        assert made == _named(float(number))
        assert len(here._by_kind) <= MOST_KINDS


def _named(factor: float) -> Seasonal:
    return (("named", factor, {}),)
