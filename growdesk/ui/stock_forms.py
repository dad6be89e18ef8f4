"""Open the stock bottles, answer while one types, write, and print labels."""

from __future__ import annotations

import re
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog
from shiboken6 import isValid

from growdesk.domain.speech import mark, tr
from growdesk.ui import typed
from growdesk.ui.dialogs.stock import StocksDialog
from growdesk.ui.stock_typed import wanted_of
from growdesk.ui.tasks import Job, Lane
from growdesk.ui.thing_forms import ThingForms, refuse

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from PySide6.QtWidgets import QWidget

    from growdesk.services.collection import Collection
    from growdesk.services.jug_values import BottleToMake
    from growdesk.services.stock_labels import StockLabel
    from growdesk.services.stock_values import StockAnswer, StockBench, StockWanted
    from growdesk.ui.desk import Desk
    from growdesk.ui.dialogs.held import Held

_WHAT = mark("The label")
_PPM = re.compile(r"\s*(ppm|mg/l)?\s*n?$", re.IGNORECASE)


class StockForms(ThingForms):
    """The stock bottles of one window."""

    def __init__(self, desk: Desk, window: QWidget) -> None:
        super().__init__(desk, window)
        self._proposed: Held = {}

    def open(self) -> None:
        """Open the bottles there are; where there is none, a new one."""
        self._desk.read(self._now.stocks.bench, self._open)

    def make(self, wanted: BottleToMake) -> None:
        """Open a new bottle, with all of a proposed one put in."""
        self._desk.read(self._now.stocks.bench, partial(self._open, wanted=wanted))

    def _open(self, bench: StockBench, wanted: BottleToMake | None = None) -> None:
        dialog = StocksDialog(self._window)
        dialog.show_bench(bench, None)
        self._attend(dialog, tr("stock bottles"))
        if not bench.bottles or wanted is not None:
            dialog.start_new()
        dialog.saved.connect(partial(self._save_bottle, dialog))
        dialog.remove_wanted.connect(partial(self._empty, dialog))
        dialog.asked.connect(partial(self._ask, dialog))
        dialog.recipe_wanted.connect(partial(self._take_recipe, dialog))
        dialog.label_wanted.connect(partial(self._print, dialog))
        dialog.label_file_wanted.connect(partial(self._choose_file, dialog))
        dialog.open()
        if wanted is not None:
            self._proposed = dialog.propose(wanted, self._proposed)

    def _save_bottle(
        self, dialog: StocksDialog, key: int | None, wanted: StockWanted
    ) -> None:
        stocks = self._now.stocks
        work = partial(stocks.make, wanted)
        if key is not None:
            work = partial(stocks.change, key, wanted)
        self._save(dialog, work, key, partial(self._again, dialog))

    def _empty(self, dialog: StocksDialog, key: int) -> None:
        work = partial(self._now.stocks.empty, key)
        self._remove(dialog, key, work, partial(self._again, dialog))

    def _again(self, dialog: StocksDialog, chosen: int | None) -> None:
        def show(bench: StockBench) -> None:
            if isValid(dialog):
                dialog.show_bench(bench, chosen)

        self._desk.read(self._now.stocks.bench, show)

    def _ask(self, dialog: StocksDialog, held: Held) -> None:
        job = Job(
            partial(_answer, self._now, held),
            partial(dialog.show_answer, held),
            partial(dialog.show_slip, held),
            tr("stock bottle"),
        )
        self._desk.tasks.ask(dialog, job)

    def _take_recipe(self, dialog: StocksDialog, key: int, strength: str) -> None:
        job = Job(
            partial(_of_recipe, self._now, key, strength),
            dialog.show_recipe,
            partial(refuse, dialog),
            tr("recipe of a stock bottle"),
        )
        self._desk.tasks.ask(dialog, job)

    # -- labels ---------------------------------------------------------------------

    def _choose_file(self, dialog: StocksDialog, keys: Sequence[int]) -> None:
        chooser = QFileDialog(
            dialog, tr("Save the label"), str(Path.home()), tr("PDF (*.pdf)")
        )
        chooser.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
        chooser.setDefaultSuffix("pdf")
        chooser.selectFile("stock-bottle-label.pdf")
        chooser.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        chooser.fileSelected.connect(
            lambda name: self.save_labels_to(dialog, keys, Path(name))
        )
        chooser.open()

    def save_labels_to(
        self, dialog: StocksDialog, keys: Sequence[int], file: Path
    ) -> None:
        """Save the labels of some bottles as PDF."""
        work = partial(_write_labels, self._now, keys, file)
        self._long(dialog, work, tr("Saved {file}").format(file=file))

    def _print(self, dialog: StocksDialog, keys: Sequence[int]) -> None:
        self._desk.read(
            partial(_labels, self._now, keys), partial(self._open_printer, dialog)
        )

    def _open_printer(self, dialog: StocksDialog, labels: Sequence[StockLabel]) -> None:
        from PySide6.QtPrintSupport import QPrintDialog  # noqa: PLC0415 -- to print

        from growdesk.ui.printing.labels import (  # noqa: PLC0415 -- ditto
            TITLE,
            lay_out_labels,
        )
        from growdesk.ui.printing.printer import (  # noqa: PLC0415 -- ditto
            print_pages,
            upright_printer,
        )

        if not isValid(dialog):
            return
        printer = upright_printer(tr(TITLE))
        chooser = QPrintDialog(printer, dialog)
        chooser.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        work = partial(
            print_pages, partial(lay_out_labels, labels), printer, tr("the label")
        )
        chooser.accepted.connect(
            lambda: self._long(dialog, work, tr("Sent to the printer"))
        )
        chooser.show()

    def _long(
        self, dialog: StocksDialog, work: Callable[[], object], done: str
    ) -> None:
        def say(_result: object) -> None:
            if isValid(dialog):
                dialog.say(done)

        job = Job(work, say, partial(refuse, dialog))
        self._desk.tasks.ask(self, job, Lane.SIDE)


def _answer(collection: Collection, held: Held) -> StockAnswer:
    return collection.stocks.answer(wanted_of(held))


def _of_recipe(
    collection: Collection, key: int, strength: str
) -> tuple[tuple[int, float], ...]:
    bare = _PPM.sub("", strength)
    ppm_n = typed.number(bare, "strength_ppm_n", "100")
    return collection.stocks.of_recipe(key, ppm_n or 0.0)


def _labels(collection: Collection, keys: Sequence[int]) -> tuple[StockLabel, ...]:
    from growdesk.services.stock_labels import labels_of  # noqa: PLC0415 -- to print

    return labels_of(collection.stocks.bench(), keys)


def _write_labels(collection: Collection, keys: Sequence[int], file: Path) -> None:
    from growdesk.ui.printing.labels import (  # noqa: PLC0415 -- only for printing
        TITLE,
        lay_out_labels,
    )
    from growdesk.ui.printing.sheet_pdf import (  # noqa: PLC0415 -- ditto
        pages_pdf,
        save_pdf,
    )

    labels = _labels(collection, keys)
    save_pdf(pages_pdf(tr(TITLE), partial(lay_out_labels, labels)), file, tr(_WHAT))
