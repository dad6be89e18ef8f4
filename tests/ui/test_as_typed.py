"""Names that look like markup are shown as they were typed, wherever they stand."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import Qt as QtGui
from PySide6.QtGui import QTextDocument
from PySide6.QtWidgets import QLabel, QTableWidget, QWidget

from growdesk.domain.measuring import Tool, ToolKind
from growdesk.services.recipe_values import PartDraft, RecipeDraft
from growdesk.services.stock_values import StockWanted
from growdesk.services.values import TinDraft, WaterDraft
from growdesk.ui.tips import as_typed
from tests.ui.driving import settle

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window

NAME = "Cal & <b>Mag</b>"
MARK = "<b>Mag</b>"


def shown(text: str, form: Qt.TextFormat = Qt.TextFormat.AutoText) -> str:
    """Give what a person sees of a text in a label or a tool tip."""
    is_rich = form == Qt.TextFormat.RichText or (
        form == Qt.TextFormat.AutoText and QtGui.mightBeRichText(text)
    )
    if not is_rich:
        return text
    page = QTextDocument()
    page.setHtml(text)
    return page.toPlainText()


def texts(within: QWidget) -> Iterator[tuple[str, str]]:
    """Give all texts of labels and tool tips with what is seen of them."""
    for label in within.findChildren(QLabel):
        yield label.text(), shown(label.text(), label.textFormat())
    for widget in within.findChildren(QWidget):
        yield widget.toolTip(), shown(widget.toolTip())
    for table in within.findChildren(QTableWidget):
        for row in range(table.rowCount()):
            for column in range(table.columnCount()):
                item = table.item(row, column)
                if item is not None:
                    yield item.toolTip(), shown(item.toolTip())


@pytest.mark.parametrize("text", ["plain", "5 < 6 & 7 > 2", NAME, f"{NAME}\nand more"])
def test_a_tool_tip_says_what_was_typed(text: str) -> None:
    assert shown(as_typed(text)) == text


def test_names_with_tags_are_no_markup_anywhere(
    stocked: Collection, show: Callable[[Collection], Window], qtbot: QtBot
) -> None:
    tin = stocked.mixing.add_tin(TinDraft(NAME, "15-5-15 + 5 Ca")).ids[0]
    stocked.waters.add(WaterDraft("tap", 0.4, name=NAME))
    stocked.recipes.add(RecipeDraft(NAME, (PartDraft(tin, 1.0),), in_use=True))
    stocked.measures.add_tool(Tool(ToolKind.SPOON, NAME, 0.5, None, ((tin, 3.0),)))
    stocked.stocks.make(StockWanted(NAME, ((tin, 20.0),), volume_l=0.5))
    window = show(stocked)
    settle(qtbot, window)
    for name in ("tins", "waters", "recipes", "measures", "stocks", "on-shelf"):
        window.commands[name].trigger()
        settle(qtbot, window)
    found = [pair for pair in texts(window) if "Mag" in pair[0]]
    assert len(found) >= 8
    assert [raw for raw, seen in found if MARK not in seen] == []
