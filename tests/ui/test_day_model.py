"""The list's model: groups in order, roles, filter, and one reset a change."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt

from growdesk.domain.facts import CareKind, Verdict, Water
from growdesk.services.values import Done, DoneKind, Line
from growdesk.ui import words
from growdesk.ui.day_columns import COLUMNS, Place, band_mark, folded
from growdesk.ui.models.day_model import HEAD_ROLE, ID_ROLE, UNDER_ROLE, DayModel, Head

if TYPE_CHECKING:
    from pytestqt.modeltest import ModelTester

SPOKEN = Qt.ItemDataRole.AccessibleTextRole


def line(number: int, verdict: Verdict, **other: object) -> Line:
    made = Line(
        plant_id=number,
        tag=f"A{number}",
        name="Laelia anceps",
        place="East window",
        bench=number,
        verdict=verdict,
        water=Water.THROUGH,
        strength_ppm_n=120.0 if verdict is Verdict.FEED else None,
        volume_l=0.25,
        letter="A" if verdict is Verdict.FEED else None,
        short_reason="root tips running",
        looked_on=date(2026, 5, 1),
        suspect=False,
        done=None,
    )
    return replace(made, **other)


EVERY = tuple(line(number, verdict) for number, verdict in enumerate(Verdict, 1))


def test_it_is_a_sound_model(qtmodeltester: ModelTester) -> None:
    model = DayModel()
    model.show(EVERY)
    qtmodeltester.check(model)  # type: ignore[no-untyped-call]


def test_a_plant_served_outside_its_band_is_marked_and_told() -> None:
    sides = (
        (50, True, "stronger", "50 for 40 ppm N"),
        (30, True, "weaker", "30 for 40 ppm N"),
        (42, False, "", "42 ppm N"),
    )
    for jug, outside, side, told in sides:
        one = line(
            1, Verdict.FEED, strength_ppm_n=40.0, jug_ppm_n=jug, outside_band=outside
        )
        assert band_mark(one) == side
        assert COLUMNS[Place.STRENGTH].text(one) == told
        model = DayModel()
        model.show((one,))
        spoken = model.index(1, Place.VERDICT).data(SPOKEN)
        assert spoken.endswith(f"{side} than the band: {told}") == outside
        done = replace(one, done=Done(DoneKind.CARED, CareKind.FEED, 50.0, 0.2))
        assert band_mark(done) == ""


def test_groups_stand_in_the_order_of_the_round() -> None:
    model = DayModel()
    model.show(EVERY)
    heads = [row.verdict for row in model.rows if isinstance(row, Head)]
    assert heads == [
        Verdict.FEED,
        Verdict.FLUSH,
        Verdict.CLEAR_WATER,
        Verdict.LOOK_FIRST,
        Verdict.KEEP_DRY,
    ]
    assert model.head_rows() == (0, 2, 4, 6, 8)


def test_lines_keep_the_order_they_come_in() -> None:
    model = DayModel()
    model.show((line(9, Verdict.FEED), line(2, Verdict.FEED), line(5, Verdict.FEED)))
    assert [each.plant_id for each in model.lines_at((1, 2, 3))] == [9, 2, 5]


def test_newcomers_go_after_the_others_and_suspects_last_and_are_told() -> None:
    model = DayModel()
    model.show(
        (
            line(1, Verdict.FEED, suspect=True, newcomer=True),
            line(2, Verdict.FEED, newcomer=True, bench_name="Lower"),
            line(3, Verdict.FEED),
            line(4, Verdict.KEEP_DRY, suspect=True),
            line(5, Verdict.FEED),
        )
    )
    ids = [row.plant_id for row in model.rows if not isinstance(row, Head)]
    assert ids == [3, 5, 2, 1, 4]
    told = [words.where(each) for each in model.rows[2:5] if isinstance(each, Line)]
    assert told == [
        "East window",
        "newcomer, after the others · East window · Lower",
        "suspect, last of all · East window",
    ]
    assert "suspect, last of all" in model.index(4, Place.PLANT).data(SPOKEN)
    model.filter_by("suspect")
    assert [each.plant_id for each in model.lines_at(range(9)[: len(model.rows)])] == [
        1,
        4,
    ]


@pytest.mark.parametrize("verdict", list(Verdict))
def test_the_verdict_is_said_in_words(verdict: Verdict) -> None:
    model = DayModel()
    model.show((line(1, verdict),))
    word = {
        "feed": "Feed",
        "clear-water": "Clear water",
        "flush": "Flush",
        "keep-dry": "Keep dry",
        "look-first": "Look first",
    }[verdict.value]
    for column in (Place.VERDICT, Place.PLANT):
        assert word in model.index(1, column).data(SPOKEN)
    assert model.index(1, Place.VERDICT).data() == word
    assert word in model.index(0, 0).data(SPOKEN)


def test_a_header_can_be_neither_chosen_nor_reached() -> None:
    model = DayModel()
    model.show(EVERY)
    assert model.flags(model.index(0, 0)) == Qt.ItemFlag.NoItemFlags
    assert model.index(0, 0).data(ID_ROLE) is None
    assert isinstance(model.index(0, 0).data(HEAD_ROLE), Head)


def test_what_it_got_stands_on_a_done_line() -> None:
    model = DayModel()
    fed = Done(DoneKind.CARED, CareKind.FEED, 140.0, 0.3)
    damp = Done(DoneKind.PASSED_BY, None, None, None)
    model.show((line(1, Verdict.FEED, done=fed), line(2, Verdict.FEED, done=damp)))
    assert model.index(1, Place.STRENGTH).data() == "fed 140 ppm N"
    assert model.index(2, Place.STRENGTH).data() == "passed by"
    assert "2 done" in model.index(0, 0).data()
    checked = model.index(1, Place.TICK).data(Qt.ItemDataRole.CheckStateRole)
    assert checked == Qt.CheckState.Checked


@pytest.mark.parametrize("verdict", [Verdict.KEEP_DRY, Verdict.LOOK_FIRST])
def test_nothing_can_be_ticked_that_is_not_to_be_watered(verdict: Verdict) -> None:
    model = DayModel()
    model.show((line(1, verdict),))
    assert model.index(1, Place.TICK).data(Qt.ItemDataRole.CheckStateRole) is None


@pytest.mark.parametrize(
    ("typed", "kept"),
    [("a3", [3]), ("LAELIA east", [1, 2, 3, 4, 5]), ("keep dry", [4]), ("rose", [])],
)
def test_the_filter_wants_every_word(typed: str, kept: list[int]) -> None:
    model = DayModel()
    model.show(EVERY)
    model.filter_by(typed)
    rows = model.lines_at(range(model.rowCount()))
    assert sorted(each.plant_id for each in rows) == kept
    assert model.lines == EVERY


def test_a_day_and_a_filter_are_one_reset_each() -> None:
    model = DayModel()
    resets: list[int] = []
    model.modelReset.connect(lambda: resets.append(1))
    model.show(EVERY)
    model.filter_by("a1")
    model.filter_by("a1")
    assert len(resets) == 2


def test_columns_are_data() -> None:
    model = DayModel()
    assert model.columnCount() == len(COLUMNS) == len(Place)
    titles = [
        model.headerData(n, Qt.Orientation.Horizontal) for n in range(len(COLUMNS))
    ]
    assert titles == [column.title for column in COLUMNS]


def test_the_strength_of_the_jug_stands_beside_its_letter() -> None:
    model = DayModel()
    model.show((line(1, Verdict.FEED, strength_ppm_n=150.0, jug_ppm_n=120),))
    cell = model.index(1, Place.STRENGTH)
    assert cell.data() == "120 ppm N"
    assert cell.data(UNDER_ROLE) == "jug A, 250 mL"
    spoken = model.index(1, Place.PLANT).data(SPOKEN)
    assert "120 ppm N, jug A" in spoken
    assert "150" not in spoken


@pytest.mark.parametrize(
    ("verdict", "water", "upper", "under"),
    [
        (Verdict.CLEAR_WATER, Water.IF_DRY, "if the pot is light", "250 mL"),
        (Verdict.CLEAR_WATER, Water.SPARING, "sparingly", "250 mL"),
        (Verdict.CLEAR_WATER, Water.THROUGH, "right through", "250 mL"),
        (Verdict.FLUSH, Water.THROUGH, "right through", "250 mL"),
        (Verdict.LOOK_FIRST, Water.IF_DRY, "until then", "if the pot is light"),
        (Verdict.LOOK_FIRST, Water.NONE, "until then", "no water"),
        (Verdict.KEEP_DRY, Water.NONE, "", ""),
    ],
)
def test_how_to_water_stands_on_the_line(
    verdict: Verdict, water: Water, upper: str, under: str
) -> None:
    model = DayModel()
    model.show((line(1, verdict, water=water),))
    cell = model.index(1, Place.STRENGTH)
    assert (cell.data(), cell.data(UNDER_ROLE)) == (upper, under)


def test_a_day_to_come_has_no_ticks() -> None:
    model = DayModel()
    model.show((line(1, Verdict.FEED),), is_open=False)
    tick = model.index(1, Place.TICK)
    assert tick.data(Qt.ItemDataRole.CheckStateRole) is None
    model.show((line(1, Verdict.FEED),))
    assert tick.data(Qt.ItemDataRole.CheckStateRole) == Qt.CheckState.Unchecked


def test_a_tick_tells_only_the_rows_that_changed() -> None:
    model = DayModel()
    model.show(EVERY)
    resets: list[int] = []
    changed: list[tuple[int, int]] = []
    model.modelReset.connect(lambda: resets.append(1))
    model.dataChanged.connect(
        lambda first, last: changed.append((first.row(), last.row()))
    )
    fed = Done(DoneKind.CARED, CareKind.FEED, 120.0, 0.25)
    ticked = tuple(
        replace(each, done=fed) if each.verdict is Verdict.FEED else each
        for each in EVERY
    )
    assert not model.show(ticked)
    assert resets == []
    assert changed == [(0, 0), (1, 1)], "the group's header and the line"
    assert model.index(1, Place.STRENGTH).data() == "fed 120 ppm N"


def test_the_bench_stands_beside_the_place_and_is_found() -> None:
    benched = line(1, Verdict.FEED, bench_name="Top shelf")
    under = next(each.under for each in COLUMNS if each.key == "plant")
    assert under(benched) == "East window · Top shelf"
    assert under(line(2, Verdict.FEED)) == "East window"
    assert "top shelf" in folded(benched)
    assert "East window · Top shelf" in words.spoken(benched)
