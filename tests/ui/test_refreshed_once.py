"""A write leads to one refresh of each pane in sight, and to none of a hidden one."""

from __future__ import annotations

from collections import Counter
from functools import partial, wraps
from itertools import islice
from typing import TYPE_CHECKING, Any

import pytest

from growdesk.domain.facts import Look, RootTips
from growdesk.ui.panes.calendar import CalendarPane
from growdesk.ui.panes.day_list import DayListPane
from growdesk.ui.panes.day_sum import DaySumPane
from growdesk.ui.panes.detail import DetailPane
from growdesk.ui.panes.mixing import MixingPane
from growdesk.ui.panes.roster import RosterPane
from growdesk.ui.panes.week import WeekPane
from growdesk.ui.widgets.head import DayHead
from growdesk.ui.widgets.jugs import Jugs
from growdesk.ui.widgets.looks_first import LooksFirst
from growdesk.ui.widgets.reasons import Reasons
from growdesk.ui.widgets.timeline import Timeline
from tests.ui.driving import line_of, settle

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from datetime import date

    from pytestqt.qtbot import QtBot

    from growdesk.ui.window import Window

_SHOWN: tuple[tuple[type, str], ...] = (
    (DayHead, "show_day"),
    (DayHead, "tell_jobs"),
    (DayListPane, "show_day"),
    (LooksFirst, "show_lines"),
    (MixingPane, "show_shelf"),
    (Jugs, "show_plan"),
    (Reasons, "_show_upper"),
    (Timeline, "show_plant"),
    (DetailPane, "show_week"),
    (WeekPane, "_after"),
    (RosterPane, "show_plants"),
    (CalendarPane, "show_jobs"),
    (DaySumPane, "show_sum"),
)
EACH = {
    *("DayHead.show_day", "DayHead.tell_jobs", "DayListPane.show_day"),
    *("LooksFirst.show_lines", "MixingPane.show_shelf", "Jugs.show_plan"),
    "DetailPane.show_week",
}
"""What a write shows anew wherever the grower is; the others are faces."""
OF_PLANT = {"Timeline.show_plant", "Reasons._show_upper"}
"""What it shows anew where it says something else of the plant in sight."""
FACES = {
    "week": "WeekPane._after",
    "collection": "RosterPane.show_plants",
    "calendar": "CalendarPane.show_jobs",
    "day-summary": "DaySumPane.show_sum",
}


@pytest.fixture
def shown(monkeypatch: pytest.MonkeyPatch) -> Counter[str]:
    """Count what is shown, by pane and way."""
    counted: Counter[str] = Counter()

    def counting(of: type, name: str) -> Callable[..., Any]:
        real = getattr(of, name)

        @wraps(real)
        def count(*given: Any, **named: Any) -> Any:
            counted[f"{of.__name__}.{name}"] += 1
            return real(*given, **named)

        return count

    for of, name in _SHOWN:
        monkeypatch.setattr(of, name, counting(of, name))
    return counted


def writes(window: Window, qtbot: QtBot, today: date) -> Iterator[Callable[[], object]]:
    """Give some writes on the plant in sight: a tick, its undo, and a look."""
    plant_id = line_of(window, "A1").plant_id
    window.day_list.go_to(plant_id)
    settle(qtbot, window)
    yield partial(window.deeds.tick, (plant_id,))
    yield window.commands["undo"].trigger
    looks = window.desk.collection.looks
    look = Look(today, root_tips=RootTips.NONE)
    yield partial(window.desk.write, partial(looks.record, plant_id, look))


def test_a_write_shows_each_pane_in_sight_once_and_no_other(
    window: Window, qtbot: QtBot, today: date, shown: Counter[str]
) -> None:
    for each in FACES:
        window.faces.go(each)
    for face in ("day", *FACES):
        window.faces.go(face)
        window.folding.bring()
        at_rest(qtbot, window)
        assert window.mixing.isVisible()
        own = {FACES[face]} if face in FACES else set()
        found = writes(window, qtbot, today)
        for number, write in enumerate(islice(found, None if face == "day" else 2)):
            shown.clear()
            write()
            at_rest(qtbot, window)
            told = f"{face}, {number}"
            assert set(shown.values()) == {1}, told
            plant = OF_PLANT if face == "day" else set()
            assert EACH | own | plant <= set(shown) <= EACH | own | OF_PLANT, told


def at_rest(qtbot: QtBot, window: Window) -> None:
    """Wait until the week has come too, which rests before it is asked for."""
    settle(qtbot, window)
    qtbot.waitUntil(lambda: not window.weekly._rest.isActive())
    settle(qtbot, window)


def test_what_was_written_while_a_pane_was_hidden_stands_when_it_is_shown(
    window: Window, qtbot: QtBot, shown: Counter[str]
) -> None:
    window.faces.go("week")
    at_rest(qtbot, window)
    window.faces.go("day")
    window.folding.turn()
    assert not window.mixing.isVisible()
    before = window.weekly.week.model.view
    shown.clear()
    window.deeds.tick((line_of(window, "A1").plant_id,))
    at_rest(qtbot, window)
    assert (shown["Jugs.show_plan"], shown["WeekPane._after"]) == (0, 0)
    window.folding.turn()
    assert shown["Jugs.show_plan"] == 1
    assert window.weekly.week.model.view is before is not None
    window.faces.go("week")
    assert shown["WeekPane._after"] == 1
    assert window.weekly.week.model.view not in {None, before}
