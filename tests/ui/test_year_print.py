"""A year in review on paper: sentences, charts, lists and photos."""

from __future__ import annotations

from datetime import UTC, date, datetime
from typing import TYPE_CHECKING

import pypdf
import pytest
from msgspec.structs import replace
from PIL import Image
from PySide6.QtGui import QImage, QPainter
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtWidgets import QFileDialog

from growdesk.domain.facts import Verdict
from growdesk.domain.holding import Descent, Status
from growdesk.services.year_values import (
    Came,
    Grown,
    Went,
    Who,
    YearBloom,
    YearMark,
    YearMonth,
    YearPhoto,
    YearReview,
)
from growdesk.ui.dialogs.pages import PagesPreview
from growdesk.ui.dialogs.year import MONTHS, YearDialog
from growdesk.ui.long_work import NOTHING_WRITTEN
from growdesk.ui.printing import year_words
from growdesk.ui.printing.drawing import Canvas
from growdesk.ui.printing.marks import Drawing, Picture, Words
from growdesk.ui.printing.setting import width_pt
from growdesk.ui.printing.year_pages import lay_out_year, write_year
from growdesk.ui.widgets.form import choose
from tests.ui.driving import dialog_of, open_dialogs, press, settle, status

if TYPE_CHECKING:
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from growdesk.ui.window import Window

pytestmark = pytest.mark.usefixtures("qapp")

A4, LETTER = (595.0, 842.0), (612.0, 792.0)
A1 = Who(1, "A1", "Cattleya walkeriana 'Tokyo'")
B2 = Who(2, "B2", "Phal. schilleriana")
EMPTY = YearReview(
    collection="Orchids",
    begins=date(2025, 1, 1),
    ends=date(2025, 12, 31),
    made_at=datetime(2026, 1, 3, 8, tzinfo=UTC),
    growing=2,
    blooms=(),
    months=tuple(YearMonth(date(2025, m, 1), 0, 0, 0, 0, 0.0) for m in range(1, 13)),
    strength_ppm_n=None,
    grown=(),
    came=(),
    went=(),
    repotted=(),
    looks=0,
    looked_at=0,
    rounds=0,
    rounds_of=104,
    marks=(),
    photos=(),
    photos_of=0,
)
FULL = replace(
    EMPTY,
    blooms=(
        YearBloom(A1, date(2024, 12, 20), date(2025, 1, 20), 12, 2, "AM/AOS", False),
        YearBloom(B2, date(2025, 3, 1), None, None, None, "", True),
    ),
    months=tuple(YearMonth(date(2025, m, 1), m, 20, 2, 1, 0.5) for m in range(1, 13)),
    strength_ppm_n=118.0,
    grown=(Grown(A1, 182.0, 40.0, 150.0, None), Grown(B2, None, 55.0, None, None)),
    came=(Came(B2, date(2025, 4, 1), "", Descent.KEIKI, "A1"),),
    went=(Went(Who(3, "C3", "Vanda"), Status.LOST, date(2025, 8, 1), "crown rot"),),
    repotted=((A1, date(2025, 5, 1)),),
    looks=41,
    looked_at=2,
    rounds=88,
    marks=(YearMark(Verdict.FEED, Verdict.CLEAR_WATER, 2),),
)


def said(review: YearReview, size: tuple[float, float] = A4) -> str:
    return " ".join(
        mark.text
        for page in lay_out_year(review, *size)
        for placed in page.placed
        for mark in placed.marks
        if isinstance(mark, Words)
    )


def drawings(review: YearReview) -> list[Drawing]:
    return [
        mark
        for page in lay_out_year(review, *A4)
        for placed in page.placed
        for mark in placed.marks
        if isinstance(mark, Drawing)
    ]


def test_an_empty_year_says_so_and_draws_nothing() -> None:
    text = said(EMPTY)
    for line in (
        year_words.NO_BLOOMS,
        year_words.NO_CARE,
        year_words.NO_GROWTH,
        year_words.NO_MOVES,
        year_words.NO_REPOTS,
        year_words.NO_PHOTOS,
        year_words.NO_MARKS,
    ):
        assert line in text
    assert "2 plants grow here at the end of it: none came, none left." in text
    assert drawings(EMPTY) == []


def test_a_full_year_is_told_in_sentences() -> None:
    text = said(FULL)
    for line in (
        "2 plants flowered, 1 of them for the first time here.",
        "Something was given on 88 of 104 watering days.",
        "41 looks were taken, at 2 plants.",
        "Longest in flower: A1, 32 days.",
        "Most flowers: A1, 12 flowers.",
        "For the first time here: B2.",
        "Awards: A1 (AM/AOS).",
        "20 Dec 2024 to 20 Jan, 32 days, 12 flowers on 2",
        "from 1 Mar, its end is not on record",
        "Plants were fed 78 times, watered clear 240 times, flushed 24 times, rain 12",
        "118 ppm N on average",
        "They took 6.0 g of nitrogen from the shelf.",
        "The hungriest month was December, with 12 feeds.",
        "1 of 1 with a lead of the year before made a longer one.",
        "lead 182 mm (150 mm the year before), new root",
        "came 1 Apr 2025, a keiki of A1",
        "Of those that left, 1 lost.",
        "lost on 1 Aug 2025: crown rot",
        "1 repot: A1.",
    ):
        assert line in text
    assert "2 times, feed should have been clear water." in text.casefold()


def test_a_year_is_named_by_what_it_covers() -> None:
    assert year_words.title(EMPTY) == "The year 2025"
    so_far = replace(EMPTY, ends=date(2025, 5, 20))
    assert year_words.title(so_far) == "The year 2025 so far"
    other = replace(EMPTY, begins=date(2024, 5, 21), ends=date(2025, 5, 20))
    assert year_words.title(other) == "Twelve months to 20 May 2025"


def test_the_charts_are_vectors_with_ink_where_they_stand() -> None:
    blooms, rounds = drawings(FULL)
    for drawing in (blooms, rounds):
        assert b"<svg" in drawing.svg
        assert b"<image" not in drawing.svg
        image = QImage(460, 220, QImage.Format.Format_Grayscale8)
        image.fill(255)
        painter = QPainter(image)
        Canvas(painter, 1.0).draw([drawing], 0, 0)
        painter.end()
        dark = sum(
            image.pixelColor(x, y).value() < 128
            for x in range(0, 460, 2)
            for y in range(0, int(min(drawing.height_pt, 220)), 2)
        )
        assert dark > 50


def test_a_name_in_any_script_stands_in_the_chart() -> None:
    hostile = Who(9, "日$x$ <b>", "W" * 200)
    odd = replace(FULL, blooms=(replace(FULL.blooms[0], who=hostile),))
    assert len(drawings(odd)) == 2


@pytest.mark.parametrize("size", [A4, LETTER])
def test_all_is_on_the_paper_and_not_too_small(size: tuple[float, float]) -> None:
    many = tuple(
        replace(
            FULL.blooms[0], who=Who(n, f"T{n:03}" * 9, "Laelia " * 30), award="A" * 80
        )
        for n in range(120)
    )
    hostile = replace(
        FULL,
        blooms=many,
        collection="C" * 300,
        went=(replace(FULL.went[0], why="why " * 300),),
        photos=(YearPhoto(A1, date(2025, 1, 1), None),),
        photos_of=1,
    )
    pages = lay_out_year(hostile, *size)
    assert len(pages) > 3
    for page in pages:
        for placed in page.placed:
            for mark in placed.marks:
                low = placed.y_pt + mark.y_pt if isinstance(mark, Words) else 0
                assert low <= size[1] - 20
                if isinstance(mark, Words):
                    assert mark.face.size_pt >= 11
                    end = mark.x_pt + width_pt(mark.text, mark.face)
                    assert placed.x_pt + end <= size[0] - 20
                if isinstance(mark, Drawing):
                    bottom = placed.y_pt + mark.y_pt + mark.height_pt
                    assert bottom <= size[1] - 20
    assert "cannot be read" in said(hostile)


def test_photos_stand_with_plant_and_day(tmp_path: Path) -> None:
    file = tmp_path / "small.jpg"
    Image.new("RGB", (320, 240), (200, 30, 30)).save(file)
    photos = tuple(YearPhoto(A1, date(2025, m, 3), str(file)) for m in range(1, 8))
    review = replace(FULL, photos=photos, photos_of=19)
    assert "19 photos were taken; 7 of them, spread over the months." in said(review)
    pictures = [
        mark
        for page in lay_out_year(review, *A4)
        for placed in page.placed
        for mark in placed.marks
        if isinstance(mark, Picture)
    ]
    assert len(pictures) == 7
    pdf = tmp_path / "year.pdf"
    write_year(review, pdf, "A4")
    reader = pypdf.PdfReader(pdf)
    assert sum(len(page.images) for page in reader.pages) >= 7
    text = " ".join(" ".join(p.extract_text() for p in reader.pages).split())
    assert "3 Jul 2025" in text
    assert "lost on 1 Aug 2025: crown rot" in text


# -- from the window --------


def opened(qtbot: QtBot, window: Window) -> YearDialog:
    window.commands["year-review"].trigger()
    settle(qtbot, window)
    return dialog_of(window, YearDialog)


def test_the_year_is_saved_from_the_window(
    qtbot: QtBot, window: Window, tmp_path: Path
) -> None:
    dialog = opened(qtbot, window)
    choose(dialog.which, MONTHS)
    assert not dialog.year.isVisible()
    press(dialog, "Save as PDF…")
    (files,) = [each for each in dialog.findChildren(QFileDialog) if each.isVisible()]
    file = tmp_path / "year.pdf"
    files.fileSelected.emit(str(file))
    files.close()
    settle(qtbot, window)
    assert open_dialogs(window) == []
    assert status(window) == f"Saved {file}"
    assert "Twelve months to" in pypdf.PdfReader(file).pages[0].extract_text()


def test_it_can_be_stopped_and_then_writes_nothing(
    qtbot: QtBot, window: Window, tmp_path: Path
) -> None:
    dialog = opened(qtbot, window)
    file = tmp_path / "year.pdf"
    within = dialog.draft()
    window_prints = next(
        each for each in window.children() if type(each).__name__ == "YearPrints"
    )
    window_prints.save_to(dialog, within, file)  # type: ignore[attr-defined]
    window.desk.long.cancel()
    settle(qtbot, window)
    assert status(window) == NOTHING_WRITTEN
    assert not file.exists()


def test_a_slip_stands_beside_its_field(qtbot: QtBot, window: Window) -> None:
    dialog = opened(qtbot, window)
    dialog.year.setText("1066")
    dialog.try_save()
    assert "no year to look back on" in dialog.year.accessibleDescription()
    dialog.reject()


def test_the_year_is_previewed(
    qtbot: QtBot, window: Window, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    def printer(_titled: str) -> QPrinter:
        made = QPrinter()
        made.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
        made.setOutputFileName(str(tmp_path / "printed.pdf"))
        return made

    monkeypatch.setattr("growdesk.ui.dialogs.pages.upright_printer", printer)
    opened(qtbot, window).try_save()
    settle(qtbot, window)
    preview = dialog_of(window, PagesPreview)
    assert preview.windowTitle() == "The year 2026 so far"
    preview.close()
