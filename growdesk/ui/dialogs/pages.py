"""Pages before they are printed: to look at, to print, to save as PDF.

The same pages as the PDF, laid out for the paper that the printer holds.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtPrintSupport import QPrintDialog
from PySide6.QtWidgets import QDialogButtonBox, QHBoxLayout, QVBoxLayout
from typing_extensions import override

from growdesk.domain.speech import mark, tr
from growdesk.ui import sizes
from growdesk.ui.choosing import choose_pdf
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.printing.page_view import ZOOM, Fit, PageView
from growdesk.ui.printing.pages import lay_out
from growdesk.ui.printing.printer import full_paper, upright_printer
from growdesk.ui.printing.wording import title
from growdesk.ui.tasks import Job
from growdesk.ui.widgets.parts import button, label, short_label

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtCore import QRectF
    from PySide6.QtGui import QPageSize, QShowEvent
    from PySide6.QtPrintSupport import QPrinter
    from PySide6.QtWidgets import QWidget

    from growdesk.services.sheet_values import Sheet
    from growdesk.ui.printing.pages import Page

_WANTED = 900, 1000
_WAITING = mark("Laying out the pages…")


class PagesPreview(OnScreen):
    """Pages as they will print: to look at, to print and to save as PDF.

    ``what`` they are stands in a printer's refusal. ``size`` is of pages that are for
    one paper only. All work goes out as signals, a chosen printer and file too.
    """

    work_wanted = Signal(object, object)
    print_wanted = Signal(object)
    save_wanted = Signal(object)

    def __init__(
        self,
        titled: str,
        laid_out: Callable[[float, float], tuple[Page, ...]],
        what: str,
        parent: QWidget | None = None,
        size: QPageSize | None = None,
    ) -> None:
        super().__init__(parent)
        self.setWindowFlag(Qt.WindowType.Window)
        self.titled, self.laid_out, self.what = titled, laid_out, what
        self._size = size
        self.printer = self._make_printer()
        self.setWindowTitle(titled)
        self.view = PageView()
        self.view.turned.connect(self._tell_page)
        self.told_page = short_label(tr(_WAITING))
        self.message = label("", tone="muted")
        self._is_asked = False
        view = self.view
        self._of_pages = [
            button(tr("Page &back"), lambda: view.go_to(view.page - 1)),
            button(tr("Page &on"), lambda: view.go_to(view.page + 1)),
            button(tr("&Smaller"), lambda: view.zoom(1 / ZOOM)),
            button(tr("&Larger"), lambda: view.zoom(ZOOM)),
            button(tr("&Whole page"), lambda: view.fit(Fit.PAGE)),
            button(tr("Page wi&dth"), lambda: view.fit(Fit.WIDTH)),
        ]
        self.print_button = button(tr("&Print…"), self._choose_printer)
        self.save_button = button(tr("Save as PD&F…"), self._choose_file)
        for each in (*self._of_pages, self.print_button, self.save_button):
            each.setEnabled(False)
            each.setAutoDefault(False)
        self._lay_out()
        self.resize(sizes.area(*_WANTED).boundedTo(self.room()))
        self.view.setFocus()

    def say(self, text: str) -> None:
        """Say what became of a print or a file."""
        self.message.setText(text)

    def page_size(self) -> QPageSize:
        """Give the paper that the pages shown are laid out for."""
        return self.printer.pageLayout().pageSize()

    def _make_printer(self) -> QPrinter:
        printer = upright_printer(self.titled)
        if self._size is not None:
            printer.setPageSize(self._size)
        return printer

    def _lay_out(self) -> None:
        close = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        close.rejected.connect(self.reject)
        head, foot = QHBoxLayout(), QHBoxLayout()
        back, on, *zooms = self._of_pages
        head.setSpacing(8)
        head.addWidget(back)
        head.addWidget(self.told_page)
        head.addWidget(on)
        head.addStretch(1)
        for each in zooms:
            head.addWidget(each)
        foot.setSpacing(8)
        foot.addWidget(self.print_button)
        foot.addWidget(self.save_button)
        foot.addWidget(self.message, 1)
        foot.addWidget(close)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(18, 16, 18, 14)
        outer.setSpacing(10)
        outer.addLayout(head)
        outer.addWidget(self.view, 1)
        outer.addLayout(foot)

    @override
    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        if not self._is_asked:
            self._is_asked = True
            self._ask()

    def _ask(self) -> None:
        """Have the pages laid out for the printer's paper."""
        paper = full_paper(self.printer)
        work = partial(self.laid_out, paper.width(), paper.height())
        job = Job(work, partial(self._show, paper), self._refuse, "pages")
        self.work_wanted.emit(self, job)

    def _show(self, paper: QRectF, pages: tuple[Page, ...]) -> None:
        for each in (*self._of_pages, self.print_button, self.save_button):
            each.setEnabled(bool(pages))
        self.view.show_pages(pages, paper.width(), paper.height())

    def _refuse(self, _error: Exception) -> None:
        self.told_page.setText("")

    def _tell_page(self) -> None:
        number, of = self.view.page + 1, len(self.view.pages)
        said = tr("Page {number} of {of}").format(number=number, of=of) if of else ""
        self.told_page.setText(said)
        back, on, *_ = self._of_pages
        back.setEnabled(number > 1)
        on.setEnabled(number < of)

    def _choose_printer(self) -> None:
        printer = self._make_printer()
        chooser = QPrintDialog(printer, self)
        chooser.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        chooser.accepted.connect(partial(self.print_wanted.emit, printer))
        chooser.show()

    def _choose_file(self) -> None:
        safe = "".join(each if each.isalnum() else "-" for each in self.titled)
        name = "-".join(part for part in safe.split("-") if part)
        choose_pdf(self, tr("Save as PDF"), f"{name}.pdf", self.save_wanted.emit)


class SheetPreview(PagesPreview):
    """The sheet as it will print."""

    def __init__(self, sheet: Sheet, parent: QWidget | None = None) -> None:
        super().__init__(title(sheet), partial(lay_out, sheet), tr("the sheet"), parent)
