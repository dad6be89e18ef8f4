"""Where labels stand on paper, in millimetres."""

from __future__ import annotations

import pytest

from growdesk.domain.errors import InputError
from growdesk.domain.label_layouts import (
    PAPERS_MM,
    PRESETS,
    Sheet,
    Strip,
    pair,
    preset_for,
    read_layout,
)


@pytest.mark.parametrize("layout", PRESETS, ids=lambda each: each.title)
def test_a_preset_is_written_and_read_the_same(layout: Sheet | Strip) -> None:
    assert read_layout(layout.spec) == layout


@pytest.mark.parametrize("layout", PRESETS, ids=lambda each: each.title)
def test_cells_lie_on_the_paper_and_not_on_one_another(layout: Sheet | Strip) -> None:
    across, down = layout.page_mm
    for number, cell in enumerate(layout.cells):
        assert cell.left_mm >= 0
        assert cell.top_mm >= 0
        assert cell.left_mm + cell.width_mm <= across + 0.05
        assert cell.top_mm + cell.height_mm <= down + 0.05
        for other in layout.cells[number + 1 :]:
            beside = abs(other.left_mm - cell.left_mm) >= cell.width_mm - 1e-9
            assert beside or abs(other.top_mm - cell.top_mm) >= cell.height_mm - 1e-9


def test_cells_go_row_by_row_with_their_gaps() -> None:
    made = read_layout("A4 3x7 63.5x38.1 at 7,15 gap 2.5,1")
    assert len(made.cells) == 21
    assert (made.cells[0].left_mm, made.cells[0].top_mm) == (7, 15)
    assert (made.cells[1].left_mm, made.cells[1].top_mm) == (73, 15)
    assert made.cells[3].top_mm == pytest.approx(15 + 38.1 + 1)
    last = made.cells[20]
    assert last.left_mm == pytest.approx(7 + 2 * 66)
    assert last.top_mm == pytest.approx(15 + 6 * 39.1)


def test_without_a_margin_the_labels_stand_in_the_middle() -> None:
    made = read_layout("letter 3x10 66.7x25.4 gap 3.2,0")
    assert isinstance(made, Sheet)
    right = 215.9 - made.cells[-1].left_mm - 66.7
    assert made.left_mm == pytest.approx(right, abs=0.02)
    assert made.top_mm == pytest.approx((279.4 - 254) / 2, abs=0.01)


def test_a_strip_is_a_page_a_label() -> None:
    made = Strip(90, 12, cut_marks=True)
    assert read_layout("Strip 90 x 12 mm cut") == made
    assert list(made.page_mm) == [90, 12]
    assert [cell.width_mm for cell in made.cells] == [90]


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("", "is no layout"),
        ("A5 3x8 70x37", "is no layout"),
        ("A4 3x9 70x37", "does not fit on A4: 36.0 mm too much down"),
        ("A4 4x8 70x37", "does not fit on A4: 70.0 mm too much across"),
        ("A4 3x8 70x37 at 5,0", "does not fit on A4: 5.0 mm too much across"),
        ("A4 0x8 70x37", "has too few or too many labels"),
        ("A4 99x99 18x8", "has too few or too many labels"),
        ("A4 10x30 17x9", "is too small to be read"),
        ("strip 90x7", "is too small to be read"),
        ("strip 900x12", "is too large for a strip"),
    ],
)
def test_what_cannot_be_printed_says_why(text: str, problem: str) -> None:
    with pytest.raises(InputError) as refused:
        read_layout(text)
    assert problem in refused.value.message
    assert refused.value.hint


def test_each_paper_has_a_layout_to_begin_with() -> None:
    for paper in PAPERS_MM:
        assert preset_for(paper).paper == paper


@pytest.mark.parametrize(
    ("text", "lengths"),
    [
        ("66.7 x 25.4", (66.7, 25.4)),
        ("66,7 x 25,4", (66.7, 25.4)),
        ("0 x 0,5", (0, 0.5)),
        ("0,0.5", (0, 0.5)),
        ("70 × 37 mm", (70, 37)),
        ("70,5 37", (70.5, 37)),
    ],
)
def test_two_lengths_are_read_with_either_decimal_sign(
    text: str, lengths: tuple[float, float]
) -> None:
    assert pair("gap", text) == lengths
