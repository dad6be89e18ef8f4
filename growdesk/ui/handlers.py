"""Say what each command of ``actions`` does, by its key, for one window."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt

from growdesk.domain.facts import CareKind
from growdesk.domain.speech import tr
from growdesk.ui import sizes
from growdesk.ui.away_prints import AwayPrints
from growdesk.ui.backup_forms import BackupForms
from growdesk.ui.checking import CheckForms
from growdesk.ui.dialogs import about
from growdesk.ui.explaining import explain
from growdesk.ui.logger_forms import LoggerForms
from growdesk.ui.look_lists import LookLists
from growdesk.ui.preferences import keep_text_per_cent, preferences
from growdesk.ui.prints import TagPrints
from growdesk.ui.report_forms import ReportForms
from growdesk.ui.sample import Sample
from growdesk.ui.shortcut_prints import ShortcutPrints
from growdesk.ui.take_in import TakeIn
from growdesk.ui.theme import Mode
from growdesk.ui.widgets.looks_first import NOTHING_TO_LOOK_AT
from growdesk.ui.year_prints import YearPrints

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from pathlib import Path

    from PySide6.QtWidgets import QWidget

    from growdesk.services.values import Line
    from growdesk.ui.bloom_forms import BloomForms
    from growdesk.ui.calendaring import Calendaring
    from growdesk.ui.care_forms import CareForms
    from growdesk.ui.deeds import Deeds
    from growdesk.ui.desk import Desk
    from growdesk.ui.faces import Faces
    from growdesk.ui.files import Files
    from growdesk.ui.folding import Folding
    from growdesk.ui.forms import Forms
    from growdesk.ui.handbook_reading import HandbookReading
    from growdesk.ui.hindsight import HindsightForms
    from growdesk.ui.history_forms import HistoryForms
    from growdesk.ui.kind_forms import KindForms
    from growdesk.ui.overrules import Overrules
    from growdesk.ui.panes.day_list import DayListPane
    from growdesk.ui.panes.detail import DetailPane
    from growdesk.ui.panes.mixing import MixingPane
    from growdesk.ui.photo_forms import PhotoForms
    from growdesk.ui.plant_forms import PlantForms
    from growdesk.ui.preference_forms import PreferenceForms
    from growdesk.ui.rostering import Rostering
    from growdesk.ui.rule_reading import RuleReading
    from growdesk.ui.shelf_forms import ShelfForms
    from growdesk.ui.summing import Summing
    from growdesk.ui.theme import Theme
    from growdesk.ui.walk import Walk
    from growdesk.ui.weekly import Weekly
    from growdesk.ui.widgets.head import DayHead
    from growdesk.ui.widgets.strip import Strip


@dataclass(frozen=True, slots=True)
class Hands:
    """All that commands reach for."""

    window: QWidget
    desk: Desk
    deeds: Deeds
    forms: Forms
    photos: PhotoForms
    shelf: ShelfForms
    rules: RuleReading
    kinds: KindForms
    files: Files
    hindsight: HindsightForms
    care: CareForms
    blooms: BloomForms
    overrules: Overrules
    plants: PlantForms
    past: HistoryForms
    day_list: DayListPane
    detail: DetailPane
    mixing: MixingPane
    folding: Folding
    faces: Faces
    weekly: Weekly
    calendaring: Calendaring
    walk: Walk
    roster: Rostering
    strip: Strip
    theme: Theme
    preferences: PreferenceForms
    handbook: HandbookReading
    log_file: Path | None
    head: DayHead
    summing: Summing


def handlers(hands: Hands) -> Mapping[str, Callable[[], object]]:
    """Give what to call for every command."""
    return {
        **_file(hands),
        **_edit(hands),
        **_plant(hands),
        **_collection(hands),
        **_day_and_shelf(hands),
        **_view(hands),
        **_help(hands),
    }


def _file(hands: Hands) -> dict[str, Callable[[], object]]:
    files = hands.files
    backups = BackupForms(hands.desk, hands.window).open
    return {
        "new-collection": files.new_collection,
        "open-collection": files.open_collection,
        "open-server": files.open_server,
        "sample": Sample(hands.desk, hands.window).open,
        "preview-sheet": files.preview_sheet,
        "print-sheet": files.print_sheet,
        "save-sheet": files.save_sheet,
        "take-in": TakeIn(hands.desk, hands.window).open,
        "export": files.export,
        "save-calendar": partial(hands.calendaring.save, files),
        "backup": files.backup,
        "backups": backups,
        "check-collection": CheckForms(hands.desk, hands.window, backups).open,
        "cancel": hands.desk.long.cancel,
        "quit": hands.window.close,
    }


def _edit(hands: Hands) -> dict[str, Callable[[], object]]:
    return {
        "undo": hands.past.undo,
        "redo": hands.past.redo,
        "history": hands.past.history,
        "find": hands.faces.find,
        "settings": hands.shelf.settings,
    }


def _plant(hands: Hands) -> dict[str, Callable[[], object]]:
    round_of = partial(_on_round, hands)
    deeds, forms = hands.deeds, hands.forms
    return {
        "tick": partial(round_of, deeds.toggle),
        "pass-by": partial(round_of, deeds.pass_by),
        "give": partial(round_of, partial(hands.care.open, what=CareKind.FEED)),
        "repot": partial(round_of, partial(hands.care.open, what=CareKind.REPOT)),
        "treat": partial(round_of, partial(hands.care.open, what=CareKind.TREAT)),
        "bloom": partial(_for_chosen, hands, hands.blooms.open),
        "who-blooms": hands.blooms.who_blooms,
        "look": partial(_for_chosen, hands, forms.look),
        "photos": partial(_for_chosen, hands, hands.photos.choose),
        "paste-photo": partial(_for_chosen, hands, hands.photos.paste),
        "beside": partial(_for_chosen, hands, hands.photos.put_beside),
        "hindsight": partial(_for_chosen, hands, hands.hindsight.open),
        "overrule": partial(round_of, hands.overrules.open),
        "add-plant": forms.add_plant,
        "change-plant": partial(_for_chosen, hands, forms.change_plant),
        "change-many": lambda: hands.plants.change_many(hands.faces.picked),
        "move": lambda: hands.plants.move(hands.faces.picked),
        "divide": partial(_for_chosen, hands, hands.plants.divide),
        "leave": lambda: hands.plants.leave(hands.faces.picked),
        "bin": lambda: deeds.put_in_bin(hands.faces.picked),
        "plant-history": partial(_for_chosen, hands, hands.past.of_plant),
    }


def _collection(hands: Hands) -> dict[str, Callable[[], object]]:
    roster = hands.roster
    return {
        "collection": roster.turn,
        "keep-view": roster.keep_view,
        "rename-view": roster.rename_view,
        "remove-view": roster.remove_view,
        "columns": roster.choose_columns,
        "sort-here": roster.sort_here,
        "copy-rows": roster.copy,
        "save-table": roster.save_table,
        "show-bin": hands.past.show_bin,
    }


def _day_and_shelf(hands: Hands) -> dict[str, Callable[[], object]]:
    return {
        "today": hands.desk.show_day,
        "previous-day": partial(hands.deeds.step_day, -1),
        "next-day": partial(hands.deeds.step_day, 1),
        "week": hands.weekly.turn,
        "calendar": partial(hands.faces.turn, "calendar"),
        "day-summary": partial(hands.faces.turn, "day-summary"),
        "marks": hands.hindsight.open_table,
        "looks-first": partial(_to_looks, hands),
        "walk": hands.walk.open,
        "rain": hands.shelf.weather.rain,
        "night": hands.shelf.weather.night,
        "look-list": LookLists(hands.desk, hands.window).open,
        "year-review": YearPrints(hands.desk, hands.window).open,
        "away": AwayPrints(hands.desk, hands.window).open,
        "tags": TagPrints(hands.desk, hands.window, hands.faces).open,
        "places": hands.shelf.places,
        "logger": _logger(hands).open,
        "tins": hands.shelf.tins,
        "recipes": hands.shelf.recipes,
        "waters": hands.shelf.waters,
        "measures": hands.shelf.measures,
        "on-shelf": hands.shelf.on_shelf,
        "stocks": hands.shelf.stocks,
        "meter": hands.shelf.meter.open,
        "kinds": lambda: hands.kinds.browse(hands.faces.chosen),
        "quick-mix": partial(_to_quick_mix, hands),
    }


def _view(hands: Hands) -> dict[str, Callable[[], object]]:
    return {
        "preferences": hands.preferences.open,
        "light-system": partial(_choose_light, hands, Mode.SYSTEM),
        "light-light": partial(_choose_light, hands, Mode.LIGHT),
        "light-dark": partial(_choose_light, hands, Mode.DARK),
        "text-larger": partial(_step_text, hands, 1),
        "text-smaller": partial(_step_text, hands, -1),
        "text-usual": partial(_step_text, hands, 0),
        "to-list": hands.faces.to_list,
        "to-detail": hands.detail.take_focus,
        "to-mixing": partial(_to_mixing, hands),
        "fold-mixing": hands.folding.turn,
        "full-screen": partial(_full_screen, hands.window),
    }


def _help(hands: Hands) -> dict[str, Callable[[], object]]:
    return {
        "handbook": hands.handbook.of_window,
        "shortcuts": ShortcutPrints(hands.desk, hands.window).open,
        "explain-word": lambda: explain(hands.window, hands.detail),
        "rules": hands.rules.show,
        "cautions": lambda: about.all_cautions(hands.window).open(),
        "report": ReportForms(hands.desk, hands.window, hands.files).open,
        "about": lambda: about.about(
            hands.window, hands.desk.collection.folder, hands.log_file
        ).open(),
    }


def _lines(hands: Hands) -> tuple[Line, ...]:
    """Give the day's lines of the plants picked in the face in sight."""
    ids = {each.plant_id for each in hands.faces.picked}
    view = hands.desk.view
    return tuple(line for line in view.lines if line.plant_id in ids) if view else ()


def _on_round(hands: Hands, use: Callable[[tuple[Line, ...]], object]) -> None:
    """Do something to the plants picked that grow here; say so where none does."""
    lines = _lines(hands)
    if hands.faces.picked and not lines:
        hands.strip.tell(tr("What is selected is not growing here any more."))
    else:
        use(lines)


def _for_chosen(hands: Hands, use: Callable[[int], object]) -> None:
    chosen = hands.faces.chosen
    if chosen is None:
        hands.strip.tell(tr("No plant is selected."))
    else:
        use(chosen)


def _logger(hands: Hands) -> LoggerForms:
    forms = LoggerForms(hands.desk, hands.window)
    forms.places_wanted.connect(hands.shelf.places)
    return forms


def _to_looks(hands: Hands) -> None:
    hands.faces.show_day()
    if not hands.day_list.looks.open():
        hands.strip.tell(tr(NOTHING_TO_LOOK_AT))


def _to_mixing(hands: Hands) -> None:
    hands.folding.open()
    hands.mixing.tabs.setFocus()


def _to_quick_mix(hands: Hands) -> None:
    hands.folding.open()
    hands.mixing.tabs.setCurrentIndex(1)
    hands.mixing.quick.analysis.setFocus()


def _choose_light(hands: Hands, mode: Mode) -> None:
    hands.theme.choose(mode)
    preferences().setValue("light", mode.value)


def _step_text(hands: Hands, by: int) -> None:
    """Make text larger or smaller by a step, or by none as usual again, and say so."""
    now = sizes.current()
    if by:
        now.step(by)
    else:
        now.choose(sizes.PER_CENT[0])
    keep_text_per_cent(now.per_cent)
    hands.strip.tell(tr("Text at {per_cent} %.").format(per_cent=now.per_cent))


def _full_screen(window: QWidget) -> None:
    window.setWindowState(window.windowState() ^ Qt.WindowState.WindowFullScreen)
