"""Say which page of the handbook belongs to what is in sight, and ask for it.

A dialog asks the window that it was opened from; whoever shows pages listens there.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QObject, Qt, Signal

if TYPE_CHECKING:
    from collections.abc import Mapping

    from PySide6.QtWidgets import QWidget

PAGES: Final[Mapping[str, str]] = {
    "AwayDialog": "away",
    "BackupLookDialog": "restoring",
    "BackupsDialog": "restoring",
    "BenchDialog": "places",
    "BesideDialog": "photos",
    "BinDialog": "undo",
    "BloomDialog": "blooms",
    "BringBackDialog": "restoring",
    "CareDialog": "watering-day",
    "ChangeManyDialog": "collection",
    "ColumnsDialog": "collection",
    "DamagedDialog": "damaged",
    "DivideDialog": "plants",
    "EmptyBinDialog": "undo",
    "EntriesDialog": "shelf",
    "EntryDialog": "shelf",
    "FaultDialog": "privacy",
    "FeedUsedDialog": "shelf",
    "FoundDialog": "damaged",
    "HindsightDialog": "hindsight",
    "HistoryDialog": "undo",
    "KindsDialog": "plants",
    "LeaveDialog": "plants",
    "LoggerDialog": "places",
    "LookDialog": "looks",
    "MarksDialog": "hindsight",
    "MeasuresDialog": "mixing",
    "MeterCourseDialog": "mixing",
    "MeterDialog": "mixing",
    "MeterReadingsDialog": "mixing",
    "MixChartDialog": "mixing",
    "MoveDialog": "plants",
    "NightDialog": "weather",
    "OverruleDialog": "hindsight",
    "PagesPreview": "watering-day",
    "PhotoDaysDialog": "photos",
    "PhotoDialog": "photos",
    "PlaceYearDialog": "places",
    "PlacesDialog": "places",
    "PlantDialog": "plants",
    "PreferencesDialog": "reading",
    "RainDialog": "weather",
    "ReadingDialog": "places",
    "RecipesDialog": "mixing",
    "ReportDialog": "privacy",
    "RulesDialog": "rules",
    "ServerDialog": "two-computers",
    "SettingsDialog": "hindsight",
    "SheetPreview": "watering-day",
    "ShelfDialog": "shelf",
    "ShortcutsDialog": "reading",
    "StocksDialog": "mixing",
    "TagsDialog": "collection",
    "TakeInDialog": "in-and-out",
    "TinsDialog": "shelf",
    "UndoOthersDialog": "on-a-server",
    "ViewNameDialog": "collection",
    "WalkChoiceDialog": "looks",
    "WalkDialog": "looks",
    "WatersDialog": "waters",
    "WhoBloomsDialog": "blooms",
    "WordsDialog": "words",
    "YearDialog": "year",
}
"""The page that belongs to a dialog, by its class; any other opens the contents."""

FACES: Final[Mapping[str, str]] = {
    "calendar": "calendar",
    "collection": "collection",
    "day-summary": "watering-day",
    "week": "week",
}
"""The page that belongs to a face of the window; the day opens the page last read."""


class HandbookAsking(QObject):
    """Carries the wish for a page from a dialog to whoever shows it."""

    wanted = Signal(str)


def ask(dialog: QWidget) -> bool:
    """Ask for the page of a dialog; tell whether anybody was there to be asked."""
    only = Qt.FindChildOption.FindDirectChildrenOnly
    above = dialog.parentWidget()
    while above is not None:
        asking = above.findChild(HandbookAsking, options=only)
        if asking is not None:
            asking.wanted.emit(PAGES.get(type(dialog).__name__, ""))
            return True
        above = above.parentWidget()
    return False
