"""The File menu: export, backup, the sheet, and other collections."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pypdf import PdfReader
from PySide6.QtCore import Qt
from PySide6.QtGui import QImage
from PySide6.QtPrintSupport import QPrintDialog
from PySide6.QtWidgets import QFileDialog

from growdesk.domain.errors import StoreError
from growdesk.services.collection import Collection
from growdesk.ui.dialogs.pages import SheetPreview
from growdesk.ui.dialogs.photo_days import PhotoDaysDialog
from tests.ui.driving import dialog_of, line_of, settle, status

if TYPE_CHECKING:
    from pathlib import Path

    import pytest
    from pytestqt.qtbot import QtBot

    from growdesk.services.clock import FixedClock
    from growdesk.ui.window import Window


def finish(qtbot: QtBot, window: Window, begins: str) -> None:
    qtbot.waitUntil(lambda: status(window).startswith(begins), timeout=20_000)
    settle(qtbot, window)


def test_the_tables_are_written(qtbot: QtBot, window: Window, tmp_path: Path) -> None:
    folder = tmp_path / "tables"
    window.files.export_to(folder)
    finish(qtbot, window, "The tables are in")
    assert "Laelia anceps" in (folder / "plants.csv").read_text("utf-8")


def test_a_backup_is_made(qtbot: QtBot, window: Window, tmp_path: Path) -> None:
    window.files.backup_to(tmp_path / "kept.zip")
    finish(qtbot, window, "Backup made")
    assert (tmp_path / "kept.zip").stat().st_size > 1000


def test_a_backup_into_nowhere_is_one_line(
    qtbot: QtBot, window: Window, tmp_path: Path
) -> None:
    (tmp_path / "file").write_text("x")
    window.files.backup_to(tmp_path / "file" / "kept.zip")
    qtbot.waitUntil(lambda: "lies in no folder" in status(window), timeout=20_000)
    assert "\n" not in status(window)


def test_the_sheet_is_saved_as_pdf(
    qtbot: QtBot, window: Window, tmp_path: Path
) -> None:
    file = tmp_path / "sheet.pdf"
    window.files.save_sheet_to(file)
    finish(qtbot, window, "Saved")
    text = "".join(page.extract_text() for page in PdfReader(file).pages)
    assert "A1" in text


def test_the_sheet_is_not_saved_into_a_folder_that_is_not_there(
    qtbot: QtBot, window: Window, tmp_path: Path
) -> None:
    window.files.save_sheet_to(tmp_path / "away" / "sheet.pdf")
    finish(qtbot, window, "There is no folder")
    assert not (tmp_path / "away").exists()


def test_a_backup_without_a_photo_says_so_in_sentences(
    qtbot: QtBot, window: Window, tmp_path: Path
) -> None:
    picture = QImage(40, 30, QImage.Format.Format_RGB32)
    picture.fill(Qt.GlobalColor.darkGreen)
    assert picture.save(str(tmp_path / "a.png"))
    plant_id = line_of(window, "A1").plant_id
    window.photos.take(plant_id, [tmp_path / "a.png"])
    settle(qtbot, window)
    dialog_of(window, PhotoDaysDialog).reject()
    (photo,) = window.desk.collection.photos.of(plant_id)
    window.files.backup_to(tmp_path / "whole.zip")
    finish(
        qtbot, window, f"Backup made: {tmp_path / 'whole.zip'}. Its photos are whole"
    )
    photo.path.unlink()
    window.files.backup_to(tmp_path / "kept.zip")
    finish(qtbot, window, f"Backup made: {tmp_path / 'kept.zip'}. A photo of plant A1")


def test_a_printer_that_takes_nothing_is_told_in_the_window(
    qtbot: QtBot, window: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_given: object) -> None:
        raise StoreError("The printer does not take the sheet.", "Save it as PDF.")

    monkeypatch.setattr("growdesk.ui.printing.printer.print_pages", refuse)
    window.commands["preview-sheet"].trigger()
    settle(qtbot, window)
    (preview,) = window.findChildren(SheetPreview)
    preview.print_wanted.emit(preview.printer)
    finish(qtbot, window, "The printer does not take the sheet.")
    assert preview.message.text().startswith("The printer does not take the sheet.")
    preview.close()


def test_the_sheet_is_previewed_without_a_loop_of_its_own(
    qtbot: QtBot, window: Window
) -> None:
    window.commands["preview-sheet"].trigger()
    settle(qtbot, window)
    (preview,) = window.findChildren(SheetPreview)
    assert preview.isVisible()
    preview.close()


def test_another_collection_is_opened_and_the_first_is_let_go(
    qtbot: QtBot, window: Window, tmp_path: Path, clock: FixedClock
) -> None:
    first = window.desk.collection.folder
    window.files.open_folder(tmp_path / "second", create=True)
    settle(qtbot, window)
    assert "No plants yet" in window.head.first.text()
    assert window.desk.collection.folder == tmp_path / "second"
    Collection.open(first, clock).close()


def test_a_foreign_folder_is_refused_and_the_collection_stays(
    qtbot: QtBot, window: Window, tmp_path: Path
) -> None:
    window.files.open_folder(tmp_path / "nothing here")
    settle(qtbot, window)
    assert "nothing here" in status(window)
    assert len(window.day_list.model.lines) == 3


def test_every_chooser_is_opened_and_none_is_run(
    window: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened: list[str] = []
    monkeypatch.setattr(QFileDialog, "open", lambda me: opened.append(me.windowTitle()))
    for key in ("new-collection", "open-collection", "export", "backup", "save-sheet"):
        window.commands[key].trigger()
    window.commands["photos"].trigger()
    assert len(opened) == 6


def test_the_print_dialog_is_shown_without_a_loop_of_its_own(
    qtbot: QtBot, window: Window
) -> None:
    window.commands["print-sheet"].trigger()
    settle(qtbot, window)
    (dialog,) = window.findChildren(QPrintDialog)
    assert dialog.isVisible()
    dialog.reject()
