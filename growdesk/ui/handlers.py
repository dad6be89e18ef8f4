"""Say what each command of ``actions`` does, by its key, for one window.

What is reached through a form or a dialog is looked up when the command is given: see
``growdesk.ui.hands``.
"""

# ruff: noqa: PLW0108 -- what a lambda names is made when it is first called

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt

from growdesk.domain.facts import CareKind
from growdesk.domain.speech import tr
from growdesk.services.whereabouts import OnServer
from growdesk.ui import headline, sizes
from growdesk.ui.preferences import keep_text_per_cent, preferences
from growdesk.ui.sample import Sample
from growdesk.ui.theme import Mode
from growdesk.ui.widgets.looks_first import NOTHING_TO_LOOK_AT, STILL_LOOKED_FOR

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from PySide6.QtWidgets import QWidget

    from growdesk.services.values import Line
    from growdesk.ui.hands import Hands


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
    return {
        "new-collection": lambda: hands.files.new_collection(),
        "open-collection": lambda: hands.files.open_collection(),
        "open-server": lambda: hands.files.open_server(),
        "sample": Sample(hands.desk, hands).open,
        "preview-sheet": lambda: hands.files.preview_sheet(),
        "print-sheet": lambda: hands.files.print_sheet(),
        "save-sheet": lambda: hands.files.save_sheet(),
        "take-in": lambda: hands.take_in.open(),
        "export": lambda: hands.files.export(),
        "save-calendar": lambda: hands.calendaring.save(hands.files),
        "backup": lambda: hands.files.backup(),
        "backups": lambda: hands.backups.open(),
        "check-collection": hands.checks.open,
        "cancel": hands.desk.long.cancel,
        "quit": hands.close,
    }


def _edit(hands: Hands) -> dict[str, Callable[[], object]]:
    return {
        "undo": lambda: hands.past.undo(),
        "redo": lambda: hands.past.redo(),
        "history": lambda: hands.past.history(),
        "find": hands.faces.find,
        "settings": lambda: hands.shelf.settings(),
    }


def _plant(hands: Hands) -> dict[str, Callable[[], object]]:
    round_of = partial(_on_round, hands)
    deeds = hands.deeds
    chosen = partial(_for_chosen, hands)

    def care(what: CareKind) -> Callable[[], object]:
        return partial(round_of, lambda lines: hands.care.open(lines, what))

    return {
        "tick": partial(round_of, deeds.toggle),
        "pass-by": partial(round_of, deeds.pass_by),
        "give": care(CareKind.FEED),
        "repot": care(CareKind.REPOT),
        "treat": care(CareKind.TREAT),
        "bloom": partial(chosen, lambda plant: hands.blooms.open(plant)),
        "who-blooms": lambda: hands.blooms.who_blooms(),
        "look": partial(chosen, lambda plant: hands.forms.look(plant)),
        "photos": partial(chosen, lambda plant: hands.photos.choose(plant)),
        "paste-photo": partial(chosen, lambda plant: hands.photos.paste(plant)),
        "beside": partial(chosen, lambda plant: hands.photos.put_beside(plant)),
        "hindsight": partial(chosen, lambda plant: hands.hindsight.open(plant)),
        "overrule": partial(round_of, lambda lines: hands.overrules.open(lines)),
        "add-plant": lambda: hands.forms.add_plant(),
        "change-plant": partial(chosen, lambda plant: hands.forms.change_plant(plant)),
        "change-many": lambda: hands.plants.change_many(hands.faces.picked),
        "move": lambda: hands.plants.move(hands.faces.picked),
        "divide": partial(chosen, lambda plant: hands.plants.divide(plant)),
        "leave": lambda: hands.plants.leave(hands.faces.picked),
        "bin": lambda: deeds.put_in_bin(hands.faces.picked),
        "plant-history": partial(chosen, lambda plant: hands.past.of_plant(plant)),
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
        "show-bin": lambda: hands.past.show_bin(),
    }


def _day_and_shelf(hands: Hands) -> dict[str, Callable[[], object]]:
    return {
        "today": hands.desk.show_day,
        "previous-day": partial(hands.deeds.step_day, -1),
        "next-day": partial(hands.deeds.step_day, 1),
        "week": hands.weekly.turn,
        "calendar": partial(hands.faces.turn, "calendar"),
        "day-summary": partial(hands.faces.turn, "day-summary"),
        "marks": lambda: hands.hindsight.open_table(),
        "looks-first": partial(_to_looks, hands),
        "walk": lambda: hands.walk.open(),
        "rain": lambda: hands.shelf.weather.rain(),
        "night": lambda: hands.shelf.weather.night(),
        "look-list": lambda: hands.look_lists.open(),
        "year-review": lambda: hands.years.open(),
        "away": lambda: hands.away.open(),
        "tags": lambda: hands.tags.open(),
        "places": lambda: hands.shelf.places(),
        "logger": lambda: hands.logger.open(),
        "tins": lambda: hands.shelf.tins(),
        "recipes": lambda: hands.shelf.recipes(),
        "waters": lambda: hands.shelf.waters(),
        "measures": lambda: hands.shelf.measures(),
        "on-shelf": lambda: hands.shelf.on_shelf(),
        "stocks": lambda: hands.shelf.stocks(),
        "meter": lambda: hands.shelf.meter.open(),
        "kinds": lambda: hands.kinds.browse(hands.faces.chosen),
        "quick-mix": partial(_to_quick_mix, hands),
    }


def _view(hands: Hands) -> dict[str, Callable[[], object]]:
    return {
        "preferences": lambda: hands.preferences.open(),
        "light-system": partial(_choose_light, hands, Mode.SYSTEM),
        "light-light": partial(_choose_light, hands, Mode.LIGHT),
        "light-dark": partial(_choose_light, hands, Mode.DARK),
        "text-larger": partial(_step_text, hands, 1),
        "text-smaller": partial(_step_text, hands, -1),
        "text-usual": partial(_step_text, hands, 0),
        "to-list": hands.faces.to_list,
        "to-detail": lambda: hands.detail.take_focus(),
        "to-mixing": partial(_to_mixing, hands),
        "fold-mixing": hands.folding.turn,
        "full-screen": partial(_full_screen, hands),
    }


def _help(hands: Hands) -> dict[str, Callable[[], object]]:
    return {
        "handbook": lambda: hands.handbook.of_window(),
        "shortcuts": lambda: hands.shortcuts.open(),
        "explain-word": partial(_explain, hands),
        "rules": lambda: hands.rules.show(),
        "cautions": partial(_cautions, hands),
        "report": lambda: hands.report.open(),
        "about": partial(_about, hands),
    }


def _lines(hands: Hands) -> tuple[Line, ...]:
    """Give the day's lines of the plants picked in the face in sight."""
    ids = {each.plant_id for each in hands.faces.picked}
    view = hands.desk.view
    return tuple(line for line in view.lines if line.plant_id in ids) if view else ()


def _on_round(hands: Hands, use: Callable[[tuple[Line, ...]], object]) -> None:
    """Do something to the plants picked that grow here; say so where none does.

    It waits for the grower to ask again once all plants of the day are judged.
    """
    if hands.desk.begun is not None:
        hands.strip.tell(headline.still_judging(hands.desk.begun))
        return
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


def _to_looks(hands: Hands) -> None:
    hands.faces.show_day()
    if hands.desk.begun is not None:
        hands.strip.tell(headline.still_judging(hands.desk.begun))
    elif not hands.day_list.looks.open():
        hands.strip.tell(
            tr(STILL_LOOKED_FOR if hands.looks.is_ranking else NOTHING_TO_LOOK_AT)
        )


def _explain(hands: Hands) -> None:
    from growdesk.ui.explaining import explain  # noqa: PLC0415 -- with its dialog

    explain(hands, hands.detail)


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


def _cautions(hands: Hands) -> None:
    from growdesk.ui.dialogs import about  # noqa: PLC0415 -- when wanted

    about.all_cautions(hands).open()


def _about(hands: Hands) -> None:
    from growdesk.ui.dialogs import about  # noqa: PLC0415 -- when wanted

    now = hands.desk.collection
    on_server = isinstance(now.where, OnServer)
    about.about(hands, now.folder, hands.log_file, on_server=on_server).open()
