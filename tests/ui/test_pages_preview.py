"""The preview of pages: what is drawn of them, where, and what is done with them."""

from __future__ import annotations

import threading
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog

from growdesk.services.long_work import StoppedError
from growdesk.ui.dialogs.pages import PagesPreview
from growdesk.ui.preview_over import NOT_PRINTED, open_preview
from growdesk.ui.printing import page_view
from growdesk.ui.printing.marks import TEXT, TITLE, Frame, Words
from growdesk.ui.printing.page_picture import page_picture, page_words
from growdesk.ui.printing.pages import Page, Placed
from growdesk.ui.printing.printer import print_pages
from tests.ui.driving import press, settle, status
from tests.ui.test_sheet_pdf import texts

if TYPE_CHECKING:
    from pathlib import Path

    from PySide6.QtGui import QImage
    from pytestqt.qtbot import QtBot

    from growdesk.ui.window import Window

A4_PT = (595, 842)


def pages(many: int) -> tuple[Page, ...]:
    return tuple(
        Page(
            (
                Placed(60, 60, (Words(0, 20, f"Sheet {each}", TITLE),)),
                Placed(60, 120, (Words(0, 12, "A1", TEXT), Frame(0, 30, 60, 40))),
            )
        )
        for each in range(1, many + 1)
    )


def laid_out(wide_pt: float, high_pt: float) -> tuple[Page, ...]:
    assert 400 < wide_pt < high_pt
    return pages(9)


@pytest.fixture
def preview(qtbot: QtBot, window: Window) -> PagesPreview:
    made = PagesPreview("Nine pages", laid_out, "the pages", window)
    open_preview(made, window.desk)
    settle(qtbot, window)
    return made


def finish(qtbot: QtBot, window: Window) -> None:
    """Wait until nothing rests and nothing is asked for."""
    QTest.qWait(2 * page_view.REST_MS)
    for _ in range(4):
        settle(qtbot, window)


def test_a_page_is_painted_black_on_white_at_its_size() -> None:
    picture = page_picture(pages(1)[0], A4_PT, 2.0)
    assert (picture.width(), picture.height()) == (1190, 1684)
    assert picture.pixelColor(4, 4).name() == "#ffffff"
    frame = picture.pixelColor(2 * 60, 2 * (120 + 50))
    assert frame.lightness() < 90
    assert page_words(pages(1)[0]) == "Sheet 1\nA1"


def test_the_page_in_sight_is_painted_and_no_more_than_the_next(
    qtbot: QtBot, window: Window, preview: PagesPreview
) -> None:
    finish(qtbot, window)
    view = preview.view
    assert len(view.pages) == 9
    assert view.page == 0
    assert set(view.pictures) <= set(view.in_sight()) | {1}
    assert 0 in view.pictures
    assert preview.told_page.text() == "Page 1 of 9"
    assert view.accessibleDescription().startswith("Sheet 1")


def test_no_page_is_painted_on_the_windows_thread(
    qtbot: QtBot, window: Window, preview: PagesPreview, monkeypatch: pytest.MonkeyPatch
) -> None:
    painted: list[int] = []

    def told(page: Page, size_pt: tuple[float, float], dots: float) -> QImage:
        painted.append(threading.get_ident())
        return page_picture(page, size_pt, dots)

    monkeypatch.setattr(page_view, "page_picture", told)
    preview.view.go_to(6)
    finish(qtbot, window)
    assert painted
    assert threading.get_ident() not in painted


def test_the_keys_go_through_the_pages_and_zoom(
    qtbot: QtBot, window: Window, preview: PagesPreview
) -> None:
    view = preview.view
    for key, page in (
        (Qt.Key.Key_PageDown, 1),
        (Qt.Key.Key_End, 8),
        (Qt.Key.Key_PageUp, 7),
        (Qt.Key.Key_Home, 0),
    ):
        QTest.keyClick(view, key)
        assert view.page == page
    whole = view.px_per_pt
    QTest.keyClick(view, Qt.Key.Key_Plus)
    assert view.px_per_pt == pytest.approx(whole * page_view.ZOOM)
    finish(qtbot, window)
    assert view.pictures[view.page][0] == view.px_per_pt * view.devicePixelRatioF()
    QTest.keyClick(view, Qt.Key.Key_0)
    assert view.px_per_pt == pytest.approx(whole)
    QTest.keyClick(view, Qt.Key.Key_1)
    assert view.px_per_pt > whole
    QTest.keyClick(view, Qt.Key.Key_Escape)
    assert not preview.isVisible()


def test_the_buttons_go_through_the_pages(preview: PagesPreview) -> None:
    back, on, *_ = preview._of_pages
    assert not back.isEnabled()
    press(preview, "Page &on")
    assert preview.told_page.text() == "Page 2 of 9"
    assert back.isEnabled()
    preview.view.go_to(8)
    assert not on.isEnabled()
    press(preview, "Page &back")
    assert preview.told_page.text() == "Page 8 of 9"


def test_the_picture_stands_where_its_page_is(
    qtbot: QtBot, window: Window, preview: PagesPreview
) -> None:
    finish(qtbot, window)
    view = preview.view
    rect = view._rect_of(0)
    corner = view.viewport().mapTo(preview, QPoint(round(rect.x()), round(rect.y())))
    seen = preview.grab().toImage()
    scale = view.px_per_pt * seen.devicePixelRatio()
    at = corner + QPoint(round(60 * scale), round(170 * scale))
    dark = min(
        seen.pixelColor(at.x() + across, at.y()).lightness() for across in (-1, 0, 1)
    )
    assert dark < 140, "the frame's left side"
    assert seen.pixelColor(corner + QPoint(4, 4)).name() == "#ffffff"


def test_the_pages_are_saved_as_pdf(
    qtbot: QtBot, window: Window, preview: PagesPreview, tmp_path: Path
) -> None:
    press(preview, "Save as PD&F…")
    (chooser,) = preview.findChildren(QFileDialog)
    assert chooser.selectedFiles()[0].endswith("Nine-pages.pdf")
    file = tmp_path / "nine.pdf"
    chooser.fileSelected.emit(str(file))
    chooser.close()
    settle(qtbot, window)
    assert status(window) == f"Saved {file}"
    assert preview.message.text() == f"Saved {file}"
    assert len(texts(file.read_bytes())) == 9


def test_the_pages_are_printed_beside_the_window(
    qtbot: QtBot, window: Window, preview: PagesPreview, tmp_path: Path
) -> None:
    printer = file_printer(tmp_path)
    preview.print_wanted.emit(printer)
    settle(qtbot, window)
    assert status(window) == "Sent to the printer"
    assert len(texts((tmp_path / "printed.pdf").read_bytes())) == 9


def test_a_print_is_called_off_between_two_pages(
    qtbot: QtBot, window: Window, preview: PagesPreview, tmp_path: Path
) -> None:
    done: list[tuple[int, int]] = []

    def step(number: int, of: int) -> None:
        done.append((number, of))
        if number == 2:
            raise StoppedError("Stopped.")

    with pytest.raises(StoppedError):
        print_pages(laid_out, file_printer(tmp_path), "the pages", step)
    assert done == [(0, 9), (1, 9), (2, 9)]
    preview.print_wanted.emit(file_printer(tmp_path))
    window.desk.long.cancel()
    settle(qtbot, window)
    assert status(window) in {NOT_PRINTED, "Sent to the printer"}


def test_a_layout_that_fails_is_told_and_nothing_is_offered(
    qtbot: QtBot, window: Window
) -> None:
    def refuse(_wide: float, _high: float) -> tuple[Page, ...]:
        raise StoppedError("No room.")

    made = PagesPreview("None", refuse, "the pages", window)
    open_preview(made, window.desk)
    settle(qtbot, window)
    assert made.told_page.text() == ""
    assert not made.print_button.isEnabled()
    made.close()
    QApplication.processEvents()


def file_printer(folder: Path) -> QPrinter:
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(folder / "printed.pdf"))
    return printer
