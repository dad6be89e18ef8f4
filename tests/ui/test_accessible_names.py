"""Every control that takes the focus has a name, in the window and in each dialog."""

from __future__ import annotations

import re
from datetime import UTC, date, datetime
from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from PySide6.QtGui import QAccessible, QAccessibleInterface
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QComboBox,
    QDialog,
    QLabel,
    QLineEdit,
    QPlainTextEdit,
    QSpinBox,
    QTabWidget,
    QWidget,
)

from growdesk.domain.facts import CareKind, House, Look, Reading, Verdict
from growdesk.domain.growth_stage import Stage
from growdesk.domain.label_layouts import PRESETS
from growdesk.domain.measuring import Tool, ToolKind
from growdesk.domain.night import Expected
from growdesk.domain.recipe import Wanted
from growdesk.domain.server_address import ServerAddress
from growdesk.domain.solubility import Room
from growdesk.domain.speech import tr
from growdesk.domain.stocktaking import What
from growdesk.services import intake_survey, logger_survey
from growdesk.services.backup_look import Compared, Held
from growdesk.services.backup_values import Backable, BackupsView, KeptBackup, Lies, Why
from growdesk.services.bin_values import BinEntry, BinKey, BinSort, BinView
from growdesk.services.bloom_values import BloomDraft
from growdesk.services.care_values import CareDraft
from growdesk.services.check_values import Damage, FullCheck, Mend, Sort
from growdesk.services.handbook import handbook
from growdesk.services.history_values import PastAction, PastAsk, PastPage
from growdesk.services.house_rules import DECLARED
from growdesk.services.measures import MeasuresView
from growdesk.services.nights import NightPlace, NightView
from growdesk.services.photo_values import DayProposal, StagedPhoto
from growdesk.services.rain import OutdoorPlace
from growdesk.services.recipe_values import (
    PartDraft,
    RecipeBoard,
    RecipeDraft,
    RecipeView,
)
from growdesk.services.rule_declaring import said
from growdesk.services.rule_views import rule_views
from growdesk.services.solubilities import solubilities
from growdesk.services.soundness import ONLY_ORDER, UNREADABLE
from growdesk.services.stock_values import StockBench
from growdesk.services.values import PhotoView, PlantDraft, TinDraft, TinView
from growdesk.services.walk_values import AtStop, Stop, Walkable
from growdesk.services.ways_out import ways_out
from growdesk.services.whereabouts import OnServer
from growdesk.ui import actions, backup_words, damage_words, shortcut_table
from growdesk.ui.dialogs import about
from growdesk.ui.dialogs.away import AwayDialog
from growdesk.ui.dialogs.backup_look import BackupLookDialog
from growdesk.ui.dialogs.backups import BackupsDialog, BringBackDialog
from growdesk.ui.dialogs.beside import BesideDialog, Side
from growdesk.ui.dialogs.bin import BinDialog, EmptyBinDialog
from growdesk.ui.dialogs.bloom import BloomDialog, BloomStart
from growdesk.ui.dialogs.care import CareDialog, CareStart
from growdesk.ui.dialogs.change_many import ChangeManyDialog
from growdesk.ui.dialogs.columns import ColumnsDialog, Laid
from growdesk.ui.dialogs.damaged import DamagedDialog
from growdesk.ui.dialogs.divide import DivideDialog, DivideStart
from growdesk.ui.dialogs.fault import FaultDialog, met
from growdesk.ui.dialogs.found import FoundDialog
from growdesk.ui.dialogs.handbook import HandbookDialog
from growdesk.ui.dialogs.history import HistoryDialog
from growdesk.ui.dialogs.leave import LeaveDialog, LeaveStart
from growdesk.ui.dialogs.logger import LoggerDialog
from growdesk.ui.dialogs.look import LookDialog, LookStart
from growdesk.ui.dialogs.measures import MeasuresDialog
from growdesk.ui.dialogs.meter import MeterDialog
from growdesk.ui.dialogs.meter_readings import MeterReadingsDialog
from growdesk.ui.dialogs.move import MoveDialog, MoveStart
from growdesk.ui.dialogs.night import NightDialog
from growdesk.ui.dialogs.overrule import OverruleDialog, OverruleStart
from growdesk.ui.dialogs.pages import PagesPreview
from growdesk.ui.dialogs.photo import PhotoDialog
from growdesk.ui.dialogs.photo_days import PhotoDaysDialog
from growdesk.ui.dialogs.place import PlacesDialog
from growdesk.ui.dialogs.plant import PlantDialog, PlantStart
from growdesk.ui.dialogs.preferences import PreferencesDialog
from growdesk.ui.dialogs.rain import RainDialog
from growdesk.ui.dialogs.reading import ReadingDialog
from growdesk.ui.dialogs.recipe import RecipesDialog
from growdesk.ui.dialogs.report import ReportDialog
from growdesk.ui.dialogs.rule import RulesDialog
from growdesk.ui.dialogs.server import ServerDialog
from growdesk.ui.dialogs.settings import SettingsDialog
from growdesk.ui.dialogs.shelf import ShelfDialog
from growdesk.ui.dialogs.shelf_entries import EntriesDialog
from growdesk.ui.dialogs.shelf_entry import EntryDialog
from growdesk.ui.dialogs.shortcuts import ShortcutsDialog
from growdesk.ui.dialogs.stock import StocksDialog
from growdesk.ui.dialogs.tags import TagsDialog, TagsStart
from growdesk.ui.dialogs.take_in import TakeInDialog
from growdesk.ui.dialogs.tin import TinsDialog
from growdesk.ui.dialogs.undo_others import UndoOthersDialog
from growdesk.ui.dialogs.view_name import ViewNameDialog
from growdesk.ui.dialogs.walk import Shown as WalkShown
from growdesk.ui.dialogs.walk import WalkDialog
from growdesk.ui.dialogs.walk_choice import WalkChoiceDialog
from growdesk.ui.dialogs.water import WatersDialog
from growdesk.ui.dialogs.who_blooms import WhoBloomsDialog
from growdesk.ui.dialogs.words import WordsDialog
from growdesk.ui.dialogs.year import YearDialog
from growdesk.ui.preference_forms import rows
from growdesk.ui.preferences import Regional
from growdesk.ui.tasks import Tasks
from growdesk.ui.widgets.thumbs import Thumbs
from tests.services import logger_files
from tests.ui.driving import settle
from tests.ui.meter_values import meter_start, meter_views
from tests.ui.shelf_values import entry_start, entry_views, shelf_view

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window

ON = date(2026, 5, 20)
STOP = Stop(1, "A1", "Laelia anceps", 1, "Shelf", "top", None, None, is_due=True)


def interfaces(root: QAccessibleInterface) -> Iterator[QAccessibleInterface]:
    """Give all of an accessible tree that can be seen; cells of lists left out."""
    for number in range(root.childCount()):
        child = root.child(number)
        if not child.isValid():
            continue
        state = child.state()
        if state.invisible:
            continue
        yield child
        if child.role() not in {QAccessible.Role.Table, QAccessible.Role.List}:
            yield from interfaces(child)


def nameless(widget: QWidget) -> list[str]:
    """Give what takes the focus and has no name."""
    root = QAccessible.queryAccessibleInterface(widget)
    assert root is not None
    found = []
    for each in interfaces(root):
        if each.state().focusable and not each.text(QAccessible.Text.Name).strip():
            shown = each.object()
            found.append(f"{each.role()} {type(shown).__name__}")
    return found


def unlabelled(widget: QWidget) -> list[str]:
    """Give editors whose own accessible name is not set: a value is no name."""
    kinds = (QComboBox, QLineEdit, QSpinBox, QPlainTextEdit)
    return [
        type(each).__name__
        for kind in kinds
        for each in widget.findChildren(kind)
        if each.isVisible() and not each.accessibleName()
    ]


def make_look(_folder: Path) -> QDialog:
    return LookDialog(None, LookStart(1, "Look at A1", Look(on=ON), look_id=3))


def make_plant(_folder: Path) -> QDialog:
    start = PlantStart(None, PlantDraft("A1", "", ""), (("cattleya", "Cattleya"),), ())
    return PlantDialog(None, start, lambda _name: "")


def make_photo(folder: Path) -> QDialog:
    return PhotoDialog(None, staged_photos(folder), 0, Tasks(), lambda _id: None)


def staged_photos(folder: Path) -> tuple[StagedPhoto, ...]:
    gone = PhotoView(1, None, ON, folder / "a.jpg", None, "the file is missing")
    other = replace(gone, photo_id=2, has_location=True, note="a note")
    return StagedPhoto(gone, Stage.IN_FLOWER), StagedPhoto(other, None)


def make_beside(folder: Path) -> QDialog:
    lanes = Tasks(), lambda _id: None, Thumbs(Tasks(), lambda _id: None)
    left, right = (Side(n, staged_photos(folder), *lanes) for n in ("Left", "Right"))
    return BesideDialog(None, (left, right), (0, 1), "A1")


def make_photo_days(folder: Path) -> QDialog:
    first = staged_photos(folder)[0].photo
    found = (DayProposal(first, "a.jpg", ON), DayProposal(first, "b.jpg", None))
    return PhotoDaysDialog(None, "A1", found)


def make_logger(folder: Path) -> QDialog:
    path = folder / "sill.csv"
    path.write_text(logger_files.ambiguous("%d/%m/%Y"))
    dialog = LoggerDialog(None, ())
    dialog.show_file(path, logger_survey.survey(path), None)
    return dialog


def make_take_in(folder: Path) -> QDialog:
    path = folder / "plants.csv"
    path.write_text("tag,name,acquired\nA1,Vanda,1/2/2025\n")
    dialog = TakeInDialog(None)
    dialog.show_file(intake_survey.survey(path), None)
    return dialog


def make_measures(_folder: Path) -> QDialog:
    dialog = MeasuresDialog(None)
    spoon = Tool(ToolKind.SPOON, "teaspoon", 0.5, None, ((1, 4.1),), key=1)
    tins = (TinView(1, TinDraft("Blue tin", "20-20-20")),)
    dialog.show_all(MeasuresView((spoon,), (), tins, 0.05), None)
    return dialog


def make_shelf(_folder: Path) -> QDialog:
    dialog = ShelfDialog(None)
    dialog.show_view(shelf_view())
    return dialog


def make_entries(_folder: Path) -> QDialog:
    dialog = EntriesDialog(None, "Green tin", "g")
    dialog.show_entries(entry_views())
    return dialog


def make_stocks(_folder: Path) -> QDialog:
    dialog = StocksDialog(None)
    tins = (TinView(1, TinDraft("Blue tin", "20-20-20")),)
    room = Room(solubilities())
    dialog.show_bench(StockBench(ON, (), tins, (), (), room, 3), None)
    return dialog


def make_recipes(_folder: Path) -> QDialog:
    tin = TinDraft("Green tin", "20-20-20")
    draft = RecipeDraft("Both", (PartDraft(1),), Wanted(3, 1, 2))
    views = (RecipeView(1, draft),)
    dialog = RecipesDialog(None)
    board = RecipeBoard(views, (TinView(1, tin),), (), ((1, "A1"),), ((1, "Tent"),))
    dialog.show_board(board, None)
    return dialog


def make_readings(_folder: Path) -> QDialog:
    dialog = MeterReadingsDialog(None)
    dialog.show_readings(meter_views())
    return dialog


def make_walk(_folder: Path) -> QDialog:
    dialog = WalkDialog(None, "Walk: Shelf")
    look = Look(on=ON, keikis=1)
    dialog.show_stop(
        WalkShown(STOP, 2, 3, AtStop(look, "", None, None, None), True), {}
    )
    return dialog


def make_walk_choice(_folder: Path) -> QDialog:
    walkable = Walkable(ON, 30, (STOP,))
    return WalkChoiceDialog(None, walkable, ON, "Walk the benches", "Walk")


def make_night(_folder: Path) -> QDialog:
    place = NightPlace(1, "Sill", False, 3, Expected(17, None), 16.5, ON)
    return NightDialog(None, NightView(ON, (place,), (), ""))


def make_history(_folder: Path) -> QDialog:
    dialog = HistoryDialog(None, "A1")
    at = datetime(2026, 5, 20, 12, tzinfo=UTC)
    fed = PastAction(
        7, at, "Feed given to A1", ("A1",), undone=True, is_kept=True, steps=1
    )
    old = replace(fed, action_id=3, undone=False, is_kept=False)
    actions = (fed, replace(fed, undone=False), old)
    dialog.show_page(PastAsk(), PastPage(actions, has_more=True))
    return dialog


def make_bin(_folder: Path) -> QDialog:
    dialog = BinDialog(None)
    dialog.show_bin(BIN)
    return dialog


BIN = BinView(
    (BinEntry(BinKey(BinSort.PLANT, 1), "Plant A1", ON, 12, ("A1",)),),
    1,
    12,
    2,
    4_000_000,
)
BACKUP = Backable(
    Path("backups/2026-05-20-120000-daily"),
    Lies.KEPT,
    datetime(2026, 5, 20, 12, tzinfo=UTC),
    Why.DAILY,
    40,
    19,
    1_500_000,
)


def make_backups(_folder: Path) -> BackupsDialog:
    dialog = BackupsDialog(None, ON)
    dialog.show_view(BackupsView((BACKUP,), BACKUP.made_at))
    return dialog


def make_damaged(folder: Path) -> QDialog:
    backup = KeptBackup(
        folder, datetime(2026, 5, 20, 12, tzinfo=UTC), Why.DAILY, 4, 2, 9000, 5
    )
    return DamagedDialog(None, replace(ways_out(folder), backup=backup))


def make_found(_folder: Path) -> QDialog:
    mend = Mend("plant", 1, "note", "a", "b", {})
    hurt = (
        Damage(Sort.FILE, tr("The collection's file"), tr(UNREADABLE)),
        Damage(Sort.VALUE, tr("The collection"), tr(ONLY_ORDER), mend),
        Damage(Sort.PHOTO, tr("The collection"), tr(UNREADABLE)),
    )
    return FoundDialog(
        None,
        tr("The collection looked through"),
        damage_words.check_heads(FullCheck(4, 2, 9, 3, hurt)),
        damage_words.check_text(hurt),
        ((tr("&Set back"), print), (tr("&Ways out…"), print)),
        (tr(ONLY_ORDER),),
    )


DIALOGS: dict[str, Callable[[Path], QDialog]] = {
    "history": make_history,
    "bin": make_bin,
    "backups": make_backups,
    "bring back": lambda folder: BringBackDialog(
        None, backup_words.question(BACKUP, "today 12:00", 40, folder)
    ),
    "backup look": lambda _f: BackupLookDialog(
        None, "today 12:00", (Compared("A1", None, Held("Laelia anceps", 2, 3, 1)),)
    ),
    "empty the bin": lambda _f: EmptyBinDialog(None, BIN, "/home/you/orchids"),
    "take in": make_take_in,
    "rain": lambda _f: RainDialog(None, (OutdoorPlace(1, "Yard", 2),), ON),
    "night": make_night,
    "look": make_look,
    "walk": make_walk,
    "walk-choice": make_walk_choice,
    "shelf": make_shelf,
    "shelf-entries": make_entries,
    "shelf-count": lambda _f: EntryDialog(None, entry_start(What.COUNTED)),
    "meter": lambda _f: MeterDialog(None, meter_start()),
    "meter-readings": make_readings,
    "shelf-added": lambda _f: EntryDialog(None, entry_start(What.ADDED)),
    "plant": make_plant,
    "leave": lambda _f: LeaveDialog(None, LeaveStart("A1", ON, ("A2: lost",))),
    "move": lambda _f: MoveDialog(None, MoveStart("A1", ON, None, ())),
    "divide": lambda _f: DivideDialog(
        None, DivideStart(PlantDraft("A1", "", ""), ON, ("A2",), ())
    ),
    "change-many": lambda _f: ChangeManyDialog(None, "A1, A2", 2, ()),
    "photo": make_photo,
    "give": lambda _f: CareDialog(None, CareStart("A1", CareDraft(ON, CareKind.FEED))),
    "treatment": lambda _f: CareDialog(
        None,
        CareStart("A1", CareDraft(ON, CareKind.TREAT), 3, ("Soft soap",), ("Sill",)),
    ),
    "bloom": lambda _f: BloomDialog(
        None, BloomStart(1, "A1", BloomDraft(ON), 2, "Filled in from a look.")
    ),
    "who blooms": lambda _f: WhoBloomsDialog(None, ON),
    "pages": lambda _f: PagesPreview("Pages", lambda _wide, _high: (), "the pages"),
    "photos beside": make_beside,
    "photo days": make_photo_days,
    "places": lambda _f: PlacesDialog(None, ON),
    "reading": lambda _f: ReadingDialog(None, Reading(ON, 20.0)),
    "stocks": make_stocks,
    "tins": lambda _f: TinsDialog(None),
    "waters": lambda _f: WatersDialog(None),
    "measures": make_measures,
    "recipes": make_recipes,
    "settings": lambda _f: SettingsDialog(None, tuple(map(said, DECLARED)), House()),
    "preferences": lambda _f: PreferencesDialog(None, rows(Regional(), ON)),
    "overrule": lambda _f: OverruleDialog(
        None, OverruleStart("A1", "", Verdict.FEED, ON, ends=1)
    ),
    "rules": lambda _f: RulesDialog(None, rule_views(House())),
    "logger": make_logger,
    "words": lambda _f: WordsDialog(None, ("lead", "rest")),
    "shortcuts": lambda _f: ShortcutsDialog(None, shortcut_table.groups()),
    "cautions": lambda _f: about.all_cautions(None),
    "fault": lambda _f: FaultDialog(None, met("look", None), may_close=True),
    "damaged": make_damaged,
    "found": make_found,
    "report": lambda _f: ReportDialog(None, "Report of a fault\n"),
    "handbook": lambda _f: HandbookDialog(handbook(), "looks"),
    "about": lambda folder: about.about(None, folder, folder / "growdesk.log"),
    "year review": lambda _f: YearDialog(None, ON),
    "away": lambda _f: AwayDialog(None, ("Sill",), ON),
    "tags": lambda _f: TagsDialog(None, TagsStart((1,), ("Sill",), ON, PRESETS[0])),
    "columns": lambda _f: ColumnsDialog(None, Laid(("tag", "name"), "tag", False)),
    "undo of others": lambda _f: UndoOthersDialog(None, "Plant A1 added", "Mia"),
    "server": lambda folder: ServerDialog(
        None, OnServer(ServerAddress("bench", "orchids"), folder), at_start=True
    ),
    "view name": lambda _f: ViewNameDialog(None, "Keep this view", "Warm", ("Warm",)),
}


@pytest.mark.parametrize("name", list(DIALOGS))
def test_every_control_of_a_dialog_has_a_name(
    name: str, qtbot: QtBot, tmp_path: Path
) -> None:
    dialog = DIALOGS[name](tmp_path)
    qtbot.addWidget(dialog)
    dialog.show()
    qtbot.waitExposed(dialog)
    assert nameless(dialog) == []
    assert unlabelled(dialog) == []


def test_every_tab_of_the_plant_form_is_named(qtbot: QtBot, tmp_path: Path) -> None:
    dialog = make_plant(tmp_path)
    assert isinstance(dialog, PlantDialog)
    qtbot.addWidget(dialog)
    dialog.show()
    for number in range(dialog.tabs.count()):
        dialog.tabs.setCurrentIndex(number)
        assert nameless(dialog) == []
        assert unlabelled(dialog) == []


def test_every_control_of_the_window_has_a_name(window: Window, qtbot: QtBot) -> None:
    for tabs in (window.detail.tabs, window.mixing.tabs):
        for number in range(tabs.count()):
            tabs.setCurrentIndex(number)
            settle(qtbot, window)
            assert nameless(window) == []
            assert unlabelled(window) == []


def test_an_empty_window_is_named_too(
    collection: Collection, show: Callable[[Collection], Window]
) -> None:
    window = show(collection)
    assert nameless(window) == []
    assert unlabelled(window) == []


def mnemonics(widget: QWidget) -> list[str]:
    """Give the letters that Alt reaches among what can be seen."""
    labels = [
        each.text()
        for each in widget.findChildren(QLabel)
        if each.isVisible() and each.buddy() is not None
    ]
    buttons = widget.findChildren(QAbstractButton)
    labels += [each.text() for each in buttons if each.isVisible()]
    found = (re.search(r"&(\w)", text) for text in labels)
    return [letter[1].casefold() for letter in found if letter]


@pytest.mark.parametrize("name", list(DIALOGS))
def test_alt_reaches_one_control_each_in_a_dialog(
    name: str, qtbot: QtBot, tmp_path: Path
) -> None:
    dialog = DIALOGS[name](tmp_path)
    qtbot.addWidget(dialog)
    dialog.show()
    tabs = dialog.findChild(QTabWidget)
    for number in range(tabs.count() if isinstance(tabs, QTabWidget) else 1):
        if isinstance(tabs, QTabWidget):
            tabs.setCurrentIndex(number)
        found = mnemonics(dialog)
        assert sorted(found) == sorted(set(found))


def test_alt_reaches_one_control_or_menu_each_in_the_window(window: Window) -> None:
    menus = [title[title.index("&") + 1].casefold() for title in actions.MENUS.values()]
    for number in range(window.mixing.tabs.count()):
        window.mixing.tabs.setCurrentIndex(number)
        found = menus + mnemonics(window)
        assert sorted(found) == sorted(set(found))
        assert len(found) > len(menus)


def test_the_walk_finds_what_has_no_name(qtbot: QtBot) -> None:
    """The walk itself has teeth."""
    bare = QWidget()
    qtbot.addWidget(bare)
    QLineEdit(bare)
    combo = QComboBox(bare)
    combo.addItem("not recorded")
    combo.move(0, 40)
    bare.show()
    assert nameless(bare)
    assert sorted(unlabelled(bare)) == ["QComboBox", "QLineEdit"]


@pytest.mark.parametrize(
    "name",
    [
        "look",
        "plant",
        "places",
        "reading",
        "give",
        "tins",
        "recipes",
        "settings",
        "logger",
    ],
)
def test_targets_are_high_enough(name: str, qtbot: QtBot, tmp_path: Path) -> None:
    dialog = DIALOGS[name](tmp_path)
    qtbot.addWidget(dialog)
    dialog.show()
    qtbot.waitExposed(dialog)
    low = [
        f"{type(each).__name__} {each.accessibleName()} {each.height()}"
        for kind in (QAbstractButton, QLineEdit, QComboBox, QSpinBox)
        for each in dialog.findChildren(kind)
        if each.isVisible()
        and each.height() < 28
        and not isinstance(each.parent(), QSpinBox)
    ]
    assert low == []


def test_the_focus_goes_through_a_look_in_reading_order(
    qtbot: QtBot, tmp_path: Path
) -> None:
    dialog = make_look(tmp_path)
    assert isinstance(dialog, LookDialog)
    qtbot.addWidget(dialog)
    dialog.show()
    qtbot.waitExposed(dialog)
    dialog.activateWindow()
    qtbot.waitUntil(dialog.isActiveWindow)
    heights: list[int] = []
    for _ in range(40):
        focused = QApplication.focusWidget()
        assert focused is not None
        heights.append(focused.mapTo(dialog, focused.rect().center()).y())
        dialog.focusNextChild()
        if QApplication.focusWidget() is dialog.save_button:
            break
    assert all(after > before - 20 for before, after in pairwise(heights))
    assert len(heights) <= 24, "each sign is one stop"
    assert QApplication.focusWidget() is dialog.save_button
