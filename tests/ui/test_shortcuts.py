"""The sheet of keys: complete, found in, on one page, and as PDF."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from growdesk.ui import actions, shortcut_table
from growdesk.ui.dialogs.shortcuts import ShortcutsDialog
from growdesk.ui.printing.marks import Words
from growdesk.ui.printing.setting import width_pt
from growdesk.ui.printing.shortcuts import lay_out_keys, write_keys
from growdesk.ui.shortcut_prints import ShortcutPrints
from growdesk.ui.widget_keys import HELD
from tests.ui.driving import dialog_of, settle

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pytestqt.qtbot import QtBot

    from growdesk.ui.printing.pages import Page
    from growdesk.ui.window import Window

UI = Path(actions.__file__).parent
PAPERS = {"A4": (595.0, 842.0), "Letter": (612.0, 792.0)}
READS_KEYS = re.compile(r"def keyPressEvent|QEvent\.Type\.KeyPress|QShortcut\(")


def test_every_command_stands_in_the_sheet_once_with_all_its_keys() -> None:
    menus = shortcut_table.groups()[: 1 + len(actions.MENUS)]
    rows = [row for group in menus for row in group.rows]
    native = [
        key.toString(key.SequenceFormat.NativeText)
        for command in actions.declared()
        for key in actions.first_keys(command)
    ]
    assert sorted(key for row in rows for key in row.keys) == sorted(native)
    assert len({row.text for row in rows}) == len(rows) == len(actions.declared())


def test_the_watering_day_comes_first_in_its_order() -> None:
    first = shortcut_table.groups()[0]
    assert [row.text for row in first.rows][:4] == [
        "Looks worth taking",
        "Record a look",
        "Walk the benches",
        "To the mixing",
    ]
    assert "Done, or not done (in the list)" in [row.text for row in first.rows]


def test_every_module_that_reads_keys_is_named() -> None:
    reading = {
        str(each.relative_to(UI))
        for each in UI.rglob("*.py")
        if READS_KEYS.search(each.read_text(encoding="utf-8"))
    }
    named = {module for held in HELD for module in held.modules}
    assert reading - named == set()
    assert all((UI / module).is_file() for module in named)


@pytest.mark.parametrize(
    ("typed", "row"),
    [
        ("pdf", "Save the sheet as PDF: Ctrl+Shift+S"),
        ("ctrl+shift+w", "Waters: Ctrl+Shift+W"),
        ("walk skip", "skips the plant: PgDown"),
    ],
)
def test_a_key_is_found_by_words_key_and_title(
    qtbot: QtBot, typed: str, row: str
) -> None:
    dialog = ShortcutsDialog(None, shortcut_table.groups())
    qtbot.addWidget(dialog)
    whole = dialog.shown()
    QTest.keyClicks(dialog.find_line, typed)
    assert row in dialog.shown()
    assert len(dialog.shown()) < len(whole)
    QTest.keyClick(dialog.find_line, Qt.Key.Key_Escape)
    assert dialog.shown() == whole
    QTest.keyClicks(dialog.find_line, "zzz")
    assert dialog.shown() == ()


def texts(page: Page) -> Iterator[tuple[float, float, Words]]:
    for placed in page.placed:
        for mark in placed.marks:
            if isinstance(mark, Words):
                yield placed.x_pt + mark.x_pt, placed.y_pt + mark.y_pt, mark


@pytest.mark.parametrize("paper", list(PAPERS))
def test_the_sheet_is_one_page_with_every_key_inside_it(paper: str) -> None:
    wide, high = PAPERS[paper]
    groups = shortcut_table.groups()
    (page,) = lay_out_keys(groups, wide, high)
    found = list(texts(page))
    for x, y, mark in found:
        assert x >= 20
        assert x + width_pt(mark.text, mark.face) <= wide - 20
        assert y <= high - 20
        assert mark.face.size_pt >= 7
    said = " ".join(mark.text for _x, _y, mark in found)
    for group in groups:
        for row in group.rows:
            assert all(word in said for word in row.text.split())


def test_more_keys_than_a_page_holds_go_on_to_the_next() -> None:
    groups = shortcut_table.groups() * 6
    pages = lay_out_keys(groups, *PAPERS["A4"])
    assert len(pages) > 1
    rows = sum(len(group.rows) + 1 for group in groups)
    set_with_words = [
        placed
        for page in pages
        for placed in page.placed[1:]
        if any(isinstance(mark, Words) for mark in placed.marks)
    ]
    assert len(set_with_words) == rows


def test_the_window_opens_the_sheet_and_saves_it(
    qtbot: QtBot, window: Window, tmp_path: Path
) -> None:
    window.commands["shortcuts"].trigger()
    dialog = dialog_of(window, ShortcutsDialog)
    assert dialog.find_line.hasFocus() or not dialog.isActiveWindow()
    dialog.reject()
    file = tmp_path / "keys.pdf"
    ShortcutPrints(window.desk, window).save_to(file)
    settle(qtbot, window)
    assert file.read_bytes().startswith(b"%PDF")
    assert window.strip.told == f"Saved {file}"


def test_the_pdf_is_of_the_paper_asked_for(tmp_path: Path) -> None:
    for paper, (wide, high) in PAPERS.items():
        file = tmp_path / f"{paper}.pdf"
        write_keys(shortcut_table.groups(), file, paper)
        box = re.search(rb"/MediaBox \[0 0 ([\d.]+) ([\d.]+)", file.read_bytes())
        assert box is not None
        assert float(box[1]) == pytest.approx(wide, abs=1)
        assert float(box[2]) == pytest.approx(high, abs=1)
