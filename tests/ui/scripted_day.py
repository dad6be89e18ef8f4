"""A watering day as a grower has it in the window, step by step, to be measured.

Each step does what a hand does and returns at once; who runs it waits until the window
has come to rest, and goes on to the next.
"""

from __future__ import annotations

from datetime import date
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QApplication, QDialog

from growdesk.services import calendar_file
from growdesk.ui.charts.asking import Wanted, Which
from growdesk.ui.dialogs.look import LookDialog
from growdesk.ui.dialogs.take_in import TakeInDialog
from growdesk.ui.dialogs.year import YearDialog
from growdesk.ui.take_in import TakeIn
from growdesk.ui.year_prints import YearPrints

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from growdesk.services.long_work import Step
    from growdesk.ui.window import Window

    Steps = dict[str, Callable[[], object]]

ON = date(2026, 11, 25)
_PLANTS = 5
_ROWS_TAKEN_IN = 2_000


class ScriptedDay:
    """The steps of a day in one window, which writes into one folder."""

    def __init__(self, window: Window, into: Path) -> None:
        self._window = window
        self._into = into
        self._table = into / "plants.csv"
        rows = (
            f"N{n},Cattleya intermedia,Shelf {n % 9}\n" for n in range(_ROWS_TAKEN_IN)
        )
        self._table.write_text("tag,name,place\n" + "".join(rows))

    def steps(self) -> Steps:
        """Give each step by its name, in the order of the day."""
        return {
            **self._round(),
            **self._finding(),
            **self._faces(),
            **self._mixing(),
            **self._charts(),
            **self._dialogs(),
            **self._paper(),
            **self._files(),
            **self._table_taken_in(),
        }

    def _round(self) -> Steps:
        """Go from plant to plant: look at it, tick it, take it back."""
        press = self._press
        steps: Steps = {}
        for number in range(1, _PLANTS + 1):
            steps[f"plant {number}"] = partial(self._go_to, number)
            steps[f"tick {number}"] = press("tick")
            if number in {2, 4}:
                steps[f"look {number}"] = press("look")
                steps[f"look {number} saved"] = self._save_look
        steps |= {"undo": press("undo"), "undo again": press("undo")}
        steps |= {"redo": press("redo"), "undo once more": press("undo")}
        steps |= {"day before": press("previous-day"), "today": press("today")}
        return steps

    def _finding(self) -> Steps:
        filled = self._window.day_list.filter
        typed = ("c", "ca", "cat", "")
        return {f"find “{each}”": partial(filled.setText, each) for each in typed}

    def _faces(self) -> Steps:
        window, press = self._window, self._press
        pane = window.roster.pane
        back = window.faces.show_day
        return {
            "week": press("week"),
            "back from the week": back,
            "collection": press("collection"),
            "sorted": lambda: pane.sort_by(pane.model.columns[1].key),
            "sorted by another": lambda: pane.sort_by(pane.model.columns[-1].key),
            "back from the collection": back,
            "calendar": press("calendar"),
            "back from the calendar": back,
            "day's sum": press("day-summary"),
            "back from the sum": back,
        }

    def _mixing(self) -> Steps:
        """Choose another water and back, and ask the quick mix key by key."""
        mixing = self._window.mixing
        quick = mixing.quick
        product = quick.products[0].analysis
        steps: Steps = {
            "other water": partial(self._choose_water, 1),
            "first water": partial(self._choose_water, 0),
            "quick mix": self._press("quick-mix"),
        }
        texts = {"analysis": product, "strength": quick.target, "volume": quick.volume}
        said = {"analysis": "20-20-20", "strength": "150 ppm N", "volume": "5 L"}
        for what, edit in texts.items():
            for end in range(1, len(said[what]) + 1):
                typed = said[what][:end]
                steps[f"{what} “{typed}”"] = partial(edit.setText, typed)
        return steps

    def _charts(self) -> Steps:
        window, desk = self._window, self._window.desk
        areas, tabs = window.detail._areas, window.detail.tabs
        return {
            "chart, first": lambda: desk.show_chart(
                Wanted(Which.PLANT, window.day_list.chosen or 1, ON)
            ),
            "chart in sight": lambda: tabs.setCurrentWidget(areas[-1]),
            "chart of the next": partial(self._go_to, 1),
            "photos in sight": lambda: tabs.setCurrentWidget(areas[0]),
            "timeline in sight": lambda: tabs.setCurrentIndex(0),
        }

    def _dialogs(self) -> Steps:
        steps: Steps = {}
        for key in ("kinds", "hindsight", "who-blooms", "meter", "places", "waters"):
            steps[key] = self._press(key)
            steps[f"{key} closed"] = _close_all
        return steps

    def _paper(self) -> Steps:
        files, into = self._window.files, self._into
        return {
            "sheet PDF": lambda: files.save_sheet_to(into / "sheet.pdf"),
            "preview of the sheet": files.preview_sheet,
            "preview closed": _close_all,
            "year PDF": partial(self._year, preview=False),
            "year preview": partial(self._year, preview=True),
            "year closed": _close_all,
        }

    def _files(self) -> Steps:
        window, files, into = self._window, self._window.files, self._into
        folder = window.desk.collection.folder
        pictures = sorted((folder / "photos").glob("*/*"))[:40]
        return {
            "export": lambda: files.export_to(into / "tables"),
            "backup": lambda: files.backup_to(into / "backup.zip"),
            "photos": lambda: window.photos.take(window.day_list.chosen or 1, pictures),
            "photos closed": _close_all,
            "calendar file": lambda: files.save_calendar_to(
                self._saved_jobs, into / "jobs.ics"
            ),
        }

    def _table_taken_in(self) -> Steps:
        window = self._window

        def dialog() -> TakeInDialog:
            return window.findChildren(TakeInDialog)[0]

        def take() -> None:
            dialog().take_button.click()

        return {
            "table, survey": lambda: TakeIn(window.desk, window).read_first(
                self._table
            ),
            "table, trial": lambda: dialog().try_it(),
            "table, taken": take,
            "table, undone": self._press("undo"),
        }

    def _press(self, key: str) -> Callable[[], object]:
        return self._window.commands[key].trigger

    def _go_to(self, number: int) -> None:
        lines = self._window.day_list.model.lines
        self._window.day_list.go_to(lines[number % len(lines)].plant_id)

    def _save_look(self) -> None:
        for dialog in self._window.findChildren(LookDialog):
            if dialog.isVisible():
                dialog.save_button.click()

    def _choose_water(self, row: int) -> None:
        water = self._window.mixing.water
        water.setCurrentIndex(min(row, water.count() - 1))
        water.activated.emit(water.currentIndex())

    def _saved_jobs(self, file: Path, step: Step) -> str:
        collection = self._window.desk.collection
        return str(calendar_file.save(collection, file, step=step))

    def _year(self, *, preview: bool) -> None:
        window = self._window
        prints = YearPrints(window.desk, window)
        dialog = YearDialog(window, window.desk.today)
        within = dialog.draft()
        if preview:
            prints._chosen(dialog, within)
        else:
            prints.save_to(dialog, within, self._into / "year.pdf")


def _close_all() -> None:
    for each in QApplication.topLevelWidgets():
        if isinstance(each, QDialog) and each.isVisible():
            each.close()
