"""Show the rules of the decision: a list in their order, and one to read beside it.

It knows the pages and no plant; house rules are changed elsewhere and asked for by a
signal.
"""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, QUrl, Signal
from PySide6.QtWidgets import (
    QDialogButtonBox,
    QHBoxLayout,
    QListWidget,
    QListWidgetItem,
    QVBoxLayout,
    QWidget,
)

from growdesk.domain.rule_book import Part
from growdesk.domain.speech import tr
from growdesk.services.rule_views import PART_TITLES
from growdesk.ui import sizes, theme
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.widgets.find_line import DialogFindLine
from growdesk.ui.widgets.page_text import PageText
from growdesk.ui.widgets.parts import button, label

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from growdesk.services.rule_views import RuleView

_LIST_WIDTH_PX = 240
_MARGIN_PX = 14
_WANTED = 860, 640
_SETTING = "setting:"


class RulesDialog(OnScreen):
    """All rules to read, one at a time."""

    setting_wanted = Signal(str)

    def __init__(
        self, parent: QWidget | None, views: Sequence[RuleView], rule: str = ""
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Rules of the decision"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self._views = tuple(views)
        self._rows: dict[str, int] = {}
        self.list = QListWidget()
        self.list.setAccessibleName(tr("The rules in their order"))
        self.find_line = DialogFindLine()
        self.find_line.setPlaceholderText(tr("Find a rule by any word"))
        self.find_line.setAccessibleName(tr("Find a rule"))
        sizes.wide(self.find_line, _LIST_WIDTH_PX)
        self.find_line.textChanged.connect(self._narrow)
        self.find_line.entered.connect(self.list.setFocus)
        self.find_line.left_empty.connect(self.list.setFocus)
        self._nothing = label(tr("No rule has these words."), tone="muted")
        self._nothing.hide()
        sizes.wide(self.list, _LIST_WIDTH_PX)
        self.list.ensurePolished()  # rows are as high as the style wants them
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.page = PageText()
        self.page.setOpenLinks(False)
        self.page.document().setDocumentMargin(_MARGIN_PX)
        self.page.anchorClicked.connect(self._follow)
        self.previous = button(tr("&Previous"), lambda: self._step(-1))
        self.next = button(tr("&Next"), lambda: self._step(1))
        self.house_rules = button(tr("&House rules…"), self._to_house_rules)
        self._fill_list()
        self._lay_out()
        self.list.currentRowChanged.connect(self._show)
        theme.current().turned.connect(self._show_again)
        self.go_to(rule or self._views[0].rule)
        self.list.setFocus()

    @property
    def shown(self) -> RuleView:
        """Give the rule that is shown."""
        rule = self.list.currentItem().data(Qt.ItemDataRole.UserRole)
        return next(view for view in self._views if view.rule == rule)

    def go_to(self, rule: str) -> None:
        """Show a rule; one that is not there leaves the page as it is."""
        row = self._rows.get(rule)
        if row is None:
            return
        if self.list.item(row).isHidden():
            self.find_line.clear()
        self.list.setCurrentRow(row)

    def _found(self) -> list[str]:
        """Give the rules that have all words looked for, in their order."""
        asked = self.find_line.text().casefold().split()
        return [
            view.rule
            for view in self._views
            if all(word in _said(view) for word in asked)
        ]

    def _narrow(self) -> None:
        found = set(self._found())
        heading, below = None, False
        for row in range(self.list.count()):
            item = self.list.item(row)
            rule = item.data(Qt.ItemDataRole.UserRole)
            if rule is None:
                if heading is not None:
                    heading.setHidden(not below)
                heading, below = item, False
                continue
            item.setHidden(rule not in found)
            below = below or rule in found
        if heading is not None:
            heading.setHidden(not below)
        self._nothing.setVisible(not found)
        if found and self.shown.rule not in found:
            self.go_to(self._found()[0])
        self._offer_steps()

    def _fill_list(self) -> None:
        part, gate = None, 0
        for view in self._views:
            if view.part is not part:
                part = view.part
                self._add_heading(PART_TITLES[part])
            gate += view.part is Part.GATE
            number = f"{gate}. " if view.part is Part.GATE else ""
            item = QListWidgetItem(f"{number}{view.title}")
            item.setData(Qt.ItemDataRole.UserRole, view.rule)
            self._rows[view.rule] = self.list.count()
            self.list.addItem(item)

    def _add_heading(self, title: str) -> None:
        item = QListWidgetItem(title)
        item.setFlags(Qt.ItemFlag.NoItemFlags)
        font = item.font()
        font.setBold(True)
        item.setFont(font)
        self.list.addItem(item)

    def _lay_out(self) -> None:
        middle = QHBoxLayout()
        middle.setSpacing(12)
        left = QVBoxLayout()
        left.addWidget(self.find_line)
        left.addWidget(self._nothing)
        left.addWidget(self.list, 1)
        middle.addLayout(left)
        middle.addWidget(self.page, 1)
        close = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        close.rejected.connect(self.accept)
        foot = QHBoxLayout()
        foot.setSpacing(8)
        for each in (self.previous, self.next):
            foot.addWidget(each)
        foot.addStretch(1)
        foot.addWidget(self.house_rules)
        foot.addWidget(close)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(18, 16, 18, 14)
        outer.setSpacing(12)
        outer.addLayout(middle, 1)
        outer.addLayout(foot)
        self.resize(sizes.area(*_WANTED).boundedTo(self.room()))

    def _step(self, by: int) -> None:
        rules = self._found()
        self.go_to(rules[rules.index(self.shown.rule) + by])

    def _show(self, _row: int) -> None:
        view = self.shown
        self.page.setAccessibleName(tr("The rule: {title}").format(title=view.title))
        self.page.setHtml(_html(view))
        self._offer_steps()

    def _offer_steps(self) -> None:
        found, shown = self._found(), self.shown.rule
        self.previous.setEnabled(shown in found[1:])
        self.next.setEnabled(shown in found[:-1])

    def _show_again(self) -> None:
        self._show(self.list.currentRow())

    def _follow(self, address: QUrl) -> None:
        text = address.toString()
        if text.startswith(_SETTING):
            self._ask_for(text.removeprefix(_SETTING))

    def _to_house_rules(self) -> None:
        numbers = self.shown.numbers
        self._ask_for(numbers[0].key if numbers else "")

    def _ask_for(self, setting: str) -> None:
        self.accept()
        self.setting_wanted.emit(setting)


def _said(view: RuleView) -> str:
    """Give all words of a page to find it by."""
    texts = (view.title, *(text for _heading, text in view.parts()))
    named = (number.title for number in view.numbers)
    return " ".join((*texts, *named)).casefold()


def _html(view: RuleView) -> str:
    """Give a page with its headings in the colours now in force."""
    c = theme.colours()
    lines = [f'<p style="font-size: large; font-weight: 600">{escape(view.title)}</p>']
    for heading, text in view.parts():
        lines += (_head(heading, c.muted), f"<p>{escape(text)}</p>")
    if view.numbers:
        lines.append(_head(tr("Numbers in force"), c.muted))
        lines.extend(_numbers(view, c.accent))
    lines.append(_head(tr("Where it stands"), c.muted))
    lines.extend(f"<p>{escape(sentence)}</p>" for sentence in view.stands)
    style = f"body {{ color: {c.ink}; }} p {{ margin: 0 0 4px 0; line-height: 125%; }}"
    return f"<html><head><style>{style}</style></head><body>{''.join(lines)}</body>"


def _head(text: str, colour: str) -> str:
    style = f"color: {colour}; font-weight: 600; margin-top: 12px; margin-bottom: 2px"
    return f'<p style="{style}">{escape(text)}</p>'


def _numbers(view: RuleView, accent: str) -> Iterator[str]:
    for number in view.numbers:
        link = (
            f'<a style="color: {accent}" href="{_SETTING}{number.key}">'
            f"{escape(number.title)}</a>"
        )
        yield f"<p>{link}: {escape(number.value)}</p>"
