"""Show the jugs of the day as cards, then clear water and the other way to mix.

Takes a ``MixPlan`` as it is; its words are those of the sheet, from ``jug_words``.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from growdesk.domain.volume_words import volume_text
from growdesk.ui import jug_words, theme
from growdesk.ui.widgets.fold import Fold
from growdesk.ui.widgets.jug_card import JugCard
from growdesk.ui.widgets.parts import clear, enlarge, frame, label, short_label

if TYPE_CHECKING:
    from growdesk.services.values import MixPlan

_LADDER = "ladder"


class Jugs(QWidget):
    """All that is to be had ready at the bench.

    What a person unfolded stays unfolded when the plan changes.
    """

    tins_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._shown: tuple[MixPlan, object] | None = None
        self._open: set[str] = set()
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(8)

    def show_plan(self, plan: MixPlan) -> None:
        """Show a day's plan; one that stands there already is left alone."""
        wanted = (plan, theme.colours())
        if wanted == self._shown:
            return
        self._shown = wanted
        clear(self._column)
        if not plan.jugs:
            self._column.addWidget(
                label("No jug of feed on this day: no plant is fed.", tone="muted")
            )
        for jug in plan.jugs:
            card = JugCard(jug, plan, is_open=jug.letter in self._open)
            card.fold.turned.connect(partial(self._keep, jug.letter))
            card.tins_wanted.connect(self.tins_wanted)
            self._column.addWidget(card)
        self._column.addWidget(_water_card(plan))
        self._add_steps(plan)
        for remark in (jug_words.outside_band(plan), _volume_unknown(plan)):
            if remark:
                self._column.addWidget(label(remark, tone="wrong"))
        if jug_words.one_more(plan):
            told = label(jug_words.one_more(plan))
            told.setObjectName("one-more")
            self._column.addWidget(told)

    def _keep(self, key: str, is_open: bool) -> None:  # noqa: FBT001 -- a signal's
        (self._open.add if is_open else self._open.discard)(key)

    def _add_steps(self, plan: MixPlan) -> None:
        """Add the ladder, told as another way; with one jug its card says it all."""
        if len(plan.jugs) < 2 or not plan.ladder:
            return
        heading = jug_words.ladder_heading(plan)
        self._column.addSpacing(2)
        self._column.addWidget(label(heading, tone="head"))
        fold = Fold(self, "The steps", heading, is_open=_LADDER in self._open)
        fold.turned.connect(partial(self._keep, _LADDER))
        caution = jug_words.ladder_caution(plan)
        if caution:
            said = label(caution)
            said.setObjectName("ladder-caution")
            fold.rows.addWidget(said)
        for number, step in enumerate(plan.ladder, 1):
            fold.rows.addWidget(label(f"{number}.  {step}"))
        self._column.addWidget(fold.button, 0, Qt.AlignmentFlag.AlignLeft)
        self._column.addWidget(fold.body)


def _volume_unknown(plan: MixPlan) -> str:
    told = jug_words.volume_unknown(plan)
    return f"{told} Give the pot its volume under Change the plant." if told else ""


def _water_card(plan: MixPlan) -> QFrame:
    card = frame("card")
    rows = QVBoxLayout(card)
    rows.setContentsMargins(12, 10, 12, 10)
    rows.setSpacing(3)
    total_l = jug_words.clear_total_l(plan)
    top = QHBoxLayout()
    head = short_label("Clear water")
    enlarge(head, 1.2, strong=True)
    top.addWidget(head)
    top.addStretch(1)
    amount = short_label(volume_text(total_l) if total_l else "none")
    enlarge(amount, 1.2, strong=True)
    top.addWidget(amount)
    rows.addLayout(top)
    if total_l:
        kind = jug_words.water_name(plan)
        said = f"{kind[0].upper()}{kind[1:]}, {jug_words.CLEAR_SPARE}."
        rows.addWidget(label(said))
        rows.addWidget(label(jug_words.clear_shares(plan), tone="muted"))
    return card
