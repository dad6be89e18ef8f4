"""Plants leave, move, are divided and changed many at once, from the window."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QItemSelectionModel
from PySide6.QtWidgets import QLabel, QLineEdit

from growdesk.domain.cautions import CLEAN_BLADE
from growdesk.domain.facts import CareKind, Medium
from growdesk.domain.holding import Descent, Status
from growdesk.services.bench_values import BenchDraft
from growdesk.services.plant_values import CHANGEABLE, Leaving, ManyChanges
from growdesk.services.values import PlaceDraft, PlantDraft
from growdesk.ui.dialogs.change_many import LEFT_ALONE, ChangeManyDialog
from growdesk.ui.dialogs.divide import DivideDialog, DivideStart
from growdesk.ui.dialogs.leave import LeaveDialog
from growdesk.ui.dialogs.move import MoveDialog
from growdesk.ui.widgets.form import choose
from tests.ui.driving import (
    dialog_of,
    go_to,
    line_of,
    open_dialogs,
    press,
    retype,
    settle,
    status,
)

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget
    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window


def select(window: Window, *tags: str) -> tuple[int, ...]:
    """Select the lines of plants; give their numbers."""
    go_to(window, tags[0])
    model, table = window.day_list.model, window.day_list.table
    rows = QItemSelectionModel.SelectionFlag.Rows
    for tag in tags:
        row = model.row_of(line_of(window, tag).plant_id)
        table.selectionModel().select(
            model.index(row, 0), QItemSelectionModel.SelectionFlag.Select | rows
        )
    return tuple(line_of(window, tag).plant_id for tag in tags)


def tags(window: Window) -> set[str]:
    return {line.tag for line in window.day_list.model.lines}


def errors(widget: QWidget) -> list[str]:
    return [
        each.text()
        for each in widget.findChildren(QLabel)
        if each.property("tone") == "wrong" and each.isVisible() and each.text()
    ]


def opened(qtbot: QtBot, window: Window, command: str) -> None:
    window.commands[command].trigger()
    settle(qtbot, window)


def test_plants_leave_and_undo_brings_them_back(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    first, second = select(window, "A1", "A3")
    opened(qtbot, window, "leave")
    dialog = dialog_of(window, LeaveDialog)
    assert not dialog.back_button.isVisible()
    choose(dialog.status, Status.LOST)
    dialog.day.setText("2026-05-03")
    dialog.why.setPlainText("crown <b>rot</b>")
    dialog.try_save()
    settle(qtbot, window)
    assert open_dialogs(window) == []
    assert tags(window) == {"A2"}
    for plant_id in (first, second):
        draft = collection.plants.get(plant_id)
        assert (draft.status, draft.left_on) == (Status.LOST, date(2026, 5, 3))
        assert draft.left_why == "crown <b>rot</b>"
    opened(qtbot, window, "undo")
    assert tags(window) == {"A1", "A2", "A3"}
    opened(qtbot, window, "redo")
    assert tags(window) == {"A2"}


def test_a_slip_in_leaving_keeps_the_form_as_it_is(
    qtbot: QtBot, window: Window
) -> None:
    select(window, "A1")
    opened(qtbot, window, "leave")
    dialog = dialog_of(window, LeaveDialog)
    dialog.day.setText("2027-01-01")
    dialog.why.setPlainText("to a friend")
    dialog.try_save()
    settle(qtbot, window)
    (error,) = errors(dialog)
    assert "is still to come" in error
    assert dialog.why.toPlainText() == "to a friend"
    assert "A1" in tags(window)
    dialog.reject()


def test_what_had_left_is_listed_and_may_be_here_again(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    first, second = select(window, "A1", "A2")
    picked = window.faces.picked
    left = Leaving(Status.SOLD, date(2026, 5, 3))
    window.desk.write(lambda: collection.plants.leave([first], left))
    settle(qtbot, window)
    window.plants.leave(picked)
    settle(qtbot, window)
    dialog = dialog_of(window, LeaveDialog)
    told = dialog.findChild(QLabel, "left-already")
    assert told is not None
    assert told.text() == "A1: sold on 3 May 2026"
    assert dialog.save_button.isVisible()
    press(dialog, "&Here again")
    settle(qtbot, window)
    assert open_dialogs(window) == []
    assert tags(window) == {"A1", "A2", "A3"}
    assert collection.plants.get(second).status is Status.GROWING


def test_plants_move_to_a_bench(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    yard = collection.places.add(PlaceDraft("Yard", "balcony")).ids[0]
    bench = collection.benches.add(yard, BenchDraft("by the wall")).ids[0]
    ids = select(window, "A1", "A3")
    opened(qtbot, window, "move")
    dialog = dialog_of(window, MoveDialog)
    assert dialog.where.place.currentText() == "East window"
    dialog.try_save()
    settle(qtbot, window)
    assert "stand there already" in " ".join(errors(dialog))
    choose(dialog.where.place, yard)
    choose(dialog.where.bench, bench)
    dialog.try_save()
    settle(qtbot, window)
    assert line_of(window, "A1").place == "Yard"
    for plant_id in ids:
        assert collection.plants.get(plant_id).bench_id == bench
        (care,) = collection.day.detail(plant_id, window.desk.today).care
        assert (care.what, care.from_place) == (CareKind.MOVE, "East window")
    opened(qtbot, window, "undo")
    assert line_of(window, "A1").place == "East window"


def test_many_are_changed_only_where_touched(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    ids = select(window, "A1", "A3")
    before = {each: collection.plants.get(each) for each in ids}
    opened(qtbot, window, "change-many")
    dialog = dialog_of(window, ChangeManyDialog)
    assert dialog.draft() == ManyChanges()
    assert dialog.save_button.text() == "Change all 2"
    fields = {field for form in dialog.forms for field in form.editors}
    assert fields == {*CHANGEABLE, "note"} - {"name"}
    choose(dialog.forms[0].editor("medium"), Medium.SPHAGNUM)  # type: ignore[arg-type]
    choose(dialog.forms[0].editor("mounted"), False)  # type: ignore[arg-type]
    line(dialog, "pot_volume_l").setText("-")
    line(dialog, "source").setText("the <b>show</b>")
    line(dialog, "feed_interval_days").setText("often")
    dialog.note.setText("repotting next")
    dialog.try_save()
    (error,) = errors(dialog)
    assert "is not a number" in error
    assert dialog.tabs.currentIndex() == 1
    line(dialog, "feed_interval_days").setText("9")
    dialog.try_save()
    settle(qtbot, window)
    for plant_id in ids:
        kept = collection.plants.get(plant_id)
        assert kept.medium is Medium.SPHAGNUM
        assert kept.pot_volume_l is None
        assert (kept.source, kept.feed_interval_days) == ("the <b>show</b>", 9)
        assert kept.note == "repotting next"
        assert kept.kind == before[plant_id].kind
    opened(qtbot, window, "undo")
    assert {each: collection.plants.get(each) for each in ids} == before


def line(dialog: ChangeManyDialog, field: str) -> QLineEdit:
    for form in dialog.forms:
        edit = form.editor(field)
        if isinstance(edit, QLineEdit):
            return edit
    raise AssertionError(field)


def test_a_line_left_alone_says_so(qtbot: QtBot) -> None:
    dialog = ChangeManyDialog(None, "A1, A2", 2, ())
    qtbot.addWidget(dialog)
    assert line(dialog, "papers").placeholderText() == LEFT_ALONE
    line(dialog, "papers").setText("-")
    assert dialog.draft() == ManyChanges({"papers": ""})


def test_a_plant_is_divided_with_tags_that_are_proposed(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    (parent,) = select(window, "A1")
    opened(qtbot, window, "divide")
    dialog = dialog_of(window, DivideDialog)
    assert dialog.tags.text() == "A4"
    retype(dialog.count, "3")
    assert dialog.tags.text() == "A4, A5, A6"
    assert dialog.repotted.isChecked()
    choose(dialog.how, Descent.KEIKI)
    assert not dialog.repotted.isChecked()
    dialog.tags.setText("A4, A5")
    dialog.try_save()
    (error,) = errors(dialog)
    assert "names 2 plants" in error
    dialog.tags.setText("A4; K <b>1, A2")
    dialog.try_save()
    settle(qtbot, window)
    (error,) = errors(dialog)
    assert "“A2” is on another plant already" in error
    dialog.tags.setText("A4; K <b>1, A6")
    dialog.pot.setText("300 mL")
    dialog.try_save()
    settle(qtbot, window)
    assert tags(window) == {"A1", "A2", "A3", "A4", "A6", "K <b>1"}
    made = collection.plants.get(line_of(window, "A6").plant_id)
    assert (made.parent_id, made.parent_how) == (parent, Descent.KEIKI)
    assert made.pot_volume_l == pytest.approx(0.3)
    opened(qtbot, window, "undo")
    assert tags(window) == {"A1", "A2", "A3"}


def test_a_seedling_is_not_its_parents_clone(qtbot: QtBot) -> None:
    named = PlantDraft("A1", "Cattleya labiata 'Harbour' AM/AOS", "")
    day = date(2026, 5, 3)
    dialog = DivideDialog(None, DivideStart(named, day, ("A2",), ()))
    qtbot.addWidget(dialog)
    choose(dialog.how, Descent.SEEDLING)
    assert dialog.draft().name == "Cattleya labiata"
    choose(dialog.how, Descent.DIVISION)
    assert dialog.draft().name == named.name
    dialog.name.setText("Cattleya sib cross")
    choose(dialog.how, Descent.SEEDLING)
    assert dialog.draft().name == "Cattleya sib cross", "what was typed is kept"


def test_nothing_opens_where_nothing_is_selected(qtbot: QtBot, window: Window) -> None:
    for opening in (window.plants.leave, window.plants.move, window.plants.change_many):
        opening(())
        settle(qtbot, window)
        assert open_dialogs(window) == []
        assert status(window) == "No plant is selected."


def test_what_left_is_not_divided(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    (parent,) = select(window, "A1")
    left = Leaving(Status.SOLD, date(2026, 5, 3))
    window.desk.write(lambda: collection.plants.leave([parent], left))
    settle(qtbot, window)
    window.plants.divide(parent)
    settle(qtbot, window)
    assert open_dialogs(window) == []
    assert status(window) == "A1 is not here any more: sold on 3 May 2026."


def test_a_form_that_is_left_is_kept_as_a_draft(qtbot: QtBot, window: Window) -> None:
    select(window, "A1", "A2")
    opened(qtbot, window, "change-many")
    dialog = dialog_of(window, ChangeManyDialog)
    line(dialog, "source").setText("a swap")
    dialog.reject()
    settle(qtbot, window)
    opened(qtbot, window, "change-many")
    again = dialog_of(window, ChangeManyDialog)
    assert again.draft() == ManyChanges({"source": "a swap"})
    again.throw_away()
    again.reject()


def test_a_move_opens_on_the_bench_where_the_plants_stand(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    east = collection.plants.get(line_of(window, "A1").plant_id).place_id
    assert east is not None
    bench = collection.benches.add(east, BenchDraft("by the pane")).ids[0]
    (a1,) = select(window, "A1")
    collection.plants.move((a1,), east, bench, window.desk.today)
    opened(qtbot, window, "move")
    dialog = dialog_of(window, MoveDialog)
    assert dialog.where.bench.currentText() == "by the pane"
    dialog.try_save()
    settle(qtbot, window)
    assert "stand" in " ".join(errors(dialog)), "nothing moves unasked"
    assert collection.plants.get(a1).bench_id == bench
    dialog.reject()
    select(window, "A1", "A3")
    opened(qtbot, window, "move")
    dialog = dialog_of(window, MoveDialog)
    assert dialog.where.bench_id is None
    dialog.reject()


def test_plants_of_several_places_go_nowhere_until_a_place_is_chosen(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    yard = collection.places.add(PlaceDraft("Yard", "balcony")).ids[0]
    a1, a3 = line_of(window, "A1").plant_id, line_of(window, "A3").plant_id
    collection.plants.move((a3,), yard, None, window.desk.today)
    window.desk.show_day()
    settle(qtbot, window)
    select(window, "A1", "A3")
    opened(qtbot, window, "move")
    dialog = dialog_of(window, MoveDialog)
    assert dialog.where.place.currentText() == "choose a place"
    dialog.try_save()
    settle(qtbot, window)
    assert "is not chosen" in " ".join(errors(dialog))
    assert collection.plants.get(a1).place_id is not None
    dialog.reject()


@pytest.mark.parametrize("command", ["divide", "repot"])
def test_work_that_cuts_says_a_clean_blade_for_each_plant(
    qtbot: QtBot, window: Window, command: str
) -> None:
    settle(qtbot, window)
    go_to(window, "A1")
    opened(qtbot, window, command)
    (dialog,) = open_dialogs(window)
    texts = [each.text() for each in dialog.findChildren(QLabel) if each.isVisible()]
    assert CLEAN_BLADE in texts
    dialog.reject()
