"""The table of all plants: what stands in it, what is found, what views leave."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from sqlalchemy import event

from growdesk.domain.facts import (
    CareKind,
    Flowering,
    Look,
    Medium,
    NewGrowths,
    RootTips,
    Verdict,
)
from growdesk.domain.holding import Descent, HeldAs, Status
from growdesk.services.finding import Finder, folded
from growdesk.services.roster_filter import kept
from growdesk.services.roster_values import Only, RosterLine, ViewDraft, Whose
from growdesk.services.values import PlaceDraft, PlantDraft
from growdesk.services.view_starts import STARTS
from growdesk.store.schema import BloomRow
from tests.conftest import TODAY

if TYPE_CHECKING:
    from growdesk.services.collection import Collection


def by_tag(collection: Collection, on: date | None = None) -> dict[str, RosterLine]:
    return {line.tag: line for line in collection.roster.read(on)}


def bare(number: int, **more: object) -> RosterLine:
    """Give a line with nothing known but what is said."""
    plain = RosterLine(
        plant_id=number,
        tag=f"A{number}",
        name="",
        kind_key="cattleya",
        kind_title="Cattleya",
        place_id=None,
        place="",
        bench_name="",
        bench=None,
        walk=(0, "", 0, 0, number),
        status=Status.GROWING,
    )
    return replace(plain, **more)


# -- reading ---------------------------------------------------------------------------


def test_a_line_tells_what_is_on_record(collection: Collection) -> None:
    place = collection.places.add(PlaceDraft("East window")).ids[0]
    mother = collection.plants.add(PlantDraft("A1", "Laelia anceps", "laelia")).ids[0]
    draft = PlantDraft(
        "A2",
        "Laelia anceps",
        "laelia",
        place,
        3,
        pot_volume_l=0.8,
        medium=Medium.BARK,
        repotted_on=TODAY - timedelta(days=90),
        acquired_on=TODAY - timedelta(days=400),
        source="society sale",
        note="by the pane",
        parent_id=mother,
        parent_how=Descent.DIVISION,
        papers="CITES 12",
        held_as=HeldAs.TRAY,
        how_many=3,
        quarantine_until=TODAY + timedelta(days=10),
    )
    made = collection.plants.add(draft).ids[0]
    seen = TODAY - timedelta(days=2)
    signs = Look(
        seen, root_tips=RootTips.RUNNING, flowering=frozenset({Flowering.BUDS})
    )
    collection.looks.record(made, signs, "second spike")
    fed = TODAY - timedelta(days=7)
    collection.day.give((made,), fed, CareKind.FEED, 80.0)
    collection.day.give((made,), TODAY - timedelta(days=3), CareKind.CLEAR_WATER, None)
    line = by_tag(collection)["A2"]
    assert (line.kind_key, line.place, line.bench) == ("laelia", "East window", 3)
    assert (line.looked_on, line.flowering) == (seen, Flowering.BUDS)
    assert line.signs == "Root tips running; buds."
    assert (line.fed_on, line.watered_on) == (fed, TODAY - timedelta(days=3))
    assert (line.parent_tag, line.parent_how) == ("A1", Descent.DIVISION)
    assert (line.held_as, line.how_many, line.papers) == (HeldAs.TRAY, 3, "CITES 12")
    assert line.repotted_on == TODAY - timedelta(days=90)
    for word in ("a2", "laelia", "east", "running", "society", "pane"):
        assert word in line.found_by, word
    assert collection.roster.noted() == {made: "second spike"}


def test_an_abbreviated_genus_is_found_in_full_and_sorted_by(
    collection: Collection,
) -> None:
    for tag, name in (("A1", "Rlc. Pink Diamond"), ("A2", "Rhyncholaelia glauca")):
        collection.plants.add(PlantDraft(tag, name, "cattleya"))
    collection.plants.add(PlantDraft("A3", "", "cattleya"))
    lines = by_tag(collection)
    assert "rhyncholaeliocattleya" in lines["A1"].found_by
    orders = [lines[tag].name_order for tag in ("A2", "A1")]
    assert None not in orders
    assert orders == sorted(orders, key=lambda order: order or ())
    assert lines["A3"].name_order is None


def test_what_left_is_told_too_and_what_lies_in_the_bin_is_not(
    collection: Collection,
) -> None:
    for tag in ("A1", "A2", "A3"):
        collection.plants.add(PlantDraft(tag, "Laelia anceps", "laelia"))
    ids = {tag: line.plant_id for tag, line in by_tag(collection).items()}
    gone = collection.plants.get(ids["A2"])
    collection.plants.change(
        ids["A2"],
        replace(gone, status=Status.SOLD, left_on=TODAY, left_why="too large"),
    )
    collection.plants.remove((ids["A3"],))
    lines = by_tag(collection)
    assert sorted(lines) == ["A1", "A2"]
    assert (lines["A2"].status, lines["A2"].left_why) == (Status.SOLD, "too large")
    detail = collection.day.detail(ids["A2"], TODAY, collection.day.view())
    assert (detail.draft.tag, detail.letter) == ("A2", None)


def test_a_day_before_knows_no_later_look_or_care(collection: Collection) -> None:
    made = collection.plants.add(PlantDraft("A1", "Laelia anceps", "laelia")).ids[0]
    early, late = TODAY - timedelta(days=9), TODAY - timedelta(days=1)
    for day, tips in ((late, RootTips.NONE), (early, RootTips.RUNNING)):
        collection.looks.record(made, Look(day, root_tips=tips))
        collection.day.give((made,), day, CareKind.FEED, 80.0)
    assert by_tag(collection)["A1"].looked_on == late
    before = by_tag(collection, TODAY - timedelta(days=5))["A1"]
    assert (before.looked_on, before.fed_on) == (early, early)
    assert before.signs == "Root tips running."


def test_flowers_stand_as_long_as_the_kinds_last_and_a_bloom_goes_on(
    collection: Collection,
) -> None:
    made = collection.plants.add(PlantDraft("A1", "Laelia anceps", "laelia")).ids[0]
    weeks = collection.kinds.kind_for(made).flower_weeks
    seen = TODAY - timedelta(days=200)
    opened = Look(seen, flowering=frozenset({Flowering.OPEN, Flowering.BUDS}))
    collection.looks.record(made, opened)
    last = seen + timedelta(days=int(weeks * 7))
    assert by_tag(collection, last)["A1"].flowering is Flowering.OPEN
    assert by_tag(collection, last + timedelta(days=1))["A1"].flowering is None
    with collection.ledger.writing("a bloom") as writing:
        writing.insert(
            BloomRow,
            {"plant_id": made, "first_open_on": TODAY - timedelta(days=1), "note": ""},
        )
    line = by_tag(collection)["A1"]
    assert line.flowering is Flowering.OPEN
    assert line.last_bloom == TODAY - timedelta(days=1)


# -- finding ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "plain"),
    [
        ("Señorita Ångström", "senorita angstrom"),
        ("Bjørn × Łódź", "bjorn x lodz"),
        ("‘Süd’ STRASSE", "'sud' strasse"),
        ("Straße", "strasse"),
        ("Œuvre æ", "oeuvre ae"),
    ],
)
def test_accents_case_and_quotes_do_not_count(text: str, plain: str) -> None:
    assert folded(text) == plain


def test_all_words_must_occur_in_any_order() -> None:
    finder = Finder(("laelia anceps\nsill", "laelia autumnalis\nbench", "oncidium"))
    assert finder.find("sill laelia") == (0,)
    assert finder.find("SILL") == (0,)
    assert finder.find("lælia") == (0, 1)
    assert finder.find("anceps bench") == ()
    assert finder.find("") == (0, 1, 2)


def test_a_key_more_looks_only_at_what_was_left() -> None:
    texts = [f"plant {n} {'rare' if n % 100 == 0 else 'usual'}" for n in range(10_000)]
    finder = Finder(texts)
    looked = []
    for typed in ("r", "ra", "rar", "rare", "rare 9", "rare 95"):
        finder.find(typed)
        looked.append(finder.scanned)
    assert looked == [10_000, 100, 100, 100, 100, 19]
    assert finder.find("rare 95") == (9500,)
    assert finder.scanned == 0
    assert len(finder.find("rare 9")) == 19
    assert finder.scanned == 10_000
    assert len(finder.find("")) == 10_000
    assert finder.scanned == 0


def test_a_word_changed_in_its_midst_looks_at_all_again() -> None:
    finder = Finder(("oncidium", "odontoglossum"))
    assert finder.find("onc") == (0,)
    assert finder.find("odo") == (1,)
    assert finder.scanned == 2


# -- what views leave ------------------------------------------------------------------


def left(view: ViewDraft, *lines: RosterLine, **verdicts: Verdict) -> list[str]:
    told = {int(tag[1:]): verdict for tag, verdict in verdicts.items()}
    return [line.tag for line in kept(lines, view, TODAY, told)]


def test_filters_hold_together() -> None:
    lines = (
        bare(1, place_id=1),
        bare(2, place_id=1, kind_key="laelia"),
        bare(3, place_id=2, kind_key="laelia"),
        bare(4, place_id=1, kind_key="laelia", status=Status.LOST),
    )
    view = ViewDraft("", place=1, kind="laelia")
    assert left(view, *lines) == ["A2"]
    assert left(replace(view, whose=Whose.ALL), *lines) == ["A2", "A4"]
    assert left(replace(view, whose=Whose.LEFT), *lines) == ["A4"]
    fed = ViewDraft("", verdict=Verdict.FEED)
    assert left(fed, *lines, A1=Verdict.FEED, A2=Verdict.FLUSH) == ["A1"]


def test_only_what_flowers_is_kept_apart_is_unseen_or_in_old_medium() -> None:
    def days(count: int) -> date:
        return TODAY - timedelta(days=count)

    lines = (
        bare(1, flowering=Flowering.BUDS, looked_on=days(20), repotted_on=days(729)),
        bare(2, flowering=Flowering.SPIKE, looked_on=days(21), repotted_on=days(730)),
        bare(3, quarantine_until=TODAY, looked_on=days(1), mounted=True),
        bare(4, quarantine_until=days(1), looked_on=days(1), acquired_on=days(800)),
    )
    wanted = {
        Only.FLOWERING: ["A1"],
        Only.QUARANTINE: ["A3"],
        Only.UNSEEN: ["A2"],
        Only.OLD_MEDIUM: ["A2", "A4"],
    }
    for only, tags in wanted.items():
        assert left(ViewDraft("", only=frozenset({only})), *lines) == tags, only
    assert left(ViewDraft("", only=frozenset(wanted)), *lines) == []


def test_the_views_brought_along_are_about_what_they_say() -> None:
    lines = (
        bare(1, flowering=Flowering.OPEN, looked_on=TODAY, repotted_on=TODAY),
        bare(2, looked_on=None, repotted_on=TODAY),
        bare(3, looked_on=TODAY, repotted_on=TODAY - timedelta(days=900)),
        bare(4, status=Status.SOLD, looked_on=TODAY, repotted_on=TODAY),
    )
    assert {each.draft.name: left(each.draft, *lines) for each in STARTS} == {
        "All plants": ["A1", "A2", "A3"],
        "In flower or bud": ["A1"],
        "Not looked at for three weeks": ["A2"],
        "Repotted long ago": ["A3"],
        "Left the collection": ["A4"],
    }


def test_lines_go_as_the_round_is_walked(collection: Collection) -> None:
    first = collection.places.add(PlaceDraft("West", position=1)).ids[0]
    second = collection.places.add(PlaceDraft("East", position=2)).ids[0]
    for tag, place, bench in (("A1", second, 1), ("A2", first, 2), ("A3", first, 1)):
        draft = PlantDraft(tag, "", "cattleya", place, bench)
        made = collection.plants.add(draft).ids[0]
        collection.looks.record(made, Look(TODAY, new_growths=NewGrowths(extending=1)))
    assert [line.tag for line in collection.roster.read()] == ["A3", "A2", "A1"]


# -- how much is done ------------------------------------------------------------------


def test_a_plant_that_is_as_it_was_keeps_its_very_line(collection: Collection) -> None:
    ids = [
        collection.plants.add(PlantDraft(tag, "Laelia anceps", "laelia")).ids[0]
        for tag in ("A1", "A2")
    ]
    one, other = ids
    changes = (
        lambda: collection.looks.record(one, Look(TODAY, root_tips=RootTips.NONE)),
        lambda: collection.day.give((one,), TODAY, CareKind.FEED, 80.0),
        lambda: collection.plants.change(
            one, PlantDraft("A1", "Laelia rubescens", "laelia")
        ),
        collection.history.undo,
    )
    before = {line.plant_id: line for line in collection.roster.read()}
    for change in changes:
        change()
        now = {line.plant_id: line for line in collection.roster.read()}
        assert now[other] is before[other]
        assert now[one] != before[one]
        before = now
    later = {each.plant_id: each for each in collection.roster.read(TODAY)}
    assert later == before
    assert all(later[key] is before[key] for key in ids)


def test_a_corrected_kind_is_told_in_lines_made_before(collection: Collection) -> None:
    collection.plants.add(PlantDraft("A1", "Laelia anceps", "laelia"))
    weeks = collection.kinds.kind_for(by_tag(collection)["A1"].plant_id).flower_weeks
    opened = TODAY - timedelta(days=int(weeks * 7) + 3)
    made = by_tag(collection)["A1"].plant_id
    look = Look(opened, flowering=frozenset({Flowering.OPEN}))
    collection.looks.record(made, look)
    assert by_tag(collection)["A1"].flowering is None
    collection.kinds.correct("laelia", {"flower_weeks": f"{weeks + 2:g}"}, "")
    assert by_tag(collection)["A1"].flowering is Flowering.OPEN


def test_the_table_asks_as_many_statements_for_many_plants_as_for_one(
    collection: Collection,
) -> None:
    asked: list[str] = []
    counts = []
    engine = collection.ledger.store._engine

    def count(*details: object) -> None:
        asked.append(str(details[2]))

    for number in (1, 7):
        for each in range(number):
            collection.plants.add(PlantDraft(f"P{number}x{each}", "", "laelia"))
        asked.clear()
        event.listen(engine, "before_cursor_execute", count)
        collection.roster.read()
        collection.roster.noted()
        event.remove(engine, "before_cursor_execute", count)
        counts.append(len(asked))
    assert counts == [counts[0]] * 2
    assert counts[0] <= 11
    assert sum("row_number" in each.lower() for each in asked) == 0
