"""The sheet before it is printed, and printing it, on the printer's own paper.

The same pages as the PDF, laid out for the paper that the printer holds. Saving as PDF
is the window's business.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QMarginsF, QSize, Qt, Signal
from PySide6.QtGui import QPageLayout, QPageSize, QPainter
from PySide6.QtPrintSupport import QPrinter, QPrinterInfo, QPrintPreviewDialog

from growdesk.domain.errors import StoreError
from growdesk.domain.speech import tr
from growdesk.ui.printing.pages import lay_out
from growdesk.ui.printing.paper import choose_paper
from growdesk.ui.printing.sheet_pdf import paint_pages
from growdesk.ui.printing.wording import title

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtWidgets import QWidget

    from growdesk.services.sheet_values import Sheet
    from growdesk.ui.printing.pages import Page


_WANTED, _TITLE_BAR = QSize(900, 1000), QSize(16, 48)


class PagesPreview(QPrintPreviewDialog):
    """Pages as they will print, with a button that prints them.

    ``what`` they are stands in a refusal; ``refused`` tells in one line why a printer
    did not take them. ``size`` is of pages that are for one paper only.
    """

    refused = Signal(str)

    def __init__(
        self,
        titled: str,
        laid_out: Callable[[float, float], tuple[Page, ...]],
        what: str,
        parent: QWidget | None = None,
        size: QPageSize | None = None,
    ) -> None:
        self._laid_out = laid_out
        self._what = what
        self._kept_printer = upright_printer(titled)  # Qt's dialog does not keep it
        if size is not None:
            self._kept_printer.setPageSize(size)
        super().__init__(self._kept_printer, parent, Qt.WindowType.Window)
        self.setWindowTitle(titled)
        self.paintRequested.connect(self._print_or_say_why)
        self.resize(_WANTED.boundedTo(self.screen().availableSize() - _TITLE_BAR))

    def _print_or_say_why(self, printer: QPrinter) -> None:
        try:
            print_pages(self._laid_out, printer, self._what)
        except StoreError as error:
            self.refused.emit(error.line())


class SheetPreview(PagesPreview):
    """The sheet as it will print."""

    def __init__(self, sheet: Sheet, parent: QWidget | None = None) -> None:
        super().__init__(title(sheet), partial(lay_out, sheet), tr("the sheet"), parent)


def sheet_printer(sheet: Sheet) -> QPrinter:
    """Give the default printer on its own paper, upright, one sheet a page."""
    return upright_printer(title(sheet))


def upright_printer(titled: str) -> QPrinter:
    """Give the default printer on its own paper, upright, for pages of a title."""
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    if QPrinterInfo.defaultPrinter().isNull():
        printer.setPageSize(QPageSize(choose_paper(None)))
    printer.setDocName(titled)
    printer.setCreator("growdesk")
    printer.setPageOrientation(QPageLayout.Orientation.Portrait)
    printer.setColorMode(QPrinter.ColorMode.GrayScale)
    return printer


def print_sheet(sheet: Sheet, printer: QPrinter) -> None:
    """Paint the pages asked for on a printer, whatever paper it holds."""
    print_pages(partial(lay_out, sheet), printer, tr("the sheet"))


def print_pages(
    laid_out: Callable[[float, float], tuple[Page, ...]], printer: QPrinter, what: str
) -> None:
    """Paint pages on a printer; ``what`` they are stands in its refusal."""
    printer.setFullPage(True)
    printer.setPageMargins(QMarginsF(0, 0, 0, 0))
    paper = printer.pageLayout().fullRectPoints()
    pages = _asked_for(laid_out(paper.width(), paper.height()), printer)
    painter = QPainter()
    if not painter.begin(printer):
        name = printer.printerName() or tr("The printer")
        raise StoreError(
            tr("{name} does not take {what}.").format(name=name, what=what),
            tr("Save it as PDF and print that."),
        )
    try:
        paint_pages(painter, printer, pages)
    finally:
        painter.end()


def _asked_for(pages: tuple[Page, ...], printer: QPrinter) -> tuple[Page, ...]:
    first, last = printer.fromPage(), printer.toPage()
    if printer.printRange() is not QPrinter.PrintRange.PageRange or not first:
        return pages
    return pages[first - 1 : max(last, first)]
