"""Do what the File menu asks: other collections, backup, export, and the sheet.

The long work runs off the window's thread; file choosers are opened, never run. The
modules for transfer and printing are loaded on first use.
"""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from PySide6.QtCore import QObject, Qt
from PySide6.QtWidgets import QFileDialog

from growdesk.domain.errors import DamagedError, StoreError
from growdesk.domain.speech import fixed, mark, tr, trn
from growdesk.services.whereabouts import OnServer
from growdesk.ui.charts import saving
from growdesk.ui.damage import LeadingOn, has_file
from growdesk.ui.long_work import FILES, NOTHING_WRITTEN, PARTS, PHOTOS, ROWS, Long
from growdesk.ui.preview_over import open_preview, print_beside
from growdesk.ui.tips import titled

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import date

    from PySide6.QtWidgets import QWidget

    from growdesk.services.collection import Collection
    from growdesk.services.long_work import Step
    from growdesk.services.sheet_values import Sheet
    from growdesk.services.transfer import Exported
    from growdesk.ui.charts.drawing import Chart
    from growdesk.ui.charts.panel import Style
    from growdesk.ui.desk import Desk


NOT_SHOWN = mark("Cancelled: there is no sheet to show.")
ROUNDS = mark("{done} of {of} rounds")

T = TypeVar("T")


class Files(QObject):
    """The File menu."""

    def __init__(self, desk: Desk, window: QWidget) -> None:
        super().__init__(window)
        self._desk = desk
        self._window = window

    @property
    def _now(self) -> Collection:
        return self._desk.collection

    # -- collections ----------------------------------------------------------------

    def new_collection(self) -> None:
        """Choose an empty folder and begin a collection in it."""
        self._choose_folder(
            tr("Folder for a new collection"), partial(self.open_folder, create=True)
        )

    def open_collection(self) -> None:
        """Choose the folder of another collection."""
        self._choose_folder(tr("Folder of a collection"), self.open_folder)

    def open_server(self) -> None:
        """Ask for a collection on a server; from one there is a way back here."""
        if self._is_in_the_way():
            return
        from growdesk.services.servers_known import known  # noqa: PLC0415 -- a small file
        from growdesk.ui.server_asking import ServerAsking  # noqa: PLC0415 -- seldom

        where = self._now.where
        on = where if isinstance(where, OnServer) else next(iter(known().servers), None)
        asking = ServerAsking(self._desk.tasks, self._now.clock, self)
        asking.opened.connect(self._opened)
        back = isinstance(where, OnServer)
        dialog = asking.open(self._window, on, back=back)
        dialog.folder_wanted.connect(dialog.reject)
        dialog.folder_wanted.connect(self._open_here)

    def _open_here(self) -> None:
        from growdesk.services.collection import default_folder  # noqa: PLC0415 -- seldom

        self.open_folder(default_folder(), create=True)

    def open_folder(self, folder: Path, *, create: bool = False) -> None:
        """Open a collection; the one that is open stays where that fails."""
        if not self._is_in_the_way():
            work = partial(_open, self._now, folder, create=create)
            self._desk.read(work, self._opened, partial(self._not_opened, folder))

    def _not_opened(self, folder: Path, error: Exception) -> None:
        """Show the ways out of a collection that is damaged; tell any other refusal."""
        if not isinstance(error, DamagedError) or not has_file(folder):
            self._desk.fail(error)
            return
        desk, clock = self._desk, self._now.clock
        leading = LeadingOn(desk.tasks, desk.long, folder, clock, self._window)
        leading.opened.connect(self._opened)
        leading.begin()

    def _is_in_the_way(self) -> bool:
        """Tell where long work on the collection that is open has to end first."""
        line = self._desk.long.in_the_way
        if line:
            self._desk.told.emit(line)
        return bool(line)

    def _opened(self, collection: Collection | None) -> None:
        if collection is None:
            self._desk.told.emit(tr("That collection is open already."))
            return
        if self._is_in_the_way():
            collection.close()
            return
        self._desk.switch(collection)
        if isinstance(collection.where, Path):
            from growdesk.services.servers_known import open_folder_next  # noqa: PLC0415

            open_folder_next()
        self._window.setWindowTitle(
            titled(tr("growdesk: {folder}").format(folder=collection.called))
        )
        self._desk.told.emit(tr("Opened {folder}").format(folder=collection.called))

    # -- export and backup ----------------------------------------------------------

    def export(self) -> None:
        """Choose a folder and write the collection into it as tables."""
        self._choose_folder(tr("Folder for the tables"), self.export_to)

    def export_to(self, folder: Path) -> None:
        """Write the collection as tables."""

        def done(made: Exported) -> None:
            self._desk.told.emit(_exported(made))

        self._begin(
            tr("Writing tables and photos"),
            partial(_export, self._now, folder),
            done,
            PHOTOS,
        )

    def backup(self) -> None:
        """Choose a name and write a backup."""
        name = f"growdesk-{self._desk.today.isoformat()}.zip"
        self._choose_file(tr("Backup"), name, tr("Backups (*.zip)"), self.backup_to)

    def backup_to(self, file: Path) -> None:
        """Write a backup."""
        work = partial(_backup, self._now, file)
        self._begin(tr("Making a backup"), work, self._desk.told.emit, FILES)

    def save_calendar(self, save: Callable[[Path, Step], str]) -> None:
        """Choose a name and save the year's jobs as a calendar file."""
        self._choose_file(
            tr("Save the calendar"),
            "orchids.ics",
            tr("Calendars (*.ics)"),
            partial(self.save_calendar_to, save),
        )

    def save_calendar_to(self, save: Callable[[Path, Step], str], file: Path) -> None:
        """Save the year's jobs as a calendar file."""
        work = partial(save, file)
        self._begin(tr("Saving the calendar"), work, self._desk.told.emit)

    def choose_to_save(
        self,
        title: str,
        name: str,
        kinds: str,
        use: Callable[[Path], object],
        over: QWidget,
    ) -> None:
        """Choose over a dialog under which name something of it is kept."""
        self._choose_file(title, name, kinds, use, over)

    # -- the sheet ------------------------------------------------------------------

    def preview_sheet(self) -> None:
        """Show the week's sheet as it will print."""
        self._with_sheet(self._preview)

    def print_sheet(self) -> None:
        """Print the week's sheet."""
        self._with_sheet(self._print)

    def save_sheet(self) -> None:
        """Choose a name and save the week's sheet as PDF."""
        name = f"sheet-{self._desk.on.isoformat()}.pdf"
        self._choose_file(
            tr("Save the sheet"), name, tr("PDF (*.pdf)"), self.save_sheet_to
        )

    def save_sheet_to(self, file: Path) -> None:
        """Save the week's sheet as PDF."""
        work = partial(_write_pdf, self._now, self._desk.on, file)
        self._begin(tr("Saving the sheet"), work, partial(self._saved, file))

    # -- charts ---------------------------------------------------------------------

    def save_chart(
        self, chart: Chart, style: Style, over: QWidget | None = None
    ) -> None:
        """Choose a name, over a dialog or the window, and save a chart as a picture."""

        def use(file: Path) -> None:
            kind = chooser.selectedNameFilter()
            self.save_chart_to(chart, saving.style_of_kind(style, kind), file)

        chooser = self._choose_file(
            tr("Save the chart"),
            saving.file_name(chart),
            ";;".join(saving.KINDS),
            use,
            over,
        )

    def save_chart_to(self, chart: Chart, style: Style, file: Path) -> None:
        """Save a chart as a picture."""
        work = partial(saving.save, chart, style, file)
        self._begin(tr("Saving the chart"), work, partial(self._saved, file))

    # -- tables ---------------------------------------------------------------------

    def save_table(self, name: str, write: Callable[[Path, Step], object]) -> None:
        """Choose a name and save a table as CSV."""
        use = partial(self.save_table_to, write)
        self._choose_file(tr("Save this table"), name, tr("CSV (*.csv)"), use)

    def save_table_to(self, write: Callable[[Path, Step], object], file: Path) -> None:
        """Save a table as CSV."""
        work = partial(write, file)
        self._begin(tr("Saving the table"), work, partial(self._saved, file), ROWS)

    def _with_sheet(self, use: Callable[[Sheet], object]) -> None:
        desk = self._desk
        work = partial(_sheet, self._now, desk.on)
        desk.long.begin(
            Long(
                tr("Working out the week's sheet"),
                work,
                use,
                desk.fail,
                lambda: desk.told.emit(tr(NOT_SHOWN)),
                ROUNDS,
            )
        )

    def _preview(self, sheet: Sheet) -> None:
        from growdesk.ui.dialogs.pages import SheetPreview  # noqa: PLC0415

        dialog = SheetPreview(sheet, self._window)
        open_preview(dialog, self._desk)

    def _print(self, sheet: Sheet) -> None:
        from PySide6.QtPrintSupport import QPrintDialog  # noqa: PLC0415

        from growdesk.ui.printing.printer import (  # noqa: PLC0415
            print_sheet,
            sheet_printer,
        )

        printer = sheet_printer(sheet)
        dialog = QPrintDialog(printer, self._window)
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)

        def print_it() -> None:
            print_beside(self._desk, lambda step: print_sheet(sheet, printer, step))

        dialog.accepted.connect(print_it)
        dialog.show()

    # -- inside ---------------------------------------------------------------------

    def _saved(self, file: Path, _done: object) -> None:
        self._desk.told.emit(tr("Saved {file}").format(file=file))

    def _begin(
        self,
        title: str,
        work: Callable[[Step], T],
        done: Callable[[T], object],
        counted: str = PARTS,
    ) -> None:
        """Begin long work that leaves nothing where it is cancelled."""
        desk = self._desk
        desk.long.begin(
            Long(
                title,
                work,
                done,
                desk.fail,
                lambda: desk.told.emit(tr(NOTHING_WRITTEN)),
                counted,
            )
        )

    def _choose_folder(self, title: str, use: Callable[[Path], object]) -> None:
        dialog = QFileDialog(self._window, title, str(self._now.folder.parent))
        dialog.setFileMode(QFileDialog.FileMode.Directory)
        dialog.setOption(QFileDialog.Option.ShowDirsOnly)
        self._open_chooser(dialog, use)

    def _choose_file(
        self,
        title: str,
        name: str,
        kinds: str,
        use: Callable[[Path], object],
        over: QWidget | None = None,
    ) -> QFileDialog:
        parent = over or self._window
        dialog = QFileDialog(parent, title, str(Path.home()), kinds)
        dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
        dialog.setDefaultSuffix(Path(name).suffix)
        dialog.selectFile(name)
        dialog.filterSelected.connect(partial(_take_suffix, dialog))
        self._open_chooser(dialog, use)
        return dialog

    def _open_chooser(self, dialog: QFileDialog, use: Callable[[Path], object]) -> None:
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.fileSelected.connect(lambda name: use(Path(name)))
        dialog.open()


def _take_suffix(dialog: QFileDialog, kind: str) -> None:
    """Give a name typed without an ending that of the kind chosen."""
    dialog.setDefaultSuffix(kind.rpartition("*")[2].rstrip(")"))


def _open(now: Collection, folder: Path, *, create: bool) -> Collection | None:
    is_here = isinstance(now.where, Path) and folder.resolve() == now.folder.resolve()
    if now.is_open and is_here:
        return None
    return type(now).open(folder, now.clock, create=create)


def _export(collection: Collection, folder: Path, step: Step) -> Exported:
    from growdesk.services import transfer  # noqa: PLC0415

    return transfer.export(collection, folder, step=step)


def _exported(made: Exported) -> str:
    """Say how much was written, and what stayed behind."""
    said = tr("The tables are in {folder}: {plants} plants in {rows} rows.")
    if made.photos:
        said = trn(
            "The tables are in {folder}: {plants} plants in {rows} rows and {photos} "
            "photo that does not tell a place ({megabytes} MB).",
            "The tables are in {folder}: {plants} plants in {rows} rows and {photos} "
            "photos that do not tell a place ({megabytes} MB).",
            made.photos,
        )
    return " ".join(
        [
            said.format(
                folder=made.folder,
                plants=made.plants,
                rows=made.rows,
                photos=made.photos,
                megabytes=fixed(made.photo_bytes / 1e6, 1),
            ),
            *made.notices,
        ]
    )


def _backup(collection: Collection, file: Path, step: Step) -> str:
    from growdesk.services import care_of_files  # noqa: PLC0415

    backed = care_of_files.backup(collection, file, step)
    line = tr("Backup made: {file}").format(file=backed.file)
    more = list(backed.problems)
    if backed.photos:
        more.insert(0, tr("Its photos are whole, and may tell where they were taken."))
    return ". ".join([line, " ".join(more)]) if more else line


def _sheet(collection: Collection, on: date, step: Step) -> Sheet:
    """Read the sheet, and load what shows and prints it where nobody waits."""
    from growdesk.ui.dialogs import pages  # noqa: F401, PLC0415 -- loaded, not used

    return collection.sheet.week(on, step)


def _write_pdf(collection: Collection, on: date, file: Path, step: Step) -> None:
    if not file.parent.is_dir():
        raise StoreError(
            tr("There is no folder {parent}, so the sheet was not saved.").format(
                parent=file.parent
            ),
            tr("Choose a folder that is there."),
        )
    from growdesk.ui.printing.sheet_pdf import write_pdf  # noqa: PLC0415

    write_pdf(collection.sheet.week(on, step), file, step=step)
