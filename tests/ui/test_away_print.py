"""The away sheet on paper, for somebody who knows nothing of orchids."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from gettext import NullTranslations
from typing import TYPE_CHECKING

import pypdf
import pytest
from msgspec.structs import replace
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtWidgets import QFileDialog
from typing_extensions import override

from growdesk.domain.errors import InputError
from growdesk.domain.speech import Manner, speak
from growdesk.services.away import AwayBench, AwayGroup, AwaySheet
from growdesk.ui.dialogs.away import AwayDialog
from growdesk.ui.dialogs.pages import PagesPreview
from growdesk.ui.printing.away import DOUBT, lay_out_away, write_away
from growdesk.ui.printing.away_rows import short_day
from growdesk.ui.printing.marks import Frame, Words
from growdesk.ui.printing.setting import width_pt
from growdesk.ui.printing.wording import DO_NOT_WATER
from tests.ui.driving import dialog_of, open_dialogs, press, settle, status

if TYPE_CHECKING:
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from growdesk.ui.window import Window

pytestmark = pytest.mark.usefixtures("qapp")

FIRST = date(2026, 12, 2)
DAYS = tuple(FIRST + timedelta(days=days) for days in (0, 3, 7, 10))
A4, LETTER = (595.0, 842.0), (612.0, 792.0)
FORBIDDEN = ("feed the", "spray", "insecticide", "fungicide", "if the pot", "decide")
WATERED = AwayGroup(("A1", "A2"), "", 1, 4, DAYS[::2], 0.25, "1 mug")
DRY = AwayGroup(("A3",), "Catasetum pileatum", 3, 4, (), None, "")
UNKNOWN = AwayGroup(("A4",), "Vanda coerulea", 4, 4, DAYS, None, "")
SHEET = AwaySheet(
    collection="Orchids",
    begins=FIRST,
    ends=DAYS[-1],
    made_at=datetime(2026, 11, 26, 8, tzinfo=UTC),
    benches=(AwayBench("Sill · Top", (WATERED, DRY, UNKNOWN)),),
    days=DAYS,
    litres=tuple((day, 0.5) for day in DAYS),
    water="rain water",
    bare=(("A3", "Catasetum pileatum"),),
    in_bud=("A4",),
    last=("A2",),
)


def many(count: int) -> AwaySheet:
    groups = tuple(
        AwayGroup((f"T{n:03}",), "Laelia anceps", n + 1, count, DAYS, 0.1, "")
        for n in range(count)
    )
    return replace(SHEET, benches=(AwayBench("Shelf", groups),))


def words_of(sheet: AwaySheet, call: str = "", size: tuple[float, float] = A4) -> str:
    pages = lay_out_away(sheet, call, *size)
    return " ".join(
        mark.text
        for page in pages
        for placed in page.placed
        for mark in placed.marks
        if isinstance(mark, Words)
    )


def test_a_helper_reads_what_to_do_and_what_not() -> None:
    said = words_of(SHEET)
    assert DOUBT in said
    assert "A1, A2" in said
    assert "250 mL (1 mug) each" in said
    assert "until it runs out below" in said
    assert f"{DO_NOT_WATER}:" in said
    assert "3rd of 4" in said
    assert "Bare is right: A3 rests without leaves" in said
    assert "do not even turn the pot: A4" in said
    assert "wash your hands after them: A2" in said
    assert "The water to use: rain water." in said
    assert "Never feed." in said
    assert not [word for word in FORBIDDEN if word in said.casefold()]


def test_each_day_that_brings_water_has_a_box_and_the_dry_a_bar() -> None:
    (page,) = lay_out_away(SHEET, "", *A4)
    frames = [m for placed in page.placed for m in placed.marks if isinstance(m, Frame)]
    boxes = [frame for frame in frames if frame.width_pt < 20]
    bars = [frame for frame in frames if frame.width_pt > 300]
    assert len(boxes) == len(WATERED.days) + len(UNKNOWN.days)
    assert len(bars) == 1
    assert bars[0].thick_pt >= 2
    dashes = words_of(SHEET).split().count("–")
    assert dashes == len(DAYS) - len(WATERED.days)


def test_many_days_stand_below_their_line() -> None:
    days = tuple(FIRST + timedelta(days=number) for number in range(20))
    group = replace(WATERED, days=days)
    sheet = replace(SHEET, benches=(AwayBench("Sill", (group,)),), days=days)
    said = words_of(sheet)
    assert "Sat 5 Dec" in said
    assert "Mon 21 Dec" in said


@pytest.mark.parametrize("size", [A4, LETTER])
def test_nothing_is_too_small_or_off_the_paper(size: tuple[float, float]) -> None:
    long = AwayGroup(
        tuple(f"TAG-{n}" for n in range(40)), "", 1, 99, DAYS, 1.25, "5 mugs"
    )
    hostile = replace(DRY, tags=("X" * 80,), name="<b>" + "W" * 200)
    sheet = replace(
        SHEET,
        collection="C" * 300,
        benches=(AwayBench("P" * 200, (long, hostile, replace(long, days=()))),),
    )
    for page in lay_out_away(sheet, "call " * 60, *size):
        for placed in page.placed:
            for mark in placed.marks:
                if isinstance(mark, Words):
                    assert mark.face.size_pt >= 11
                    end = mark.x_pt + width_pt(mark.text, mark.face)
                    assert placed.x_pt + end <= size[0] - 20
                    assert placed.y_pt + mark.y_pt <= size[1] - 20


def test_two_pages_at_most_and_it_says_so() -> None:
    assert len(lay_out_away(many(20), "", *A4)) == 1
    assert len(lay_out_away(many(56), "", *A4)) == 2
    with pytest.raises(InputError, match="more than a helper reads") as refused:
        lay_out_away(many(120), "", *A4)
    assert refused.value.hint == "Make a sheet for each place."


@pytest.mark.parametrize("size", [A4, LETTER])
def test_36_plants_on_ten_benches_go_on_one_page(
    size: tuple[float, float],
) -> None:
    days = tuple(FIRST + timedelta(days=number) for number in (0, 3, 7, 10, 14))
    groups = [
        AwayGroup((f"P{n}",), "Laelia anceps", n, 36, days[n % 2 :], 0.3, "about 1 mug")
        for n in range(32)
    ]
    for n in range(4):
        groups[n] = replace(groups[n], tags=(f"P{n}", f"P{n + 32}"))
    groups[9] = replace(DRY, tags=("P9",))
    benches = tuple(AwayBench(f"Sill {n}", tuple(groups[n::10])) for n in range(10))
    sheet = replace(SHEET, benches=benches, days=days)
    (page,) = lay_out_away(sheet, "", *size)
    marks = [mark for placed in page.placed for mark in placed.marks]
    said = [mark for mark in marks if isinstance(mark, Words)]
    texts = [mark.text for mark in said]
    words = " ".join(texts).replace(",", "").split()
    assert [words.count(f"P{n}") for n in range(36)] == [1] * 36
    assert f"{DO_NOT_WATER}: P9" in texts
    for day in days:
        assert texts.count(str(day.day)) == 2
    boxes = [m for m in marks if isinstance(m, Frame) and m.width_pt < 20]
    assert len(boxes) == sum(len(group.days) for group in groups)
    assert min(mark.face.size_pt for mark in said) >= 11
    assert not [text for text in texts if "…" in text]


def test_whom_to_call_is_typed_or_left_to_the_hand(tmp_path: Path) -> None:
    file = tmp_path / "away.pdf"
    write_away(SHEET, "Anna, 555 0101", file, "A4")
    text = " ".join(pypdf.PdfReader(file).pages[0].extract_text().split())
    assert "Call: Anna, 555 0101" in text
    assert DO_NOT_WATER in text
    assert "Anna" not in words_of(SHEET)
    assert "Call: " in words_of(SHEET)


# -- from the window --------


def opened(qtbot: QtBot, window: Window) -> AwayDialog:
    window.commands["away"].trigger()
    settle(qtbot, window)
    return dialog_of(window, AwayDialog)


def test_the_sheet_is_saved_from_the_window(
    qtbot: QtBot, window: Window, tmp_path: Path
) -> None:
    dialog = opened(qtbot, window)
    dialog.call.setText("Anna <b>")
    press(dialog, "Save as PDF…")
    (files,) = [each for each in dialog.findChildren(QFileDialog) if each.isVisible()]
    file = tmp_path / "away.pdf"
    files.fileSelected.emit(str(file))
    files.close()
    settle(qtbot, window)
    assert open_dialogs(window) == []
    assert status(window) == f"Saved {file}"
    assert "Anna <b>" in pypdf.PdfReader(file).pages[0].extract_text()
    again = opened(qtbot, window)
    assert again.call.text() == "Anna <b>"
    again.reject()


def test_a_slip_stands_beside_its_day(qtbot: QtBot, window: Window) -> None:
    dialog = opened(qtbot, window)
    dialog.ends.setText("2020-01-01")
    dialog.try_save()
    settle(qtbot, window)
    assert "is before the first day" in dialog.ends.accessibleDescription()
    dialog.reject()


def test_the_sheet_is_previewed(
    qtbot: QtBot, window: Window, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    def printer(_titled: str) -> QPrinter:
        made = QPrinter()
        made.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
        made.setOutputFileName(str(tmp_path / "printed.pdf"))
        return made

    monkeypatch.setattr("growdesk.ui.dialogs.pages.upright_printer", printer)
    dialog = opened(qtbot, window)
    dialog.try_save()
    settle(qtbot, window)
    preview = dialog_of(window, PagesPreview)
    assert preview.windowTitle().startswith("Watering, ")
    preview.close()


@pytest.mark.parametrize(
    ("form", "said"), [("{d}.{m}.{y}", "Mi 2 Dez"), ("{m}/{d}/{y}", "Mi, Dez 2")]
)
def test_a_day_is_as_short_as_its_language_has_it(form: str, said: str) -> None:
    class Other(NullTranslations):
        @override
        def gettext(self, message: str) -> str:
            return {"Wed": "Mi", "Dec": "Dez"}.get(message, message)

        @override
        def pgettext(self, context: str, message: str) -> str:
            return self.gettext(message)

    speak(Manner(Other(), day_form=form))
    try:
        assert short_day(date(2026, 12, 2)) == said
    finally:
        speak()
