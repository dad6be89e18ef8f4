"""F13: whatever the zone and the day, the lists are those of the plain day.

Five zones, two of them a day apart and two that put their clocks on and back at other
times of the year; six days: both turns of the clock, 29 February, the year's end in
week 53, its first day, and a first day of the week.
"""

from __future__ import annotations

import os
import time
from contextlib import closing
from datetime import UTC, date, datetime, timedelta, timezone, tzinfo
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

import pytest
from msgspec.structs import replace
from typing_extensions import override

from growdesk.services import backups
from growdesk.services import clock as clocks
from growdesk.services.backup_values import Why
from growdesk.services.clock import FixedClock, SystemClock
from growdesk.services.collection import Collection
from growdesk.services.history_values import PastAsk
from growdesk.services.values import PlantDraft
from growdesk.store.photos import _file_day
from tests.faults import acts
from tests.faults.clocks import WallClock, zone

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

pytestmark = pytest.mark.skipif(
    not hasattr(time, "tzset"), reason="sets the zone as POSIX has it"
)

ZONES = (
    "Europe/Berlin",
    "America/New_York",
    "Australia/Lord_Howe",
    "Pacific/Kiritimati",
    "Pacific/Pago_Pago",
)
DAYS = (
    date(2028, 3, 26),
    date(2028, 11, 5),
    date(2028, 2, 29),
    date(2026, 12, 31),
    date(2027, 1, 1),
    date(2028, 10, 1),
)
_HOURS = ((0, 5), (2, 30), (12, 0), (23, 55))


@pytest.fixture(scope="module")
def laid(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("laid") / "collection"
    acts.prepare(folder)
    return folder


def all_lists(folder: Path, day: date) -> list[object]:
    """Give the day's list, the week, the sheet and the calendar, read as on a day."""
    with closing(Collection.open_to_read(folder, FixedClock(day))) as read:
        sheet = read.sheet.week(day)
        return [
            read.day.view(),
            read.day.week(day),
            replace(sheet, made_at=datetime(2026, 1, 1, tzinfo=UTC)),
            read.calendar.jobs(),
            [each.title for each in read.history.page(PastAsk()).actions],
        ]


@pytest.fixture(scope="module")
def plain(laid: Path) -> dict[date, list[object]]:
    with zone("UTC"):
        return {day: all_lists(laid, day) for day in DAYS}


@pytest.mark.parametrize("name", ZONES)
def test_the_lists_are_those_of_the_plain_day(
    laid: Path,
    plain: dict[date, list[object]],
    told: Callable[[str], None],
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
    name: str,
) -> None:
    photo = tmp_path / "a.jpg"
    photo.write_bytes(b"x")
    moments = 0
    with zone(name):
        for day in DAYS:
            for hour, minute in _HOURS:
                there = datetime(
                    *day.timetuple()[:3], hour, minute, tzinfo=ZoneInfo(name)
                )
                at = there.astimezone(UTC)
                monkeypatch.setattr(clocks, "datetime", _stopped(at))
                assert SystemClock().today() == day
                assert SystemClock().now() == at
                os.utime(photo, (at.timestamp(), at.timestamp()))
                assert _file_day(photo, day) == day
                moments += 1
            assert all_lists(laid, day) == plain[day]
    told(f"F13 {name}: {len(DAYS)} days as on the plain day, at {moments} moments")


def _stopped(at: datetime) -> type[datetime]:
    class Stopped(datetime):
        @classmethod
        @override
        def now(cls, tz: tzinfo | None = None) -> datetime:  # type: ignore[override]
            return at.astimezone(tz)

    return Stopped


def test_days_and_weeks_differ_where_they_should(
    plain: dict[date, list[object]],
) -> None:
    views = [lists[0] for lists in plain.values()]
    assert len({repr(each) for each in views}) == len(DAYS)


def test_two_backups_in_the_hour_that_comes_twice(folder: Path) -> None:
    """As clocks go back, the same minute comes again an hour later."""
    berlin = timezone(timedelta(hours=2))
    first = datetime(2028, 10, 29, 2, 30, tzinfo=berlin)
    clock = WallClock(first)
    with zone("Europe/Berlin"):
        made = Collection.open(folder, clock, create=True)
        for tag in ("A1", "A2"):
            made.plants.add(PlantDraft(tag, "Vanda", "vanda"))
            backups.make(folder, Why.BY_HAND, clock.now())
            clock.at += timedelta(hours=1)
        page = made.history.page(PastAsk())
        made.close()
        kept = backups.kept(folder)
    assert [each.plants for each in kept] == [2, 1]
    assert kept[0].made_at - kept[1].made_at == timedelta(hours=1)
    assert page.actions[0].at - page.actions[1].at == timedelta(hours=1)
    assert page.actions[0].at.astimezone(ZoneInfo("Europe/Berlin")).hour == 2
