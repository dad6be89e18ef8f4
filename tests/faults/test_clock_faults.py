"""F12: a clock set back or forward loses no backup, refuses nothing, and is told."""

from __future__ import annotations

import shutil
from contextlib import closing
from datetime import UTC, date, datetime, timedelta
from typing import TYPE_CHECKING

import pytest
from sqlalchemy import select, update

from growdesk.app import main
from growdesk.domain.facts import CareKind, Flowering, Look, RootTips
from growdesk.services import backups, daily_backup
from growdesk.services.collection import Collection
from growdesk.services.history_values import PastAsk
from growdesk.services.values import PlantDraft
from growdesk.store.schema import ActionRow, CareRow
from tests.faults.clocks import WallClock, zone

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

pytestmark = pytest.mark.skipif(
    not hasattr(__import__("time"), "tzset"), reason="sets the zone as POSIX has it"
)

NOON = datetime(2026, 5, 20, 12, tzinfo=UTC)
_TEN_YEARS = timedelta(days=3653)
_TWO_YEARS = timedelta(days=731)
CASES = {
    "back 1 day": (timedelta(days=-1),),
    "back 10 years": (-_TEN_YEARS,),
    "forward 2 years": (_TWO_YEARS,),
    "forward 2 years and back": (_TWO_YEARS, timedelta()),
    "back 10 years and right again": (-_TEN_YEARS, timedelta(days=1)),
    "asleep for nine days": (timedelta(days=9, hours=11),),
}


@pytest.fixture(autouse=True)
def home() -> Iterator[None]:
    with zone("Europe/Berlin"):
        yield


@pytest.fixture
def clock() -> WallClock:
    return WallClock(NOON)


@pytest.fixture(scope="module")
def laid(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Lay a collection with eight plants, kept as it was on eight days."""
    folder = tmp_path_factory.mktemp("laid") / "collection"
    clock = WallClock(NOON - timedelta(days=40))
    with closing(Collection.open(folder, clock, create=True)) as made:
        for number in range(8):
            plant(made, f"A{number}")
            daily_backup.keep(folder, clock.now())
            clock.at += timedelta(days=5)
    assert len(backups.kept(folder)) == 8
    return folder


@pytest.fixture
def kept(laid: Path, folder: Path, clock: WallClock) -> Iterator[Collection]:
    """Give a copy of it, open."""
    shutil.copytree(laid, folder)
    with closing(Collection.open(folder, clock)) as made:
        yield made


def plant(collection: Collection, tag: str) -> int:
    draft = PlantDraft(tag, "Cattleya", "cattleya")
    return collection.plants.add(draft).ids[0]


def numbers(collection: Collection) -> list[int]:
    page = collection.history.page(PastAsk())
    return [each.action_id for each in page.actions]


@pytest.mark.parametrize("case", CASES)
def test_a_clock_that_is_set_costs_nothing(
    kept: Collection, clock: WallClock, told: Callable[[str], None], case: str
) -> None:
    folder, made = kept.folder, 0
    for turn, step in enumerate(CASES[case]):
        clock.at = NOON + step
        before = {each.folder for each in backups.kept(folder)}
        made_now = plant(kept, f"B{turn}")
        kept.looks.record(
            made_now, Look(clock.today(), flowering=frozenset({Flowering.OPEN}))
        )
        kept.day.tick([made_now], clock.today())
        for minute in range(3):
            clock.at += timedelta(minutes=minute)
            assert daily_backup.keep(folder, clock.now()).problems == ()
        after = {each.folder for each in backups.kept(folder)}
        assert before <= after
        assert len(after - before) <= 1, "not one each minute"
        made += len(after - before)
        assert kept.history.view().undo is not None
    assert numbers(kept) == sorted(numbers(kept), reverse=True)
    assert made == len(CASES[case])
    assert backups.kept(folder)[0].plants == 8 + len(CASES[case])
    told(f"F12 {case}: 0 backups lost, {made} made, 0 entries refused")


def test_a_day_before_the_last_entry_is_told(
    kept: Collection, clock: WallClock
) -> None:
    clock.at = NOON
    plant(kept, "B1")
    assert kept.clock_doubt.line() == ""
    clock.at = NOON - timedelta(days=1)
    assert kept.clock_doubt.line().startswith(
        "Today is 19 May 2026 by this computer, and that is before your last entry, of"
        " 20 May 2026."
    )
    kept.history.undo()
    assert kept.clock_doubt.line() == ""


def test_an_entry_dated_to_come_is_told_until_it_is_set_right(
    kept: Collection, clock: WallClock
) -> None:
    clock.at = NOON + _TWO_YEARS
    one = kept.plants.all()[0][0]
    kept.day.give([one], clock.today(), CareKind.CLEAR_WATER, None)
    clock.at = NOON
    plant(kept, "B1")
    assert "of 20 May 2028" in kept.clock_doubt.line()
    with kept.ledger.reading() as session:
        (care_id,) = session.scalars(select(CareRow.id))
    kept.care.remove([care_id])
    assert kept.clock_doubt.line() == ""


def test_a_look_dated_to_come_is_told_however_often_it_was_asked_before(
    kept: Collection, clock: WallClock
) -> None:
    clock.at = NOON + _TWO_YEARS
    one, other = (plant(kept, tag) for tag in ("B1", "B2"))
    asked = [kept.clock_doubt.line()]
    running = RootTips.RUNNING
    (look_id,) = kept.looks.record(one, Look(clock.today(), root_tips=running)).ids
    asked.append(kept.clock_doubt.line())
    clock.at = NOON
    kept.looks.record(other, Look(clock.today(), root_tips=running))
    assert asked == ["", ""]
    for _ in range(2):
        assert "of 20 May 2028" in kept.clock_doubt.line()
    kept.looks.delete(look_id)
    assert kept.clock_doubt.line() == ""
    kept.history.undo()
    assert "of 20 May 2028" in kept.clock_doubt.line()


def test_an_instant_that_no_calendar_has_is_no_doubt(kept: Collection) -> None:
    with kept.ledger.store.unrecorded() as session:
        session.execute(update(ActionRow).values(at_s=10**15))
    assert kept.clock_doubt.line() == ""


def test_check_tells_it(
    kept: Collection, clock: WallClock, capsys: pytest.CaptureFixture[str]
) -> None:
    clock.at = datetime.now(tz=UTC) + timedelta(days=60)
    plant(kept, "B1")
    kept.close()
    assert main(["--collection", str(kept.folder), "check"]) == 0
    assert "before your last entry" in capsys.readouterr().out


def test_the_zone_changed_while_it_runs(
    kept: Collection, clock: WallClock, told: Callable[[str], None]
) -> None:
    """From the first zone of the day to its last: the day goes back by one."""
    clock.at = NOON
    before = {each.folder for each in backups.kept(kept.folder)}
    with zone("Pacific/Kiritimati"):
        assert clock.today() == date(2026, 5, 21)
        one = plant(kept, "B1")
        kept.day.give([one], clock.today(), CareKind.CLEAR_WATER, None)
        daily_backup.keep(kept.folder, clock.now())
    clock.at += timedelta(minutes=5)
    with zone("Pacific/Pago_Pago"):
        assert clock.today() == date(2026, 5, 20)
        assert "of 21 May 2026" in kept.clock_doubt.line()
        kept.day.give(
            [kept.plants.all()[0][0]], clock.today(), CareKind.CLEAR_WATER, None
        )
        for _ in range(3):
            daily_backup.keep(kept.folder, clock.now())
    after = backups.kept(kept.folder)
    assert before <= {each.folder for each in after}
    assert len(after) == len(before) + 1, "of five minutes ago, in any zone"
    assert numbers(kept) == sorted(numbers(kept), reverse=True)
    told("F12 zone changed while running: 1, 0 backups lost, 0 entries refused")
