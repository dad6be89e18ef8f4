"""The timeline of a plant: what it holds, filters, changing by mouse and by key."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget

from growdesk.domain.facts import CareKind, Flowering, Look, Medium, RootTips
from growdesk.domain.holding import Status
from growdesk.services.bloom_values import BloomDraft
from growdesk.services.care_values import CareDraft
from growdesk.ui.dialogs.bloom import BloomDialog
from growdesk.ui.dialogs.care import CareDialog
from growdesk.ui.dialogs.look import LookDialog
from growdesk.ui.dialogs.photo import PhotoDialog
from growdesk.ui.dialogs.plant import PlantDialog
from growdesk.ui.models.timeline_model import TimelineModel, spoken
from growdesk.ui.timeline_entries import Entry, Heading, What, entries, rows
from tests.ui.driving import dialog_of, go_to, open_dialogs, settle

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window

REPOT = date(2026, 2, 10)


@pytest.fixture
def told(
    qtbot: QtBot,
    stocked: Collection,
    today: date,
    tmp_path: Path,
    show: Callable[[Collection], Window],
) -> Window:
    """Give the window on A1, with one of everything on record."""
    plant = stocked.plants.find("A1")
    assert plant is not None
    care = stocked.care
    care.add([plant], CareDraft(today - timedelta(days=3), CareKind.FEED, 120.0, 0.4))
    care.add(
        [plant],
        CareDraft(
            today - timedelta(days=40),
            CareKind.TREAT,
            note="scale, wiped",
            product="Soft soap",
            repeat_on=today - timedelta(days=30),
        ),
    )
    care.add(
        [plant],
        CareDraft(REPOT, CareKind.REPOT, medium=Medium.BARK, pot_volume_l=1.5),
    )
    care.add(
        [plant],
        CareDraft(
            today - timedelta(days=60),
            CareKind.MOVE,
            from_place="Balcony",
            to_place="East window",
        ),
    )
    stocked.blooms.add(
        plant,
        BloomDraft(
            date(2025, 12, 1), date(2026, 1, 20), date(2026, 3, 2), 9, 2, 85.0, "sweet"
        ),
    )
    picture = QImage(64, 48, QImage.Format.Format_RGB32)
    picture.fill(Qt.GlobalColor.darkGreen)
    file = tmp_path / "base.png"
    assert picture.save(str(file))
    look = Look(today - timedelta(days=10), root_tips=RootTips.RUNNING)
    stocked.looks.record(plant, look, "five green tips", [file])
    draft = stocked.plants.get(plant)
    acquired = replace(draft, acquired_on=date(2024, 6, 1), source="a show")
    stocked.plants.change(plant, acquired)
    window = show(stocked)
    go_to(window, "A1")
    settle(qtbot, window)
    window.detail._split.setSizes([200, 500])
    settle(qtbot, window)
    return window


def shown(window: Window) -> list[str]:
    """Give the rows as they read; a heading in brackets."""
    return [
        f"[{row.title}]"
        if isinstance(row, Heading)
        else f"{row.on.day}.{row.on.month}. {row.line}"
        for row in window.detail.timeline.model.rows
    ]


def go_to_line(window: Window, begins: str) -> Entry:
    timeline = window.detail.timeline
    for number in range(len(timeline.model.rows)):
        entry = timeline.model.entry(number)
        if entry is not None and entry.line.startswith(begins):
            index = timeline.model.index(number, 0)
            timeline.view.scrollTo(index)
            timeline.view.setFocus()
            timeline.view.setCurrentIndex(index)
            return entry
    raise AssertionError(f"no line begins with {begins}")


def test_all_that_is_on_record_stands_in_one_scroll_newest_first(told: Window) -> None:
    assert shown(told) == [
        "[May 2026]",
        "20.5. Look: New growths: 1 extending; root tips running.",
        "17.5. Fed, 120 ppm N, 400 mL",
        "10.5. Look: Root tips running.",
        "[April 2026]",
        "10.4. Treated, Soft soap; again on 20 Apr 2026",
        "[March 2026]",
        "21.3. Moved from Balcony to East window",
        "2.3. Last flower faded; 9 flowers on 2 spikes, 8.5 cm across",
        "[February 2026]",
        "10.2. Repotted into bark, a pot of 1.5 L",
        "[January 2026]",
        "20.1. First flower open",
        "[December 2025]",
        "1.12. Spike seen",
        "[June 2024]",
        "1.6. Came into the collection, from a show",
    ]


@pytest.mark.parametrize(
    ("what", "begin"),
    [
        (What.LOOK, ["Look", "Look"]),
        (What.CARE, ["Fed", "Treated", "Moved", "Repotted"]),
        (What.BLOOM, ["Last", "First", "Spike"]),
        (What.PHOTO, ["Look"]),
    ],
)
def test_a_filter_shows_its_own_sort(
    told: Window, what: What, begin: list[str]
) -> None:
    timeline = told.detail.timeline
    timeline.buttons[what].click()
    lines = [row.line for row in timeline.model.rows if isinstance(row, Entry)]
    assert [line.split(maxsplit=1)[0].rstrip(":,") for line in lines] == begin
    assert str(len(begin)) in timeline.buttons[what].accessibleName()
    timeline.buttons[None].click()
    assert len(timeline.model.rows) == 17


@pytest.mark.parametrize(
    ("line", "kind"),
    [
        ("Fed", CareDialog),
        ("Look: Root", LookDialog),
        ("First flower", BloomDialog),
        ("Came into", PlantDialog),
    ],
)
def test_enter_changes_the_entry_under_the_cursor(
    qtbot: QtBot, told: Window, line: str, kind: type[CareDialog]
) -> None:
    go_to_line(told, line)
    QTest.keyClick(told.detail.timeline.view, Qt.Key.Key_Return)
    settle(qtbot, told)
    dialog = dialog_of(told, kind)
    dialog.reject()
    settle(qtbot, told)
    assert open_dialogs(told) == []


def test_a_click_on_change_opens_the_form_and_elsewhere_nothing(
    qtbot: QtBot, told: Window
) -> None:
    entry = go_to_line(told, "Treated")
    view = told.detail.timeline.view
    settle(qtbot, told)
    box = view.visualRect(view.currentIndex())
    places = view.rows_painted.places(entry, box.width(), view.font())
    left = Qt.MouseButton.LeftButton
    none = Qt.KeyboardModifier.NoModifier
    at = box.topLeft() + places.line.topLeft() + QPoint(3, 3)
    QTest.mouseClick(view.viewport(), left, none, at)
    settle(qtbot, told)
    assert open_dialogs(told) == []
    at = box.topLeft() + places.change.center()
    QTest.mouseClick(view.viewport(), left, none, at)
    settle(qtbot, told)
    dialog = dialog_of(told, CareDialog)
    assert dialog.product.text() == "Soft soap"
    assert dialog.again.text() == "2026-04-20"
    dialog.reject()


def test_a_thumbnail_is_read_and_opens_by_click_and_by_space(
    qtbot: QtBot, told: Window
) -> None:
    entry = go_to_line(told, "Look: Root")
    timeline = told.detail.timeline
    (photo,) = entry.photos
    timeline.view.viewport().grab()

    def there() -> bool:
        picture = timeline.view._picture(photo)
        return picture is not None and not picture.isNull()

    qtbot.waitUntil(there, timeout=20_000)
    QTest.keyClick(timeline.view, Qt.Key.Key_Space)
    dialog_of(told, PhotoDialog).close()
    view = timeline.view
    settle(qtbot, told)
    box = view.visualRect(view.currentIndex())
    places = view.rows_painted.places(entry, box.width(), view.font())
    at = box.topLeft() + places.thumbs[0].center()
    none = Qt.KeyboardModifier.NoModifier
    QTest.mouseClick(view.viewport(), Qt.MouseButton.LeftButton, none, at)
    dialog_of(told, PhotoDialog).close()
    settle(qtbot, told)


def test_a_change_keeps_the_cursor_and_another_plant_begins_at_the_top(
    qtbot: QtBot, told: Window
) -> None:
    go_to_line(told, "Treated")
    timeline = told.detail.timeline
    row = timeline.view.currentIndex().row()
    QTest.keyClick(timeline.view, Qt.Key.Key_Return)
    settle(qtbot, told)
    dialog = dialog_of(told, CareDialog)
    dialog.note.setText("scale again")
    dialog.try_save()
    settle(qtbot, told)
    assert open_dialogs(told) == []
    assert timeline.view.currentIndex().row() == row
    entry = timeline.model.entry(row)
    assert entry is not None
    assert entry.note == "scale again"
    go_to(told, "A2")
    settle(qtbot, told)
    assert timeline.view.verticalScrollBar().value() == 0
    assert len(timeline.model.rows) == 2


def test_a_plant_with_nothing_on_record_offers_a_look(
    qtbot: QtBot, told: Window
) -> None:
    go_to(told, "A3")
    settle(qtbot, told)
    timeline = told.detail.timeline
    assert timeline.look_button.isVisible()
    assert "Nothing is on record" in timeline._nothing.text()
    timeline.look_button.click()
    settle(qtbot, told)
    dialog_of(told, LookDialog).reject()
    timeline.buttons[What.CARE].click()
    assert not timeline.look_button.isVisible()
    assert timeline._nothing.text().startswith("No care is on record")


def test_two_thousand_entries_build_no_widget_each(qtbot: QtBot, told: Window) -> None:
    detail = told.desk.detail
    assert detail is not None
    few = len(told.detail.timeline.findChildren(QWidget))
    care = detail.care[0]
    many = tuple(
        replace(care, care_id=number, on=care.on - timedelta(days=number))
        for number in range(2000)
    )
    told.detail.show_plant(replace(detail, care=many))
    settle(qtbot, told)
    timeline = told.detail.timeline
    entries_shown = [row for row in timeline.model.rows if isinstance(row, Entry)]
    assert len(entries_shown) > 2000
    assert len(timeline.findChildren(QWidget)) == few
    last = timeline.model.index(len(timeline.model.rows) - 1, 0)
    timeline.view.scrollTo(last)
    assert timeline.view.visualRect(last).isValid()
    with qtbot.assertNotEmitted(timeline.model.modelReset):
        told.detail.show_plant(replace(detail, care=many, pour_l=1.0))


def test_a_screen_reader_hears_day_line_note_and_photos(told: Window) -> None:
    entry = go_to_line(told, "Look: Root")
    assert spoken(entry) == (
        "10 May 2026. Look: Root tips running. five green tips. 1 photo"
    )
    model = told.detail.timeline.model
    heading = model.index(0, 0)
    assert not model.flags(heading) & Qt.ItemFlag.ItemIsSelectable
    role = Qt.ItemDataRole.AccessibleTextRole
    assert model.data(heading, role) == "May 2026"


def test_a_plant_that_left_says_when_and_why(told: Window) -> None:
    detail = told.desk.detail
    assert detail is not None
    draft = replace(
        detail.draft,
        status=Status.LOST,
        left_on=date(2026, 5, 19),
        left_why="crown rot",
        repotted_on=date(2025, 1, 1),
    )
    found = entries(replace(detail, draft=draft))
    lost = next(each for each in found if each.line == "Lost")
    assert (lost.on, lost.note) == (date(2026, 5, 19), "crown rot")
    assert any(each.line == "Repotted" for each in found)


def test_the_same_rows_again_are_no_reset(qtbot: QtBot) -> None:
    model = TimelineModel()
    entry = Entry(date(2026, 5, 1), What.LOOK, "Look")
    assert model.show(rows([entry], None))
    with qtbot.assertNotEmitted(model.modelReset):
        assert not model.show(rows([entry], None))


def test_a_proposal_is_written_by_one_press_and_never_of_itself(
    qtbot: QtBot, told: Window, stocked: Collection, today: date
) -> None:
    plant = stocked.plants.find("A2")
    assert plant is not None
    look = Look(today, flowering=frozenset({Flowering.SPIKE}))
    stocked.looks.record(plant, look)
    go_to(told, "A1")
    go_to(told, "A2")
    settle(qtbot, told)
    told.detail.tabs.setCurrentIndex(2)
    settle(qtbot, told)
    assert stocked.blooms.of(plant).blooms == ()
    press = told.detail.tabs.findChild(QWidget, "take-proposal")
    assert press is not None
    QTest.mouseClick(press, Qt.MouseButton.LeftButton)
    settle(qtbot, told)
    (view,) = stocked.blooms.of(plant).blooms
    assert view.draft == BloomDraft(today)
    assert told.detail.tabs.tabText(2) == "Blooms (1)"
    told.commands["undo"].trigger()
    settle(qtbot, told)
    assert stocked.blooms.of(plant).blooms == ()
