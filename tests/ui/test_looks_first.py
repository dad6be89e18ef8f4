"""What to look at first: the line, its list by keyboard, and ten looks in a row."""

from __future__ import annotations

from datetime import date
from threading import Event, get_ident
from typing import TYPE_CHECKING, Any

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QWidget

from growdesk.domain.facts import Look, NewGrowths, RootTips, Verdict
from growdesk.domain.worth_words import SIGNS
from growdesk.services.look_values import WorthLine
from growdesk.services.look_worth import Ranking
from growdesk.services.values import PlantDraft
from growdesk.ui.dialogs.look import LookDialog, field_of
from growdesk.ui.models.looks_model import ID_ROLE, LooksModel
from growdesk.ui.widgets.looks_delegate import turn_text
from growdesk.ui.widgets.looks_first import (
    NOTHING_TO_LOOK_AT,
    among_text,
    head_text,
)
from tests.ui.driving import (
    dialog_of,
    front,
    go_to,
    line_of,
    open_dialogs,
    settle,
    status,
    to_list,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from pytestqt.qtbot import QtBot

    from growdesk.services.clock import FixedClock
    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window

STILL = NewGrowths(0, 0, 0, 2)
CTRL = Qt.KeyboardModifier.ControlModifier


def worth(number: int, likelihood: float = 0.5) -> WorthLine:
    return WorthLine(
        plant_id=number,
        tag=f"A{number}",
        name="Laelia anceps",
        place="East window",
        likelihood=likelihood,
        why="No look is on record for it; something may be on the move. "
        "Then it would be fed.",
        verdict_now=Verdict.LOOK_FIRST,
        would_turn_to=Verdict.FEED,
    )


@pytest.fixture
def aged(stocked: Collection, clock: FixedClock, today: date) -> Collection:
    """Let two weeks pass over plants that stood still, the older looks first."""
    for number, days in ((1, 6), (2, 4), (3, 2)):
        draft = PlantDraft(f"B{number}", "Cattleya labiata", "cattleya")
        plant_id = stocked.plants.add(draft).ids[0]
        seen = today.replace(day=today.day - days)
        look = Look(seen, new_growths=STILL, root_tips=RootTips.NONE)
        stocked.looks.record(plant_id, look)
    clock.day = today.replace(day=today.day + 11)
    return stocked


@pytest.fixture
def bench(aged: Collection, show: Callable[[Collection], Window]) -> Window:
    return show(aged)


def offered(window: Window) -> list[str]:
    return [line.tag for line in window.day_list.looks.model.lines]


def chosen(window: Window) -> str:
    lines = window.day_list.model.lines
    return next(one.tag for one in lines if one.plant_id == window.day_list.chosen)


def in_list(window: Window) -> bool:
    """Tell whether the window's keys go to the plants to look at first."""
    return window.focusWidget() is window.day_list.looks.view


def press_key(window: Window, which: Qt.Key) -> None:
    """Press a key in the list of plants to look at first."""
    QTest.keyClick(window.day_list.looks.view, which)


def save_look(qtbot: QtBot, window: Window) -> str:
    """Record in the form that is open that no root tips show; give its title."""
    dialog = dialog_of(window, LookDialog)
    title = dialog.windowTitle()
    dialog.roots.set_value(RootTips.NONE)
    QTest.keyClick(dialog, Qt.Key.Key_Return, CTRL)
    settle(qtbot, window)
    assert open_dialogs(window) == []
    return title


def open_list(qtbot: QtBot, window: Window) -> None:
    front(qtbot, window)
    window.commands["looks-first"].trigger()
    settle(qtbot, window)
    assert in_list(window)


# -- the parts -------------------------------------------------------------------------


def test_the_model_is_sound_and_speaks(qtmodeltester: Any) -> None:
    model = LooksModel()
    assert model.show([worth(1), worth(2)])
    qtmodeltester.check(model)
    assert not model.show([worth(1), worth(2)])
    index = model.index(1)
    assert index.data(ID_ROLE) == 2
    assert index.data() == "A2 Laelia anceps"
    spoken = index.data(Qt.ItemDataRole.AccessibleTextRole)
    assert spoken.startswith("A2 Laelia anceps, East window. No look is on record")
    assert (model.row_of(2), model.row_of(9), model.row_of(None)) == (1, -1, -1)


@pytest.mark.parametrize(
    ("tags", "text"),
    [
        (["A1"], "One look worth taking: A1"),
        (["A1", "A2", "A3"], "Three looks worth taking: A1, A2, A3"),
        (
            ["A1", "A2", "A3", "A4"],
            "Four looks worth taking: A1, A2, A3 and 1 more",
        ),
        (
            [f"A{number}" for number in range(1, 11)],
            "Ten looks worth taking: A1, A2, A3 and 7 more",
        ),
        (
            [f"A{number}" for number in range(1, 12)],
            "11 looks worth taking: A1, A2, A3 and 8 more",
        ),
    ],
)
def test_the_line_names_three_and_counts_the_others(tags: list[str], text: str) -> None:
    assert head_text(tags, is_open=False) == text
    assert head_text(tags, is_open=True) == text.partition(":")[0]


def test_the_plants_that_want_a_look_first_are_counted_among_them() -> None:
    look = worth(1)
    fed = replace(worth(2), verdict_now=Verdict.FEED)
    assert among_text([fed]) == ""
    assert among_text([look, fed]) == "1 of them wants a look first"
    assert among_text([look, fed, worth(3)]) == "2 of them want a look first"


# -- in the window ---------------------------------------------------------------------


def test_the_line_stands_over_the_list(bench: Window) -> None:
    looks = bench.day_list.looks
    assert looks.isVisible()
    assert not looks.is_open
    assert offered(bench) == ["A3", "B1", "B2", "B3"]
    assert looks.head.text() == "Four looks worth taking: A3, B1, B2 and 1 more"
    aside = looks.findChild(QLabel, "among-them")
    assert aside is not None
    assert aside.isVisible()
    assert aside.text() == "1 of them wants a look first"
    assert looks.head.accessibleName().endswith("folded")


def test_ten_at_most_are_offered(
    qtbot: QtBot, aged: Collection, show: Callable[[Collection], Window]
) -> None:
    for number in range(12):
        aged.plants.add(PlantDraft(f"C{number:02}", "", "cattleya"))
    window = show(aged)
    assert len(offered(window)) == 10
    assert window.day_list.looks.head.text().endswith("and 7 more")
    open_list(qtbot, window)
    view = window.day_list.looks.view
    assert view.height() < window.day_list.height() / 2


def test_arrows_go_from_plant_to_plant_and_the_list_follows(
    qtbot: QtBot, bench: Window
) -> None:
    open_list(qtbot, bench)
    assert chosen(bench) == "A3"
    press_key(bench, Qt.Key.Key_Down)
    settle(qtbot, bench)
    assert chosen(bench) == "B1"
    detail = bench.detail.detail
    assert detail is not None
    assert detail.draft.tag == "B1"
    assert in_list(bench)


def test_look_after_look_by_enter_alone(qtbot: QtBot, bench: Window) -> None:
    open_list(qtbot, bench)
    for tag in ("A3", "B1", "B2"):
        assert chosen(bench) == tag
        press_key(bench, Qt.Key.Key_Return)
        settle(qtbot, bench)
        assert save_look(qtbot, bench).startswith(f"Look at {tag},")
        assert in_list(bench)
        assert tag not in offered(bench)
    assert offered(bench) == ["B3"]
    assert chosen(bench) == "B3"


def test_the_form_repeats_why_and_stands_on_the_sign_in_doubt(
    qtbot: QtBot, bench: Window
) -> None:
    open_list(qtbot, bench)
    for tag in ("A3", "B1"):
        line = next(one for one in bench.day_list.looks.model.lines if one.tag == tag)
        bench.day_list.looks.look_wanted.emit(line.plant_id, line.why, line.sign)
        settle(qtbot, bench)
        dialog = dialog_of(bench, LookDialog)
        why = dialog.findChild(QLabel, "why-look")
        assert why is not None
        assert why.text() == line.why
        held = dialog.growths if field_of(line.sign) != "root_tips" else dialog.roots
        assert dialog.focusWidget() in (held, *held.findChildren(QWidget))
        dialog.reject()
        settle(qtbot, bench)
    bench.commands["look"].trigger()
    settle(qtbot, bench)
    assert dialog_of(bench, LookDialog).findChild(QLabel, "why-look") is None


def test_every_sign_that_can_be_in_doubt_leads_to_a_row_of_the_form() -> None:
    whole = {"looked-long-ago", "never-looked", "all-come-to-rest", "both-begin"}
    for sign in SIGNS:
        named = field_of(sign)
        first = sign.startswith(("never-", "looked-", "all-", "both-"))
        assert bool(named) != first, sign
        assert not named or hasattr(Look(date(2026, 1, 1)), named)
    assert whole <= set(SIGNS)
    assert [field_of(sign) for sign in ("tips-none", "leaf-none", "leaves-firm")] == [
        "root_tips",
        "new_leaf",
        "leaves",
    ]


def test_all_ten_looks_are_seen_where_there_is_room(
    qtbot: QtBot, aged: Collection, show: Callable[[Collection], Window]
) -> None:
    for number in range(12):
        aged.plants.add(PlantDraft(f"C{number:02}", "", "cattleya"))
    window = show(aged)
    window.resize(1280, 1000)
    open_list(qtbot, window)
    view = window.day_list.looks.view
    assert view.model().rowCount() == 10
    qtbot.waitUntil(lambda: view.verticalScrollBar().maximum() == 0)
    window.resize(1280, 700)
    qtbot.waitUntil(lambda: view.verticalScrollBar().maximum() > 0)
    qtbot.waitUntil(lambda: window.day_list.table.height() >= 200)
    assert turn_text(worth(1)) == "to feed?"


def test_after_the_last_look_the_list_has_the_focus_again(
    qtbot: QtBot, window: Window
) -> None:
    assert offered(window) == ["A3"]
    open_list(qtbot, window)
    press_key(window, Qt.Key.Key_Return)
    settle(qtbot, window)
    save_look(qtbot, window)
    looks = window.day_list.looks
    assert offered(window) == []
    assert not looks.is_open
    assert not looks.head.isVisible()
    said = looks.findChild(QLabel, "no-looks")
    assert said is not None
    assert said.text() == NOTHING_TO_LOOK_AT
    assert window.focusWidget() is window.day_list.table
    window.commands["looks-first"].trigger()
    assert status(window) == NOTHING_TO_LOOK_AT


def test_escape_folds_and_goes_back_to_the_list(qtbot: QtBot, bench: Window) -> None:
    open_list(qtbot, bench)
    press_key(bench, Qt.Key.Key_Escape)
    assert bench.focusWidget() is bench.day_list.table
    shown = [bench.day_list.looks.is_open]
    for _time in range(2):
        bench.day_list.looks.head.click()
        shown.append(bench.day_list.looks.is_open)
    assert shown == [False, True, False]


def test_from_the_week_the_way_leads_over_the_day(qtbot: QtBot, bench: Window) -> None:
    bench.commands["week"].trigger()
    settle(qtbot, bench)
    assert not bench.day_list.isVisible()
    open_list(qtbot, bench)
    assert bench.day_list.looks.view.isVisible()
    assert chosen(bench) == "A3"


def test_a_tick_leaves_the_cursor_where_it_is(qtbot: QtBot, bench: Window) -> None:
    open_list(qtbot, bench)
    go_to(bench, "B2")
    QTest.keyClick(to_list(qtbot, bench), Qt.Key.Key_Space)
    settle(qtbot, bench)
    assert line_of(bench, "B2").done is not None
    assert offered(bench) == ["A3", "B1", "B3"]
    assert chosen(bench) == "B2"
    assert bench.focusWidget() is bench.day_list.table


def test_an_empty_collection_shows_no_line(
    collection: Collection, show: Callable[[Collection], Window]
) -> None:
    window = show(collection)
    assert not window.day_list.looks.isVisible()
    assert not window.commands["looks-first"].isEnabled()


# -- beside the day --------------------------------------------------------------------


def test_ranking_is_no_work_of_the_windows_or_the_desks_thread(
    qtbot: QtBot, bench: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    threads: dict[str, int] = {}
    rank, view = Ranking.rank, bench.desk.collection.day.by_steps

    def ranked(self: Ranking, on: object) -> object:
        threads["rank"] = get_ident()
        return rank(self, on)  # type: ignore[arg-type]

    def viewed(on: date | None, first: Sequence[int]) -> object:
        threads["day"] = get_ident()
        return view(on, first)

    monkeypatch.setattr(Ranking, "rank", ranked)
    monkeypatch.setattr(bench.desk.collection.day, "by_steps", viewed)
    bench.desk.show_day()
    settle(qtbot, bench)
    assert len({get_ident(), threads["rank"], threads["day"]}) == 3


def test_what_changes_while_one_ranking_runs_is_ranked_once_after_it(
    qtbot: QtBot, bench: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    go_on, ranked, rank = Event(), [], Ranking.rank

    def held(self: Ranking, on: object) -> object:
        ranked.append(on)
        assert go_on.wait(20)
        return rank(self, on)  # type: ignore[arg-type]

    monkeypatch.setattr(Ranking, "rank", held)
    bench.desk.show_day()
    qtbot.waitUntil(lambda: len(ranked) == 1)
    plant = line_of(bench, "B1").plant_id
    days = bench.desk.collection.day
    bench.desk.write(lambda: days.pass_by([plant], bench.desk.today))
    bench.desk.show_day()
    bench.desk.show_day()
    # the day is read and shown while the ranking still runs
    qtbot.waitUntil(lambda: line_of(bench, "B1").done is not None)
    assert "B1" in offered(bench)
    go_on.set()
    settle(qtbot, bench)
    assert len(ranked) == 2
    assert offered(bench) == ["A3", "B2", "B3"]


def test_another_days_plants_are_those_of_that_day(qtbot: QtBot, bench: Window) -> None:
    before = bench.desk.today.replace(day=1)
    bench.desk.show_day(before)
    settle(qtbot, bench)
    assert offered(bench) == [
        line.tag for line in bench.desk.collection.day.worth(before)
    ]
    assert offered(bench) != ["A3", "B1", "B2", "B3"]
