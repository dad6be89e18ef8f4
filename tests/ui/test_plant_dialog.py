"""The plant's form: all of its fields, what belongs together, and slips in them."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QLineEdit, QPlainTextEdit

from growdesk.domain.cautions import PAPERS
from growdesk.domain.holding import Descent, HeldAs, Status
from growdesk.services.bench_values import BenchChoice, BenchDraft
from growdesk.services.plant_values import Kin, Leaving
from growdesk.services.values import PlaceDraft, PlaceView, PlantDraft
from growdesk.ui.dialogs.plant import PlantDialog, PlantStart
from growdesk.ui.widgets.form import choose
from tests.ui.driving import dialog_of, go_to, line_of, open_dialogs, settle

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window

TODAY = date(2026, 5, 20)
PLACES = (
    PlaceView(1, PlaceDraft("Shelf"), 3, None),
    PlaceView(2, PlaceDraft("Balcony", outdoors=True), 0, None),
)
BENCHES = (BenchChoice(5, 1, "upper"), BenchChoice(6, 1, "lower"))
PLANTS = (Kin(3, "A1", "Cattleya <b>labiata</b>"), Kin(7, "A7", ""))
FULL = PlantDraft(
    "A7",
    "Cattleya labiata",
    "",
    place_id=1,
    bench=4,
    bench_id=6,
    acquired_on=date(2024, 3, 9),
    parent_id=3,
    parent_how=Descent.BACK_BULB,
    parentage="A × B",
    papers="permit 7,\nin the drawer",
    held_as=HeldAs.TRAY,
    how_many=6,
    quarantine_until=date(2026, 6, 30),
    status=Status.SOLD,
    left_on=date(2026, 5, 3),
    left_why="at the <b>show</b>",
)


def form(qtbot: QtBot, draft: PlantDraft, plant_id: int | None = 7) -> PlantDialog:
    start = PlantStart(plant_id, draft, (), PLACES, BENCHES, PLANTS, TODAY)
    dialog = PlantDialog(None, start, lambda _name: "")
    qtbot.addWidget(dialog)
    dialog.show()
    qtbot.waitExposed(dialog)
    return dialog


def errors(dialog: PlantDialog) -> list[str]:
    return [
        each.text()
        for each in dialog.findChildren(QLabel)
        if each.property("tone") == "wrong" and each.isVisible() and each.text()
    ]


def test_all_of_it_is_handed_out_as_it_was_given(qtbot: QtBot) -> None:
    assert form(qtbot, FULL).draft() == FULL


def test_a_tag_alone_is_enough(qtbot: QtBot) -> None:
    dialog = form(qtbot, PlantDraft("A8", "", ""), None)
    assert dialog.tabs.currentIndex() == 0
    assert dialog.draft() == PlantDraft("A8", "", "")


def test_benches_follow_the_place_and_the_number_is_made_anew(qtbot: QtBot) -> None:
    dialog = form(qtbot, FULL)
    bench = dialog.plant.where.bench
    assert [bench.itemText(row) for row in range(bench.count())][1:] == [
        "upper",
        "lower",
    ]
    assert bench.isVisible()
    assert not dialog.plant.moved.isVisible()
    choose(dialog.place, 2)
    assert not bench.isVisible()
    assert dialog.plant.moved.isVisible()
    moved = dialog.draft()
    assert (moved.place_id, moved.bench_id, moved.bench) == (2, None, None)
    choose(dialog.place, 1)
    choose(bench, 6)
    assert not dialog.plant.moved.isVisible()
    assert dialog.draft() == FULL
    dialog.keeping.bench.setText("9")
    choose(bench, 5)
    assert dialog.draft().bench == 9, "a number that was typed is kept"


def test_a_parent_is_named_by_its_tag_or_chosen_with_its_name(qtbot: QtBot) -> None:
    dialog = form(qtbot, replace(FULL, parent_id=None, parent_how=None))
    edit = dialog.origin.parent
    for text in (" a1 ", "A1 Cattleya <b>labiata</b>"):
        edit.setText(text)
        assert dialog.draft().parent_id == 3
    edit.setText("")
    assert dialog.draft().parent_id is None
    model = edit.completer().model()
    offered = [model.data(model.index(row, 0)) for row in range(model.rowCount())]
    assert offered == ["A1 Cattleya <b>labiata</b>", "A7"]


def test_a_parent_in_the_bin_is_kept_unless_another_is_named(qtbot: QtBot) -> None:
    binned = replace(FULL, parent_id=99)
    dialog = form(qtbot, binned)
    assert dialog.origin.parent.text() == ""
    assert dialog.draft() == binned


def test_the_count_is_of_plants_that_share_a_tag(qtbot: QtBot) -> None:
    dialog = form(qtbot, FULL)
    assert dialog.keeping.how_many.isEnabled()
    choose(dialog.keeping.held, None)
    assert not dialog.keeping.how_many.isEnabled()
    assert dialog.draft().how_many is None


def test_a_plant_said_to_have_left_is_proposed_today(qtbot: QtBot) -> None:
    dialog = form(qtbot, PlantDraft("A8", "", ""))
    status = dialog.status
    assert not status.on.isEnabled()
    dialog.tabs.setCurrentIndex(4)
    status.status.setFocus()
    QTest.keyClick(status.status, Qt.Key.Key_Down)
    assert status.on.text() == "2026-05-20"
    status.why.setPlainText("to a friend")
    given = dialog.draft()
    assert (given.status, given.left_on) == (Status.GIVEN_AWAY, TODAY)
    assert given.left_why == "to a friend"
    QTest.keyClick(status.status, Qt.Key.Key_Up)
    assert dialog.draft() == PlantDraft("A8", "", "")


def test_the_caution_on_papers_stands_by_them(qtbot: QtBot) -> None:
    dialog = form(qtbot, FULL)
    dialog.tabs.setCurrentIndex(2)
    texts = [each.text() for each in dialog.findChildren(QLabel) if each.isVisible()]
    assert PAPERS in texts
    assert "permits" in PAPERS
    assert "authority" in PAPERS


@pytest.mark.parametrize(
    ("field", "text", "said", "tab"),
    [
        ("parent_id", "Z9 <b>", "is no plant's tag", 2),
        ("how_many", "six", "is not a number", 3),
        ("bench", "1.5", "is not a whole number", 3),
        ("quarantine_until", "soon", "is not a day", 3),
        ("left_on", "31.2.2026", "is not a day", 4),
    ],
)
def test_a_slip_opens_its_tab_and_stands_beside_its_field(
    qtbot: QtBot, field: str, text: str, said: str, tab: int
) -> None:
    dialog = form(qtbot, FULL)
    edit = dialog.forms[tab].editor(field)
    assert isinstance(edit, QLineEdit)
    edit.setText(text)
    dialog.try_save()
    assert dialog.tabs.currentIndex() == tab
    (error,) = errors(dialog)
    assert said in error
    assert edit.text() == text


def test_a_draft_that_was_left_comes_back_whole(qtbot: QtBot) -> None:
    dialog = form(qtbot, PlantDraft("A7", "", "", place_id=1))
    left: list[object] = []
    dialog.left.connect(left.append)
    choose(dialog.place, 2)
    choose(dialog.place, 1)
    choose(dialog.plant.where.bench, 6)
    dialog.origin.papers.setPlainText("permit 7")
    choose(dialog.status.status, Status.LOST)
    dialog.status.on.setText("2026-05-01")
    entered = dialog.draft()
    dialog.reject()
    again = form(qtbot, PlantDraft("A7", "", "", place_id=1))
    again.take_draft(left[-1])  # type: ignore[arg-type]
    assert again.draft() == entered


def test_slips_that_only_the_collection_knows_stand_beside_their_fields(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    first, second = (line_of(window, tag).plant_id for tag in ("A1", "A2"))
    draft = replace(collection.plants.get(second), parent_id=first)
    collection.plants.change(second, draft)
    place = draft.place_id
    assert place is not None
    collection.benches.add(place, BenchDraft("upper"))
    go_to(window, "A1")
    window.commands["change-plant"].trigger()
    settle(qtbot, window)
    dialog = dialog_of(window, PlantDialog)
    dialog.origin.parent.setText("A2")
    dialog.try_save()
    settle(qtbot, window)
    assert dialog.tabs.currentIndex() == 2
    assert errors(dialog) == [
        "“A2” came of A1 itself. Name the plant that it was really taken from, or none."
    ]
    dialog.origin.parent.setText("")
    choose(dialog.plant.where.bench, 1)
    dialog.origin.papers.setPlainText("permit 7")
    dialog.try_save()
    settle(qtbot, window)
    assert open_dialogs(window) == []
    kept = collection.plants.get(first)
    assert (kept.bench_id, kept.bench, kept.papers) == (1, 1, "permit 7")


def test_a_taken_tag_of_what_left_is_told_beside_it(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    gone = line_of(window, "A2").plant_id
    collection.plants.leave([gone], Leaving(Status.SOLD, date(2026, 5, 3)))
    window.commands["add-plant"].trigger()
    settle(qtbot, window)
    dialog = dialog_of(window, PlantDialog)
    dialog.tag.setText("A2")
    dialog.try_save()
    settle(qtbot, window)
    (error,) = errors(dialog)
    assert "is on a plant that was sold on 3 May 2026" in error
    dialog.reject()


def test_tab_leaves_the_boxes_of_text(qtbot: QtBot) -> None:
    dialog = form(qtbot, FULL)
    boxes = dialog.findChildren(QPlainTextEdit)
    assert len(boxes) == 3
    assert all(each.tabChangesFocus() for each in boxes)


def offered(dialog: PlantDialog) -> str:
    line = dialog.apart.line
    return line.text() if line.isVisible() else ""


def apart_form(
    qtbot: QtBot, draft: PlantDraft, plant_id: int | None, days: int = 28
) -> PlantDialog:
    start = PlantStart(
        plant_id, draft, (), PLACES, BENCHES, PLANTS, TODAY, quarantine_days=days
    )
    dialog = PlantDialog(None, start, lambda _name: "")
    qtbot.addWidget(dialog)
    dialog.show()
    qtbot.waitExposed(dialog)
    return dialog


def test_a_newcomer_is_kept_apart_by_one_press_and_never_silently(
    qtbot: QtBot,
) -> None:
    dialog = apart_form(qtbot, PlantDraft("A8", "", ""), None)
    assert offered(dialog) == "Keep it apart for 28 days, until 17 Jun 2026"
    assert dialog.draft().quarantine_until is None
    QTest.keyClick(dialog.apart.line, Qt.Key.Key_Space)
    assert dialog.draft().quarantine_until == date(2026, 6, 17)
    assert offered(dialog) == "Apart until 17 Jun 2026: undo"
    QTest.keyClick(dialog.apart.line, Qt.Key.Key_Space)
    assert dialog.draft().quarantine_until is None
    dialog.origin.acquired.setText("2026-05-10")
    assert offered(dialog) == "Keep it apart for 28 days, until 7 Jun 2026"
    dialog.keeping.quarantine.setText("2026-06-30")
    assert offered(dialog) == "", "a day that was typed is kept"


@pytest.mark.parametrize(
    ("plant_id", "changes", "text"),
    [
        (7, {"acquired_on": date(2026, 4, 22)}, "until 20 May 2026"),
        (7, {"acquired_on": date(2026, 4, 21)}, ""),
        (7, {"acquired_on": None}, ""),
        (None, {"acquired_on": date(2026, 5, 21)}, ""),
        (None, {"parent_id": 3}, ""),
        (7, {"acquired_on": date(2026, 5, 1), "status": Status.SOLD}, ""),
    ],
)
def test_it_is_offered_only_while_the_days_of_a_newcomer_run(
    qtbot: QtBot, plant_id: int | None, changes: dict[str, object], text: str
) -> None:
    draft = replace(PlantDraft("A7", "", ""), **changes)
    dialog = apart_form(qtbot, draft, plant_id)
    assert offered(dialog).endswith(text)
    assert bool(offered(dialog)) == bool(text)


def test_without_such_days_nothing_is_offered(qtbot: QtBot) -> None:
    assert offered(apart_form(qtbot, PlantDraft("A8", "", ""), None, days=0)) == ""


def test_the_house_says_how_many_days(
    qtbot: QtBot, window: Window, stocked: Collection
) -> None:
    stocked.settings.save_house(replace(stocked.settings.house(), quarantine_days=42))
    settle(qtbot, window)
    window.commands["add-plant"].trigger()
    settle(qtbot, window)
    dialog = dialog_of(window, PlantDialog)
    assert dialog.apart.line.text().startswith("Keep it apart for 42 days, until ")
    dialog.reject()
