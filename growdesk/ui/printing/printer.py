"""Print pages on the printer's own paper."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QMarginsF
from PySide6.QtGui import QPageLayout, QPageSize, QPainter
from PySide6.QtPrintSupport import QPrinter, QPrinterInfo

from growdesk.domain.errors import StoreError
from growdesk.domain.speech import tr
from growdesk.services.long_work import StoppedError, quietly
from growdesk.ui.preferences import SYSTEM, kept_regional
from growdesk.ui.printing.pages import lay_out
from growdesk.ui.printing.paper import choose_paper
from growdesk.ui.printing.sheet_pdf import paint_pages
from growdesk.ui.printing.wording import title

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtCore import QRectF

    from growdesk.services.long_work import Step
    from growdesk.services.sheet_values import Sheet
    from growdesk.ui.printing.pages import Page


def sheet_printer(sheet: Sheet) -> QPrinter:
    """Give the default printer on its own paper, upright, one sheet a page."""
    return upright_printer(title(sheet))


def upright_printer(titled: str) -> QPrinter:
    """Give the default printer, upright, on the paper preferred, else on its own."""
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    is_preferred = kept_regional().paper != SYSTEM
    if is_preferred or QPrinterInfo.defaultPrinter().isNull():
        printer.setPageSize(QPageSize(choose_paper(None)))
    printer.setDocName(titled)
    printer.setCreator("growdesk")
    printer.setPageOrientation(QPageLayout.Orientation.Portrait)
    printer.setColorMode(QPrinter.ColorMode.GrayScale)
    return printer


def full_paper(printer: QPrinter) -> QRectF:
    """Give the paper that a printer holds, to its edges, in points."""
    printer.setFullPage(True)
    printer.setPageMargins(QMarginsF(0, 0, 0, 0))
    return printer.pageLayout().fullRect(QPageLayout.Unit.Point)


def print_sheet(sheet: Sheet, printer: QPrinter, step: Step = quietly) -> None:
    """Paint the pages asked for on a printer, whatever paper it holds."""
    print_pages(partial(lay_out, sheet), printer, tr("the sheet"), step)


def print_pages(
    laid_out: Callable[[float, float], tuple[Page, ...]],
    printer: QPrinter,
    what: str,
    step: Step = quietly,
) -> None:
    """Paint pages on a printer; ``what`` they are stands in its refusal.

    ``step`` is told of each page; where it stops the work, nothing is printed.
    """
    paper = full_paper(printer)
    pages = _asked_for(laid_out(paper.width(), paper.height()), printer)
    painter = QPainter()
    if not painter.begin(printer):
        name = printer.printerName() or tr("The printer")
        raise StoreError(
            tr("{name} does not take {what}.").format(name=name, what=what),
            tr("Save it as PDF and print that."),
        )
    try:
        paint_pages(painter, printer, pages, step)
    except StoppedError:
        printer.abort()
        raise
    finally:
        painter.end()


def _asked_for(pages: tuple[Page, ...], printer: QPrinter) -> tuple[Page, ...]:
    first, last = printer.fromPage(), printer.toPage()
    if printer.printRange() is not QPrinter.PrintRange.PageRange or not first:
        return pages
    return pages[first - 1 : max(last, first)]
