"""Find a house rule: a line that narrows the page, and the headings to jump to.

Knows how rules are told and where they stand on the page; no values.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt
from PySide6.QtWidgets import QLabel, QListWidget, QListWidgetItem

from growdesk.domain.speech import mark, tr
from growdesk.ui import sizes
from growdesk.ui.widgets.find_line import DialogFindLine
from growdesk.ui.widgets.parts import enlarge, label

if TYPE_CHECKING:
    from PySide6.QtWidgets import QScrollArea

    from growdesk.services.values import Setting
    from growdesk.ui.widgets.form import Form

_HEADINGS_PX = 176
_NO_RULE = mark("No rule has these words. Escape shows all of them again.")


class RuleFinding(QObject):
    """The find line and the headings of one page of rules."""

    def __init__(self, form: Form, area: QScrollArea) -> None:
        super().__init__(form)
        self._form = form
        self._area = area
        self._jumps = False
        self._titles: dict[str, QLabel] = {}
        self._rules: dict[str, list[Setting]] = {}
        self._nothing = label(tr(_NO_RULE), tone="muted")
        self._nothing.hide()
        self.line = DialogFindLine()
        self.line.setPlaceholderText(tr("Find a rule by any word of it"))
        self.line.setAccessibleName(tr("Find a rule"))
        self.line.textChanged.connect(self._narrow)
        self.line.entered.connect(self.go_in)
        self.headings = QListWidget()
        self.headings.setAccessibleName(tr("Headings"))
        sizes.wide(self.headings, _HEADINGS_PX)
        self.headings.currentItemChanged.connect(self._jump)
        area.verticalScrollBar().valueChanged.connect(self._follow)

    def under(self, setting: Setting) -> None:
        """Begin a heading where a rule is the first under it."""
        if setting.group not in self._titles:
            title = label(setting.group)
            enlarge(title, 1.15, strong=True)
            title.setContentsMargins(0, 14 if self._titles else 0, 0, 2)
            self._form.wide(title)
            self._titles[setting.group] = title
            self.headings.addItem(setting.group)
        self._rules.setdefault(setting.group, []).append(setting)

    def end(self) -> None:
        """Close the page with the line for a search that finds nothing."""
        self._form.wide(self._nothing)
        self._mark(0)

    def found(self) -> list[str]:
        """Give the keys of the rules that are shown, in their order."""
        asked = self.line.text().casefold().split()
        return [
            setting.key
            for rules in self._rules.values()
            for setting in rules
            if all(word in _said(setting) for word in asked)
        ]

    def go_in(self) -> None:
        """Go from the line to the first rule found."""
        found = self.found()
        editor = self._form.editor(found[0]) if found else None
        if editor is not None:
            editor.setFocus(Qt.FocusReason.TabFocusReason)
            self._area.ensureWidgetVisible(editor)

    def _narrow(self) -> None:
        found = set(self.found())
        for number, (group, rules) in enumerate(self._rules.items()):
            some = [setting for setting in rules if setting.key in found]
            self._titles[group].setVisible(bool(some))
            self.headings.item(number).setHidden(not some)
            for setting in rules:
                self._form.show_field(setting.key, shown=setting.key in found)
        self._nothing.setVisible(not found)
        self._area.verticalScrollBar().setValue(0)

    def _jump(self, item: QListWidgetItem | None) -> None:
        if item is not None:
            self._jumps = True
            self._area.verticalScrollBar().setValue(self._top(item.text()))
            self._jumps = False

    def _follow(self, scrolled: int) -> None:
        """Mark the heading whose rules fill most of what is in sight.

        A jump marks its own heading, however few rules stand under it.
        """
        shown = [
            (row, self._top(group))
            for row, (group, title) in enumerate(self._titles.items())
            if not title.isHidden()
        ]
        if self._jumps or not shown:
            return
        foot = scrolled + self._area.viewport().height()
        ends = [*(top for _row, top in shown[1:]), self._form.y() + self._form.height()]
        sights = [
            (min(end, foot) - max(top, scrolled), -row)
            for (row, top), end in zip(shown, ends, strict=True)
        ]
        self._mark(-max(sights)[1])

    def _top(self, group: str) -> int:
        """Give how far down the page a heading stands, in pixels."""
        return self._form.y() + self._titles[group].y()

    def _mark(self, row: int) -> None:
        self.headings.blockSignals(True)  # noqa: FBT003 -- Qt's own
        self.headings.setCurrentRow(row)
        self.headings.blockSignals(False)  # noqa: FBT003 -- Qt's own


def _said(setting: Setting) -> str:
    told = (setting.title, setting.text, setting.source, setting.group, setting.unit)
    return " ".join(told).casefold()
