"""Print a year in review, or save it as PDF, as long work.

The modules for printing are loaded on first use.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from growdesk.domain.errors import GrowdeskError
from growdesk.domain.speech import mark, tr
from growdesk.ui.choosing import choose_pdf
from growdesk.ui.long_work import NOTHING_WRITTEN, Long
from growdesk.ui.preview_over import open_preview

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import date
    from pathlib import Path

    from PySide6.QtWidgets import QWidget

    from growdesk.services.collection import Collection
    from growdesk.services.long_work import Step
    from growdesk.services.year_values import YearReview
    from growdesk.ui.desk import Desk
    from growdesk.ui.dialogs.year import YearDialog

    Within = tuple[date, date]

WORKING = mark("Looking back on the year")
_PAPERS_PT = ((595.0, 842.0), (612.0, 792.0))


class YearPrints(QObject):
    """The years in review of one window."""

    def __init__(self, desk: Desk, window: QWidget) -> None:
        super().__init__(window)
        self._desk = desk
        self._window = window

    def open(self) -> None:
        """Choose the year."""
        from growdesk.ui.dialogs.year import YearDialog  # noqa: PLC0415 -- when asked

        dialog = YearDialog(self._window, self._desk.today)
        dialog.saved.connect(partial(self._chosen, dialog))
        dialog.add_way(tr("Save as PDF…"), partial(self._save, dialog))
        dialog.open()

    def save_to(self, dialog: YearDialog, within: Within, file: Path) -> None:
        """Save the review of the days chosen as a PDF."""
        dialog.close_saved()
        work = partial(_written, self._desk.collection, within, file)
        self._long(
            work,
            lambda _done: self._desk.told.emit(tr("Saved {file}").format(file=file)),
        )

    def _chosen(self, dialog: YearDialog, within: Within) -> None:
        dialog.close_saved()
        self._long(partial(_made, self._desk.collection, within), self._preview)

    def _save(self, dialog: YearDialog) -> None:
        """Ask for a file, once the days can be meant."""
        try:
            within = dialog.draft()
        except GrowdeskError as error:
            dialog.refused(error)
            return
        name = f"year-{within[1].isoformat()}.pdf"
        choose_pdf(
            dialog,
            tr("Save the year in review"),
            name,
            lambda file: self.save_to(dialog, within, file),
        )

    def _long(
        self, work: Callable[[Step], YearReview], use: Callable[[YearReview], object]
    ) -> None:
        def stopped() -> None:
            self._desk.told.emit(tr(NOTHING_WRITTEN))

        self._desk.long.begin(Long(tr(WORKING), work, use, self._desk.fail, stopped))

    def _preview(self, review: YearReview) -> None:
        from growdesk.ui.dialogs.pages import PagesPreview  # noqa: PLC0415 -- ditto
        from growdesk.ui.printing.year_pages import lay_out_year  # noqa: PLC0415
        from growdesk.ui.printing.year_words import title  # noqa: PLC0415 -- ditto

        laid_out = partial(lay_out_year, review)
        preview = PagesPreview(title(review), laid_out, tr("the review"), self._window)
        open_preview(preview, self._desk)


def _made(collection: Collection, within: Within, step: Step) -> YearReview:
    """Make a review and draw its charts, so that a preview only paints them."""
    from growdesk.ui.printing.year_pages import lay_out_year  # noqa: PLC0415 -- ditto

    review = collection.years.make(within, step)
    for number, paper in enumerate(_PAPERS_PT):
        step(number, len(_PAPERS_PT))
        lay_out_year(review, *paper)
    return review


def _written(
    collection: Collection, within: Within, file: Path, step: Step
) -> YearReview:
    from growdesk.ui.printing.year_pages import write_year  # noqa: PLC0415 -- ditto

    review = collection.years.make(within, step)
    write_year(review, file, step=step)
    return review
