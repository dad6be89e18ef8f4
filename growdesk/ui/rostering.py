"""Keep the table of all plants as a face of the first pane: read it, and keep views.

It is read where it is in sight, after each day that arrives; the verdicts are those of
the day shown and are judged no second time.
"""

from __future__ import annotations

from functools import cached_property, partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QGuiApplication

from growdesk.domain.speech import mark, tr
from growdesk.services.values import Changed
from growdesk.ui import actions, theme, words
from growdesk.ui.faces import DAY, Face
from growdesk.ui.tasks import Job

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence
    from datetime import date
    from pathlib import Path

    from PySide6.QtWidgets import QWidget

    from growdesk.services.collection import Collection
    from growdesk.services.long_work import Step
    from growdesk.services.roster_values import RosterLine, SavedView
    from growdesk.services.values import Written
    from growdesk.ui.desk import Desk
    from growdesk.ui.dialogs.columns import ColumnsDialog, Laid
    from growdesk.ui.dialogs.view_name import ViewNameDialog
    from growdesk.ui.faces import Faces, Parts
    from growdesk.ui.files import Files
    from growdesk.ui.panes.roster import RosterPane
    from growdesk.ui.roster_columns import Column, Entry

COLLECTION = "collection"
_NOT_OWN = mark("This view came with growdesk; keep it under a name of yours first.")


class Rostering(QObject):
    """The table of all plants of one window."""

    arrived = Signal()
    made = Signal(object)

    def __init__(
        self,
        desk: Desk,
        parts: Parts,
        faces: Faces,
        files: Callable[[], Files],
        window: QWidget,
    ) -> None:
        super().__init__(desk)
        self._desk = desk
        self._parts = parts
        self._faces = faces
        self._files = files
        self._window = window
        self._is_old = True
        self._told = Changed.NOTHING
        self._noted: Mapping[int, str] | None = None
        self._wanted_view: int | None = None
        self._next: int | None = None
        faces.add(COLLECTION, self._face, needs_plants=False)
        faces.turned.connect(self._turned)
        desk.bus.changed.connect(self._changed)
        desk.day_arrived.connect(self._day_arrived)
        desk.switched.connect(self._switched)

    @cached_property
    def pane(self) -> RosterPane:
        """Give the table's pane, made when it is first wanted."""
        from growdesk.ui.panes.roster import RosterPane  # noqa: PLC0415 -- when wanted

        pane = RosterPane()
        pane.plant_chosen.connect(self._desk.show_plant)
        pane.told.connect(self._desk.told)
        theme.current().turned.connect(pane.refresh_colours)
        if self._next is not None:
            pane.choose_next(self._next)
        self.made.emit(pane)
        return pane

    def _face(self) -> Face:
        pane = self.pane
        return Face(
            pane,
            pane.focus_table,
            pane.focus_find,
            tr(actions.COLLECTION_HINT),
            pane.table.wanted_px,
            self._shown,
            picked=pane.picked,
            chosen=lambda: pane.chosen,
        )

    @property
    def _is_made(self) -> bool:
        return "pane" in self.__dict__

    def choose_next(self, plant_id: int) -> None:
        """Put the cursor on a plant when the plants are shown next."""
        self._next = plant_id
        if self._is_made:
            self.pane.choose_next(plant_id)

    def go_to(self, plant_id: int) -> None:
        """Put the cursor on a plant, where it is shown."""
        if self._is_made:
            self.pane.go_to(plant_id)

    @property
    def is_shown(self) -> bool:
        """Tell whether the collection stands in place of the day's list."""
        return self._faces.shown == COLLECTION

    @property
    def has_plants(self) -> bool:
        """Tell whether plants stand here in sight, be they all gone from the round."""
        return self.is_shown and bool(self.pane.model.lines)

    # -- what commands ask ----------------------------------------------------------

    def turn(self) -> None:
        """Show the collection, or the day again."""
        self._faces.turn(COLLECTION)

    def choose_columns(self) -> None:
        """Open the columns of the table."""
        from growdesk.ui.dialogs.columns import (  # noqa: PLC0415 -- when wanted
            ColumnsDialog,
            Laid,
        )

        self._faces.go(COLLECTION)
        now = self.pane.arrangement
        dialog = ColumnsDialog(self._window, Laid(now.columns, *now.order))
        dialog.saved.connect(partial(self._lay, dialog))
        dialog.open()

    def sort_here(self) -> None:
        """Sort by the column the cursor is in, or turn it round."""
        self.pane.sort_by(self.pane.table.key_here())

    def keep_view(self) -> None:
        """Keep what is shown as a view."""
        from growdesk.ui.dialogs.view_name import ViewNameDialog  # noqa: PLC0415

        self._faces.go(COLLECTION)
        base = self.pane.arrangement.base
        own = {each.draft.name: each for each in self.pane.views if _is_own(each)}
        name = base.draft.name if _is_own(base) else ""
        dialog = ViewNameDialog(self._window, tr("Keep this view"), name, own)
        dialog.saved.connect(partial(self._write_view, dialog, own))
        dialog.open()

    def rename_view(self) -> None:
        """Give the view shown another name."""
        from growdesk.ui.dialogs.view_name import ViewNameDialog  # noqa: PLC0415

        self._faces.go(COLLECTION)
        base = self.pane.arrangement.base
        if base.view_id is None:
            self._desk.told.emit(tr(_NOT_OWN))
            return
        title = tr("Another name for {name}").format(name=base.draft.name)
        dialog = ViewNameDialog(self._window, title, base.draft.name, ())
        dialog.saved.connect(partial(self._rename, dialog, base.view_id))
        dialog.open()

    def remove_view(self) -> None:
        """Forget the view shown; undo brings it back."""
        self._faces.go(COLLECTION)
        base = self.pane.arrangement.base
        if base.view_id is None:
            self._desk.told.emit(tr("This view came with growdesk and stays."))
            return
        self._desk.write(partial(self._now.views.remove, base.view_id))

    def copy(self) -> None:
        """Copy the selected rows for a spreadsheet, with their headings."""
        from growdesk.ui import roster_saving  # noqa: PLC0415 -- when wanted

        rows = self.pane.picked_entries()
        if not rows:
            self._desk.told.emit(tr("No plant is selected."))
            return
        text = roster_saving.as_text(self.pane.model.columns, rows)
        QGuiApplication.clipboard().setText(text)
        self._desk.told.emit(
            tr("Copied {plants}, as the columns are.").format(
                plants=words.plants(len(rows))
            )
        )

    def save_table(self) -> None:
        """Choose a name and save the table as it is shown."""
        self._faces.go(COLLECTION)
        model = self.pane.model
        name = f"collection-{self._desk.on.isoformat()}.csv"
        save = partial(_save, model.columns, model.rows)
        self._files().save_table(name, save)

    # -- reading --------------------------------------------------------------------

    @property
    def _now(self) -> Collection:
        return self._desk.collection

    def _read(self) -> None:
        work = partial(_read, self._now, self._desk.on)
        job = Job(work, self._arrived, self._desk.fail, "roster")
        self._desk.tasks.ask(self, job)

    def _arrived(
        self, found: tuple[date, tuple[RosterLine, ...], tuple[SavedView, ...]]
    ) -> None:
        on, lines, views = found
        view = self._desk.view
        shown = () if view is None or view.on != on else view.lines
        self._is_old = False
        self.pane.show_plants(lines, {e.plant_id: e.verdict for e in shown}, on)
        self.pane.show_views(views)
        wanted = next((v for v in views if v.view_id == self._wanted_view), None)
        if self._wanted_view is not None and wanted is not None:
            self.pane.take(wanted)
        self._wanted_view = None
        self.arrived.emit()
        if self.is_shown:
            self._desk.show_plant(self.pane.chosen)
        if self._noted is None:
            job = Job(
                self._now.roster.noted, self._know_notes, self._desk.fail, "noted"
            )
            self._desk.tasks.ask(self, job)

    def _know_notes(self, noted: Mapping[int, str]) -> None:
        self._noted = noted
        self.pane.know_notes(noted)

    def _shown(self) -> None:
        self.pane.table.fit()
        chosen = self._parts.day_list.chosen
        if self._is_old:
            if chosen is not None:
                self.pane.choose_next(chosen)
            self._read()
        else:
            self.pane.go_to(chosen)
            self._desk.show_plant(self.pane.chosen)

    def _turned(self, key: str) -> None:
        """Let the day's list go to the plant that was looked at here."""
        if key == COLLECTION or self._is_old:
            return
        day_list, chosen = self._parts.day_list, self.pane.chosen
        if chosen is not None and day_list.model.row_of(chosen) >= 0:
            day_list.go_to(chosen)
        if key == DAY:
            self._desk.show_plant(day_list.chosen)

    def _changed(self, changed: Changed) -> None:
        self._told |= changed

    def _day_arrived(self) -> None:
        """Read anew; notes of looks only where a change told is not of other things."""
        told, self._told = self._told, Changed.NOTHING
        if told is Changed.NOTHING or told & Changed.LOOKS:
            self._noted = None
        self._is_old = True
        if self.is_shown:
            self._read()

    def _switched(self) -> None:
        self._is_old = True
        self._noted = None
        if self._is_made:
            self.pane.know_notes({})
            self.pane.show_plants((), {}, self._desk.today)

    # -- writing --------------------------------------------------------------------

    def _lay(self, dialog: ColumnsDialog, laid: Laid) -> None:
        self.pane.lay_out_as(laid.columns, laid.order, downwards=laid.downwards)
        self._faces.make_room()
        dialog.close_saved()

    def _write_view(
        self, dialog: ViewNameDialog, own: dict[str, SavedView], name: str
    ) -> None:
        draft = self.pane.arrangement.as_kept(name)
        there = own.get(name)
        if there is not None and there.view_id is not None:
            work = partial(self._now.views.change, there.view_id, draft)
        else:
            work = partial(self._now.views.add, draft)
        self._desk.write(work, partial(self._kept, dialog), dialog.refused)

    def _kept(self, dialog: ViewNameDialog, done: Written) -> None:
        dialog.close_saved()
        self._wanted_view = done.ids[0]

    def _rename(self, dialog: ViewNameDialog, view_id: int, name: str) -> None:
        work = partial(self._now.views.rename, view_id, name)
        self._desk.write(work, partial(self._kept, dialog), dialog.refused)


def _is_own(view: SavedView) -> bool:
    return view.view_id is not None


def _read(
    collection: Collection, on: date
) -> tuple[date, tuple[RosterLine, ...], tuple[SavedView, ...]]:
    return on, collection.roster.read(on), collection.views.all()


def _save(
    columns: Sequence[Column], rows: Sequence[Entry], file: Path, step: Step
) -> None:
    from growdesk.ui import roster_saving  # noqa: PLC0415 -- when wanted

    roster_saving.save(file, columns, rows, step)
