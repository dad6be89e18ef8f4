"""Rain and a cold night, as a grower writes them down in the window."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QLineEdit

from growdesk.domain.night import Expected, Shelter, Threat
from growdesk.services.bench_values import BenchDraft
from growdesk.services.nights import NightMove, NightPlace, NightView
from growdesk.services.values import PlaceDraft
from growdesk.ui.dialogs.night import ALL_WELL, NO_PLACE, NOTHING_TYPED, NightDialog
from growdesk.ui.dialogs.rain import NOWHERE, RainDialog
from tests.ui.driving import dialog_of, line_of, retype, settle

if TYPE_CHECKING:
    from collections.abc import Callable

    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window


def outdoors(collection: Collection, *tags: str) -> int:
    """Make a yard and put plants there."""
    yard = collection.places.add(PlaceDraft("Yard & shed", "garden", outdoors=True))
    for plant_id, draft in collection.plants.all():
        if draft.tag in tags:
            moved = replace(draft, place_id=yard.ids[0], bench=None, bench_id=None)
            collection.plants.change(plant_id, moved)
    return yard.ids[0]


def opened(qtbot: QtBot, window: Window, command: str) -> None:
    settle(qtbot, window)
    window.commands[command].trigger()
    settle(qtbot, window)


def save(qtbot: QtBot, window: Window, dialog: RainDialog | NightDialog) -> None:
    QTest.keyClick(dialog, Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    settle(qtbot, window)


def first_tags(collection: Collection, number: int) -> list[str]:
    return [draft.tag for _, draft in collection.plants.all()][:number]


def test_rain_is_told_before_it_is_written_and_ticks_the_plants(
    qtbot: QtBot, window: Window, stocked: Collection
) -> None:
    tags = first_tags(stocked, 2)
    outdoors(stocked, *tags)
    window.desk.show_day()
    opened(qtbot, window, "rain")
    dialog = dialog_of(window, RainDialog)
    assert dialog.told.text() == f"It counts as clear water for {', '.join(tags)}."
    retype(dialog.amount, "30")
    settle(qtbot, window)
    assert dialog.told.text() == f"It counts as a flush for {', '.join(tags)}."
    retype(dialog.amount, "2")
    settle(qtbot, window)
    assert dialog.told.text().startswith("Too little to water a pot")
    save(qtbot, window, dialog)
    assert dialog.isVisible(), "it is refused beside its field"
    retype(dialog.amount, "12,5")
    save(qtbot, window, dialog)
    for tag in tags:
        done = line_of(window, tag).done
        assert done is not None
        assert done.what == "rain"
    window.commands["undo"].trigger()
    settle(qtbot, window)
    assert line_of(window, tags[0]).done is None


def test_without_a_place_outdoors_the_way_is_told(qtbot: QtBot, window: Window) -> None:
    opened(qtbot, window, "rain")
    dialog = dialog_of(window, RainDialog)
    assert dialog.told.text() == NOWHERE
    assert not dialog.save_button.isEnabled()
    dialog.save_button.setEnabled(True)
    dialog.reject()


@pytest.fixture
def at_the_glass(stocked: Collection) -> str:
    """Put the first plant on a bench at the glass; give its place's name."""
    plant_id, draft = stocked.plants.all()[0]
    assert draft.place_id is not None
    pane = stocked.benches.add(draft.place_id, BenchDraft("Pane", at_glass=True))
    stocked.plants.change(plant_id, replace(draft, bench_id=pane.ids[0]))
    return draft.tag


def test_a_typed_night_names_what_to_move_and_is_kept(
    qtbot: QtBot, at_the_glass: str, window: Window
) -> None:
    opened(qtbot, window, "night")
    dialog = dialog_of(window, NightDialog)
    assert dialog.texts() == [NOTHING_TYPED]
    row = next(iter(dialog._rows.values()))
    retype(row.low, "25")
    settle(qtbot, window)
    assert dialog.texts() == [ALL_WELL]
    retype(row.low, "-5")
    settle(qtbot, window)
    lines = dialog.texts()
    assert lines[0] == "Take it somewhere warmer for the night."
    assert any(line.startswith(f"{at_the_glass} ") for line in lines)
    assert "Pane" in " ".join(lines)
    assert lines[-1].startswith("Do not water late")
    save(qtbot, window, dialog)
    opened(qtbot, window, "night")
    again = dialog_of(window, NightDialog)
    assert next(iter(again._rows.values())).low.text() == "-5"
    assert again.texts() == lines
    again.reject()


def test_a_slip_is_told_beside_its_place(qtbot: QtBot, window: Window) -> None:
    opened(qtbot, window, "night")
    dialog = dialog_of(window, NightDialog)
    row = next(iter(dialog._rows.values()))
    retype(row.low, "cold")
    assert dialog.texts() == []
    save(qtbot, window, dialog)
    assert dialog.isVisible()
    assert row.property("wrong") is True
    retype(row.low, "")
    dialog.reject()


def test_without_a_place_nothing_can_be_expected(
    qtbot: QtBot, show: Callable[[Collection], Window], collection: Collection
) -> None:
    window = show(collection)
    opened(qtbot, window, "night")
    dialog = dialog_of(window, NightDialog)
    assert dialog.texts() == [NO_PLACE]
    assert not dialog.save_button.isEnabled()
    dialog.save_button.setEnabled(True)
    dialog.reject()


def test_a_frost_last_read_has_a_minus_sign(qtbot: QtBot) -> None:
    on = date(2026, 11, 25)
    place = NightPlace(1, "Yard", True, 1, Expected(None, None), -0.2, on)
    dialog = NightDialog(None, NightView(on, (place,), (), ""))
    qtbot.addWidget(dialog)
    said = [each.text() for each in dialog.findChildren(QLabel)]
    assert "1 plant; last read −0.2 °C, today" in said


def test_many_plants_to_move_are_named_as_they_are_scrolled_to(qtbot: QtBot) -> None:
    on, cold = date(2026, 11, 25), Expected(-3.0, None)
    place = NightPlace(1, "Yard", True, 150, cold, None, None)
    moves = tuple(
        NightMove(
            *(number, f"A{number}", "Cattleya", "Yard", "", Threat.COLD),
            *(Shelter.ELSEWHERE, 3.0, "Take these inside:", "It wants 5 °C."),
        )
        for number in range(150)
    )
    dialog = NightDialog(None, NightView(on, (place,), moves, "Fleece helps."))
    qtbot.addWidget(dialog)
    dialog.show()
    QApplication.processEvents()
    assert 30 <= len(dialog.texts()) <= 90
    bar = dialog.area.verticalScrollBar()
    for _ in range(8):
        bar.setValue(bar.maximum())
        QApplication.processEvents()
    assert dialog.texts() == [
        "Take these inside:",
        *(f"A{number} Cattleya (Yard). It wants 5 °C." for number in range(150)),
        "Fleece helps.",
    ]
    dialog.show_view(NightView(on, (place,), (), ""))
    assert dialog.texts() == [ALL_WELL]
    dialog.reject()


def test_a_place_called_with_signs_of_markup_is_shown_as_typed(
    qtbot: QtBot, window: Window, stocked: Collection
) -> None:
    dialog = NightDialog(
        None,
        NightView(
            date(2026, 11, 25),
            (NightPlace(1, "<b>Sill</b>", False, 1, Expected(None, None), None, None),),
            (),
            "",
        ),
    )
    qtbot.addWidget(dialog)
    tips = [line.toolTip() for line in dialog.findChildren(QLineEdit) if line.toolTip()]
    assert len(tips) == 2
    assert all("&lt;b&gt;Sill&lt;/b&gt;" in tip for tip in tips)
    dialog.reject()
    stocked.places.add(PlaceDraft("Bark & moss"))
    window.desk.show_day()
    settle(qtbot, window)
    assert window.commands["undo"].text() == "&Undo: Place Bark && moss added"
