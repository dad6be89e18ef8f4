"""A report is read whole, cut, and kept where the person says; nothing else happens."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QFileDialog, QLabel

from growdesk.domain.speech import tr
from growdesk.ui.dialogs.report import ReportDialog
from growdesk.ui.preferences import preferences
from tests.ui.driving import dialog_of, press, settle

if TYPE_CHECKING:
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from growdesk.ui.window import Window


def opened(qtbot: QtBot, window: Window) -> ReportDialog:
    window.commands["report"].trigger()
    settle(qtbot, window)
    return dialog_of(window, ReportDialog)


def said(dialog: ReportDialog) -> str:
    return " ".join(label.text() for label in dialog.findChildren(QLabel))


def test_what_was_cut_is_not_kept(qtbot: QtBot, window: Window, tmp_path: Path) -> None:
    dialog = opened(qtbot, window)
    text = dialog.text.toPlainText()
    assert "rows of plant: 3" in text
    assert "command:report" in text
    before = text[: dialog.text.textCursor().position()]
    assert before.endswith("== What I did, and what I saw ==\n")
    dialog.text.setPlainText(text.replace("rows of plant: 3\n", ""))
    press(dialog, tr("&Save…"))
    chooser = dialog_of(window, QFileDialog)
    assert chooser.selectedFiles()[0].endswith("growdesk-report-2026-05-20.txt")
    file = tmp_path / "report.txt"
    chooser.fileSelected.emit(str(file))
    chooser.reject()
    settle(qtbot, window)
    kept = file.read_text(encoding="utf-8")
    assert kept == dialog.text.toPlainText()
    assert "rows of plant:" not in kept
    assert str(file) in said(dialog)
    dialog.reject()


def test_a_name_that_is_taken_is_told_and_the_report_stays(
    qtbot: QtBot, window: Window, tmp_path: Path
) -> None:
    dialog = opened(qtbot, window)
    file = tmp_path / "mine.txt"
    file.write_text("mine", encoding="utf-8")
    press(dialog, tr("&Save…"))
    chooser = dialog_of(window, QFileDialog)
    chooser.fileSelected.emit(str(file))
    chooser.reject()
    settle(qtbot, window)
    assert "is there already" in said(dialog)
    assert file.read_text(encoding="utf-8") == "mine"
    dialog.reject()


def test_only_harmless_preferences_are_in_it(qtbot: QtBot, window: Window) -> None:
    kept = preferences()
    kept.setValue("light", "dark")
    kept.setValue("regional/units", "us")
    kept.setValue("away/call", "0123 456789 Tante")
    kept.setValue("last-folder", "/home/tante/orchids")
    text = opened(qtbot, window).text.toPlainText()
    assert "light: dark" in text
    assert "regional/units: us" in text
    assert "Tante" not in text
    assert "orchids" not in text
    dialog_of(window, ReportDialog).reject()


def test_it_is_copied_as_it_stands(qtbot: QtBot, window: Window) -> None:
    dialog = opened(qtbot, window)
    dialog.text.setPlainText("only this")
    press(dialog, tr("&Copy"))
    assert QGuiApplication.clipboard().text() == "only this"
    dialog.reject()
