"""Show the jugs of the day as cards, then clear water and the other way to mix.

Takes a ``MixPlan`` as it is; its words are those of the sheet, from ``jug_words``.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from growdesk.domain.speech import tr
from growdesk.ui import jug_measuring, jug_words, theme, words
from growdesk.ui.water_ready_words import to_have_ready
from growdesk.ui.widgets import focus
from growdesk.ui.widgets.fold import Fold
from growdesk.ui.widgets.jug_card import JugCard
from growdesk.ui.widgets.parts import (
    enlarge,
    frame,
    label,
    let_go,
    link_line,
    short_label,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from growdesk.services.values import Jug, MixPlan
    from growdesk.ui.water_ready_words import ClearWater

    _Fill = Callable[[QVBoxLayout], object]

_LADDER, _JUGS, _WATER = "ladder", "jugs", "water"
_SPACING_PX = 8


class Jugs(QWidget):
    """All that is to be had ready at the bench.

    What a person unfolded stays unfolded when the plan changes.
    """

    tins_wanted = Signal()
    meter_wanted = Signal(str)
    bottle_wanted = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self._shown: tuple[object, ...] | None = None
        self._parts: list[tuple[object, QWidget]] = []
        """What stands here from the top, each by all that it says."""
        self._turned: dict[str, bool] = {}
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(_SPACING_PX)

    def show_plan(self, plan: MixPlan, *, is_today: bool = False) -> None:
        """Show a day's plan; what stands there already is left alone."""
        wanted = (plan, theme.colours(), is_today)
        if wanted == self._shown:
            return
        self._shown = wanted
        before, self._parts = self._parts, []
        for said, fill in self._wanted(plan, is_today=is_today):
            key = (said, theme.colours())
            kept = next((each for each in before if each[0] == key), None)
            if kept is not None:
                before.remove(kept)
            self._parts.append(kept or (key, self._made(fill)))
        for _key, gone in before:
            self._column.removeWidget(gone)
            let_go(gone)
        for place, (_key, part) in enumerate(self._parts):
            if self._column.indexOf(part) != place:
                self._column.removeWidget(part)
                self._column.insertWidget(place, part)

    def stops(self) -> list[QWidget]:
        """Give what the Tab key stops at, from the top."""
        return [stop for _key, part in self._parts for stop in focus.stops(part)]

    def _made(self, fill: _Fill) -> QWidget:
        part = QWidget(self)
        fill(_column_in(part))
        return part

    def _wanted(
        self, plan: MixPlan, *, is_today: bool
    ) -> Iterator[tuple[object, _Fill]]:
        """Give each part by all that it says, with what puts it into its column."""
        for line in plan.short:
            yield line, partial(_add_label, line, tone="wrong")
        jugs = tuple(self._jugs(plan, is_today=is_today))
        if plan.ladder_first:
            yield from self._steps(plan)
            said = tuple(each for each, _fill in jugs)
            yield (_JUGS, said), partial(self._add_folded_jugs, plan, jugs)
        else:
            yield from jugs
            yield from self._steps(plan)
        for ready in to_have_ready(plan) or (None,):
            yield (_WATER, ready), partial(_add_water, ready)
        yield from _remarks(plan)

    def _jugs(self, plan: MixPlan, *, is_today: bool) -> Iterator[tuple[object, _Fill]]:
        """Give a part for each jug, or one that says that there is none."""
        if not plan.jugs:
            none = tr("No jug of feed on this day: no plant is fed.")
            yield none, partial(_add_label, none, tone="muted")
        for jug in plan.jugs:
            said = (
                *(jug, is_today, plan.tin, jug_words.recipe(jug, plan)),
                *(jug_words.of_water(jug, plan), jug_measuring.bottles_for(jug, plan)),
            )
            yield said, partial(self._add_jug, jug, plan, is_today=is_today)

    def _steps(self, plan: MixPlan) -> Iterator[tuple[object, _Fill]]:
        """Give the ladder as a part; with one jug its card says all."""
        if len(plan.jugs) > 1 and plan.ladder:
            said = (
                *(plan.ladder, plan.ladder_first, plan.ladder_why, plan.ladder_jugs),
                *(plan.jugs, plan.bottles),
            )
            yield said, partial(self._add_steps, plan)

    def _add_jug(
        self, jug: Jug, plan: MixPlan, column: QVBoxLayout, *, is_today: bool
    ) -> None:
        is_open = self._turned.get(jug.letter, False)
        card = JugCard(jug, plan, is_open=is_open, is_today=is_today)
        card.fold.turned.connect(partial(self._keep, jug.letter))
        card.tins_wanted.connect(self.tins_wanted)
        card.meter_wanted.connect(self.meter_wanted)
        card.bottle_wanted.connect(self.bottle_wanted)
        column.addWidget(card)

    def _add_folded_jugs(
        self,
        plan: MixPlan,
        jugs: tuple[tuple[object, _Fill], ...],
        column: QVBoxLayout,
    ) -> None:
        heading = jug_words.jugs_heading(plan)
        rows = self._folded(column, heading, tr("The jugs"), _JUGS)
        for _said, fill in jugs:
            fill(rows)

    def _folded(
        self,
        column: QVBoxLayout,
        heading: str,
        text: str,
        key: str,
        *,
        is_open: bool = False,
        why: str = "",
    ) -> QVBoxLayout:
        """Add a heading with a fold under it; give the column in the fold."""
        column.addSpacing(2)
        column.addWidget(label(heading, tone="head"))
        if why:
            column.addWidget(label(words.unbroken(why, "%"), tone="muted"))
        within = column.parentWidget() or self
        fold = Fold(within, text, heading, is_open=self._turned.get(key, is_open))
        fold.turned.connect(partial(self._keep, key))
        fold.rows.setSpacing(_SPACING_PX)
        column.addWidget(fold.button, 0, Qt.AlignmentFlag.AlignLeft)
        column.addWidget(fold.body)
        return fold.rows

    def _keep(self, key: str, is_open: bool) -> None:  # noqa: FBT001 -- a signal's
        self._turned[key] = is_open

    def _add_steps(self, plan: MixPlan, column: QVBoxLayout) -> None:
        """Add the ladder, open where it goes first."""
        rows = self._folded(
            column,
            jug_words.ladder_heading(plan),
            tr("The steps"),
            f"{_LADDER}{plan.ladder_first}",
            is_open=plan.ladder_first,
            why=plan.ladder_why,
        )
        caution = jug_words.ladder_caution(plan)
        if caution:
            said = label(caution)
            said.setObjectName("ladder-caution")
            rows.addWidget(said)
        for number, step in enumerate(plan.ladder, 1):
            rows.addWidget(label(f"{number}.  {step}"))
        meters = jug_words.meters_diluted(plan)
        if meters:
            rows.addWidget(label(meters, tone="muted"))
        if plan.ladder_first:
            self._add_too_small(plan, column)

    def _add_too_small(self, plan: MixPlan, column: QVBoxLayout) -> None:
        """Add what is too small to measure and its way out; the cards are folded."""
        told = jug_measuring.too_small(plan)
        if told:
            column.addWidget(label(told, tone="wrong"))
        for bottle in plan.bottles:
            make = partial(self.bottle_wanted.emit, bottle)
            column.addWidget(link_line(jug_measuring.make_it(bottle), make))


def _column_in(part: QWidget) -> QVBoxLayout:
    column = QVBoxLayout(part)
    column.setContentsMargins(0, 0, 0, 0)
    column.setSpacing(_SPACING_PX)
    return column


def _add_label(
    text: str, column: QVBoxLayout, *, tone: str = "", name: str = ""
) -> None:
    said = label(text, tone=tone)
    said.setObjectName(name)
    column.addWidget(said)


def _remarks(plan: MixPlan) -> Iterator[tuple[object, _Fill]]:
    """Give what else is to be known of the mixing, a part each."""
    for remark in plan.remarks:
        yield remark, partial(_add_label, remark)
    for wrong in (jug_words.outside_band(plan), _volume_unknown(plan)):
        if wrong:
            yield wrong, partial(_add_label, wrong, tone="wrong")
    more = jug_words.one_more(plan)
    if more:
        yield more, partial(_add_label, more, name="one-more")


def _volume_unknown(plan: MixPlan) -> str:
    told = jug_words.volume_unknown(plan)
    return (
        tr("{told} Give the pot its volume under Change the plant.").format(told=told)
        if told
        else ""
    )


def _add_water(ready: ClearWater | None, column: QVBoxLayout) -> None:
    column.addWidget(_water_card(ready))


def _water_card(ready: ClearWater | None) -> QFrame:
    """Give one kind of clear water as a card; None where no plant gets any."""
    card = frame("card")
    rows = QVBoxLayout(card)
    rows.setContentsMargins(12, 10, 12, 10)
    rows.setSpacing(3)
    top = QHBoxLayout()
    head = short_label(tr("Clear water"))
    enlarge(head, 1.2, strong=True)
    top.addWidget(head)
    top.addStretch(1)
    amount = short_label(tr("none") if ready is None else ready.volume)
    enlarge(amount, 1.2, strong=True)
    top.addWidget(amount)
    rows.addLayout(top)
    if ready is None:
        card.setAccessibleName(tr("No clear water"))
        return card
    card.setAccessibleName(
        tr("Clear water, {title}. {list}").format(
            title=ready.title, list=" ".join(ready.lines)
        )
    )
    rows.addWidget(label(f"{ready.phrase}{ready.in_mugs}"))
    for line in ready.lines:
        rows.addWidget(label(line, tone="muted"))
    return card
