"""The look list on paper: every plant in walking order, blanks in the form's order."""

from __future__ import annotations

import io
from datetime import UTC, date, datetime, timedelta
from typing import TYPE_CHECKING

import pypdf
import pytest
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtWidgets import QFileDialog, QPushButton

from growdesk.domain.errors import InputError
from growdesk.domain.facts import Health, Look, NewGrowths
from growdesk.services.bench_values import BenchDraft
from growdesk.services.look_list import LookList, LookListLine, LookListPlace
from growdesk.services.values import PlaceDraft, PlantDraft
from growdesk.ui.dialogs.pages import PagesPreview
from growdesk.ui.dialogs.walk_choice import WalkChoiceDialog
from growdesk.ui.printing.look_list import (
    WRITE_PT,
    blanks,
    digits,
    lay_out_look_list,
    write_look_list,
)
from growdesk.ui.printing.marks import MM, Rule, Words
from growdesk.ui.printing.pages import BOTTOM_PT, LEFT_PT, RIGHT_PT
from growdesk.ui.widgets.look_form import LookForm
from tests.ui.driving import dialog_of, open_dialogs, press, settle, status

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window

pytestmark = pytest.mark.usefixtures("qapp")

ON = date(2026, 5, 20)
A4, LETTER = (595.0, 842.0), (612.0, 792.0)
LINE = LookListLine(
    "A1", "Laelia anceps", ON - timedelta(days=8), "New growths: 1 extending.", False
)


def paper(*places: LookListPlace) -> LookList:
    return LookList("Orchids", ON, datetime(2026, 5, 20, 8, tzinfo=UTC), places)


def many(count: int) -> LookList:
    lines = tuple(
        LookListLine(f"T{number:03}", "Laelia anceps", None, "", number % 2 == 0)
        for number in range(count)
    )
    return paper(LookListPlace("Shelf · Top", lines))


def words_of(made: LookList, size: tuple[float, float] = A4) -> list[list[str]]:
    return [
        [
            mark.text
            for placed in page.placed
            for mark in placed.marks
            if isinstance(mark, Words)
        ]
        for page in lay_out_look_list(made, *size)
    ]


def pdf_text(path: Path) -> list[str]:
    reader = pypdf.PdfReader(io.BytesIO(path.read_bytes()))
    return [" ".join(page.extract_text().split()) for page in reader.pages]


# -- paper --------


@pytest.mark.parametrize("monopodial", [False, True])
def test_the_blanks_stand_in_the_order_of_the_form(monopodial: bool) -> None:
    form = LookForm(monopodial=monopodial)
    asked = [field for field in form.editors if field not in {"note", "photos", "on"}]
    printed = list(dict.fromkeys(each.field for each in blanks(leaf_first=monopodial)))
    assert printed == [field for field in asked if field != "keiki_root_mm"]


def test_the_digits_are_those_that_choose_in_the_form() -> None:
    form = LookForm()
    rows = (
        form.roots,
        form.leaf,
        form.flowering,
        form.leaves,
        form.bulbs,
        form.pot,
        form.health,
    )
    for line, row in zip(digits(), rows, strict=True):
        texts = [each.text() for each in row.findChildren(QPushButton)][1:]
        told = [f"{number} {text}" for number, text in enumerate(texts, start=1)]
        assert line.split(": ", 1)[1] == ", ".join(told)
    assert len(Health) + 1 == len(digits()[-1].split(", "))


def test_a_plant_stands_with_what_was_seen_of_it_last() -> None:
    other = LookListLine("B1", "Vanda", None, "", True)
    old = LookListLine("C1", "Old", date(2024, 1, 2), "Pot dry.", False)
    (page,) = words_of(
        paper(LookListPlace("Shelf", (LINE, old)), LookListPlace("", (other,)))
    )
    assert page[:4] == [
        "Look list, Wednesday 20 May 2026",
        "1 of 1",
        "3 plants, made on Wednesday 20 May 2026.",
        "Orchids",
    ]
    assert "12 May: 1 extending." in page
    assert "2 Jan 2024: Pot dry." in page
    assert page.index("Shelf") < page.index("A1") < page.index("C1")
    assert page.index("No place") < page.index("B1")
    assert page[page.index("B1") :].index("leaf") < page[page.index("B1") :].index(
        "emerging"
    )
    assert "Not looked at before." in page
    assert page.count("unchanged") == page.count("note") == 3


@pytest.mark.parametrize("size", [A4, LETTER])
def test_every_plant_is_there_once_and_each_page_is_whole(
    size: tuple[float, float],
) -> None:
    pages = words_of(many(23), size)
    tags = [word for page in pages for word in page if word.startswith("T0")]
    assert tags == [f"T{number:03}" for number in range(23)]
    for number, page in enumerate(pages, start=1):
        assert f"{number} of {len(pages)}" in page
        assert any(word.startswith("0 not looked at. Roots: 1") for word in page)
        title = "Shelf · Top" if number == 1 else "Shelf · Top, continued"
        assert title in page
    assert len(pages) <= 4, "a page holds six plants at least"


@pytest.mark.parametrize("size", [A4, LETTER])
def test_all_is_on_the_paper_and_large_enough_to_read_and_write(
    size: tuple[float, float],
) -> None:
    long = LookListLine("T" * 60, "W" * 200, ON, "seen " * 80, False)
    made = paper(LookListPlace("P" * 200, (long, LINE)))
    for page in lay_out_look_list(made, *size):
        for placed in page.placed:
            for mark in placed.marks:
                if isinstance(mark, Words):
                    assert mark.face.size_pt >= 11
                    low = placed.y_pt + mark.y_pt
                    assert 0 < low <= size[1] - BOTTOM_PT + 1
                if isinstance(mark, Rule):
                    end = placed.x_pt + mark.x2_pt
                    assert LEFT_PT <= end <= size[0] - RIGHT_PT + 0.5
    assert WRITE_PT >= 7 * MM


def test_an_empty_list_is_still_a_page() -> None:
    assert len(lay_out_look_list(paper(), *A4)) == 1


def test_the_pdf_holds_the_text(tmp_path: Path) -> None:
    file = tmp_path / "list.pdf"
    write_look_list(many(9), file, "Letter")
    pages = pdf_text(file)
    assert "T008" in pages[-1]
    box = pypdf.PdfReader(file).pages[0].mediabox
    assert (float(box.width), float(box.height)) == pytest.approx(LETTER, abs=1)


# -- the facts --------


def test_the_list_goes_as_the_walk_goes(collection: Collection, today: date) -> None:
    sill = collection.places.add(PlaceDraft("Sill")).ids[0]
    ids = [
        collection.plants.add(PlantDraft(tag, "", kind, sill)).ids[0]
        for tag, kind in (("A1", "cattleya"), ("A2", "vanda"), ("A3", "cattleya"))
    ]
    collection.plants.add(PlantDraft("B1", "", "cattleya"))
    bench = collection.benches.add(sill, BenchDraft("Top")).ids[0]
    collection.benches.put(sill, bench, ids[2:])
    collection.looks.record(ids[0], Look(today, new_growths=NewGrowths(extending=1)))
    made = collection.look_lists.make(today)
    stops = collection.walks.stops(today).stops
    lines = [line for place in made.places for line in place.lines]
    assert [line.tag for line in lines] == [stop.tag for stop in stops]
    assert [place.where for place in made.places] == ["", "Sill · Top", "Sill"]
    assert {line.tag: line.leaf_first for line in lines}["A2"]
    seen = {line.tag: (line.looked_on, line.seen) for line in lines}
    assert seen["A1"] == (today, "New growths: 1 extending.")
    assert seen["A2"] == (None, "")
    before = collection.look_lists.make(today - timedelta(days=1), "sill")
    assert [line.looked_on for place in before.places for line in place.lines] == [
        None
    ] * 3
    due = collection.look_lists.make(today, "Sill", only_due=True)
    assert [line.tag for place in due.places for line in place.lines] == ["A3", "A2"]
    with pytest.raises(InputError, match="has no plants") as refused:
        collection.look_lists.make(today, "Attic")
    assert refused.value.hint == "Plants stand in: Sill."


# -- from the window --------


def test_a_list_is_previewed_and_saved_from_the_window(
    qtbot: QtBot, window: Window, tmp_path: Path
) -> None:
    window.commands["look-list"].trigger()
    settle(qtbot, window)
    chooser = dialog_of(window, WalkChoiceDialog)
    press(chooser, "Save as PDF…")
    (files,) = [each for each in chooser.findChildren(QFileDialog) if each.isVisible()]
    file = tmp_path / "list.pdf"
    files.fileSelected.emit(str(file))
    files.close()
    settle(qtbot, window)
    assert open_dialogs(window) == []
    assert status(window) == f"Saved {file}"
    assert "A3" in pdf_text(file)[0]


def test_what_is_chosen_is_what_is_previewed(
    qtbot: QtBot, window: Window, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    def printer(_titled: str) -> QPrinter:
        made = QPrinter()
        made.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
        made.setOutputFileName(str(tmp_path / "printed.pdf"))
        return made

    monkeypatch.setattr("growdesk.ui.dialogs.pages.upright_printer", printer)
    window.commands["look-list"].trigger()
    settle(qtbot, window)
    chooser = dialog_of(window, WalkChoiceDialog)
    chooser.place.setCurrentIndex(1)
    assert chooser.place_name() == "East window"
    chooser.try_save()
    settle(qtbot, window)
    preview = dialog_of(window, PagesPreview)
    assert preview.windowTitle() == "Look list, Wednesday 20 May 2026"
    preview.close()


def test_no_plant_is_no_list(
    qtbot: QtBot, collection: Collection, show: Callable[[Collection], Window]
) -> None:
    window = show(collection)
    window.commands["look-list"].trigger()
    settle(qtbot, window)
    assert open_dialogs(window) == []
