"""Show the marks given with hindsight, counted by rule and kind."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QDialogButtonBox, QVBoxLayout, QWidget

from growdesk.domain.speech import mark, tr, trn
from growdesk.ui import sizes, words
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.widgets.parts import button, label
from growdesk.ui.widgets.told_table import ToldTable

if TYPE_CHECKING:
    from collections.abc import Mapping

    from growdesk.domain.hindsight import Tally
    from growdesk.services.hindsight_values import HindsightTable

_MARKS_NOTE = mark(
    "A rule that is often wrong for a kind is a reason to change its house rule, or the"
    " kind's own field; a rule that is right is one to leave."
)


class MarksDialog(OnScreen):
    """All marks by rule and kind.

    ``house_rules`` leads a rule to the house rule that moves it most, where one does.
    """

    rule_wanted = Signal(str)
    house_wanted = Signal(str)

    def __init__(
        self,
        parent: QWidget | None,
        table: HindsightTable,
        rule_titles: Mapping[str, str],
        house_rules: Mapping[str, str],
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Marks counted"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self._rows = table.rows
        self._house_rules = house_rules
        self.headline = label(_headline(table), scale=1.1)
        self.table = ToldTable(
            tr("Marks by rule and kind"),
            (
                tr("Rule that decided"),
                tr("Kind"),
                tr("Marked"),
                tr("Right"),
                tr("Should have been"),
            ),
            wide=(0, 1, 4),
            numbers=(2, 3),
        )
        self.table.show_rows(
            [
                (
                    rule_titles.get(row.rule, row.rule),
                    table.kind_titles.get(row.kind, row.kind),
                    str(row.marked),
                    str(row.right),
                    _wanted(row),
                )
                for row in self._rows
            ]
        )
        self.table.currentCellChanged.connect(lambda *_cells: self._offer())
        self.rule_button = button(tr("About the &rule…"), self._about)
        self.house_button = button(tr("&House rule…"), self._house)
        for each in (self.table, self.rule_button, self.house_button):
            each.setParent(self)  # with nothing marked they stand nowhere
            each.setVisible(bool(self._rows))
        self._lay_out()
        self._offer()

    def _lay_out(self) -> None:
        outer = QVBoxLayout(self)
        outer.setContentsMargins(18, 16, 18, 14)
        outer.setSpacing(10)
        outer.addWidget(self.headline)
        foot = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        foot.rejected.connect(self.accept)
        if self._rows:
            outer.addWidget(label(tr(_MARKS_NOTE), tone="muted"))
            outer.addWidget(self.table, 1)
            for each in (self.house_button, self.rule_button):
                foot.addButton(each, QDialogButtonBox.ButtonRole.ActionRole)
            self.resize(sizes.area(820, 480))
        else:
            outer.addStretch(1)
            self.resize(sizes.area(520, 150))
        outer.addWidget(foot)
        foot.button(QDialogButtonBox.StandardButton.Close).setFocus()

    @property
    def _rule(self) -> str:
        row = self.table.currentRow()
        return self._rows[row].rule if 0 <= row < len(self._rows) else ""

    def _offer(self) -> None:
        self.house_button.setEnabled(bool(self._house_rules.get(self._rule)))

    def _about(self) -> None:
        rule = self._rule
        self.accept()
        self.rule_wanted.emit(rule)

    def _house(self) -> None:
        key = self._house_rules[self._rule]
        self.accept()
        self.house_wanted.emit(key)


def _wanted(row: Tally) -> str:
    if not row.better:
        return tr("always right")
    return ", ".join(
        f"{words.VERDICT_INSIDE[verdict]} {count}×" for verdict, count in row.better
    )


def _headline(table: HindsightTable) -> str:
    marked = sum(row.marked for row in table.rows)
    if not marked:
        return tr(
            "No decision is marked yet. Choose a plant and mark its past days with"
            " hindsight; the marks are counted here."
        )
    right = sum(row.right for row in table.rows)
    now = table.rethought
    return trn(
        "{marked} decision is marked, {right} of them right. By the house rules of "
        "today {agree} of {marks} come out as you say.",
        "{marked} decisions are marked, {right} of them right. By the house rules of "
        "today {agree} of {marks} come out as you say.",
        marked,
    ).format(marked=marked, right=right, agree=now.agree, marks=now.marks)
