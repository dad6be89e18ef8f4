"""Corrections of kinds in a collection: kept apart, judged by, undone, never lost."""

from __future__ import annotations

import csv
import io
import json
from collections import Counter
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from sqlalchemy import event

from growdesk.commands import answer
from growdesk.domain.errors import InputError
from growdesk.domain.facts import Reading, Verdict
from growdesk.domain.facts_file import read_facts
from growdesk.domain.facts_kinds import read_kind_table
from growdesk.domain.kind_corrections import corrected
from growdesk.domain.kind_fields import CORRECTABLE
from growdesk.services import kinds
from growdesk.services.care_of_files import backup, restore
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.kind_views import matching, shipped_views
from growdesk.services.transfer import export
from growdesk.services.values import Changed, PlantDraft

if TYPE_CHECKING:
    from datetime import date
    from pathlib import Path

    from growdesk.domain.kinds import KindTable
    from tests.services.conftest import Bench

LIGHT = {"feeder": "light"}


def strengths(collection: Collection) -> dict[str, float | None]:
    return {line.tag: line.strength_ppm_n for line in collection.day.view().lines}


def test_a_corrected_kind_is_judged_by_everywhere_and_undone(
    collection: Collection, bench: Bench, today: date
) -> None:
    before = collection.day.view()
    sheet = collection.sheet.week(today)
    done = collection.kinds.correct("cattleya", LIGHT, "they burn here")
    assert done.changed is Changed.KINDS
    assert done.title == "Cattleya, one-leaved, and hybrids: feeder corrected"
    own = next(line.strength_ppm_n for line in before.lines if line.tag == "A1")
    assert own is not None
    assert strengths(collection)["A1"] == pytest.approx(own / 2, abs=10)
    detail = collection.day.detail(bench.feed, today)
    assert "a light feeder takes half" in detail.strength_sentence
    assert detail.kind_corrected == ("You corrected its kind: feeder light.",)
    assert collection.sheet.week(today) != sheet
    ticked = collection.day.tick([bench.feed], today)
    assert len(ticked.ids) == 1
    care = collection.day.detail(bench.feed, today).care[0]
    assert care.strength_ppm_n == pytest.approx(own / 2, abs=10)
    season = collection.charts.season(bench.feed, today)
    assert max(day.strength_ppm_n for day in season.days) < own + 10
    collection.history.undo()
    collection.history.undo()
    assert collection.day.view() == before
    assert collection.kinds.all()[0].corrected == 0
    collection.history.redo()
    assert strengths(collection)["A1"] == pytest.approx(own / 2, abs=10)


def test_a_view_tells_shipped_corrected_note_source_and_memory(
    collection: Collection, bench: Bench
) -> None:
    collection.kinds.correct(
        "cattleya", {"ceiling_ppm_n": "90.0", "feeder": "light"}, "from my bench"
    )
    views = {view.key: view for view in collection.kinds.all()}
    assert len(views) == len(kinds.table().kinds)
    assert list(views)[-1] == "general"
    seen = views["cattleya"]
    assert (seen.plants, seen.corrected) == (3, 2)
    assert "aos.org" in seen.source
    assert seen.short[0] == "C."
    assert "Rlc." in seen.short
    assert seen.names[0] == "Cattleya"
    assert [field.name for field in seen.fields] == list(CORRECTABLE)
    ceiling = seen.field("ceiling_ppm_n")
    assert (ceiling.text, ceiling.cell) == ("90 ppm N", "90")
    assert (ceiling.below_text, ceiling.below_cell) == ("none", "")
    assert (ceiling.corrected, ceiling.note) == (True, "from my bench")
    assert not seen.field("feeder").from_memory
    months = seen.field("rest_months")
    assert (months.text, months.corrected) == ("November to February", False)
    assert months.from_memory
    assert views["catasetum"].plants == 1
    assert bench.feed


def test_going_back_leaves_the_shipped_field(
    collection: Collection, bench: Bench, today: date
) -> None:
    before = collection.day.detail(bench.feed, today)
    collection.kinds.correct("cattleya", {**LIGHT, "ceiling_ppm_n": "90"})
    done = collection.kinds.restore("cattleya", "feeder")
    assert done.title.endswith("feeder as shipped")
    assert collection.kinds.kind_for(bench.feed).corrected == ("ceiling_ppm_n",)
    collection.kinds.correct("cattleya", {"ceiling_ppm_n": ""})
    assert collection.day.detail(bench.feed, today) == before


def test_what_only_fits_together_goes_back_together(collection: Collection) -> None:
    collection.kinds.correct("cattleya", {"rest": "none", "rest_months": ""})
    collection.kinds.correct("cattleya", {"feeder": "heavy"})
    collection.kinds.restore("cattleya", "rest")
    seen = next(v for v in collection.kinds.all() if v.key == "cattleya")
    assert [f.name for f in seen.fields if f.corrected] == ["feeder"]


def test_a_cell_as_shipped_is_no_correction(collection: Collection) -> None:
    done = collection.kinds.correct("cattleya", {"feeder": "medium", "base_c": "8.0"})
    assert done.changed is Changed.NOTHING
    assert collection.history.view().undo is None
    assert all(view.corrected == 0 for view in collection.kinds.all())


def test_a_slip_is_refused_and_nothing_is_kept(collection: Collection) -> None:
    for key, cells, field in (
        ("cattleya", {"feeder": "huge"}, "feeder"),
        ("cattleya", {"feeder": "light", "rest": "none"}, "rest"),
        ("cattleya", {"source": "me"}, "source"),
        ("no-such-kind", {"feeder": "light"}, "kind"),
    ):
        with pytest.raises(InputError) as slip:
            collection.kinds.correct(key, cells)
        assert slip.value.field == field
        assert slip.value.hint
        with pytest.raises(InputError):
            collection.kinds.effect(key, cells)
    assert collection.history.view().undo is None


def test_a_plants_own_field_goes_before_its_kinds(
    collection: Collection, bench: Bench, today: date
) -> None:
    own = collection.day.detail(bench.feed, today).strength
    assert own is not None
    collection.kinds.correct("cattleya", {"feeder": "light", "ceiling_ppm_n": "120"})
    done = collection.kinds.correct_for_plant(
        bench.feed, {"feeder": "medium"}, "hybrid"
    )
    assert done.title == "A1: feeder of its kind corrected"
    assert done.changed is Changed.KINDS
    detail = collection.day.detail(bench.feed, today)
    assert detail.strength is not None
    assert detail.strength.ppm_n == min(own.ppm_n, 120)
    assert detail.kind_corrected == (
        "You corrected its kind: ceiling 120 ppm N.",
        "You corrected its kind for this plant: feeder medium.",
    )
    seen = collection.kinds.of_plant(bench.feed)
    assert (seen.plant_id, seen.tag, seen.corrected) == (bench.feed, "A1", 1)
    feeder = seen.field("feeder")
    assert (feeder.text, feeder.below_text, feeder.note) == (
        "medium",
        "light",
        "hybrid",
    )
    assert not seen.field("ceiling_ppm_n").corrected
    other = collection.day.detail(bench.clear, today)
    assert other.kind_corrected == (
        "You corrected its kind: feeder light, ceiling 120 ppm N.",
    )
    done = collection.kinds.restore_for_plant(bench.feed, "feeder")
    assert done.title == "A1: feeder as its kind has it"
    assert collection.kinds.of_plant(bench.feed).field("feeder").text == "light"
    with pytest.raises(InputError, match="is not there any more"):
        collection.kinds.correct_for_plant(999, LIGHT)


def test_a_plants_cell_that_says_what_its_kind_has_is_no_correction(
    collection: Collection, bench: Bench
) -> None:
    collection.kinds.correct("cattleya", LIGHT)
    assert not collection.kinds.correct_for_plant(bench.feed, LIGHT).changed
    collection.kinds.correct_for_plant(bench.feed, {"feeder": "heavy"})
    collection.kinds.correct_for_plant(bench.feed, LIGHT)
    assert collection.kinds.of_plant(bench.feed).corrected == 0


def test_habit_as_corrected_reaches_the_look_form(
    collection: Collection, bench: Bench, today: date
) -> None:
    assert not collection.day.detail(bench.feed, today).monopodial
    collection.kinds.correct("cattleya", {"habit": "monopodial"})
    assert collection.day.detail(bench.feed, today).monopodial
    assert collection.day.detail(bench.feed, today).kind_key == "cattleya"


def test_a_title_as_corrected_stands_in_the_lists(collection: Collection) -> None:
    collection.kinds.correct("cattleya", {"title": "Aaa, corsages"})
    assert collection.plants.kinds()[0] == ("cattleya", "Aaa, corsages")
    assert collection.kinds.all()[0].key == "cattleya"


def test_the_effect_is_told_before_anything_is_kept(
    collection: Collection, bench: Bench
) -> None:
    found = collection.kinds.effect("cattleya", LIGHT)
    assert found.plants == 3
    (turned,) = found.turned
    assert turned.tag == "A1"
    assert turned.before is turned.after is Verdict.FEED
    assert turned.before_ppm_n is not None
    assert turned.after_ppm_n is not None
    assert turned.after_ppm_n < turned.before_ppm_n
    assert collection.kinds.effect("cattleya", {"advice": "Mind it."}).turned == ()
    assert collection.kinds.effect("vanda", LIGHT).plants == 0
    warm = {"least_feed_c": "15"}
    collection.readings.write(bench.place, Reading(collection.clock.today(), 14.5))
    (cold,) = collection.kinds.effect("cattleya", warm).turned
    assert (cold.before, cold.after) == (Verdict.FEED, Verdict.CLEAR_WATER)
    one = collection.kinds.effect_for_plant(bench.feed, LIGHT)
    assert (one.plants, [each.tag for each in one.turned]) == (1, ["A1"])
    assert collection.history.view().undo is not None
    assert all(view.corrected == 0 for view in collection.kinds.all())


def later(table: KindTable, **cells: str) -> KindTable:
    """Give a table as a later version might ship it, with cattleya changed."""
    shipped = replace(corrected(table.kinds["cattleya"], cells), corrected=())
    return replace(table, kinds={**table.kinds, "cattleya": shipped})


def test_corrections_survive_a_later_table(
    collection: Collection,
    bench: Bench,
    today: date,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """The later table has cattleyas hungrier, warmer, and without a rest."""
    collection.kinds.correct(
        "cattleya", {"feeder": "light", "rest_months": "12;1", "light_high_fc": "4000"}
    )
    table = later(
        kinds.table(),
        feeder="heavy",
        rest="none",
        rest_months="",
        best_low_c="18",
        light_low_fc="4500",
    )
    monkeypatch.setattr(kinds, "table", lambda: table)
    kind = collection.kinds.kind_for(bench.feed)
    assert kind.feeder.value == "light"
    assert kind.best_low_c == 18
    assert (kind.rest.value, kind.rest_months) == ("none", ())
    assert kind.corrected == ("feeder",)
    assert collection.day.detail(bench.feed, today).kind_corrected == (
        "You corrected its kind: feeder light.",
    )
    first, second = (each.line for each in collection.kinds.problems())
    assert "your rest months, “12;1”, does not go with rest none" in second + first
    assert "your light to, “4000”" in second + first
    assert "kept and not judged by" in first
    seen = next(v for v in collection.kinds.all() if v.key == "cattleya")
    feeder = seen.field("feeder")
    assert (feeder.text, feeder.below_text) == ("light", "heavy")
    monkeypatch.undo()
    assert collection.kinds.problems() == ()
    assert collection.kinds.kind_for(bench.feed).rest_months == (12, 1)


def test_a_kind_or_field_that_is_gone_is_kept_told_and_may_be_thrown_away(
    collection: Collection, bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    collection.kinds.correct("vanda", LIGHT)
    collection.kinds.correct_for_plant(bench.dry, {"resume_root_mm": "60"})
    before = collection.day.view()
    table = kinds.table()
    fewer = {key: kind for key, kind in table.kinds.items() if key != "vanda"}
    dry = replace(table.kinds["catasetum"], resume_root_mm=0.0, resume=None)
    dry = replace(dry, rest=table.kinds["cattleya"].rest)
    names = {n: k for n, k in table.by_genus.items() if k != "vanda"}
    gone = replace(table, kinds={**fewer, "catasetum": dry}, by_genus=names)
    monkeypatch.setattr(kinds, "table", lambda: gone)
    of_kind, of_plant = (each.line for each in collection.kinds.problems())
    assert of_kind == (
        "Kind vanda: your feeder, “light”, belongs to a kind that is not in the "
        "table; it is kept and not judged by."
    )
    assert of_plant == (
        "Plant A3: your roots that end it, “60”, does not go with rest reduced, "
        "rest months November to May, rest ends with none; it is kept and not "
        "judged by."
    )
    assert len(collection.day.view().lines) == len(before.lines)
    collection.kinds.restore("vanda", "feeder")
    collection.kinds.restore_for_plant(bench.dry, "resume_root_mm")
    assert collection.kinds.problems() == ()
    monkeypatch.undo()
    assert collection.kinds.problems() == ()
    assert collection.kinds.kind_for(bench.dry).corrected_here == ()


def test_corrections_take_two_statements_more_however_many_plants(
    tmp_path: Path, today: date
) -> None:
    counts = []
    for plants in (3, 30):
        clock = FixedClock(today)
        held = Collection.open(tmp_path / f"{plants}", clock, create=True)
        ids = [
            held.plants.add(PlantDraft(f"P{number}", "", "cattleya")).ids[0]
            for number in range(plants)
        ]
        for plant_id in ids:
            held.kinds.correct_for_plant(plant_id, {"feeder": "heavy"})
        held.kinds.correct("cattleya", {"ceiling_ppm_n": "90"})
        seen: Counter[str] = Counter()

        def count(*details: object, seen: Counter[str] = seen) -> None:
            seen[str(details[2])] += 1

        event.listen(held.ledger.store._engine, "before_cursor_execute", count)
        held.day.view()
        asked = sum(n for text, n in seen.items() if "_correction" in text)
        counts.append((seen.total(), asked))
        held.close()
    assert counts[0] == counts[1]
    assert counts[0][1] == 2


def test_an_export_decides_as_the_collection_does(
    collection: Collection,
    bench: Bench,
    today: date,
    tmp_path: Path,
) -> None:
    collection.kinds.correct("cattleya", {**LIGHT, "ceiling_ppm_n": "60"}, "burnt")
    collection.kinds.correct_for_plant(bench.dry, {"resume_root_mm": "15"}, "mine")
    collection.kinds.correct("catasetum", {"rest_months": "12;1"})
    export(collection, tmp_path / "out")
    facts = json.loads((tmp_path / "out" / "facts.json").read_text(encoding="utf-8"))
    assert facts["kinds"] == {
        "catasetum": {"rest_months": [12, 1]},
        "cattleya": {"feeder": "light", "ceiling_ppm_n": 60.0},
    }
    house, plants = read_facts(facts)
    table = read_kind_table(facts, kinds.table())
    told = [answer.from_facts(house, plant, today, table).report() for plant in plants]
    own_house, own_plants, own_table = collection.day.facts(today)
    own = [
        answer.from_facts(own_house, plant, today, own_table).report()
        for plant in own_plants
    ]
    assert sorted(told, key=str) == sorted(own, key=str)
    assert {plant.tag: plant.kind_fields for plant in plants}["A3"] == (
        ("resume_root_mm", "15"),
    )
    rows = csv_rows(tmp_path / "out" / "kind_corrections.csv")
    assert {
        "kind": "cattleya",
        "field": "feeder",
        "value": "light",
        "note": "burnt",
    } in (rows)
    assert len(rows) == 3
    assert csv_rows(tmp_path / "out" / "plant_corrections.csv") == [
        {"tag": "A3", "field": "resume_root_mm", "value": "15", "note": "mine"}
    ]


def csv_rows(path: Path) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(path.read_text(encoding="utf-8-sig"))))


@pytest.mark.file
def test_a_backup_holds_the_corrections(
    collection: Collection, bench: Bench, tmp_path: Path, today: date
) -> None:
    collection.kinds.correct("cattleya", LIGHT, "burnt")
    collection.kinds.correct_for_plant(bench.dry, {"resume_root_mm": "15"})
    backup(collection, tmp_path / "kept.zip")
    restore(tmp_path / "kept.zip", tmp_path / "again", collection.clock.now())
    again = Collection.open(tmp_path / "again", FixedClock(today))
    assert again.kinds.all() == collection.kinds.all()
    assert again.kinds.of_plant(bench.dry) == collection.kinds.of_plant(bench.dry)
    again.close()


@settings(
    max_examples=25,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(name=st.sampled_from(CORRECTABLE))
def test_correcting_to_the_shipped_cell_writes_and_changes_nothing(
    collection: Collection, bench: Bench, name: str
) -> None:
    before = collection.day.view()
    for view in collection.kinds.all():
        if view.key in {"cattleya", "catasetum"}:
            done = collection.kinds.correct(view.key, {name: view.field(name).cell})
            assert done.changed is Changed.NOTHING
    assert collection.day.view() == before
    assert bench.feed


@pytest.mark.parametrize(
    ("typed", "first"),
    [
        ("Rlc.", "cattleya"),
        ("rlc", "cattleya"),
        ("Ctsm.", "catasetum"),
        ("Brassolaeliocattleya", "cattleya"),
        ("Phalaenopsis amabilis 'White'", "phalaenopsis"),
        ("moth", "phalaenopsis"),
        ("dendrobium-nobile", "dendrobium-nobile"),
        ("pansy", "miltoniopsis"),
    ],
)
def test_names_and_abbreviations_lead_to_the_kind(typed: str, first: str) -> None:
    assert matching(shipped_views(), typed)[0].key == first


def test_finding_nothing_finds_nothing_and_an_empty_line_all() -> None:
    views = shipped_views()
    assert matching(views, "  ") == views
    assert matching(views, "no orchid at all") == ()
    assert 1 < len(matching(views, "dendrobium")) < len(views)


def test_months_are_told_for_a_southern_grower_as_they_hold_there(
    collection: Collection, bench: Bench
) -> None:
    house = collection.settings.house()
    collection.settings.save_house(replace(house, latitude=-36.8))
    seen = next(v for v in collection.kinds.all() if v.key == "cattleya")
    months = seen.field("rest_months")
    assert months.text == "May to August with you (November to February in the north)"
    assert months.cell == "11;12;1;2"
    own = collection.kinds.of_plant(bench.feed).field("rest_months")
    assert own.text == months.text
    free = next(v for v in collection.kinds.all() if v.key == "phalaenopsis")
    assert free.field("rest_months").text == "none"
