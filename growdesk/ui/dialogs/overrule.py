"""Take in an overrule for some plants: what they get, why, until when.

Hands out an ``Overrule``, or that it ends; who it is written for, the opener knows.
"""

from __future__ import annotations

from datetime import date, timedelta
from functools import partial
from typing import TYPE_CHECKING

from msgspec import Struct
from PySide6.QtCore import Signal
from PySide6.QtWidgets import QDialogButtonBox, QHBoxLayout, QLineEdit, QWidget
from typing_extensions import override

from growdesk.domain.day_words import figures
from growdesk.domain.errors import InputError
from growdesk.domain.facts import Overrule, Verdict, Water
from growdesk.domain.rules.overruled import USUAL_WATER
from growdesk.domain.speech import Phrases, tr, trn
from growdesk.ui import sizes, typed, words
from growdesk.ui.dialogs.base import FormDialog
from growdesk.ui.widgets.form import choose
from growdesk.ui.widgets.parts import button, label, short_label
from growdesk.ui.widgets.whom_head import whom_head

if TYPE_CHECKING:
    from collections.abc import Mapping

    from growdesk.ui.dialogs.held import Held

WATERS: Mapping[Verdict, tuple[Water, ...]] = {
    Verdict.FEED: (Water.THROUGH,),
    Verdict.FLUSH: (Water.THROUGH,),
    Verdict.CLEAR_WATER: (Water.IF_DRY, Water.SPARING, Water.THROUGH),
    Verdict.LOOK_FIRST: (Water.SPARING, Water.IF_DRY, Water.NONE),
    Verdict.KEEP_DRY: (Water.NONE, Water.SPARING, Water.IF_DRY),
}
"""How to water under each verdict, as far as it makes sense."""
USUAL_DAYS = 7
A_SEASON_DAYS = 120
_QUICK = Phrases(
    {7: "A week", 14: "Two weeks", 30: "A month", 91: "Three months"}, "how long"
)
_UNTIL = Phrases(
    {
        7: "Until: a week on",
        14: "Until: two weeks on",
        30: "Until: a month on",
        91: "Until: three months on",
    }
)
_DATE_PX = 130


class OverruleStart(Struct, frozen=True):
    """What the form opens with; ``now`` says what the plants get as it stands.

    ``held`` is the overrule that holds already, of one plant; ``ends`` counts those
    that can be ended; ``each`` says of several plants what each one gets now.
    """

    whom: str
    now: str
    verdict: Verdict
    on: date
    held: Overrule | None = None
    ends: int = 0
    each: tuple[str, ...] = ()


class OverruleDialog(FormDialog):
    """An overrule for one or several plants."""

    end_wanted = Signal()

    def __init__(self, parent: QWidget | None, start: OverruleStart) -> None:
        super().__init__(parent, tr("Overrule"), tr("Overrule"))
        self._start = start
        self._meant: date | None = None
        self.body.addWidget(whom_head(start.whom))
        self.body.addWidget(label(start.now))
        self._build()
        self._fill()
        self.end_button = self.buttons.addButton(
            tr("&End the overrule") if start.ends == 1 else tr("&End the overrules"),
            QDialogButtonBox.ButtonRole.ResetRole,
        )
        self.end_button.setToolTip(tr("It is judged again at once"))
        self.end_button.setVisible(start.ends > 0)
        self.end_button.clicked.connect(lambda _on=False: self._end())
        sizes.least_wide(self, 520)
        self.begin()
        self.verdict.setFocus()

    @override
    def draft(self) -> Overrule:
        """Give the word as entered."""
        reason = self.reason.text().strip()
        if not reason:
            raise InputError(
                "reason",
                "",
                tr("is empty"),
                tr("Say why, so that you know it next month."),
            )
        return Overrule(
            verdict=Verdict(self.verdict.currentData()),
            reason=reason,
            until=typed.needed_day(self.until.text(), "until"),
            water=Water(self.water.currentData()),
        )

    @override
    def send(self, draft: object) -> None:
        """Hand the overrule out; one over a season long is asked about once."""
        if isinstance(draft, Overrule) and draft.until != self._meant:
            ahead = (draft.until - self._start.on).days
            if ahead > A_SEASON_DAYS:
                self._meant = draft.until
                self.complain(
                    tr(
                        "{short_day} is {ahead} days on. Press Overrule once more if "
                        "you mean that day."
                    ).format(short_day=words.short_day(draft.until), ahead=ahead)
                )
                self.until.setFocus()
                return
        super().send(draft)

    @override
    def kept(self) -> Held:
        """Give the whole form as it stands, its day too, once anything was changed."""
        return self.held() if self.changes() else {}

    # -- building -------------------------------------------------------------------

    def _build(self) -> None:
        verdicts = [(each, words.VERDICT[each]) for each in words.VERDICT_ORDER]
        self.verdict = self.form.combo("verdict", tr("&What it gets"), verdicts)
        self.water = self.form.combo("water", tr("&How"), ())
        self.reason = self.form.line(
            "reason", tr("&Because"), tr("why, in your own words")
        )
        self.until = QLineEdit()
        self.until.setPlaceholderText(typed.day_example())
        sizes.wide(self.until, _DATE_PX)
        self.day = short_label(tone="muted")
        self.form.add(
            "until", tr("&Until"), self.until, _side_by_side(self.until, self.day)
        )
        self.form.under(self._quick())
        self.form.note(tr("That day is included; then the plant is judged again."))
        self.form.end()
        self.body.addWidget(self.form)
        if self._start.each:
            self.body.addWidget(label(tr("What each gets now"), tone="head"))
            told = label("\n".join(self._start.each))
            told.setObjectName("each-now")
            self.body.addWidget(told)
        self.body.addStretch(1)
        self.verdict.currentIndexChanged.connect(lambda _row: self._offer_water())
        self.until.textChanged.connect(lambda _text: self._show_day())

    def _quick(self) -> QWidget:
        made = QWidget()
        row = QHBoxLayout(made)
        row.setContentsMargins(0, 0, 0, 0)
        for days, text in _QUICK.items():
            made_button = button(text, partial(self._in_days, days))
            made_button.setAccessibleName(_UNTIL[days])
            row.addWidget(made_button)
        row.addStretch(1)
        return made

    def _fill(self) -> None:
        held = self._start.held
        choose(self.verdict, self._start.verdict if held is None else held.verdict)
        self._offer_water()
        if held is None:
            self._in_days(USUAL_DAYS)
            return
        choose(self.water, held.water or USUAL_WATER[held.verdict])
        self.reason.setText(held.reason)
        self.until.setText(figures(held.until))

    def _offer_water(self) -> None:
        verdict = Verdict(self.verdict.currentData())
        self.water.clear()
        for each in WATERS[verdict]:
            self.water.addItem(words.WATER[each], each)
        choose(self.water, USUAL_WATER[verdict])
        self.water.setEnabled(self.water.count() > 1)

    def _in_days(self, days: int) -> None:
        self.until.setText(figures(self._start.on + timedelta(days=days)))

    def _show_day(self) -> None:
        """Say which day was typed, so that a slip in it is seen."""
        try:
            day = typed.needed_day(self.until.text(), "until")
        except InputError:
            self.day.setText("")
            return
        ahead = (day - self._start.on).days
        when = words.near_day(day)
        if ahead > 0:
            when = trn("{day}, {ahead} day on", "{day}, {ahead} days on", ahead).format(
                day=when, ahead=ahead
            )
        self.day.setText(when)

    def _end(self) -> None:
        self.end_button.setEnabled(False)
        self.end_wanted.emit()

    @override
    def refused(self, error: Exception) -> None:
        self.end_button.setEnabled(True)
        super().refused(error)


def _side_by_side(*widgets: QWidget) -> QWidget:
    made = QWidget()
    row = QHBoxLayout(made)
    row.setContentsMargins(0, 0, 0, 0)
    for each in widgets:
        row.addWidget(each)
    row.addStretch(1)
    return made
