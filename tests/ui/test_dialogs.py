"""What every dialog promises: Enter means what has the focus, nothing typed is lost."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, TypeVar

import pytest
from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QApplication,
    QDialog,
    QFileDialog,
    QLabel,
    QPushButton,
    QWidget,
)

from growdesk.domain.facts import CareKind, House, Look, Reading, RootTips, Verdict
from growdesk.services.care_values import CareDraft
from growdesk.services.house_rules import DECLARED
from growdesk.services.values import PlaceDraft, PlaceView, PlantDraft
from growdesk.ui.dialogs.care import CareDialog, CareStart
from growdesk.ui.dialogs.frame import Framed
from growdesk.ui.dialogs.look import LookDialog, LookStart
from growdesk.ui.dialogs.overrule import OverruleDialog, OverruleStart
from growdesk.ui.dialogs.place import PlacesDialog
from growdesk.ui.dialogs.plant import PlantDialog, PlantStart
from growdesk.ui.dialogs.reading import ReadingDialog
from growdesk.ui.dialogs.recipe import RecipesDialog
from growdesk.ui.dialogs.settings import SettingsDialog
from growdesk.ui.dialogs.tin import TinsDialog
from growdesk.ui.dialogs.water import WatersDialog
from tests.ui.driving import (
    dialog_of,
    focused,
    go_to,
    line_of,
    open_dialogs,
    settle,
    status,
    take_focus,
)

if TYPE_CHECKING:
    from collections.abc import Callable

    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window

D = TypeVar("D", bound=QDialog)
ON = date(2026, 5, 20)
CTRL = Qt.KeyboardModifier.ControlModifier
FILLED = "Filled in from the look of 10 May: change what differs."


def look_dialog() -> LookDialog:
    last = Look(on=ON, root_tips=RootTips.RUNNING, health=frozenset())
    return LookDialog(None, LookStart(1, "Look", last, filled=FILLED, look_id=3))


def plant_dialog() -> PlantDialog:
    start = PlantStart(None, PlantDraft("A1", "", ""), (("cattleya", "Cattleya"),), ())
    return PlantDialog(None, start, lambda _name: "")


def places_dialog() -> PlacesDialog:
    dialog = PlacesDialog(None, ON)
    views = (
        PlaceView(1, PlaceDraft("Bay"), 0, None),
        PlaceView(2, PlaceDraft("Den"), 0, None),
    )
    dialog.show_places(views, None)
    return dialog


MAKERS: dict[str, Callable[[], Framed]] = {
    "look": look_dialog,
    "plant": plant_dialog,
    "give": lambda: CareDialog(None, CareStart("A1", CareDraft(ON, CareKind.FEED))),
    "repot": lambda: CareDialog(None, CareStart("A1", CareDraft(ON, CareKind.REPOT))),
    "places": places_dialog,
    "reading": lambda: ReadingDialog(None, Reading(ON, 20.0)),
    "tins": lambda: TinsDialog(None),
    "recipes": lambda: RecipesDialog(None),
    "waters": lambda: WatersDialog(None),
    "house": lambda: SettingsDialog(None, DECLARED, House()),
    "overrule": lambda: OverruleDialog(
        None, OverruleStart("A1", "", Verdict.FEED, ON, ends=1)
    ),
}


def shown(qtbot: QtBot, dialog: Framed) -> Framed:
    dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose, False)
    qtbot.addWidget(dialog)
    dialog.show()
    qtbot.waitExposed(dialog)
    dialog.activateWindow()
    qtbot.waitUntil(dialog.isActiveWindow)
    return dialog


def buttons_of(dialog: QDialog) -> list[QPushButton]:
    return [
        each
        for each in dialog.findChildren(QPushButton)
        if each.isVisible() and each.isEnabled()
    ]


def key(key: Qt.Key, *, ctrl: bool = False) -> None:
    held = CTRL if ctrl else Qt.KeyboardModifier.NoModifier
    QTest.keyClick(focused(), key, held)


def opened(qtbot: QtBot, window: Window, kind: type[D]) -> D:
    """Give a dialog that was asked for, once it has the keyboard."""
    settle(qtbot, window)
    dialog = dialog_of(window, kind)
    dialog.activateWindow()
    qtbot.waitUntil(dialog.isActiveWindow)
    return dialog


def type_into(edit: QWidget, text: str) -> None:
    """Type over a field that has taken the focus by itself or by Tab."""
    take_focus(edit)
    key(Qt.Key.Key_A, ctrl=True)
    QTest.keyClicks(focused(), text)


# -- Enter -------------------------------------------------------------------------


@pytest.mark.parametrize("name", list(MAKERS))
def test_enter_presses_the_button_that_has_the_focus(
    name: str, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(QFileDialog, "open", lambda _me: None)
    first = shown(qtbot, MAKERS[name]())
    count = len(buttons_of(first))
    first.hide()
    assert count >= 2
    for number in range(count):
        dialog = shown(qtbot, MAKERS[name]())
        tries: list[bool] = []
        monkeypatch.setattr(dialog, "draft", lambda got=tries: got.append(True))
        made = buttons_of(dialog)[number]
        pressed: list[str] = []
        made.clicked.connect(lambda _on=False, got=pressed: got.append("pressed"))
        made.setFocus()
        key(Qt.Key.Key_Return)
        assert pressed == ["pressed"], made.text()
        assert not tries or made is dialog.save_button, f"{made.text()} saved"
        dialog.hide()


@pytest.mark.parametrize(
    "name", ["look", "plant", "give", "repot", "tins", "recipes", "house"]
)
def test_ctrl_enter_on_any_button_saves(
    name: str, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = shown(qtbot, MAKERS[name]())
    count = len(buttons_of(first))
    first.hide()
    for number in range(count):
        dialog = shown(qtbot, MAKERS[name]())
        sent: list[object] = []
        monkeypatch.setattr(dialog, "draft", lambda: None)
        monkeypatch.setattr(dialog, "send", sent.append)
        buttons_of(dialog)[number].setFocus()
        key(Qt.Key.Key_Return, ctrl=True)
        assert len(sent) == 1
        dialog.hide()


def test_enter_in_a_temperature_writes_it_and_leaves_the_place_alone(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    window.commands["places"].trigger()
    dialog = opened(qtbot, window, PlacesDialog)
    dialog.pages.setCurrentIndex(1)
    type_into(dialog.mean, "21")
    key(Qt.Key.Key_Return)
    settle(qtbot, window)
    assert collection.places.all()[0].mean_7_days_c == pytest.approx(21)
    assert collection.history.view().undo == "Readings of East window on 2026-05-20"
    assert dialog.mean.text() == ""
    type_into(dialog.low, "18")
    type_into(dialog.high, "20")
    key(Qt.Key.Key_Return, ctrl=True)
    settle(qtbot, window)
    assert collection.places.all()[0].mean_7_days_c == pytest.approx(19)
    dialog.pages.setCurrentIndex(0)
    take_focus(dialog.name)
    key(Qt.Key.Key_Return)
    settle(qtbot, window)
    assert "nothing was changed" in dialog.message.text()
    assert str(collection.history.view().undo).startswith("Readings")


def test_enter_in_a_temperature_does_not_save_a_place_half_typed(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    window.commands["places"].trigger()
    dialog = opened(qtbot, window, PlacesDialog)
    type_into(dialog.name, "East bay")
    dialog.pages.setCurrentIndex(1)
    type_into(dialog.mean, "21")
    key(Qt.Key.Key_Return)
    settle(qtbot, window)
    (place,) = collection.places.all()
    assert place.mean_7_days_c == pytest.approx(21)
    assert place.draft.name == "East window"
    assert dialog.name.text() == "East bay"
    key(Qt.Key.Key_Return, ctrl=True)
    settle(qtbot, window)
    assert collection.places.all()[0].draft.name == "East bay"


# -- drafts ------------------------------------------------------------------------


def test_another_row_keeps_what_was_typed_with_its_own(qtbot: QtBot) -> None:
    dialog = shown(qtbot, places_dialog())
    assert isinstance(dialog, PlacesDialog)
    assert dialog.list.hasFocus()
    type_into(dialog.name, "Bay window")
    dialog.pages.setCurrentIndex(1)
    type_into(dialog.mean, "19")
    dialog.list.setFocus()
    key(Qt.Key.Key_Down)
    assert dialog.name.text() == "Den"
    assert dialog.mean.text() == ""
    assert [dialog.list.item(row).text() for row in (0, 1)] == ["Bay, not saved", "Den"]
    key(Qt.Key.Key_Up)
    assert dialog.name.text() == "Bay window"
    assert dialog.mean.text() == "19"
    throw = next(b for b in buttons_of(dialog) if "draft away" in b.text())
    throw.setFocus()
    key(Qt.Key.Key_Return)
    assert dialog.name.text() == "Bay"
    assert dialog.list.item(0).text() == "Bay"
    assert not throw.isVisible()


def test_a_thing_that_was_begun_waits_while_another_is_looked_at(qtbot: QtBot) -> None:
    dialog = shown(qtbot, places_dialog())
    assert isinstance(dialog, PlacesDialog)
    dialog.new_button.setFocus()
    key(Qt.Key.Key_Return)
    type_into(dialog.name, "Loft")
    dialog.list.setFocus()
    key(Qt.Key.Key_Down)
    assert dialog.name.text() in {"Bay", "Den"}
    assert dialog.new_button.text() == "New place, not saved"
    dialog.new_button.setFocus()
    key(Qt.Key.Key_Return)
    assert dialog.name.text() == "Loft"


def test_a_saved_row_is_no_draft_any_more(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    window.commands["places"].trigger()
    dialog = opened(qtbot, window, PlacesDialog)
    dialog.pages.setCurrentIndex(1)
    type_into(dialog.mean, "20")
    dialog.pages.setCurrentIndex(0)
    type_into(dialog.name, "West window")
    key(Qt.Key.Key_Return)
    settle(qtbot, window)
    assert collection.places.all()[0].draft.name == "West window"
    assert dialog.name.text() == "West window"
    assert dialog.mean.text() == "20", "typed for the place and not written yet"
    assert "West window changed" in dialog.message.text()
    dialog.pages.setCurrentIndex(1)
    type_into(dialog.mean, "")
    QTest.keyClick(dialog.mean, Qt.Key.Key_Backspace)
    key(Qt.Key.Key_Escape)
    assert window.unsaved_line() == ""


@pytest.mark.parametrize(
    ("command", "kind", "field"),
    [
        ("change-plant", PlantDialog, "name"),
        ("give", CareDialog, "note"),
        ("repot", CareDialog, "pot_volume_l"),
        ("tins", TinsDialog, "note"),
        ("places", PlacesDialog, "name"),
        ("settings", SettingsDialog, "latitude"),
    ],
)
def test_a_form_that_is_left_opens_again_as_it_was(
    command: str, kind: type[Framed], field: str, qtbot: QtBot, window: Window
) -> None:
    go_to(window, "A1")
    settle(qtbot, window)
    window.commands[command].trigger()
    dialog = opened(qtbot, window, kind)
    edit = dialog.form.editor(field) or dialog.forms[0].editor(field)
    assert edit is not None
    type_into(edit, "1.5 L and")
    key(Qt.Key.Key_Escape)
    assert open_dialogs(window) == []
    assert "kept as a draft" in status(window)
    assert dialog.windowTitle() in window.unsaved_line()
    window.commands[command].trigger()
    again = opened(qtbot, window, kind)
    assert again is not dialog
    assert again.held()[field] == "1.5 L and"
    throw = next(b for b in buttons_of(again) if "draft away" in b.text())
    throw.setFocus()
    key(Qt.Key.Key_Return)
    assert again.held()[field] != "1.5 L and"
    key(Qt.Key.Key_Escape)
    assert window.unsaved_line() == ""


def test_a_look_draft_can_be_thrown_away(qtbot: QtBot, window: Window) -> None:
    go_to(window, "A1")
    settle(qtbot, window)
    for text in ("soft", ""):
        window.commands["look"].trigger()
        dialog = opened(qtbot, window, LookDialog)
        if text:
            dialog.note.setFocus()
            QTest.keyClicks(dialog.note, text)
        else:
            assert dialog.note.toPlainText() == "soft"
            throw = next(b for b in buttons_of(dialog) if "draft away" in b.text())
            throw.setFocus()
            key(Qt.Key.Key_Return)
            assert dialog.note.toPlainText() == ""
        key(Qt.Key.Key_Escape)
        assert bool(window.unsaved_line()) == bool(text)


def test_a_form_being_written_waits_for_its_answer(qtbot: QtBot) -> None:
    dialog = shown(qtbot, MAKERS["give"]())
    dialog.try_save()
    key(Qt.Key.Key_Escape)
    assert dialog.isVisible()
    dialog.refused(ValueError("no"))
    key(Qt.Key.Key_Escape)
    assert not dialog.isVisible()


# -- the look says where it comes from ---------------------------------------------


def test_a_filled_look_says_from_when_and_can_start_blank(
    qtbot: QtBot, window: Window
) -> None:
    go_to(window, "A1")
    settle(qtbot, window)
    window.commands["look"].trigger()
    dialog = opened(qtbot, window, LookDialog)
    assert dialog.roots.value is RootTips.RUNNING
    assert dialog.blank_button.isVisible()
    said = [each.text() for each in dialog.findChildren(QLabel) if each.isVisible()]
    assert (
        "Filled in from the look of 20 May: change what differs. "
        "What is saved is what you saw today."
    ) in said
    dialog.blank_button.setFocus()
    key(Qt.Key.Key_Return)
    assert dialog.draft().look == Look(on=ON)
    assert QApplication.focusWidget() is dialog.growths.boxes["emerging"]


def test_a_first_look_claims_no_origin(qtbot: QtBot, window: Window) -> None:
    go_to(window, "A3")
    settle(qtbot, window)
    window.commands["look"].trigger()
    dialog = opened(qtbot, window, LookDialog)
    assert not any("blank" in made.text() for made in buttons_of(dialog))


# -- room --------------------------------------------------------------------------


@pytest.mark.parametrize("name", list(MAKERS))
def test_a_dialog_fits_a_low_screen_and_tab_shows_all_of_it(
    name: str, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    room = QSize(1008, 420)
    monkeypatch.setattr(Framed, "room", lambda _me: room)
    dialog = shown(qtbot, MAKERS[name]())
    assert dialog.height() <= room.height()
    assert dialog.width() <= room.width()
    port = dialog.area.viewport()
    for _ in range(40):
        key(Qt.Key.Key_Tab)
        now = focused()
        if dialog.area.isAncestorOf(now):
            top = now.mapTo(port, now.rect().topLeft()).y()
            assert 0 <= top < port.height(), now.accessibleName()


def test_a_dialog_with_room_needs_no_scrolling(
    qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(Framed, "free", lambda _me: QRect(0, 0, 1280, 900))
    for name in ("look", "plant", "give", "repot", "tins", "places"):
        dialog = shown(qtbot, MAKERS[name]())
        assert dialog.area.verticalScrollBar().maximum() == 0, name


def test_the_buttons_at_the_foot_carry_no_pictures(
    qtbot: QtBot, qapp: QApplication
) -> None:
    """Without a desktop no style gives pictures, so the rule in force is read too."""
    assert "dialogbuttonbox-buttons-have-icons: 0" in qapp.styleSheet()
    dialog = shown(qtbot, MAKERS["tins"]())
    assert all(made.icon().isNull() for made in dialog.buttons.buttons())


# -- first steps -------------------------------------------------------------------


@pytest.mark.parametrize(
    ("command", "kind"), [("tins", TinsDialog), ("waters", WatersDialog)]
)
def test_the_first_tin_or_water_ends_its_step(
    command: str,
    kind: type[TinsDialog | WatersDialog],
    qtbot: QtBot,
    collection: Collection,
    show: Callable[[Collection], Window],
) -> None:
    window = show(collection)
    window.commands[command].trigger()
    dialog = opened(qtbot, window, kind)
    if isinstance(dialog, TinsDialog):
        type_into(dialog.name, "Blue tin")
        type_into(dialog.analysis, "20-20-20")
    key(Qt.Key.Key_Return, ctrl=True)
    settle(qtbot, window)
    assert open_dialogs(window) == []
    window.commands[command].trigger()
    again = opened(qtbot, window, kind)
    assert again.list.count() == 1
    type_into(again.note, "by the door")
    key(Qt.Key.Key_Return)
    settle(qtbot, window)
    assert again.isVisible()
    assert "changed" in again.message.text()


# -- repot and overrule ------------------------------------------------------------


def test_a_repot_gives_the_plant_its_new_pot_in_one_undo(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    go_to(window, "A1")
    settle(qtbot, window)
    before = collection.plants.get(line_of(window, "A1").plant_id)
    window.commands["repot"].trigger()
    dialog = opened(qtbot, window, CareDialog)
    assert dialog.windowTitle() == "Repot"
    assert QApplication.focusWidget() is dialog.pot
    QTest.keyClicks(dialog.pot, "2")
    key(Qt.Key.Key_Return)
    assert dialog.isVisible()
    QTest.keyClicks(dialog.pot, " L")
    key(Qt.Key.Key_Tab)
    QTest.keyClicks(dialog.medium, "bark")
    key(Qt.Key.Key_Return)
    settle(qtbot, window)
    assert open_dialogs(window) == []
    after = collection.plants.get(line_of(window, "A1").plant_id)
    assert (after.pot_volume_l, after.repotted_on) == (2.0, ON)
    assert after.medium == "bark"
    window.commands["undo"].trigger()
    settle(qtbot, window)
    assert collection.plants.get(line_of(window, "A1").plant_id) == before


def test_an_overrule_that_is_over_is_told_beside_its_day(
    qtbot: QtBot, window: Window
) -> None:
    go_to(window, "A1")
    settle(qtbot, window)
    window.commands["change-plant"].trigger()
    dialog = opened(qtbot, window, PlantDialog)
    dialog.tabs.setCurrentIndex(1)
    dialog.rules.overrule.setFocus()
    QTest.keyClicks(dialog.rules.overrule, "Keep")
    type_into(dialog.rules.reason, "just divided")
    type_into(dialog.rules.until, "2026-05-01")
    key(Qt.Key.Key_Return)
    settle(qtbot, window)
    assert dialog.isVisible()
    assert "is over already" in dialog.rules.until.accessibleDescription()
    assert dialog.rules.until.hasFocus()


def test_shares_of_the_house_are_read_in_per_cent(qtbot: QtBot) -> None:
    dialog = shown(qtbot, MAKERS["house"]())
    assert isinstance(dialog, SettingsDialog)
    band = dialog.form.editor("band_low")
    assert band is not None
    assert dialog.held()["band_low"] == "25"
    assert dialog.draft() == House()
    type_into(band, "120")
    key(Qt.Key.Key_Return)
    assert "Give 0 to 90 per cent" in band.accessibleDescription()
    type_into(band, "30")
    assert dialog.draft().band_low == pytest.approx(0.3)
    units = {setting.unit for setting in DECLARED}
    assert not {"mg N/L", "part", "part of the pot"} & units
