"""Names in the window: italics, nothing taken for markup, cut where they must be."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QFont, QFontMetrics
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QLineEdit, QVBoxLayout, QWidget

from growdesk.services.values import PlantDraft
from growdesk.ui.dialogs.plant import PlantDialog
from growdesk.ui.dialogs.plant_start import PlantStart
from growdesk.ui.name_text import NamePainter, name_html, shown_name
from growdesk.ui.widgets.name_field import NameUnder
from growdesk.ui.widgets.text_link import TextLink

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

KETTLE = "Cattleya Mini Purple 'Kettle Blue'"


def test_a_name_as_rich_text() -> None:
    assert name_html(KETTLE) == "<i>Cattleya</i> Mini Purple ‘Kettle Blue’"
    assert name_html(KETTLE, short=True) == "<i>C.</i> Mini Purple ‘Kettle Blue’"
    assert shown_name(KETTLE, short=True) == "C. Mini Purple ‘Kettle Blue’"
    assert name_html("") == ""


def test_markup_in_a_name_is_text() -> None:
    assert "<b>" not in name_html("Phal. <b>Foo</b> 'A & B'")
    assert "&lt;b&gt;" in name_html("Phal. <b>Foo</b> 'A & B'")
    assert "<img" not in name_html("<img src=x> amabilis")


def _width(text: str) -> int:
    return QFontMetrics(QFont()).horizontalAdvance(text)


@pytest.mark.usefixtures("qapp")
class TestPainted:
    def test_a_name_with_room_is_whole_and_its_genus_slanted(self) -> None:
        layout = NamePainter().laid_out(KETTLE, QFont(), 900)
        assert layout.text() == "Cattleya Mini Purple ‘Kettle Blue’"
        (slanted,) = layout.formats()
        assert (slanted.start, slanted.length) == (0, len("Cattleya"))
        assert slanted.format.fontItalic()

    def test_the_genus_is_abbreviated_before_anything_is_cut(self) -> None:
        room = _width(KETTLE) - 20
        layout = NamePainter().laid_out(KETTLE, QFont(), room)
        assert layout.text() == "C. Mini Purple ‘Kettle Blue’"

    def test_what_has_no_room_ends_in_an_ellipsis(self) -> None:
        room = _width("C. Mini Purple ‘")
        layout = NamePainter().laid_out(KETTLE, QFont(), room)
        assert layout.text().startswith("C. Mini")
        assert layout.text().endswith("…")
        assert layout.lineAt(0).naturalTextWidth() <= room

    def test_two_lines_at_most(self) -> None:
        name = "Phalaenopsis lueddemanniana 'Barley', division of a plant of old"
        layout = NamePainter(lines=2).laid_out(name, QFont(), 150)
        assert layout.lineCount() <= 2
        assert layout.text().endswith("…")

    def test_no_more_are_kept_than_screens_show(
        self, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        monkeypatch.setattr("growdesk.ui.name_text._MOST_KEPT", 3)
        painter = NamePainter()
        for width_px in range(200, 220):
            painter.laid_out(KETTLE, QFont(), width_px)
            assert 1 <= len(painter._kept) <= 3

    def test_a_name_is_laid_out_once_for_a_width(self) -> None:
        painter = NamePainter()
        first = painter.laid_out(KETTLE, QFont(), 300)
        assert painter.laid_out(KETTLE, QFont(), 300) is first
        assert painter.laid_out(KETTLE, QFont(), 301) is not first


class Field(QWidget):
    """A name's field with what stands beneath it."""

    def __init__(self) -> None:
        super().__init__()
        self.line = QLineEdit()
        self.line.setAccessibleName("Name")
        self.under = NameUnder(self.line)
        column = QVBoxLayout(self)
        column.addWidget(self.line)
        column.addWidget(self.under)

    def said(self) -> list[str]:
        labels = self.under.findChildren(QLabel)
        return [each.text() for each in labels if each.isVisible()]


@pytest.fixture
def field(qtbot: QtBot) -> Field:
    made = Field()
    qtbot.addWidget(made)
    made.show()
    qtbot.waitExposed(made)
    made.activateWindow()
    made.line.setFocus()
    qtbot.waitUntil(made.line.hasFocus)
    return made


def test_beneath_the_field_stands_the_name_as_shown_and_its_parts(field: Field) -> None:
    assert not field.under.isVisible()
    QTest.keyClicks(field.line, "Phal. amabilis 'Snow'")
    field.under.tell()
    assert field.said() == [
        "<i>Phal. amabilis</i> ‘Snow’",
        "genus Phalaenopsis; species amabilis; clone ‘Snow’",
    ]


def test_a_proposal_is_taken_by_one_press_and_undone_by_one(field: Field) -> None:
    typed = "Van. Prapawan tanzanite"
    QTest.keyClicks(field.line, typed)
    field.under.tell()
    assert field.line.text() == typed
    assert any("stands without quotes" in text for text in field.said())
    use = next(
        link
        for link in field.under.findChildren(TextLink)
        if link.accessibleName() == "Use this: Van. Prapawan 'Tanzanite'"
    )
    edited: list[str] = []
    field.line.textEdited.connect(edited.append)
    use.setFocus()
    QTest.keyClick(use, Qt.Key.Key_Return)
    assert field.line.text() == "Van. Prapawan 'Tanzanite'"
    assert edited[-1] == field.line.text()
    assert field.line.hasFocus()
    assert not field.under.findChildren(TextLink) or not any(
        link.isVisible() for link in field.under.findChildren(TextLink)
    )
    field.line.undo()
    assert field.line.text() == typed


def test_genera_are_offered_and_taken_by_key(qtbot: QtBot, field: Field) -> None:
    QTest.keyClicks(field.line, "Rlc")
    popup = field.under.completer.popup()
    assert popup is not None
    qtbot.waitUntil(popup.isVisible)
    rows = popup.model()
    assert rows.rowCount() == 1
    said = rows.index(0, 0).data(Qt.ItemDataRole.DisplayRole)
    assert said == "Rhyncholaeliocattleya (Rlc.): Cattleya × Rhyncholaelia"
    edited: list[str] = []
    field.line.textEdited.connect(edited.append)
    QTest.keyClick(popup, Qt.Key.Key_Down)
    QTest.keyClick(popup, Qt.Key.Key_Return)
    assert field.line.text() == "Rlc. "
    assert edited == ["Rlc. "]
    assert not popup.isVisible()


def test_typing_on_takes_nothing(field: Field) -> None:
    QTest.keyClicks(field.line, "Cattleya walkeriana")
    assert field.line.text() == "Cattleya walkeriana"
    popup = field.under.completer.popup()
    assert popup is not None
    assert not popup.isVisible()


def test_the_plant_form_says_how_its_name_is_read(qtbot: QtBot) -> None:
    start = PlantStart(3, PlantDraft("A1", KETTLE, ""), (), ())
    dialog = PlantDialog(None, start, lambda _name: "")
    qtbot.addWidget(dialog)
    dialog.show()
    qtbot.waitExposed(dialog)
    shown = dialog.findChild(QLabel, "name-shown")
    assert isinstance(shown, QLabel)
    assert shown.text() == "<i>Cattleya</i> Mini Purple ‘Kettle Blue’"
    dialog.name.setFocus()
    QTest.keyClicks(dialog.name, "x")
    assert dialog.draft().name.endswith("x")
