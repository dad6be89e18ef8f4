"""Open the shelf, its counts and entries and its chart, and write what is entered."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from msgspec.structs import replace
from PySide6.QtCore import Signal
from shiboken6 import isValid

from growdesk.domain.stocktaking import Good, Sort, What
from growdesk.ui.chart_over import open_chart
from growdesk.ui.charts.asking import Wanted, Which
from growdesk.ui.dialogs.feed_used import FeedUsedDialog
from growdesk.ui.dialogs.shelf import ShelfDialog
from growdesk.ui.dialogs.shelf_entries import EntriesDialog
from growdesk.ui.dialogs.shelf_entry import EntryDialog, EntryStart
from growdesk.ui.field_words import plain_line
from growdesk.ui.thing_forms import ThingForms

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtWidgets import QWidget

    from growdesk.services.stocktaking_values import (
        EntryDraft,
        EntryView,
        ShelfRow,
        ShelfView,
    )
    from growdesk.services.values import Written
    from growdesk.ui.dialogs.tin import TinsDialog


class StocktakingForms(ThingForms):
    """What is on hand in one window's collection."""

    save_wanted = Signal(object, object, object)

    def open(self) -> None:
        """Open what is on the shelf."""
        self._desk.read(self._now.stocktaking.view, self._open)

    def _open(self, view: ShelfView) -> None:
        dialog = ShelfDialog(self._window)
        dialog.show_view(view)
        dialog.entry_wanted.connect(partial(self._enter, dialog))
        dialog.entries_wanted.connect(partial(self._open_entries, dialog))
        dialog.used_wanted.connect(partial(self.used, dialog))
        dialog.currency_given.connect(partial(self._set_currency, dialog))
        dialog.open()

    def used(self, parent: QWidget) -> None:
        """Open the feed used by month, over a dialog."""
        wanted = Wanted(Which.USED, 0, self._desk.today)
        dialog = FeedUsedDialog(parent, wanted)
        open_chart(dialog, self._desk, self.save_wanted)

    # -- tins -----------------------------------------------------------------------

    def attend_tins(self, dialog: TinsDialog) -> None:
        """Tell a form of tins what is on hand, and count where it asks."""
        dialog.count_wanted.connect(partial(self._count_tin, dialog))
        self.tell_tins(dialog)

    def tell_tins(self, dialog: TinsDialog) -> None:
        """Tell a form of tins what is on hand."""

        def show(told: dict[int, tuple[str, ...]]) -> None:
            if isValid(dialog):
                dialog.show_told(told)

        if isValid(dialog):
            self._desk.read(self._now.stocktaking.of_tins, show)

    def _count_tin(self, dialog: TinsDialog, tin_id: int) -> None:
        name, unit = dialog.called(tin_id)
        good = Good(Sort.TIN, tin_id)
        start = EntryStart(good, name, unit, What.COUNTED, self._desk.today)

        def kept(done: Written) -> None:
            if isValid(dialog):
                dialog.say(done.title)
                self.tell_tins(dialog)

        self._ask_entry(dialog, start, kept)

    # -- entries --------------------------------------------------------------------

    def _enter(self, shelf: ShelfDialog, row: ShelfRow, what: What) -> None:
        start = EntryStart(row.good, row.name, row.unit, what, self._desk.today)
        self._ask_entry(shelf, start, partial(self._again, shelf, row.good))

    def _ask_entry(
        self, parent: QWidget, start: EntryStart, kept: Callable[[Written], object]
    ) -> None:
        """Open a new entry; a count after the round, where it is ticked by now."""

        def open_it(done: bool) -> None:  # noqa: FBT001 -- an answer
            if isValid(parent):
                self._open_entry(parent, replace(start, round_done=done), kept)

        work = partial(self._now.stocktaking.is_round_done, start.good)
        self._desk.read(work, open_it)

    def _open_entry(
        self, parent: QWidget, start: EntryStart, kept: Callable[[Written], object]
    ) -> None:
        form = EntryDialog(parent, start)
        self._attend(form, "shelf", start.good, start.what)

        def close(done: Written) -> None:
            form.close_saved()
            kept(done)

        def save(draft: EntryDraft) -> None:
            work = partial(self._now.stocktaking.write, draft)
            self._desk.write(work, close, form.refused)

        form.saved.connect(save)
        form.open()

    def _open_entries(self, shelf: ShelfDialog, row: ShelfRow) -> None:
        dialog = EntriesDialog(shelf, row.name, row.unit)
        dialog.change_wanted.connect(partial(self._change, shelf, dialog, row))
        dialog.remove_wanted.connect(partial(self._remove_entry, shelf, dialog, row))
        self._show_entries(dialog, row.good)
        dialog.open()

    def _show_entries(self, dialog: EntriesDialog, good: Good) -> None:
        def show(views: tuple[EntryView, ...]) -> None:
            if isValid(dialog):
                dialog.show_entries(views)

        self._desk.read(partial(self._now.stocktaking.entries, good), show)

    def _change(
        self, shelf: ShelfDialog, dialog: EntriesDialog, row: ShelfRow, view: EntryView
    ) -> None:
        entry = view.draft
        start = EntryStart(row.good, row.name, row.unit, entry.what, entry.on, entry)
        form = EntryDialog(dialog, start)
        self._attend(form, "shelf-entry", view.entry_id)

        def kept(done: Written) -> None:
            form.close_saved()
            self._told(shelf, dialog, row.good, done)

        def save(draft: EntryDraft) -> None:
            work = partial(self._now.stocktaking.change, view.entry_id, draft)
            self._desk.write(work, kept, form.refused)

        form.saved.connect(save)
        form.open()

    def _remove_entry(
        self, shelf: ShelfDialog, dialog: EntriesDialog, row: ShelfRow, entry_id: int
    ) -> None:
        self._desk.write(
            partial(self._now.stocktaking.remove, [entry_id]),
            partial(self._told, shelf, dialog, row.good),
            lambda error: dialog.say(plain_line(error)) if isValid(dialog) else None,
        )

    def _told(
        self, shelf: ShelfDialog, dialog: EntriesDialog, good: Good, done: Written
    ) -> None:
        """Say what was written, and show entries and shelf anew."""
        if isValid(dialog):
            dialog.say(done.title)
            self._show_entries(dialog, good)
        self._again(shelf, good, done)

    # -- the shelf ------------------------------------------------------------------

    def _set_currency(self, shelf: ShelfDialog, typed: str) -> None:
        self._desk.write(
            partial(self._now.stocktaking.set_currency, typed),
            partial(self._again, shelf, None),
            lambda error: shelf.say(plain_line(error)) if isValid(shelf) else None,
        )

    def _again(self, shelf: ShelfDialog, good: Good | None, done: Written) -> None:
        """Read the shelf anew and show it, where its dialog is still there."""

        def show(view: ShelfView) -> None:
            if isValid(shelf):
                shelf.show_view(view)
                shelf.say(done.title)
                if good is not None:
                    shelf.choose(good)

        self._desk.read(self._now.stocktaking.view, show)
