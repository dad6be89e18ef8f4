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
from growdesk.ui.widgets.fold import Fold
from growdesk.ui.widgets.jug_card import JugCard
from growdesk.ui.widgets.parts import (
    clear,
    enlarge,
    frame,
    label,
    link_line,
    short_label,
)

if TYPE_CHECKING:
    from growdesk.services.values import MixPlan
    from growdesk.ui.water_ready_words import ClearWater

_LADDER, _JUGS = "ladder", "jugs"


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
        self._is_today = False
        self._turned: dict[str, bool] = {}
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(8)

    def show_plan(self, plan: MixPlan, *, is_today: bool = False) -> None:
        """Show a day's plan; one that stands there already is left alone."""
        wanted = (plan, theme.colours(), is_today)
        self._is_today = is_today
        if wanted == self._shown:
            return
        self._shown = wanted
        clear(self._column)
        for line in plan.short:
            self._column.addWidget(label(line, tone="wrong"))
        if plan.ladder_first:
            self._add_steps(plan)
        self._add_jugs(plan)
        if not plan.ladder_first:
            self._add_steps(plan)
        for ready in to_have_ready(plan) or (None,):
            self._column.addWidget(_water_card(ready))
        self._add_remarks(plan)

    def _add_remarks(self, plan: MixPlan) -> None:
        unknown = _volume_unknown(plan)
        for remark in plan.remarks:
            self._column.addWidget(label(remark))
        for wrong in (jug_words.outside_band(plan), unknown):
            if wrong:
                self._column.addWidget(label(wrong, tone="wrong"))
        if jug_words.one_more(plan):
            told = label(jug_words.one_more(plan))
            told.setObjectName("one-more")
            self._column.addWidget(told)

    def _add_jugs(self, plan: MixPlan) -> None:
        if not plan.jugs:
            self._column.addWidget(
                label(tr("No jug of feed on this day: no plant is fed."), tone="muted")
            )
        column: QVBoxLayout = self._column
        if plan.ladder_first:
            column = self._folded(jug_words.jugs_heading(plan), tr("The jugs"), _JUGS)
        for jug in plan.jugs:
            card = JugCard(
                jug,
                plan,
                is_open=self._turned.get(jug.letter, False),
                is_today=self._is_today,
            )
            card.fold.turned.connect(partial(self._keep, jug.letter))
            card.tins_wanted.connect(self.tins_wanted)
            card.meter_wanted.connect(self.meter_wanted)
            card.bottle_wanted.connect(self.bottle_wanted)
            column.addWidget(card)

    def _folded(
        self, heading: str, text: str, key: str, *, is_open: bool = False, why: str = ""
    ) -> QVBoxLayout:
        """Add a heading with a fold under it; give the column in the fold."""
        self._column.addSpacing(2)
        self._column.addWidget(label(heading, tone="head"))
        if why:
            self._column.addWidget(label(words.unbroken(why, "%"), tone="muted"))
        fold = Fold(self, text, heading, is_open=self._turned.get(key, is_open))
        fold.turned.connect(partial(self._keep, key))
        fold.rows.setSpacing(8)
        self._column.addWidget(fold.button, 0, Qt.AlignmentFlag.AlignLeft)
        self._column.addWidget(fold.body)
        return fold.rows

    def _keep(self, key: str, is_open: bool) -> None:  # noqa: FBT001 -- a signal's
        self._turned[key] = is_open

    def _add_steps(self, plan: MixPlan) -> None:
        """Add the ladder, open where it goes first; with one jug its card says all."""
        if len(plan.jugs) < 2 or not plan.ladder:
            return
        heading = jug_words.ladder_heading(plan)
        column = self._folded(
            heading,
            tr("The steps"),
            f"{_LADDER}{plan.ladder_first}",
            is_open=plan.ladder_first,
            why=plan.ladder_why,
        )
        caution = jug_words.ladder_caution(plan)
        if caution:
            said = label(caution)
            said.setObjectName("ladder-caution")
            column.addWidget(said)
        for number, step in enumerate(plan.ladder, 1):
            column.addWidget(label(f"{number}.  {step}"))
        meters = jug_words.meters_diluted(plan)
        if meters:
            column.addWidget(label(meters, tone="muted"))
        if plan.ladder_first:
            self._add_too_small(plan)

    def _add_too_small(self, plan: MixPlan) -> None:
        """Add what is too small to measure and its way out; the cards are folded."""
        told = jug_measuring.too_small(plan)
        if told:
            self._column.addWidget(label(told, tone="wrong"))
        for bottle in plan.bottles:
            make = partial(self.bottle_wanted.emit, bottle)
            self._column.addWidget(link_line(jug_measuring.make_it(bottle), make))


def _volume_unknown(plan: MixPlan) -> str:
    told = jug_words.volume_unknown(plan)
    return (
        tr("{told} Give the pot its volume under Change the plant.").format(told=told)
        if told
        else ""
    )


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
