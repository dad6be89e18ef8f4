"""Connect what the panes ask for to what does it; panes know nothing of one another."""

# ruff: noqa: PLW0108 -- what a lambda names is made when it is first called

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.ui import actions, window_memory

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from PySide6.QtGui import QAction

    from growdesk.ui.hands import Hands
    from growdesk.ui.panes.detail import DetailPane
    from growdesk.ui.panes.mixing import MixingPane
    from growdesk.ui.panes.roster import RosterPane


_NOT_MIXED_WITH = frozenset({"places", "logger", "kinds", "quick-mix"})
"""What stands in the shelf's menu and is not asked for while mixing."""


class Own(Struct, frozen=True):
    """What the window does itself when a pane asks."""

    first_step: Callable[[str], None]
    work_out: Callable[..., None]


def connect_panes(hands: Hands, commands: Mapping[str, QAction], own: Own) -> None:
    """Connect every pane's wishes, each to a command, a form or the desk."""
    _list(hands, commands, own)
    hands.detail_made.connect(partial(_detail, hands, commands))
    hands.mixing_made.connect(partial(_mixing, hands, commands, own))
    hands.roster.made.connect(partial(_collection, commands))
    head = hands.head
    head.previous_wanted.connect(commands["previous-day"].trigger)
    head.next_wanted.connect(commands["next-day"].trigger)
    head.today_wanted.connect(commands["today"].trigger)
    hands.summing.looks_wanted.connect(commands["looks-first"].trigger)
    hands.strip.undo_wanted.connect(commands["undo"].trigger)


def _list(hands: Hands, commands: Mapping[str, QAction], own: Own) -> None:
    pane = hands.day_list
    pane.plant_chosen.connect(partial(_show_from_day, hands))
    pane.tick_wanted.connect(hands.deeds.tick)
    pane.untick_wanted.connect(hands.deeds.untick)
    pane.look_wanted.connect(commands["look"].trigger)
    pane.step_wanted.connect(own.first_step)
    pane.steps.sample_wanted.connect(commands["sample"].trigger)
    pane.looks.look_wanted.connect(
        lambda plant, why, sign: hands.forms.look(plant, why, sign)
    )
    pane.photos.dropped.connect(lambda plant, files: hands.photos.take(plant, files))


def _collection(commands: Mapping[str, QAction], pane: RosterPane) -> None:
    pane.change_wanted.connect(commands["change-plant"].trigger)
    pane.add_wanted.connect(commands["add-plant"].trigger)
    for command in actions.declared():
        action = commands[command.key]
        if command.scope is not actions.Scope.WINDOW:
            pane.table.addAction(action)
        if command.menu == "plant":
            pane.menu.addAction(action)
        if command.menu == "collection" and command.key != "collection":
            pane.more.menu().addAction(action)
    pane.menu.addSeparator()
    pane.menu.addAction(commands["copy-rows"])


def _show_from_day(hands: Hands, plant_id: int) -> None:
    """Show the plant of the day's list, unless the face in sight has its own cursor."""
    if hands.faces.follows_day:
        hands.first_paint.then(partial(hands.desk.show_plant, plant_id))


def _detail(hands: Hands, commands: Mapping[str, QAction], pane: DetailPane) -> None:
    from growdesk.ui.explaining import explain  # noqa: PLC0415 -- with its dialog

    pane.look_wanted.connect(commands["look"].trigger)
    pane.add_wanted.connect(commands["add-plant"].trigger)
    pane.look_change_wanted.connect(lambda look: hands.forms.change_look(look))
    pane.care_change_wanted.connect(lambda care: hands.care.change(care))
    pane.bloom_change_wanted.connect(lambda bloom: hands.blooms.change(bloom))
    pane.bloom_wanted.connect(lambda: hands.blooms.new())
    pane.proposal_taken.connect(lambda proposal: hands.blooms.take(proposal))
    pane.give_wanted.connect(commands["give"].trigger)
    pane.plant_wanted.connect(commands["change-plant"].trigger)
    pane.kind_wanted.connect(lambda plant: hands.kinds.of_plant(plant))
    pane.kin_wanted.connect(partial(_to_plant, hands))
    pane.back_wanted.connect(hands.deeds.back)
    pane.photos_wanted.connect(commands["photos"].trigger)
    pane.photo_opened.connect(lambda photo: hands.photos.open(photo))
    pane.photos.dropped.connect(lambda plant, files: hands.photos.take(plant, files))
    pane.rule_wanted.connect(lambda rule: hands.rules.show(rule))
    pane.word_wanted.connect(partial(explain, hands, pane))
    pane.charts.wanted.connect(hands.desk.show_chart)
    pane.charts.drawing_wanted.connect(hands.desk.draw)
    pane.charts.save_wanted.connect(
        lambda chart, style: hands.files.save_chart(chart, style)
    )
    pane.charts.place_wanted.connect(lambda place: hands.shelf.years.open(place))
    hands.weekly.told.connect(pane.show_week)
    hands.weekly.forgotten.connect(pane.forget_week)
    pane.show_week(hands.weekly.view)
    window_memory.recall_detail(pane)


def _to_plant(hands: Hands, plant_id: int) -> None:
    """Go to a plant where it is listed; one that is in no list is shown without."""
    hands.roster.go_to(plant_id)
    view = hands.desk.view
    if view is not None and any(line.plant_id == plant_id for line in view.lines):
        hands.day_list.go_to(plant_id)
    hands.desk.show_plant(plant_id)


def _mixing(
    hands: Hands, commands: Mapping[str, QAction], own: Own, pane: MixingPane
) -> None:
    hands.folding.take(pane)
    pane.tin_chosen.connect(hands.deeds.use_tin)
    pane.recipe_chosen.connect(hands.deeds.use_recipe)
    pane.water_chosen.connect(hands.deeds.use_water)
    pane.tins_wanted.connect(lambda: hands.shelf.tins())
    pane.offer(
        [
            commands[each.key]
            for each in actions.declared()
            if each.menu == "shelf" and each.key not in _NOT_MIXED_WITH
        ]
    )
    pane.bottle_wanted.connect(lambda bottle: hands.shelf.stock_forms.make(bottle))
    pane.meter_wanted.connect(lambda letter: hands.shelf.meter.open(letter))
    pane.cautions_wanted.connect(commands["cautions"].trigger)
    pane.quick.asked.connect(own.work_out)
    window_memory.recall_mixing(pane)
