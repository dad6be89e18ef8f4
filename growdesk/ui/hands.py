"""What commands and panes of one window reach for, made when it is first asked for.

Forms bring their dialogs with them, so each is loaded here and nowhere else, and a
window that only shows its list loads none.
"""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QMainWindow

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from PySide6.QtGui import QAction

    from growdesk.ui.away_prints import AwayPrints
    from growdesk.ui.backup_forms import BackupForms
    from growdesk.ui.bloom_forms import BloomForms
    from growdesk.ui.calendaring import Calendaring
    from growdesk.ui.care_forms import CareForms
    from growdesk.ui.checking import CheckForms
    from growdesk.ui.deeds import Deeds
    from growdesk.ui.desk import Desk
    from growdesk.ui.faces import Faces
    from growdesk.ui.files import Files
    from growdesk.ui.first_paint import FirstPaint
    from growdesk.ui.folding import Folding
    from growdesk.ui.forms import Forms
    from growdesk.ui.handbook_reading import HandbookReading
    from growdesk.ui.hindsight import HindsightForms
    from growdesk.ui.history_forms import HistoryForms
    from growdesk.ui.keeping_backups import KeepingBackups
    from growdesk.ui.kind_forms import KindForms
    from growdesk.ui.logger_forms import LoggerForms
    from growdesk.ui.look_lists import LookLists
    from growdesk.ui.looks_asking import LooksAsking
    from growdesk.ui.overrules import Overrules
    from growdesk.ui.panes.day_list import DayListPane
    from growdesk.ui.panes.detail import DetailPane
    from growdesk.ui.panes.mixing import MixingPane
    from growdesk.ui.photo_forms import PhotoForms
    from growdesk.ui.place_beside import PlaceBeside
    from growdesk.ui.plant_forms import PlantForms
    from growdesk.ui.preference_forms import PreferenceForms
    from growdesk.ui.prints import TagPrints
    from growdesk.ui.report_forms import ReportForms
    from growdesk.ui.rostering import Rostering
    from growdesk.ui.rule_reading import RuleReading
    from growdesk.ui.shelf_forms import ShelfForms
    from growdesk.ui.shortcut_prints import ShortcutPrints
    from growdesk.ui.summing import Summing
    from growdesk.ui.take_in import TakeIn
    from growdesk.ui.theme import Theme
    from growdesk.ui.walk import Walk
    from growdesk.ui.weekly import Weekly
    from growdesk.ui.widgets.head import DayHead
    from growdesk.ui.widgets.strip import Strip
    from growdesk.ui.widgets.thumbs import Thumbs
    from growdesk.ui.year_prints import YearPrints

# ruff: noqa: PLC0415, PLW0108 -- loading late is what this module is for


class Hands(QMainWindow):
    """A window's parts, and its forms as they come to be wanted."""

    anew_wanted = Signal(str)
    detail_made = Signal(object)
    mixing_made = Signal(object)

    desk: Desk
    deeds: Deeds
    looks: LooksAsking
    thumbs: Thumbs
    head: DayHead
    day_list: DayListPane
    detail_place: PlaceBeside
    mixing_place: PlaceBeside
    folding: Folding
    faces: Faces
    weekly: Weekly
    calendaring: Calendaring
    roster: Rostering
    summing: Summing
    first_paint: FirstPaint
    strip: Strip
    theme: Theme
    keeping: KeepingBackups
    commands: Mapping[str, QAction]
    log_file: Path | None

    # -- panes ----------------------------------------------------------------------

    @cached_property
    def detail(self) -> DetailPane:
        """Give the pane of one plant."""
        from growdesk.ui.panes.detail import DetailPane

        made = DetailPane(self.thumbs)
        self.detail_place.fill(made)
        self.detail_made.emit(made)
        return made

    @cached_property
    def mixing(self) -> MixingPane:
        """Give the pane of the jugs, where Tab goes after that of the plant."""
        from growdesk.ui.panes.mixing import MixingPane

        _first = self.detail
        made = MixingPane()
        self.mixing_place.fill(made)
        self.mixing_made.emit(made)
        return made

    def make_pane(self) -> bool:
        """Make a pane beside the list where one does not stand yet; tell if so."""
        detail, mixing = self.panes_made
        if detail is None:
            _detail = self.detail
        elif mixing is None:
            _mixing = self.mixing
        return mixing is None

    @property
    def panes_made(self) -> tuple[DetailPane | None, MixingPane | None]:
        """Give the two panes beside the list, each where it stands already."""
        made = vars(self)
        return made.get("detail"), made.get("mixing")

    # -- plants ---------------------------------------------------------------------

    @cached_property
    def forms(self) -> Forms:
        """Give the forms of plants and looks."""
        from growdesk.ui.forms import Forms

        made = Forms(self.desk, self)
        made.plant_added.connect(self.day_list.choose_next)
        made.plant_added.connect(self.roster.choose_next)
        made.place_wanted.connect(lambda form: self.shelf.places(form))
        return made

    @cached_property
    def plants(self) -> PlantForms:
        """Give the forms of many plants, of moving, dividing and leaving."""
        from growdesk.ui.plant_forms import PlantForms

        return PlantForms(self.desk, self)

    @cached_property
    def photos(self) -> PhotoForms:
        """Give the forms of photos."""
        from growdesk.ui.photo_forms import PhotoForms

        return PhotoForms(self.desk, self, self.thumbs, self.forms)

    @cached_property
    def care(self) -> CareForms:
        """Give the forms of care."""
        from growdesk.ui.care_forms import CareForms

        return CareForms(self.desk, self)

    @cached_property
    def blooms(self) -> BloomForms:
        """Give the forms of blooms."""
        from growdesk.ui.bloom_forms import BloomForms

        made = BloomForms(self.desk, self)
        made.save_wanted.connect(self.files.save_chart)
        return made

    @cached_property
    def hindsight(self) -> HindsightForms:
        """Give the forms of hindsight."""
        from growdesk.ui.hindsight import HindsightForms

        made = HindsightForms(self.desk, self)
        made.rule_wanted.connect(self.rules.show)
        made.house_wanted.connect(self.shelf.settings)
        return made

    @cached_property
    def overrules(self) -> Overrules:
        """Give the form that overrules a verdict."""
        from growdesk.ui.overrules import Overrules

        return Overrules(self.desk, self)

    @cached_property
    def walk(self) -> Walk:
        """Give the walks from plant to plant."""
        from growdesk.ui.walk import Walk

        return Walk(self.desk, self, self.thumbs)

    # -- shelf and rules --------------------------------------------------------------

    @cached_property
    def shelf(self) -> ShelfForms:
        """Give the forms of all that is no plant."""
        from growdesk.ui.shelf_forms import ShelfForms

        made = ShelfForms(self.desk, self)
        for each in (made.years, made.stocktaking, made.recipe_forms, made.meter):
            each.save_wanted.connect(self.files.save_chart)
        return made

    @cached_property
    def rules(self) -> RuleReading:
        """Give the pages of the rules."""
        from growdesk.ui.rule_reading import RuleReading

        return RuleReading(self.desk, self, self.shelf)

    @cached_property
    def kinds(self) -> KindForms:
        """Give the kinds and their corrections."""
        from growdesk.ui.kind_forms import KindForms

        return KindForms(self.desk, self)

    @cached_property
    def logger(self) -> LoggerForms:
        """Give what takes a logger's file in."""
        from growdesk.ui.logger_forms import LoggerForms

        made = LoggerForms(self.desk, self)
        made.places_wanted.connect(self.shelf.places)
        return made

    # -- files ------------------------------------------------------------------------

    @cached_property
    def files(self) -> Files:
        """Give the sheets, exports and collections on disk."""
        from growdesk.ui.files import Files

        return Files(self.desk, self)

    @cached_property
    def take_in(self) -> TakeIn:
        """Give what takes tables in."""
        from growdesk.ui.take_in import TakeIn

        return TakeIn(self.desk, self)

    @cached_property
    def past(self) -> HistoryForms:
        """Give history, undo and the bin."""
        from growdesk.ui.history_forms import HistoryForms
        from growdesk.ui.moved_to import MovedTo

        made = HistoryForms(self.desk, self)
        moved = MovedTo(self.desk, self.faces, self.day_list, self.roster)
        made.moved.connect(moved.take)
        return made

    @cached_property
    def backups(self) -> BackupForms:
        """Give the backups kept and brought back."""
        from growdesk.ui.backup_forms import BackupForms

        return BackupForms(self.desk, self)

    @cached_property
    def checks(self) -> CheckForms:
        """Give the looks through a collection's file."""
        from growdesk.ui.checking import CheckForms

        return CheckForms(self.desk, self, lambda: self.backups.open())

    @cached_property
    def report(self) -> ReportForms:
        """Give the report of a fault."""
        from growdesk.ui.report_forms import ReportForms

        return ReportForms(self.desk, self, self.files)

    # -- paper ------------------------------------------------------------------------

    @cached_property
    def look_lists(self) -> LookLists:
        """Give the look lists to print."""
        from growdesk.ui.look_lists import LookLists

        return LookLists(self.desk, self)

    @cached_property
    def years(self) -> YearPrints:
        """Give the year in review."""
        from growdesk.ui.year_prints import YearPrints

        return YearPrints(self.desk, self)

    @cached_property
    def away(self) -> AwayPrints:
        """Give the away sheets."""
        from growdesk.ui.away_prints import AwayPrints

        return AwayPrints(self.desk, self)

    @cached_property
    def tags(self) -> TagPrints:
        """Give the tags to print."""
        from growdesk.ui.prints import TagPrints

        return TagPrints(self.desk, self, self.faces)

    @cached_property
    def shortcuts(self) -> ShortcutPrints:
        """Give the table of keys."""
        from growdesk.ui.shortcut_prints import ShortcutPrints

        return ShortcutPrints(self.desk, self)

    # -- the window itself ------------------------------------------------------------

    @cached_property
    def preferences(self) -> PreferenceForms:
        """Give the preferences."""
        from growdesk.ui.preference_forms import PreferenceForms

        made = PreferenceForms(self, self.commands, self.desk)
        made.backup_place.chosen.connect(self.keeping.ask)
        made.anew_wanted.connect(self.anew_wanted)
        return made

    @cached_property
    def handbook(self) -> HandbookReading:
        """Give the handbook."""
        from growdesk.ui.handbook_reading import HandbookReading

        return HandbookReading(self, self.commands, self.faces, self.rules)
