"""Taking a look: quick by keyboard, exact about what was not seen, nothing lost."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Any

import pytest
from msgspec.structs import replace
from PySide6.QtCore import QMimeData, Qt, QUrl
from PySide6.QtGui import QGuiApplication, QImage, QKeySequence
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel

from growdesk.domain.errors import InputError
from growdesk.domain.facts import (
    Bulbs,
    Flowering,
    Health,
    Leaves,
    Look,
    NewGrowths,
    NewLeaf,
    Pot,
    RootTips,
    Verdict,
)
from growdesk.services.values import PlantDraft
from growdesk.ui.dialogs.look import LookDialog, LookDraft, LookStart
from tests.ui.driving import (
    dialog_of,
    focused,
    go_to,
    line_of,
    open_dialogs,
    settle,
    status,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window

ON = date(2026, 5, 20)
CTRL = Qt.KeyboardModifier.ControlModifier
LAST = Look(
    on=ON,
    new_growths=NewGrowths(emerging=1, matured=3),
    root_tips=RootTips.NONE,
    flowering=frozenset({Flowering.BUDS, Flowering.OPEN}),
    health=frozenset(),
)


@pytest.fixture
def form(qtbot: QtBot) -> Callable[[LookStart], LookDialog]:
    def make(start: LookStart) -> LookDialog:
        dialog = LookDialog(None, start)
        qtbot.addWidget(dialog)
        dialog.show()
        qtbot.waitExposed(dialog)
        return dialog

    return make


def shown_errors(dialog: LookDialog) -> list[str]:
    return [
        label.text()
        for label in dialog.findChildren(QLabel)
        if label.property("tone") == "wrong" and label.isVisible() and label.text()
    ]


def test_what_it_opens_with_is_what_it_hands_out(
    form: Callable[[LookStart], LookDialog],
) -> None:
    dialog = form(LookStart(1, "Look", LAST, note="sticky"))
    assert dialog.draft() == LookDraft(LAST, "sticky", ())


def test_the_note_is_a_line_high_and_grows_with_what_it_holds(
    form: Callable[[LookStart], LookDialog],
) -> None:
    dialog = form(LookStart(1, "Look", Look(on=ON)))
    line = dialog.note.height()
    assert line < 1.5 * dialog.measure("runoff_ec_ms_per_cm").height()
    dialog.note.setPlainText("sticky\nunder the leaves\nscale?")
    assert dialog.note.height() > 1.5 * line
    three = dialog.note.height()
    dialog.note.setPlainText("\n" * 40)
    assert dialog.note.height() < 2 * three


def test_an_empty_look_records_nothing(form: Callable[[LookStart], LookDialog]) -> None:
    assert form(LookStart(1, "Look", Look(on=ON))).draft().look == Look(on=ON)


def test_not_recorded_is_not_none(
    form: Callable[[LookStart], LookDialog],
) -> None:
    dialog = form(LookStart(1, "Look", Look(on=ON)))
    dialog.roots.take_focus()
    QTest.keyClick(dialog.focusWidget(), Qt.Key.Key_1)
    dialog.health.setFocus()
    QTest.keyClick(dialog.focusWidget(), Qt.Key.Key_1)
    dialog.flowering.setFocus()
    QTest.keyClick(dialog.focusWidget(), Qt.Key.Key_1)
    look = dialog.draft().look
    assert look.root_tips is RootTips.NONE
    assert look.health == frozenset()
    assert look.flowering == frozenset({Flowering.NONE})
    for row in (dialog.health, dialog.flowering):
        row.setFocus()
        QTest.keyClick(dialog.focusWidget(), Qt.Key.Key_0)
    assert dialog.draft().look.health is None
    assert dialog.draft().look.flowering is None


def test_no_new_growth_seen_is_a_record_and_differs_from_none_recorded(
    form: Callable[[LookStart], LookDialog],
) -> None:
    dialog = form(LookStart(1, "Look", Look(on=ON)))
    assert dialog.draft().look.new_growths is None
    dialog.growths.none_seen_button.click()
    assert dialog.draft().look.new_growths == NewGrowths(0, 0, 0, 0, 0)
    dialog.growths.unrecorded_button.click()
    assert dialog.draft().look.new_growths is None


def test_several_stages_of_flower_at_once_by_letters(
    form: Callable[[LookStart], LookDialog],
) -> None:
    dialog = form(LookStart(1, "Look", Look(on=ON)))
    dialog.flowering.setFocus()
    QTest.keyClick(dialog.focusWidget(), Qt.Key.Key_B)
    QTest.keyClick(dialog.focusWidget(), Qt.Key.Key_O)
    held = dialog.draft().look.flowering
    assert held == frozenset({Flowering.BUDS, Flowering.OPEN})
    QTest.keyClick(dialog.focusWidget(), Qt.Key.Key_N)
    assert dialog.draft().look.flowering == frozenset({Flowering.NONE})


def test_the_whole_look_is_a_handful_of_keys(
    form: Callable[[LookStart], LookDialog], qtbot: QtBot
) -> None:
    """One growth, running roots: 8 keys and Ctrl+Enter."""
    dialog = form(LookStart(1, "Look", Look(on=ON)))
    got: list[LookDraft] = []
    dialog.saved.connect(got.append)
    dialog.activateWindow()
    qtbot.waitUntil(dialog.isActiveWindow)
    keys = 0
    assert dialog.focusWidget() is dialog.growths.boxes["emerging"]
    for key in (Qt.Key.Key_Tab, Qt.Key.Key_1, *[Qt.Key.Key_Tab] * 6, Qt.Key.Key_R):
        QTest.keyClick(dialog.focusWidget(), key)
        keys += 1
    QTest.keyClick(dialog.focusWidget(), Qt.Key.Key_Return, CTRL)
    assert keys <= 10
    (draft,) = got
    assert draft.look.new_growths == NewGrowths(extending=1)
    assert draft.look.root_tips is RootTips.RUNNING


def test_a_monopodial_is_asked_for_its_leaf_first(
    form: Callable[[LookStart], LookDialog],
) -> None:
    dialog = form(LookStart(1, "Look", Look(on=ON), monopodial=True))
    assert dialog.leaf.isAncestorOf(dialog.focusWidget())
    dialog.leaf.set_value(NewLeaf.EXTENDING)
    assert dialog.draft().look.new_leaf is NewLeaf.EXTENDING


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("longest_new_root_mm", "eighty", "is not a length"),
        ("longest_new_root_mm", "1,500", "could mean"),
        ("lead_length_mm", "-3", "is not a length a root or growth has"),
        ("lead_length_mm", "nan", "is not a length"),
        ("runoff_ec_ms_per_cm", "900 ppm", "is not a conductivity"),
    ],
)
def test_a_slip_is_told_beside_its_field_and_nothing_is_lost(
    form: Callable[[LookStart], LookDialog], field: str, typed: str, said: str
) -> None:
    dialog = form(LookStart(1, "Look", LAST, note="sticky"))
    got: list[object] = []
    dialog.saved.connect(got.append)
    edit = dialog.measure(field)
    edit.setText(typed)
    dialog.try_save()
    assert got == []
    (error,) = shown_errors(dialog)
    assert said in error
    assert field not in error, "no name of ours beside the field"
    assert edit.text() == typed
    assert edit.accessibleDescription() == error
    assert dialog.note.toPlainText() == "sticky"
    edit.setText("12 cm" if field != "runoff_ec_ms_per_cm" else "1.1")
    dialog.try_save()
    assert len(got) == 1
    assert shown_errors(dialog) == []


def test_a_day_that_is_none_is_told_beside_it(
    form: Callable[[LookStart], LookDialog],
) -> None:
    dialog = form(LookStart(1, "Look", LAST))
    dialog.day.setText("2026-02-30")
    dialog.try_save()
    (error,) = shown_errors(dialog)
    assert "is not a day" in error


def test_a_picture_is_pasted_and_left_out_again(
    form: Callable[[LookStart], LookDialog], tmp_path: Path
) -> None:
    dialog = form(LookStart(1, "Look", LAST))
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(tmp_path / "a.jpg"))])
    QGuiApplication.clipboard().setMimeData(data)
    dialog.photos.paste()
    dialog.photos.paste()
    assert dialog.draft().photos == (tmp_path / "a.jpg",)
    QGuiApplication.clipboard().setImage(QImage(4, 4, QImage.Format.Format_RGB32))
    dialog.photos.paste()
    pasted = dialog.draft().photos[1]
    assert not QImage(str(pasted)).isNull()
    dialog.photos.leave_out(0)
    assert dialog.draft().photos == (pasted,)


def test_leaving_keeps_a_draft_that_opens_again(qtbot: QtBot, window: Window) -> None:
    go_to(window, "A3")
    settle(qtbot, window)
    window.commands["look"].trigger()
    settle(qtbot, window)
    dialog = dialog_of(window, LookDialog)
    dialog.roots.set_value(RootTips.STARTING)
    dialog.measure("longest_new_root_mm").setText("eighty")
    QTest.keyClick(dialog, Qt.Key.Key_Escape)
    assert open_dialogs(window) == []
    assert "kept as a draft" in status(window)
    window.commands["look"].trigger()
    settle(qtbot, window)
    again = dialog_of(window, LookDialog)
    assert again.roots.value is RootTips.STARTING
    assert again.measure("longest_new_root_mm").text() == "eighty"
    again.measure("longest_new_root_mm").setText("8")
    again.try_save()
    settle(qtbot, window)
    assert open_dialogs(window) == []
    assert window.unsaved_line() == ""


def test_leaving_an_untouched_look_keeps_nothing(qtbot: QtBot, window: Window) -> None:
    window.commands["look"].trigger()
    settle(qtbot, window)
    QTest.keyClick(dialog_of(window, LookDialog), Qt.Key.Key_Escape)
    assert window.unsaved_line() == ""


def test_closing_reminds_once_of_a_look_left_unsaved(
    qtbot: QtBot, window: Window
) -> None:
    window.commands["look"].trigger()
    settle(qtbot, window)
    dialog = dialog_of(window, LookDialog)
    dialog.note.setPlainText("soft at the base")
    QTest.keyClick(dialog, Qt.Key.Key_Escape)
    assert not window.close()
    assert status(window).startswith("Not saved yet: Look at A1")
    assert window.close()


def test_a_saved_look_changes_verdict_strength_and_jugs_at_once(
    qtbot: QtBot, window: Window
) -> None:
    before = window.desk.view
    assert before is not None
    assert line_of(window, "A3").verdict is Verdict.LOOK_FIRST
    litres = sum(jug.volume_l for jug in before.mix.jugs)
    go_to(window, "A3")
    settle(qtbot, window)
    window.commands["look"].trigger()
    settle(qtbot, window)
    dialog = dialog_of(window, LookDialog)
    dialog.growths.boxes["extending"].setValue(1)
    dialog.roots.set_value(RootTips.RUNNING)
    dialog.try_save()
    settle(qtbot, window)
    line = line_of(window, "A3")
    assert line.verdict is Verdict.FEED
    assert line.strength_ppm_n
    after = window.desk.view
    assert after is not None
    assert sum(jug.volume_l for jug in after.mix.jugs) > litres
    assert window.day_list.chosen == line.plant_id


def test_a_bad_photo_is_named_and_the_rest_is_kept(
    qtbot: QtBot, window: Window, tmp_path: Path
) -> None:
    good, bad = tmp_path / "good.png", tmp_path / "bad.jpg"
    picture = QImage(60, 40, QImage.Format.Format_RGB32)
    picture.fill(Qt.GlobalColor.darkGreen)
    assert picture.save(str(good))
    bad.write_bytes(b"no picture at all")
    window.commands["look"].trigger()
    settle(qtbot, window)
    dialog = dialog_of(window, LookDialog)
    dialog.photos.add((good, bad))
    dialog.health.set_value(frozenset({Health.PESTS}))
    dialog.try_save()
    settle(qtbot, window)
    assert "bad.jpg" in status(window)
    detail = window.desk.detail
    assert detail is not None
    assert len(detail.photos) == 1
    assert detail.looks[0].look.health == frozenset({Health.PESTS})


def test_a_recorded_look_is_changed_and_deleted_and_brought_back(
    qtbot: QtBot, window: Window
) -> None:
    detail = window.desk.detail
    assert detail is not None
    window.forms.change_look(detail.looks[0])
    dialog = dialog_of(window, LookDialog)
    dialog.note.setPlainText("two roots")
    dialog.try_save()
    settle(qtbot, window)
    assert window.desk.detail is not None
    assert window.desk.detail.looks[0].note == "two roots"
    window.forms.change_look(window.desk.detail.looks[0])
    dialog = dialog_of(window, LookDialog)
    dialog.delete_wanted.emit(window.desk.detail.looks[0].look_id)
    settle(qtbot, window)
    assert window.desk.detail.looks == ()
    window.commands["undo"].trigger()
    settle(qtbot, window)
    assert len(window.desk.detail.looks) == 1


def test_a_look_at_a_monopodial_of_the_collection_asks_for_the_leaf(
    qtbot: QtBot, stocked: Collection, show: Callable[[Collection], Window]
) -> None:
    stocked.plants.add(PlantDraft("B1", "Phalaenopsis amabilis", "phalaenopsis"))
    window = show(stocked)
    go_to(window, "B1")
    settle(qtbot, window)
    window.commands["look"].trigger()
    settle(qtbot, window)
    dialog = dialog_of(window, LookDialog)
    assert dialog.leaf.isAncestorOf(dialog.focusWidget())


# -- how many keys it takes --------


GROWN = NewGrowths(emerging=1, extending=0, maturing=0, matured=3, stalled=0)
SEEN = Look(
    on=ON,
    new_growths=GROWN,
    root_tips=RootTips.NONE,
    flowering=frozenset({Flowering.NONE}),
    health=frozenset(),
)
ONE_SIGN: dict[str, tuple[tuple[str, ...], dict[str, Any]]] = {
    "emerging": (("2",), {"new_growths": replace(GROWN, emerging=2)}),
    "extending": (("E", "1"), {"new_growths": replace(GROWN, extending=1)}),
    "maturing": (("M", "1"), {"new_growths": replace(GROWN, maturing=1)}),
    "matured": (("M", "M", "4"), {"new_growths": replace(GROWN, matured=4)}),
    "stalled": (("S", "1"), {"new_growths": replace(GROWN, stalled=1)}),
    "root tips": (("Alt+R", "J"), {"root_tips": RootTips.STARTING}),
    "new leaf": (("Alt+F", "E"), {"new_leaf": NewLeaf.EXTENDING}),
    "flowering": (("Alt+W", "S"), {"flowering": frozenset({Flowering.SHEATH})}),
    "leaves": (("Alt+V", "Y"), {"leaves": Leaves.YELLOWING}),
    "bulbs": (("Alt+B", "W"), {"bulbs": Bulbs.WRINKLED}),
    "pot": (("Alt+P", "D"), {"pot": Pot.DRY}),
    "trouble": (("Alt+T", "P"), {"health": frozenset({Health.PESTS})}),
    "new root": (("Alt+L", "8", "0"), {"longest_new_root_mm": 80.0}),
    "lead": (("Alt+D", "9", "0"), {"lead_length_mm": 90.0}),
}
"""The keys that change one sign of the last look, before Ctrl+Enter saves it."""


def pressed(qtbot: QtBot, dialog: LookDialog, keys: Sequence[str]) -> int:
    """Press keys and Ctrl+Enter where the focus is, and count them."""
    dialog.activateWindow()
    qtbot.waitUntil(dialog.isActiveWindow)
    for each in (*keys, "Ctrl+Return"):
        QTest.keySequence(focused(), QKeySequence(each))
    return len(keys) + 1


def test_nothing_changed_is_saved_by_one_key(
    form: Callable[[LookStart], LookDialog], qtbot: QtBot
) -> None:
    dialog = form(LookStart(1, "Look", SEEN))
    got: list[LookDraft] = []
    dialog.saved.connect(got.append)
    assert pressed(qtbot, dialog, ()) == 1
    assert got == [LookDraft(SEEN, "", ())]


@pytest.mark.parametrize("sign", list(ONE_SIGN))
def test_one_sign_changed_is_four_keys_at_most(
    form: Callable[[LookStart], LookDialog], qtbot: QtBot, sign: str
) -> None:
    keys, changed = ONE_SIGN[sign]
    dialog = form(LookStart(1, "Look", SEEN))
    got: list[LookDraft] = []
    dialog.saved.connect(got.append)
    assert pressed(qtbot, dialog, keys) <= 4
    assert got == [LookDraft(replace(SEEN, **changed), "", ())]


# -- spike, pods, keikis --------


RARE = ("spike_mm", "pods", "keikis", "keiki_root_mm")


def in_sight(dialog: LookDialog) -> list[str]:
    return [field for field in RARE if dialog.measure(field).isVisible()]


def test_rare_signs_stand_where_the_plant_may_have_them(
    form: Callable[[LookStart], LookDialog],
) -> None:
    assert in_sight(form(LookStart(1, "Look", SEEN))) == []
    spiked = replace(SEEN, flowering=frozenset({Flowering.SPIKE}))
    assert in_sight(form(LookStart(1, "Look", spiked))) == ["spike_mm"]
    dialog = form(LookStart(1, "Look", replace(SEEN, keikis=2)))
    assert in_sight(dialog) == ["keikis", "keiki_root_mm"]
    dialog.flowering.set_value(frozenset({Flowering.SPENT}))
    assert in_sight(dialog) == ["pods", "keikis", "keiki_root_mm"]
    dialog.flowering.set_value(None)
    assert in_sight(dialog) == ["keikis", "keiki_root_mm"]


def test_rare_signs_are_asked_for_and_go_out_with_the_look(
    form: Callable[[LookStart], LookDialog], qtbot: QtBot
) -> None:
    dialog = form(LookStart(1, "Look", SEEN))
    dialog.activateWindow()
    qtbot.waitUntil(dialog.isActiveWindow)
    got: list[LookDraft] = []
    dialog.saved.connect(got.append)
    keys = ("3", "0", "Tab", "1", "Tab", "2", "Tab", "1", "5")
    QTest.keySequence(focused(), QKeySequence("Alt+M"))
    qtbot.waitUntil(dialog.measure("spike_mm").hasFocus)
    pressed(qtbot, dialog, keys)
    assert in_sight(dialog) == list(RARE)
    seen = replace(SEEN, spike_mm=30.0, pods=1, keikis=2, keiki_root_mm=15.0)
    assert got == [LookDraft(seen, "", ())]
    dialog.measure("keikis").setText("2.5")
    dialog.refused(InputError("keikis", "2.5", "is not a whole number", ""))
    assert shown_errors(dialog) != []


def test_a_draft_brings_its_rare_signs_back_into_sight(
    form: Callable[[LookStart], LookDialog],
) -> None:
    first = form(LookStart(1, "Look", SEEN))
    first.measure("pods").setText("1")
    again = form(LookStart(1, "Look", SEEN))
    assert in_sight(again) == []
    again.take_draft(first.kept())
    assert in_sight(again) == ["pods"]
    assert again.draft().look.pods == 1
    again.start_blank()
    assert again.draft().look == Look(on=ON)
