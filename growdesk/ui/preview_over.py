"""Open a preview of pages over the window, and do what it asks for beside it."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt

from growdesk.domain.speech import mark, tr
from growdesk.ui.long_work import NOTHING_WRITTEN, Long
from growdesk.ui.tasks import Lane

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from PySide6.QtCore import QObject
    from PySide6.QtPrintSupport import QPrinter

    from growdesk.services.long_work import Step
    from growdesk.ui.desk import Desk
    from growdesk.ui.dialogs.pages import PagesPreview
    from growdesk.ui.tasks import Job

NOT_PRINTED = mark("Cancelled: the print was called off.")
PAGES = mark("{done} of {of} pages")


def open_preview(preview: PagesPreview, desk: Desk) -> None:
    """Open a preview; what becomes of its pages is told in the window and in it."""

    def do(owner: QObject, job: Job[object]) -> None:
        desk.draw(owner, job, Lane.RANK)

    preview.work_wanted.connect(do)
    preview.view.work_wanted.connect(do)
    preview.print_wanted.connect(partial(_print, desk, preview))
    preview.save_wanted.connect(partial(_save, desk, preview))
    desk.told.connect(preview.say)
    preview.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    preview.show()


def print_beside(desk: Desk, work: Callable[[Step], object]) -> None:
    """Print as long work; cancelled, nothing comes out of the printer."""
    desk.long.begin(
        Long(
            tr("Printing"),
            work,
            lambda _none: desk.told.emit(tr("Sent to the printer")),
            desk.fail,
            lambda: desk.told.emit(tr(NOT_PRINTED)),
            PAGES,
        )
    )


def _print(desk: Desk, preview: PagesPreview, printer: QPrinter) -> None:
    from growdesk.ui.printing import printer as printing  # noqa: PLC0415 -- to print

    laid_out, what = preview.laid_out, preview.what

    def work(step: Step) -> None:
        printing.print_pages(laid_out, printer, what, step)

    print_beside(desk, work)


def _save(desk: Desk, preview: PagesPreview, file: Path) -> None:
    from growdesk.ui.printing.sheet_pdf import pages_pdf, save_pdf  # noqa: PLC0415 -- ditto

    laid_out, titled, size = preview.laid_out, preview.titled, preview.page_size()

    def work(step: Step) -> None:
        save_pdf(pages_pdf(titled, laid_out, size, step), file, titled)

    desk.long.begin(
        Long(
            tr("Saving as PDF"),
            work,
            lambda _none: desk.told.emit(tr("Saved {file}").format(file=file)),
            desk.fail,
            lambda: desk.told.emit(tr(NOTHING_WRITTEN)),
            PAGES,
        )
    )
