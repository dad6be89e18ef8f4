"""Tags on paper: where each label stands, what it says, what a scanner reads."""

from __future__ import annotations

import io
from datetime import date
from itertools import pairwise
from typing import TYPE_CHECKING

import pypdf
import pytest
import zxingcpp
from PIL import Image
from PySide6.QtCore import QBuffer, QIODevice
from PySide6.QtGui import QImage, QPainter
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtWidgets import QFileDialog

from growdesk.domain.errors import InputError
from growdesk.domain.label_layouts import PRESETS, Strip, read_layout
from growdesk.services.tags import TagFacts
from growdesk.ui.dialogs.pages import PagesPreview
from growdesk.ui.dialogs.tags import ALL, STRIP, TagsDialog, TagsStart
from growdesk.ui.printing.drawing import Canvas
from growdesk.ui.printing.marks import MM, Face, Frame, Modules, Rule, Words
from growdesk.ui.printing.naming import name_lines, styled_pt
from growdesk.ui.printing.qr import QUIET, code
from growdesk.ui.printing.setting import line_pt, width_pt
from growdesk.ui.printing.tag_labels import Label, Shown, label, name_face
from growdesk.ui.printing.tag_pages import (
    TagWish,
    checked,
    lay_out_tags,
    notes_of,
    told,
    write_tags,
)
from growdesk.ui.widgets.form import choose
from tests.ui.driving import dialog_of, open_dialogs, press, settle, status

if TYPE_CHECKING:
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from growdesk.domain.label_layouts import Layout
    from growdesk.ui.printing.pages import Page
    from growdesk.ui.window import Window

pytestmark = pytest.mark.usefixtures("qapp")

DAY = date(2026, 5, 12)
ALL_SHOWN = Shown(parentage=True, source=True, where=True)
LONG = (
    "Rhyncholaeliocattleya Hawaiian Festival 'Carmela' × Brassocattleya Maikai 'Mayumi'"
)
HOSTILE = (
    TagFacts(1, "A1", "Cattleya walkeriana var. semialba 'Tokyo #1' AM/AOS", DAY),
    TagFacts(2, "B12", LONG, None, DAY, "C. Aclandiae × Rlc. Golf Green", "a friend"),
    TagFacts(3, "<b>x</b>", "Paphiopedilum " + "W" * 60, DAY, None, "P" * 90, "S" * 90),
    TagFacts(4, "Ä-0001/23", "×Brassocattleya Binosa 'Kirk'"),
    TagFacts(5, "日本7", 'Dendrobium kingianum f. album "odd"', DAY),
    TagFacts(6, "D4", "", DAY, where="East window · Top"),
    TagFacts(7, "T" * 40, "N" * 400, DAY),
)


def plants(count: int) -> list[TagFacts]:
    name = "Dendrobium nobile var. virginale"
    return [TagFacts(n, f"T{n:03}", name, DAY) for n in range(count)]


def painted(page: Page, layout: Layout, dots_per_inch: int = 300) -> Image.Image:
    """Paint a page as a printer would."""
    across, down = (round(mm / 25.4 * dots_per_inch) for mm in layout.page_mm)
    image = QImage(across, down, QImage.Format.Format_Grayscale8)
    image.fill(255)
    painter = QPainter(image)
    canvas = Canvas(painter, dots_per_inch / 72)
    for placed in page.placed:
        canvas.draw(placed.marks, placed.x_pt, placed.y_pt)
    painter.end()
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    image.save(buffer, "PNG")  # type: ignore[call-overload]
    return Image.open(io.BytesIO(bytes(buffer.data().data())))


def scanned(page: Page, layout: Layout) -> set[str]:
    found = zxingcpp.read_barcodes(painted(page, layout))
    return {each.text for each in found}


def words_of(page: Page) -> str:
    return " ".join(
        mark.text
        for placed in page.placed
        for mark in placed.marks
        if isinstance(mark, Words)
    )


# -- codes --------


@pytest.mark.parametrize("layout", PRESETS, ids=lambda each: each.title)
def test_each_code_is_read_back_from_the_page(layout: Layout) -> None:
    wish = TagWish(layout)
    asked = plants(min(4, len(layout.cells)))
    (page, *_) = lay_out_tags(asked, wish)
    assert scanned(page, layout) == {each.tag for each in asked[: len(layout.cells)]}


def test_a_tag_in_any_script_is_read_back() -> None:
    wish = TagWish(read_layout("A4 2x7 99.1x38.1"))
    (page,) = lay_out_tags(HOSTILE[:6], wish)
    assert scanned(page, wish.layout) == {each.tag for each in HOSTILE[:6]}


def test_a_code_has_its_quiet_zone_within_the_square() -> None:
    made = code("A1", 29 * MM)
    assert made is not None
    assert len(made.rows) == 21
    assert made.module_pt == pytest.approx(MM)
    assert made.x_pt == made.y_pt == pytest.approx(QUIET * MM)
    assert made.x_pt + made.side_pt == pytest.approx((29 - QUIET) * MM)
    assert made.rows[0][:8] == (True,) * 7 + (False,)


def test_a_code_too_small_to_be_read_is_left_out_and_said() -> None:
    assert code("Ä" * 90, 10 * MM) is None
    made = label(TagFacts(1, "Ä" * 90, "Vanda"), 90 * MM, 12 * MM)
    assert not [mark for mark in made.marks if isinstance(mark, Modules)]
    assert any("the code has no room" in note for note in made.notes)


# -- labels --------


def extent(made: Label) -> tuple[float, float, float, float]:
    lefts, tops, rights, lows = [], [], [], []
    for mark in made.marks:
        assert isinstance(mark, Words | Modules)
        if isinstance(mark, Words):
            lefts.append(mark.x_pt)
            rights.append(mark.x_pt + width_pt(mark.text, mark.face))
            tops.append(mark.y_pt - mark.face.size_pt * 0.8)
            lows.append(mark.y_pt + mark.face.size_pt * 0.22)
        else:
            lefts.append(mark.x_pt)
            rights.append(mark.x_pt + mark.side_pt)
            tops.append(mark.y_pt)
            lows.append(mark.y_pt + mark.side_pt)
    return min(lefts), min(tops), max(rights), max(lows)


@pytest.mark.parametrize("layout", PRESETS, ids=lambda each: each.title)
@pytest.mark.parametrize("shown", [Shown(), ALL_SHOWN, Shown(code=False, day=False)])
def test_nothing_leaves_its_label(layout: Layout, shown: Shown) -> None:
    cell = layout.cells[0]
    wide, high = cell.width_mm * MM, cell.height_mm * MM
    for each in HOSTILE:
        left, top, right, low = extent(label(each, wide, high, shown))
        assert left >= 0
        assert top >= -0.01
        assert right <= wide + 0.01
        assert low <= high + 0.01


@pytest.mark.parametrize("layout", PRESETS, ids=lambda each: each.title)
def test_words_do_not_run_into_the_quiet_zone(layout: Layout) -> None:
    cell = layout.cells[0]
    for each in HOSTILE:
        made = label(each, cell.width_mm * MM, cell.height_mm * MM, ALL_SHOWN)
        codes = [mark for mark in made.marks if isinstance(mark, Modules)]
        for mark in made.marks:
            if codes and isinstance(mark, Words):
                end = mark.x_pt + width_pt(mark.text, mark.face)
                assert end <= codes[0].x_pt - QUIET * codes[0].module_pt + 0.01


def test_the_tag_is_the_largest_and_the_name_is_in_italics() -> None:
    made = label(HOSTILE[0], 70 * MM, 37 * MM)
    said = [mark for mark in made.marks if isinstance(mark, Words)]
    assert said[0].text == "A1"
    assert said[0].face.size_pt >= 22
    assert said[0].face.bold
    assert max(mark.face.size_pt for mark in said[1:]) < said[0].face.size_pt
    slanted = " ".join(mark.text for mark in said if mark.face.italic)
    assert slanted.split() == ["Cattleya", "walkeriana", "semialba"]
    assert "repotted 12 May 2026" in [mark.text for mark in said]


def test_a_name_breaks_then_shrinks_then_shortens_its_genus() -> None:
    short = "Phal. schilleriana"
    lines, face, whole = name_face(short, 300, 60)
    assert (len(lines), face.size_pt, whole) == (1, 13, True)
    lines, face, whole = name_face(short, width_pt(short, Face(10)), 20)
    assert (len(lines), whole) == (1, True)
    assert 9 <= face.size_pt <= 11
    lines, face, whole = name_face(LONG, 120, 60)
    assert whole
    assert len(lines) > 1
    assert "".join(run.text for run in lines[0]).startswith("Rhyncholaeliocattleya")
    lines, face, whole = name_face(LONG, 110, 27)
    assert whole
    assert "".join(run.text for run in lines[0]).startswith("Rlc. ")
    lines, face, whole = name_face(LONG, 60, 20)
    assert not whole
    assert "".join(run.text for run in lines[-1]).endswith("…")


@pytest.mark.parametrize(
    "name", ["Phalaenopsis schilleriana", "Vanda coerulea 'Weir Gate'"]
)
def test_a_name_breaks_before_it_gets_small(name: str) -> None:
    for wide, high, least in ((70, 37, 12), (38.1, 21.2, 8)):
        made = label(TagFacts(1, "B7", name, DAY), wide * MM, high * MM)
        said = [mark for mark in made.marks if isinstance(mark, Words)]
        named = [m for m in said[1:] if "2026" not in m.text]
        assert len({m.y_pt for m in named}) == 2
        assert min(m.face.size_pt for m in named) >= least
        assert not made.notes


def test_how_many_share_a_tag_stands_on_it() -> None:
    tray = TagFacts(1, "B7", "Vanda coerulea", DAY, together="tray ×8")
    for layout in PRESETS:
        cell = layout.cells[0]
        made = label(tray, cell.width_mm * MM, cell.height_mm * MM)
        assert "tray ×8" in [m.text for m in made.marks if isinstance(m, Words)]


def test_what_is_cut_is_said() -> None:
    wish = TagWish(read_layout("A4 5x13 38.1x21.2 gap 2.5,0"))
    assert notes_of(plants(3), wish) == ()
    notes = notes_of([HOSTILE[2]], wish)
    assert "<b>x</b>: the name is longer than the label, and is cut." in notes
    both = notes_of([HOSTILE[6]], wish)
    assert any("the tag is longer than the label" in note for note in both)


def test_optional_lines_stand_where_they_are_asked_for() -> None:
    bare = label(HOSTILE[1], 99 * MM, 38 * MM)
    full = label(HOSTILE[1], 99 * MM, 38 * MM, ALL_SHOWN)
    told_bare = " ".join(m.text for m in bare.marks if isinstance(m, Words))
    told_full = " ".join(m.text for m in full.marks if isinstance(m, Words))
    assert "here since 12 May 2026" in told_bare
    assert "friend" not in told_bare
    assert "from a friend" in told_full
    assert "Golf Green" in told_full


@pytest.mark.parametrize("name", ["", "Vanda", LONG, "W" * 300, "a b " * 80])
def test_a_name_on_the_sheet_keeps_to_its_room(name: str) -> None:
    for most in (1, 2):
        lines = name_lines(name, 150, Face(11), most)
        assert 1 <= len(lines) <= most
        assert all(styled_pt(line, Face(11)) <= 150 for line in lines)


# -- pages --------


def corners(page: Page) -> list[tuple[float, float]]:
    return [(placed.x_pt / MM, placed.y_pt / MM) for placed in page.placed]


def test_labels_stand_where_the_layout_says_from_the_first_free_cell_on() -> None:
    layout = read_layout("A4 3x8 70x37 at 0,0.5")
    pages = lay_out_tags(plants(13), TagWish(layout, copies=2, first=5))
    assert [len(page.placed) for page in pages] == [20, 6]
    cells = [(cell.left_mm, cell.top_mm) for cell in layout.cells]
    for page, free in zip(pages, (cells[4:], cells[:6]), strict=True):
        for corner, cell in zip(corners(page), free, strict=True):
            assert corner == pytest.approx(cell)
    assert words_of(pages[0]).count("T000") == 2


def test_five_hundred_labels_are_all_there_once(tmp_path: Path) -> None:
    wish = TagWish(read_layout("A4 3x8 70x37 at 0,0.5"))
    file = tmp_path / "tags.pdf"
    write_tags(plants(500), wish, file)
    reader = pypdf.PdfReader(file)
    assert len(reader.pages) == 21
    assert told(plants(500), wish).startswith("500 labels on 21 pages: 3 × 8")
    text = " ".join(page.extract_text() for page in reader.pages).split()
    assert sorted(word for word in text if word.startswith("T")) == sorted(
        f"T{n:03}" for n in range(500)
    )


def test_the_text_of_a_pdf_is_found_and_its_paper_is_right(tmp_path: Path) -> None:
    for number, layout in enumerate(PRESETS):
        file = tmp_path / f"{number}.pdf"
        write_tags(HOSTILE[:1], TagWish(layout, shown=Shown(code=False)), file)
        (page,) = pypdf.PdfReader(file).pages
        size = (float(page.mediabox.width), float(page.mediabox.height))
        assert size == pytest.approx([mm * MM for mm in layout.page_mm], abs=1)
        text = " ".join(page.extract_text().split())
        assert "walkeriana var. semialba ‘Tokyo #1’" in text
        assert "12 May 2026" in text


def test_cut_marks_are_on_the_edge_of_the_label() -> None:
    (sheet_page,) = lay_out_tags(plants(1), TagWish(read_layout("A4 2x13 95x21 cut")))
    (frame,) = [
        mark
        for placed in sheet_page.placed
        for mark in placed.marks
        if isinstance(mark, Frame)
    ]
    assert (frame.width_pt / MM, frame.height_pt / MM) == pytest.approx((95, 21))
    (strip_page,) = lay_out_tags(plants(1), TagWish(Strip(80, 19, cut_marks=True)))
    ticks = [
        mark
        for placed in strip_page.placed
        for mark in placed.marks
        if isinstance(mark, Rule)
    ]
    assert len(ticks) == 4
    assert {round(tick.x1_pt / MM) for tick in ticks} == {0, 80}


@pytest.mark.parametrize(
    ("wish", "field"),
    [
        (TagWish(copies=0), "copies"),
        (TagWish(copies=21), "copies"),
        (TagWish(first=25), "first"),
        (TagWish(Strip(90, 12), first=2), "first"),
    ],
)
def test_a_wish_that_cannot_be_met_names_its_number(wish: TagWish, field: str) -> None:
    with pytest.raises(InputError) as refused:
        checked(wish)
    assert refused.value.field == field


def test_lines_of_a_label_stand_apart() -> None:
    made = label(HOSTILE[1], 70 * MM, 37 * MM, ALL_SHOWN)
    tops = sorted({m.y_pt: m.face for m in made.marks if isinstance(m, Words)}.items())
    for (y, _), (below, face) in pairwise(tops):
        assert below - y >= min(face.size_pt, line_pt(face)) * 0.9


# -- from the window --------


def test_measures_of_ones_own_are_read_and_slips_stand_beside(qtbot: QtBot) -> None:
    dialog = TagsDialog(None, TagsStart((), ("Sill",), DAY, PRESETS[0]))
    qtbot.addWidget(dialog)
    dialog.show()
    assert dialog.preset.currentData() == PRESETS[0].spec
    dialog.cells.setText("2 x 5")
    dialog.measure.setText("100 x 50")
    dialog.margins.setText("5, 10")
    assert dialog.preset.currentData() == ""
    wish = dialog.draft().wish
    assert wish.layout == read_layout("A4 2x5 100x50 at 5,10")
    assert wish.copies == 2
    dialog.measure.setText("100 x 60")
    dialog.try_save()
    assert "too much down" in dialog.measure.accessibleDescription()
    choose(dialog.paper, STRIP)
    dialog.measure.setText("60 x 12")
    assert not dialog.cells.isVisible()
    assert dialog.draft().wish.layout == Strip(60, 12)
    dialog.reject()


def test_tags_are_saved_from_the_window(
    qtbot: QtBot, window: Window, tmp_path: Path
) -> None:
    window.commands["tags"].trigger()
    settle(qtbot, window)
    dialog = dialog_of(window, TagsDialog)
    choose(dialog.which, ALL)
    choose(dialog.paper, "A4")
    press(dialog, "Save as PDF…")
    (files,) = [each for each in dialog.findChildren(QFileDialog) if each.isVisible()]
    file = tmp_path / "tags.pdf"
    files.fileSelected.emit(str(file))
    files.close()
    settle(qtbot, window)
    assert open_dialogs(window) == []
    assert status(window).startswith(f"Saved {file}")
    text = pypdf.PdfReader(file).pages[0].extract_text()
    assert text.split().count("A3") == 2


def test_what_is_selected_is_previewed(
    qtbot: QtBot, window: Window, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    def printer(_titled: str) -> QPrinter:
        made = QPrinter()
        made.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
        made.setOutputFileName(str(tmp_path / "printed.pdf"))
        return made

    monkeypatch.setattr("growdesk.ui.dialogs.pages.upright_printer", printer)
    window.commands["tags"].trigger()
    settle(qtbot, window)
    dialog = dialog_of(window, TagsDialog)
    dialog.copies.setText("1")
    assert dialog.which.currentText() == "The 1 plant selected"
    dialog.try_save()
    settle(qtbot, window)
    preview = dialog_of(window, PagesPreview)
    assert status(window).startswith("1 label on 1 page")
    preview.close()


def test_a_name_is_rather_broken_than_set_small() -> None:
    room = width_pt("Vanda coerulea", Face(12.0)) + 1
    lines, face, whole = name_face("Vanda coerulea 'Weir Gate'", room, 40)
    assert whole
    assert len(lines) == 2
    assert face.size_pt >= 11
