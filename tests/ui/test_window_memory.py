"""The window and its dialogs stand again as they were left."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication, QWidget

from growdesk.services.collection import Collection
from growdesk.ui import theme, window_memory
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.dialogs.pages import PagesPreview
from growdesk.ui.preferences import preferences
from growdesk.ui.window import Window
from tests.ui.driving import settle

if TYPE_CHECKING:
    from collections.abc import Callable

    from pytestqt.qtbot import QtBot


SIZE = (1280, 780)
SCREENS = (QRect(0, 0, 1280, 800), QRect(1280, 0, 1920, 1080))


@pytest.fixture
def again(
    qtbot: QtBot, show: Callable[[Collection], Window], monkeypatch: pytest.MonkeyPatch
) -> Callable[[Window], Window]:
    """Give a way to close a window and open another on the same collection.

    The screen of the tests is smaller than any window, so that Qt would cut it there.
    """

    def restore(window: Window, _geometry: object) -> bool:
        window.resize(*SIZE)
        return True

    monkeypatch.setattr(Window, "restoreGeometry", restore)

    def open_again(window: Window) -> Window:
        folder, clock = window.desk.collection.folder, window.desk.collection.clock
        window.close()
        opened = show(Collection.open(folder, clock))
        settle(qtbot, opened)
        QApplication.processEvents()
        return opened

    return open_again


def test_face_tabs_widths_and_fold_are_as_they_were_left(
    qtbot: QtBot, window: Window, again: Callable[[Window], Window]
) -> None:
    window.resize(*SIZE)
    QApplication.processEvents()
    window.split.setSizes([500, 420, 300])
    window.detail.share_reasons(40)
    window.detail.tabs.setCurrentIndex(3)
    window.mixing.tabs.setCurrentIndex(1)
    QApplication.processEvents()
    sizes = window.split.sizes()
    share = window.detail.reasons_share()
    window.commands["calendar"].trigger()
    settle(qtbot, window)
    opened = again(window)
    assert opened.faces.shown == "calendar"
    assert opened.detail.tabs.currentIndex() == 3
    assert opened.mixing.tabs.currentIndex() == 1
    assert opened.detail.reasons_share() == pytest.approx(share, abs=2)
    opened.faces.show_day()
    QApplication.processEvents()
    assert opened.split.sizes() == pytest.approx(sizes, abs=3)


def test_a_mixing_folded_by_hand_stays_folded(
    window: Window, again: Callable[[Window], Window]
) -> None:
    window.resize(*SIZE)
    QApplication.processEvents()
    window.commands["fold-mixing"].trigger()
    assert not window.folding.is_open
    opened = again(window)
    assert not opened.folding.is_open
    opened.commands["fold-mixing"].trigger()
    assert again(opened).folding.is_open


def test_what_folded_itself_in_a_narrow_window_is_not_kept_folded(
    window: Window, again: Callable[[Window], Window]
) -> None:
    window.resize(1024, 700)
    QApplication.processEvents()
    assert not window.folding.is_open
    opened = again(window)
    opened.resize(*SIZE)
    QApplication.processEvents()
    assert opened.folding.is_open


def test_what_cannot_be_read_is_as_at_first(
    window: Window, again: Callable[[Window], Window]
) -> None:
    window.close()
    kept = preferences()
    for key in (window_memory.FACE, window_memory.TAB, window_memory.REASONS):
        kept.setValue(key, "no such thing")
    kept.setValue("geometry", "torn")
    opened = again(window)
    assert opened.faces.shown == "day"
    assert opened.detail.tabs.currentIndex() == 0


@pytest.mark.parametrize(
    ("left", "found"),
    [
        (QRect(100, 50, 1000, 700), QRect(100, 50, 1000, 700)),
        (QRect(1400, 50, 1280, 800), QRect(1400, 50, 1280, 800)),
        (QRect(5000, 50, 1000, 700), QRect(280, 50, 1000, 700)),
        (QRect(0, -900, 1000, 700), QRect(0, 0, 1000, 700)),
        (QRect(1300, 100, 2560, 1440), QRect(1280, 0, 1920, 1080)),
        (QRect(-1250, 10, 1280, 790), QRect(0, 10, 1280, 790)),
    ],
)
def test_a_window_is_brought_back_onto_the_screens_there_are(
    left: QRect, found: QRect
) -> None:
    assert window_memory.within(left, SCREENS) == found


def test_a_window_is_made_no_larger_than_a_screen_that_shrank() -> None:
    small = (QRect(0, 0, 1024, 700),)
    place = window_memory.within(QRect(200, 100, 1280, 800), small)
    assert small[0].contains(place)
    assert place.size() == QSize(1024, 700)


def test_a_window_comes_onto_its_screen_before_it_is_shown(qtbot: QtBot) -> None:
    widget = QWidget()
    qtbot.addWidget(widget)
    widget.setGeometry(9000, 9000, 5000, 5000)
    window_memory.come_onto_screen(widget)
    free = QGuiApplication.primaryScreen().availableGeometry()
    assert free.contains(widget.geometry())


class Kept(OnScreen):
    """A dialog of a test."""


def opened_dialog(qtbot: QtBot) -> Kept:
    dialog = Kept()
    QWidget(dialog)
    dialog.resize(300, 200)
    qtbot.addWidget(dialog)
    dialog.show()
    qtbot.waitExposed(dialog)
    return dialog


def test_a_dialog_has_the_size_that_a_person_gave_it(qtbot: QtBot) -> None:
    dialog = opened_dialog(qtbot)
    dialog.resize(350, 220)
    dialog.close()
    assert opened_dialog(qtbot).size() == QSize(300, 200), "it grew by itself"
    dialog = opened_dialog(qtbot)
    dialog.windowHandle().resize(420, 330)
    qtbot.waitUntil(lambda: dialog.size() == QSize(420, 330))
    dialog.close()
    assert opened_dialog(qtbot).size() == QSize(420, 330)


def test_a_kept_size_is_cut_to_the_screen(
    qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    preferences().setValue("size-of-Kept", QSize(3000, 2000))
    monkeypatch.setattr(OnScreen, "free", lambda _self: QRect(0, 0, 1024, 700))
    assert QRect(0, 0, 1024, 700).contains(opened_dialog(qtbot).frameGeometry())


def test_the_scheme_follows_the_system_while_it_is_asked_to(
    qapp: QApplication, monkeypatch: pytest.MonkeyPatch
) -> None:
    scheme = theme.install(qapp)
    hints = QGuiApplication.styleHints()
    dark = Qt.ColorScheme.Dark
    seen = [dark]
    monkeypatch.setattr(type(hints), "colorScheme", lambda _self: seen[0])
    looks = []
    for mode, system in (
        (theme.Mode.LIGHT, dark),
        (theme.Mode.SYSTEM, Qt.ColorScheme.Light),
        (theme.Mode.SYSTEM, dark),
    ):
        if scheme.mode is not mode:
            scheme.choose(mode)
        seen[0] = system
        hints.colorSchemeChanged.emit(system)
        looks.append(scheme.is_dark)
    scheme.choose(theme.Mode.LIGHT)
    assert looks == [False, False, True], "a scheme chosen by hand stays"


def test_a_preview_is_no_larger_than_its_screen(qtbot: QtBot) -> None:
    preview = PagesPreview("Pages", lambda _wide, _high: (), "the pages")
    qtbot.addWidget(preview)
    free = preview.screen().availableSize()
    assert preview.width() < free.width()
    assert preview.height() < free.height()
