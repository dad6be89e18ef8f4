"""Show the handbook beside the window: contents, a page, find, back and forward.

It blocks nothing, so that one can read and do. Nothing is loaded from anywhere: pages
come as values, and a link leads to a page, a rule or a form, or nowhere.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Qt, QUrl, Signal
from PySide6.QtGui import QColor, QKeySequence, QShortcut, QTextCursor
from PySide6.QtWidgets import (
    QDialogButtonBox,
    QHBoxLayout,
    QListWidget,
    QListWidgetItem,
    QTextEdit,
    QVBoxLayout,
)

from growdesk.domain.speech import tr
from growdesk.ui import handbook_text, sizes, theme
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.widgets.find_line import DialogFindLine
from growdesk.ui.widgets.page_text import PageText
from growdesk.ui.widgets.parts import button, label

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtWidgets import QWidget

    from growdesk.services.handbook import HandbookPage

_LIST_PX: Final = 236
_MARGIN_PX: Final = 18
_WANTED: Final = 900, 680
_PAGE: Final = ".md"


class HandbookDialog(OnScreen):
    """The handbook to read, one page at a time."""

    command_wanted = Signal(str)
    rule_wanted = Signal(str)
    turned_to = Signal(str)

    def __init__(self, pages: Sequence[HandbookPage], first: str = "") -> None:
        super().__init__(None)
        self.setWindowTitle(tr("Handbook"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setAttribute(Qt.WidgetAttribute.WA_QuitOnClose, on=False)
        self.setModal(False)
        self._pages = {page.key: page for page in pages}
        self._texts = {page.key: handbook_text.filled(page.text) for page in pages}
        self._said = {
            key: f"{page.title} {_plain(self._texts[key])}".casefold()
            for key, page in self._pages.items()
        }
        self._read: list[str] = []
        self._at = -1
        self._rows: dict[str, int] = {}
        self._make()
        self._fill_list()
        self._lay_out()
        self.list.currentItemChanged.connect(self._chosen)
        self.list.itemActivated.connect(lambda _item: self.page.setFocus())
        theme.current().turned.connect(self._show_again)
        self.go_to(first if first in self._pages else next(iter(self._pages)))
        self.list.setFocus()

    @property
    def shown(self) -> str:
        """Give the key of the page that is shown."""
        return self._read[self._at] if self._read else ""

    def go_to(self, key: str) -> None:
        """Show a page; what was read before is a step back. An unknown one is left."""
        if key in self._pages and key != self.shown:
            del self._read[self._at + 1 :]
            self._read.append(key)
            self._at = len(self._read) - 1
            self._show()

    def step(self, by: int) -> None:
        """Go back or forward among the pages that were read."""
        if 0 <= self._at + by < len(self._read):
            self._at += by
            self._show()

    def stand_beside(self, window: QWidget) -> None:
        """Take the side of a window that has room, else the edge of its screen."""
        self.setScreen(window.screen())
        free, other, own = self.free(), window.frameGeometry(), self.frameGeometry()
        right = free.right() + 1 - other.right()
        left = other.left() - free.left()
        if right < own.width() <= left:
            x = other.left() - own.width()
        else:
            x = min(other.right() + 1, free.right() + 1 - own.width())
        self.move(x, other.top())
        self.come_onto_screen()

    def say(self, text: str) -> None:
        """Tell a line at the foot; the next page takes it away."""
        self._message.setText(text)

    # -- building -------------------------------------------------------------------

    def _make(self) -> None:
        self.list = QListWidget()
        self.list.setAccessibleName(tr("Contents"))
        sizes.wide(self.list, _LIST_PX)
        self.list.ensurePolished()  # rows are as high as the style wants them
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.find_line = DialogFindLine()
        self.find_line.setPlaceholderText(tr("Find in all pages"))
        self.find_line.setAccessibleName(tr("Find in all pages"))
        sizes.wide(self.find_line, _LIST_PX)
        self.find_line.textChanged.connect(self._narrow)
        self.find_line.entered.connect(self.find_next)
        self.find_line.left_empty.connect(self.list.setFocus)
        self._nothing = label(tr("No page has these words."), tone="muted")
        self._nothing.hide()
        self._message = label("", tone="muted")
        self.page = PageText()
        self.page.setOpenLinks(False)
        self.page.document().setDocumentMargin(_MARGIN_PX)
        self.page.anchorClicked.connect(self._follow)
        self.back = button(tr("&Back"), lambda: self.step(-1), "Alt+←")
        self.forward = button(tr("For&ward"), lambda: self.step(1), "Alt+→")
        find = QKeySequence(QKeySequence.StandardKey.Find)
        for keys, does in (
            (QKeySequence("Alt+Left"), self.back.click),
            (QKeySequence("Alt+Right"), self.forward.click),
            (find, self.find_line.setFocus),
            (QKeySequence("F1"), self.list.setFocus),
        ):
            QShortcut(keys, self).activated.connect(does)

    def _fill_list(self) -> None:
        part = ""
        for key, page in self._pages.items():
            if page.part != part:
                part = page.part
                self._add_heading(part)
            item = QListWidgetItem(page.title)
            item.setData(Qt.ItemDataRole.UserRole, key)
            self._rows[key] = self.list.count()
            self.list.addItem(item)

    def _add_heading(self, title: str) -> None:
        item = QListWidgetItem(title)
        item.setFlags(Qt.ItemFlag.NoItemFlags)
        font = item.font()
        font.setBold(True)
        item.setFont(font)
        self.list.addItem(item)

    def _lay_out(self) -> None:
        left = QVBoxLayout()
        left.addWidget(self.find_line)
        left.addWidget(self._nothing)
        left.addWidget(self.list, 1)
        middle = QHBoxLayout()
        middle.setSpacing(12)
        middle.addLayout(left)
        middle.addWidget(self.page, 1)
        close = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        close.rejected.connect(self.reject)
        shuts = close.button(QDialogButtonBox.StandardButton.Close)
        shuts.setAutoDefault(False)  # Enter in the contents goes to the page
        foot = QHBoxLayout()
        foot.setSpacing(8)
        foot.addWidget(self.back)
        foot.addWidget(self.forward)
        foot.addWidget(self._message, 1)
        foot.addWidget(close)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(18, 16, 18, 14)
        outer.setSpacing(12)
        outer.addLayout(middle, 1)
        outer.addLayout(foot)
        self.resize(sizes.area(*_WANTED).boundedTo(self.room()))

    # -- showing --------------------------------------------------------------------

    def _show(self) -> None:
        page = self._pages[self.shown]
        self.page.setAccessibleName(tr("Page: {title}").format(title=page.title))
        handbook_text.set_page(self.page.document(), self._texts[page.key])
        self.page.moveCursor(QTextCursor.MoveOperation.Start)
        self._mark_found()
        row = self._rows[page.key]
        if self.list.currentRow() != row:
            self.list.setCurrentRow(row)
        self.back.setEnabled(self._at > 0)
        self.forward.setEnabled(self._at < len(self._read) - 1)
        self.say("")
        self.turned_to.emit(page.key)

    def _show_again(self) -> None:
        bar = self.page.verticalScrollBar()
        at = bar.value()
        self._show()
        bar.setValue(at)

    def _chosen(self, item: QListWidgetItem | None) -> None:
        if item is not None:
            self.go_to(str(item.data(Qt.ItemDataRole.UserRole)))

    # -- finding --------------------------------------------------------------------

    def found(self) -> tuple[str, ...]:
        """Give the pages that have all words looked for, in their order."""
        asked = self.find_line.text().casefold().split()
        return tuple(
            key for key, said in self._said.items() if all(w in said for w in asked)
        )

    def find_next(self) -> None:
        """Go to the next place of what is looked for, on this page or a later one."""
        found, words = self.found(), self.find_line.text().split()
        if not found or not words:
            self.list.setFocus()
        elif self.shown not in found:
            self.go_to(found[0])
        elif not self.page.find(words[0]):
            at = found.index(self.shown)
            if len(found) > 1:
                self.go_to(found[(at + 1) % len(found)])
            self.page.moveCursor(QTextCursor.MoveOperation.Start)
            self.page.find(words[0])

    def _narrow(self) -> None:
        found = set(self.found())
        heading, below = None, False
        for row in range(self.list.count()):
            item = self.list.item(row)
            key = item.data(Qt.ItemDataRole.UserRole)
            if key is None:
                if heading is not None:
                    heading.setHidden(not below)
                heading, below = item, False
                continue
            item.setHidden(key not in found)
            below = below or key in found
        if heading is not None:
            heading.setHidden(not below)
        self._nothing.setVisible(not found)
        if found and self.shown not in found:
            self.go_to(self.found()[0])
        else:
            self._mark_found()

    def _mark_found(self) -> None:
        """Put a ground behind each word looked for, and bring the first into sight."""
        marks, first = [], None
        ground = QColor(theme.colours().chosen)
        for word in self.find_line.text().split():
            at = self.page.document().find(word)
            while not at.isNull():
                mark = QTextEdit.ExtraSelection()
                mark.cursor = at
                mark.format.setBackground(ground)
                marks.append(mark)
                if first is None or at.position() < first.position():
                    first = at
                at = self.page.document().find(word, at)
        self.page.setExtraSelections(marks)
        if first is not None:
            seen = QTextCursor(first)
            seen.setPosition(first.selectionStart())
            self.page.setTextCursor(seen)
            self.page.ensureCursorVisible()

    # -- following ------------------------------------------------------------------

    def _follow(self, address: QUrl) -> None:
        """Go where a link leads; what leads out of the program leads nowhere."""
        scheme, _, name = address.toString().partition(":")
        if scheme.endswith(_PAGE):
            self.go_to(scheme.removesuffix(_PAGE))
        elif scheme == "rule":
            self.rule_wanted.emit(name)
        elif scheme == "command":
            self.command_wanted.emit(name)


def _plain(text: str) -> str:
    """Give a page as it is read, without its links and marks."""
    return handbook_text.LINK.sub(r"\1", text).replace("*", "").replace("#", "")
