"""The model of the table of all plants: order, find, columns, and what is told."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt

from growdesk.domain.facts import Flowering, Medium, Verdict
from growdesk.domain.holding import Descent, HeldAs, Status
from growdesk.domain.speech import Manner, speak
from growdesk.services.csv_form import read_table
from growdesk.services.roster_values import Whose
from growdesk.services.view_starts import EVERYTHING, STARTS
from growdesk.ui import roster_columns, roster_memory, roster_saving, roster_words
from growdesk.ui.models.roster_model import ID_ROLE, RosterModel
from growdesk.ui.preferences import preferences
from growdesk.ui.roster_columns import BY_KEY, COLUMNS, USUAL, Entry, Orders
from tests.conftest import TODAY
from tests.ui.roster_bench import line, lines

if TYPE_CHECKING:
    from pathlib import Path

    from growdesk.services.roster_values import RosterLine, ViewDraft


def tags(model: RosterModel) -> list[str]:
    return [entry.line.tag for entry in model.rows]


def model_of(*plants: RosterLine, **verdicts: Verdict) -> RosterModel:
    model = RosterModel()
    told = {int(tag[1:]): verdict for tag, verdict in verdicts.items()}
    model.show(plants, told, TODAY)
    return model


def sorted_by(model: RosterModel, key: str, *, downwards: bool = False) -> list[str]:
    model.arrange(replace(EVERYTHING, order=key, downwards=downwards), USUAL)
    return tags(model)


def finding(typed: str) -> ViewDraft:
    return replace(EVERYTHING, find=typed)


def test_the_model_keeps_qts_rules(qtmodeltester: Any) -> None:
    model = model_of(*lines(5), A1=Verdict.FEED)
    qtmodeltester.check(model)
    model.arrange(finding("laelia"), ("tag", "note"))
    qtmodeltester.check(model)
    model.find(finding("nowhere"))
    qtmodeltester.check(model)


@pytest.mark.parametrize("how_many", range(8))
def test_rows_are_given_from_the_top_of_few_plants_and_of_many(how_many: int) -> None:
    model = model_of(*lines(9))
    model.arrange(replace(EVERYTHING, order="tag", downwards=True), USUAL)
    shown = [entry.line.plant_id for entry in model.rows]
    wanted = shown[how_many:0:-1]
    assert model.rows_of([*wanted, 999]) == list(range(1, how_many + 1))
    assert [model.row_of(each) for each in shown] == list(range(len(shown)))
    assert model.row_of(999) == -1


def test_a_cell_says_itself_to_the_eye_and_to_the_ear() -> None:
    model = model_of(line(1, note="<b>by the\npane</b>"), A1=Verdict.CLEAR_WATER)
    model.arrange(EVERYTHING, ("tag", "verdict", "looked", "note", "pot"))
    said = [model.index(0, n).data() for n in range(5)]
    assert said == ["A1", "Clear water", "", "<b>by the pane</b>", ""]
    heard = Qt.ItemDataRole.AccessibleTextRole
    assert model.index(0, 1).data(heard) == "Verdict: Clear water"
    assert model.index(0, 2).data(heard) == "Last look: not recorded"
    assert "&lt;b&gt;" in model.index(0, 3).data(Qt.ItemDataRole.ToolTipRole)
    assert model.index(0, 0).data(ID_ROLE) == 1
    across = model.index(0, 4).data(Qt.ItemDataRole.TextAlignmentRole)
    assert across & Qt.AlignmentFlag.AlignRight


def test_the_order_is_that_of_growers_and_what_is_unknown_stands_last() -> None:
    seen = TODAY - timedelta(days=5)
    model = model_of(
        line(10, looked_on=seen),
        line(9, looked_on=TODAY),
        line(2),
        A10=Verdict.KEEP_DRY,
        A2=Verdict.FEED,
    )
    assert tags(model) == ["A2", "A9", "A10"]
    assert sorted_by(model, "tag", downwards=True) == ["A10", "A9", "A2"]
    assert sorted_by(model, "looked") == ["A10", "A9", "A2"]
    assert sorted_by(model, "looked", downwards=True) == ["A9", "A10", "A2"]
    assert sorted_by(model, "verdict") == ["A2", "A10", "A9"]
    assert sorted_by(model, "no such column") == ["A2", "A9", "A10"]


def test_names_sort_by_the_genus_in_full_and_a_plant_without_one_last() -> None:
    model = model_of(
        line(1, name="C. labiata"),
        line(2, name=""),
        line(3, name="Ctsm. Orchidglade"),
        line(4, name="Bulbophyllum lobbii"),
    )
    assert sorted_by(model, "name") == ["A4", "A3", "A1", "A2"]
    assert sorted_by(model, "name", downwards=True) == ["A1", "A3", "A4", "A2"]


def test_every_column_sorts_shows_and_saves_a_plant_full_and_bare() -> None:
    full = line(
        1,
        flowering=Flowering.OPEN,
        medium=Medium.BARK,
        pot_volume_l=0.4,
        parent_tag="A2",
        parent_how=Descent.DIVISION,
        held_as=HeldAs.COMPOT,
        how_many=12,
        photos=3,
        status=Status.GIVEN_AWAY,
        left_on=TODAY,
        left_why="to a friend",
        bench_name="top shelf",
    )
    bare = line(2, place="", place_id=None, name="", bench=None)
    entries = [Entry(bare, None), Entry(full, Verdict.FEED)]
    orders = Orders(entries)
    for column in COLUMNS:
        for downwards in (False, True):
            found = orders.by(column.key, range(2), downwards=downwards)
            assert sorted(found) == [0, 1], column.key
        assert isinstance(column.text(entries[0]), str)
    shown = {each.key: each.text(entries[1]) for each in COLUMNS}
    assert shown["bench"] == "top shelf, 1"
    assert shown["flowering"] == "in flower"
    assert shown["parent"] == "A2, division"
    assert shown["held-as"] == "compot of 12"
    assert (shown["pot"], shown["photos"]) == ("400 mL", "3")
    assert (shown["status"], shown["left"]) == ("given away", "20 May 2026")
    assert BY_KEY["medium"].text(Entry(line(3, mounted=True), None)) == "mounted"


def test_the_views_brought_along_name_columns_that_there_are() -> None:
    for view in STARTS:
        named = (*view.draft.columns, *([view.draft.order] if view.draft.order else ()))
        assert [key for key in named if key not in BY_KEY] == []


def test_a_key_goes_once_over_what_the_key_before_had_left() -> None:
    model = model_of(*lines(10_000))
    looked = []
    for typed in ("l", "la", "lae", "lael", "laelia", "laelia 77"):
        model.find(finding(typed))
        looked.append(model.finder.scanned)
    assert looked[0] == 10_000
    assert looked[1:] == sorted(looked[1:], reverse=True)
    assert looked[-1] == 2500
    assert all("77" in entry.line.name for entry in model.rows)
    model.find(finding("laelia 77"))
    assert model.finder.scanned == 0


def test_the_verdict_of_the_day_is_found_too() -> None:
    model = model_of(*lines(3), A2=Verdict.KEEP_DRY)
    model.find(finding("keep dry"))
    assert tags(model) == ["A2"]


def test_what_left_says_so_in_the_place_of_a_verdict_and_is_found_by_it() -> None:
    model = model_of(line(1), line(2, status=Status.SOLD))
    everybody = replace(EVERYTHING, whose=Whose.ALL)
    model.arrange(everybody, ("tag", "verdict"))
    assert [model.index(row, 1).data() for row in range(2)] == ["", "sold"]
    model.find(replace(everybody, find="sold"))
    assert tags(model) == ["A2"]


def test_a_day_that_changes_one_plant_tells_one_row() -> None:
    plants = lines(4)
    model = model_of(*plants)
    told: list[int] = []
    resets: list[int] = []
    model.dataChanged.connect(lambda top, _bottom: told.append(top.row()))
    model.modelReset.connect(lambda: resets.append(1))
    assert not model.show((plants[0], line(2, note="new"), *plants[2:]), {}, TODAY)
    assert (told, resets) == ([1], [])
    assert model.show(plants[:3], {}, TODAY)
    assert resets == [1]


def test_columns_nobody_knows_are_left_out_and_none_twice() -> None:
    model = model_of(*lines(1))
    model.arrange(EVERYTHING, ("name", "wings", "tag", "name"))
    assert [column.key for column in model.columns] == ["name", "tag"]


# -- in words --------------------------------------------------------------------------


def test_the_count_says_what_is_shown_flowers_and_is_selected() -> None:
    model = model_of(
        line(1, flowering=Flowering.OPEN),
        line(2, flowering=Flowering.BUDS),
        line(3, status=Status.LOST, flowering=Flowering.FADING),
    )
    assert (model.among, model.flowers) == (2, 1)
    model.find(finding("a2"))
    assert (model.among, model.flowers) == (2, 0)
    assert roster_words.count_line(2, 2, 1, 1) == "2 plants; 1 in flower"
    assert roster_words.count_line(1, 41, 0, 1) == "1 of 41 plants"
    said = roster_words.count_line(2, 41, 1, 2)
    assert said == "2 of 41 plants; 1 in flower; 2 selected"
    assert roster_words.count_line(0, 41, 0, 0) == "None of 41 plants"


def test_nothing_found_says_what_was_looked_for_and_where_it_is() -> None:
    said = roster_words.nothing_line(finding(" vanda "), ("place East sill",), 2)
    assert said.startswith("No plant growing here has “vanda” in its tag, name, kind,")
    assert said.endswith(
        "with place East sill. Without this view's filters 2 plants have it."
    )
    assert roster_words.nothing_line(STARTS[-1].draft, (), 0) == (
        "No plant that left the collection is of this view."
    )
    model = model_of(line(1), line(2, status=Status.SOLD))
    model.find(finding("number 2"))
    assert (tags(model), model.held_elsewhere()) == ([], 1)


# -- to other programs, and remembered -------------------------------------------------


def test_copied_rows_run_no_formula_and_keep_to_their_cells() -> None:
    entry = Entry(line(1, name="=1+1", note="a\tb\nc"), None)
    columns = roster_columns.chosen(("tag", "name", "note"))
    text = roster_saving.as_text(columns, [entry])
    assert text == "Tag\tName\tNote\nA1\t'=1+1\ta b c\n"


def test_a_saved_table_reads_back(tmp_path: Path) -> None:
    entry = Entry(
        line(1, name="=1+1", looked_on=date(2026, 5, 2), pot_volume_l=0.4), None
    )
    columns = roster_columns.chosen(("name", "looked", "pot"))
    speak(Manner(decimal=",", day_form="{d}.{m}.{y}", customary=True))
    try:
        roster_saving.save(tmp_path / "t.csv", columns, [entry])
    finally:
        speak()
    raw = (tmp_path / "t.csv").read_bytes()
    assert b"'=1+1" in raw
    table = read_table(raw, "t.csv")
    assert table.header == ("Name", "Last look", "Pot, L")
    assert table.rows == ((2, ("=1+1", "2026-05-02", "0.4")),)


def test_how_the_table_is_liked_is_remembered() -> None:
    liked = roster_memory.Liked(("name", "tag"), "looked", True, {"name": 310})
    roster_memory.keep(liked)
    assert roster_memory.recall() == liked


@pytest.mark.parametrize(
    "kept",
    ["", "[]", "{", '{"columns": 3}', '{"widths": {"tag": "wide"}}', '{"widths": 3}'],
)
def test_what_cannot_be_remembered_is_as_at_first(kept: str) -> None:
    preferences().setValue("collection-table", kept)
    assert roster_memory.recall() == roster_memory.Liked()
