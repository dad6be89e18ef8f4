"""Tables taken in: how a file is understood, the dry run, and all of it or nothing."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sqlalchemy import event

from growdesk.domain.errors import InputError
from growdesk.domain.facts import CareKind, Flowering, Look, Medium, RootTips
from growdesk.domain.holding import Descent, Status
from growdesk.services import intake_cells, intake_units, transfer
from growdesk.services.intake_fields import FIELDS
from growdesk.services.intake_reading import asks_order, understood
from growdesk.services.logger_times import DayOrder
from growdesk.services.long_work import StoppedError
from growdesk.services.transfer import DryRun, Sort, Survey
from growdesk.services.values import PlantDraft

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from growdesk.services.collection import Collection


@pytest.fixture
def survey(tmp_path: Path) -> Callable[[str | bytes], Survey]:
    """Give a way to survey a text as if it were a file."""

    def of(text: str | bytes) -> Survey:
        path = tmp_path / "table.csv"
        path.write_bytes(text.encode() if isinstance(text, str) else text)
        return transfer.survey_of(path)

    return of


def plants(collection: Collection) -> dict[str, PlantDraft]:
    return {draft.tag: draft for _, draft in collection.plants.all()}


def took(collection: Collection, found: Survey, **choices: object) -> DryRun:
    chosen = transfer.choose(found, **choices)  # type: ignore[arg-type]
    return transfer.take(collection.ledger, found, chosen)


# -- how a file is understood ---------------------------------------------------------


def test_a_german_list_of_plants_is_understood(
    collection: Collection, survey: Callable[[str | bytes], Survey]
) -> None:
    found = survey(
        "Nr.;Bezeichnung;Standort;Topf (ml);Substrat;Aufgebunden;Umgetopft am;"
        "Bemerkung\n"
        "K1;Cattleya hybrid;Südfenster;1.250,5;Rinde;nein;3.4.2025;schön\n"
        "K2;Vanda;Südfenster;;;ja;13.12.2024;\n".encode("cp1252")
    )
    assert (found.encoding, found.delimiter, found.sort) == ("cp1252", ";", Sort.PLANTS)
    assert found.choices.keys == (
        *("tag", "name", "place", "pot_volume_l", "medium", "mounted"),
        *("repotted_on", "note"),
    )
    assert found.columns[3].unit == "ml"
    assert found.columns[3].decimal == ","
    assert [each.order for each in found.columns[6].orders] == [DayOrder.DMY]
    assert any("Windows-1252" in notice for notice in found.notices)
    assert took(collection, found).written is not None
    first = plants(collection)["K1"]
    assert first.pot_volume_l == 1.2505
    assert first.medium is Medium.BARK
    assert first.repotted_on == date(2025, 4, 3)
    assert (first.note, first.mounted) == ("schön", False)
    assert plants(collection)["K2"].mounted
    assert [place.draft.name for place in collection.places.all()] == ["Südfenster"]


def test_looks_and_care_are_known_by_their_headers(
    survey: Callable[[str | bytes], Survey],
) -> None:
    looks = survey(
        "Tag,Date,Root tips,Longest new root (cm)\nA1,2026-05-01,running,2\n"
    )
    assert looks.sort is Sort.LOOKS
    assert looks.choices.keys == ("tag", "on", "root_tips", "longest_new_root_mm")
    care = survey("Pflanze;Tag;Maßnahme;ppm N\nA1;01.05.2026;gedüngt;100\n")
    assert care.sort is Sort.CARE
    assert care.choices.keys == ("tag", "on", "what", "strength_ppm_n"), (
        "Tag is the day"
    )
    blooms = survey("tag,spike seen,first open,flowers\nA1,2026-01-01,2026-02-01,5\n")
    assert blooms.sort is Sort.BLOOMS
    assert survey("tag,name\nA1,Vanda\n").sort is Sort.PLANTS


def test_every_column_of_an_export_is_known_by_its_own_name(
    survey: Callable[[str | bytes], Survey],
) -> None:
    for sort, fields in FIELDS.items():
        found = survey(",".join(fields) + "\n" + "," * (len(fields) - 1) + "x\n")
        assert found.matched[sort] == tuple(fields)
        assert found.sort is sort


def test_a_file_without_a_header_is_read_by_what_is_said(
    collection: Collection, survey: Callable[[str | bytes], Survey]
) -> None:
    found = survey("A1,Vanda,2025-01-02\nA2,Cattleya,2025-01-03\n")
    assert not found.has_header
    assert [each.name for each in found.columns] == ["Column 1", "Column 2", "Column 3"]
    with pytest.raises(InputError, match="names no tag"):
        took(collection, found)
    report = took(collection, found, columns="tag,name,acquired_on")
    assert report.tags == ("A1", "A2")
    with pytest.raises(InputError, match="names 1 columns of 3"):
        took(collection, found, columns="tag")
    with pytest.raises(InputError, match="--columns: 'nmae' is not a field of a plant"):
        took(collection, found, columns="tag,nmae,-")
    with pytest.raises(InputError, match="stands twice"):
        took(collection, found, columns="tag,tag,-")


UNITS = [
    ("Pot (ml)", "pot_volume_l", 0.001),
    ("Volume ml", "volume_l", 0.001),
    ("Pot in dl", "pot_volume_l", 0.1),
    ("volume [L]", "volume_l", 1.0),
    ("Topf", "pot_volume_l", 1.0),
]


@pytest.mark.parametrize(("header", "key", "factor"), UNITS)
def test_units_in_headers_convert_what_they_can(
    survey: Callable[[str | bytes], Survey], header: str, key: str, factor: float
) -> None:
    found = survey(f"tag,{header}\nA1,250\n")
    assert found.choices.keys == ("tag", key)
    assert intake_units.factor(found.columns[1].unit, "l") == factor


def test_centimetres_of_a_pot_are_no_litres(
    survey: Callable[[str | bytes], Survey],
) -> None:
    found = survey("tag,pot (cm)\nA1,12\n")
    assert found.choices.keys == ("tag", "")
    assert found.notices == ("pot (cm) is left out: cm cannot be turned into pot, L.",)


DATES = [
    (("03.04.2025", "04.03.2025"), [DayOrder.DMY]),
    (("3/4/2025", "13/4/2025"), [DayOrder.DMY]),
    (("3/4/2025", "3/14/2025"), [DayOrder.MDY]),
    (("3/4/2025", "4/5/2025"), [DayOrder.DMY, DayOrder.MDY]),
    (("2025-04-03", "2025-03-04"), [DayOrder.YMD]),
    (("2025-04-03", "13/4/2025"), [DayOrder.DMY]),
    (("2025-04-03 00:00:00",), [DayOrder.YMD]),
]


@pytest.mark.parametrize(("texts", "orders"), DATES)
def test_the_order_of_dates_is_found_over_the_whole_column(
    survey: Callable[[str | bytes], Survey],
    texts: tuple[str, ...],
    orders: list[DayOrder],
) -> None:
    rows = "".join(f"A{n},{text}\n" for n, text in enumerate(texts))
    found = survey(f"tag,acquired\n{rows}")
    assert [each.order for each in found.columns[1].orders] == orders
    assert bool(asks_order(found, found.choices)) is (len(orders) > 1)


def test_dates_that_can_be_read_in_two_ways_are_asked_for(
    collection: Collection, survey: Callable[[str | bytes], Survey]
) -> None:
    found = survey("tag,acquired\nA1,3/4/2025\nA2,4/5/2025\n")
    with pytest.raises(InputError, match=r"--dates.*two ways.*3/4/2025"):
        took(collection, found)
    rows = transfer.dry_run(collection.ledger, found, found.choices)
    assert [bad.reason for bad in rows.bad] == ["could be read in two ways"] * 2
    took(collection, found, day_order=DayOrder.MDY)
    assert plants(collection)["A1"].acquired_on == date(2025, 3, 4)


NUMBERS = [
    ("1.5", ".", 1.5),
    ("1,5", ",", 1.5),
    ("1,5", ".", 1.5),
    ("1.250,5", ",", 1250.5),
    ("1,250.5", ".", 1250.5),
    ("1 250,5", ",", 1250.5),
    ("1'250.5", ".", 1250.5),
    ("1,250", ".", 1250.0),
    ("1.250", ",", 1250.0),
    ("1.250", ".", 1.25),
    ("−3", ".", -3.0),
    ("1e-05", ".", 1e-05),
    (".5", ".", 0.5),
]


@pytest.mark.parametrize(("text", "decimal", "value"), NUMBERS)
def test_numbers_are_read_by_their_columns_decimal(
    text: str, decimal: str, value: float
) -> None:
    assert intake_cells.number("a", text, decimal) == value


@pytest.mark.parametrize(
    "text", ["", "1.2.3", "1,2,3", "abc", "1 L", "--1", "1,25.5,0"]
)
def test_what_is_no_number_is_refused(text: str) -> None:
    with pytest.raises(InputError, match="is not a number"):
        intake_cells.number("a", text, ".")


def test_a_comma_that_may_part_thousands_is_asked_for() -> None:
    with pytest.raises(InputError, match="two ways"):
        intake_cells.number("a", "1,250", "")


@given(st.floats(-1e6, 1e6), st.sampled_from(".,"))
def test_any_number_comes_back(value: float, decimal: str) -> None:
    text = repr(value).replace(".", decimal)
    assert intake_cells.number("a", text, decimal) == value


def test_the_preview_shows_rows_as_they_are_understood(
    survey: Callable[[str | bytes], Survey],
) -> None:
    found = survey("tag;pot (ml);repotted;mounted\nA1;250;1.2.2025;ja\nA2;x;;\n")
    assert understood(found, found.choices, 20) == [
        (2, ("A1", "0.25", "2025-02-01", "yes")),
        (3, ("A2", "⚠ x", "", "")),
    ]


# -- the dry run ----------------------------------------------------------------------


def test_a_bad_row_says_where_what_why_and_the_way_out(
    collection: Collection, survey: Callable[[str | bytes], Survey]
) -> None:
    text = "tag,acquired,pot\nA1,2027-01-01,1\nA2,,\nA3,,-2\nA2,,\n"
    report = took(collection, survey(text))
    assert [(bad.row, bad.field, bad.value) for bad in report.bad] == [
        (2, "acquired_on", "2027-01-01"),
        (4, "pot_volume_l", "-2.0"),
        (5, "tag", "A2"),
    ]
    assert report.bad[0].reason == "is still to come"
    assert report.bad[0].way_out == "Give a day up to today, 2026-05-20."
    assert report.bad[2].reason == "is on another plant already, in row 3"
    assert report.written is None
    assert plants(collection) == {}


def test_looks_come_in_and_the_same_ones_not_twice(
    collection: Collection, survey: Callable[[str | bytes], Survey]
) -> None:
    plant = collection.plants.add(PlantDraft("A1", "", "")).ids[0]
    found = survey(
        "tag,on,emerging,root_tips,flowering,health,lead (cm)\n"
        'a1,2026-05-01,2,running,"buds, open",healthy,12.5\n'
        "A1,2026-05-02,,,,,\n"
        "A1,2026-05-02,,,,,\n"
    )
    report = took(collection, found)
    assert (report.added, report.same) == (2, 1)
    view = collection.day.detail(plant, date(2026, 5, 20))
    looks = {each.look.on: each.look for each in view.looks}
    look = looks[date(2026, 5, 1)]
    assert look.new_growths is not None
    assert look.new_growths.emerging == 2
    assert look.root_tips is RootTips.RUNNING
    assert look.flowering == frozenset({Flowering.BUDS, Flowering.OPEN})
    assert look.health == frozenset()
    assert look.lead_length_mm == 125.0
    assert looks[date(2026, 5, 2)] == Look(date(2026, 5, 2))
    again = took(collection, found)
    assert (again.added, again.same, again.written) == (0, 3, None)
    collection.history.undo()
    assert collection.day.detail(plant, date(2026, 5, 20)).looks == ()


def test_care_comes_in_with_what_fits_it(
    collection: Collection, survey: Callable[[str | bytes], Survey]
) -> None:
    plant = collection.plants.add(PlantDraft("A1", "", "")).ids[0]
    head = "tag,on,what,ppm,ml,EC (µS/cm),product,note\n".replace("ml", "volume (ml)")
    found = survey(
        f"{head}A1,2026-05-01,gedüngt,100,250,900,,\n"
        "A1,2026-05-02,treated,,,,soap,scale\nA1,2026-05-03,umgetopft,,,,,\n"
    )
    assert took(collection, found).added == 3
    care = collection.day.detail(plant, date(2026, 5, 20)).care
    fed = next(each for each in care if each.what is CareKind.FEED)
    assert (fed.strength_ppm_n, fed.volume_l, fed.ec_ms_per_cm) == (100.0, 0.25, 0.9)
    assert took(collection, found).same == 3
    bad = took(
        collection,
        survey(
            f"{head}A1,2026-05-01,water,,,,,\nA9,2026-05-01,water,,,,,\n"
            "A1,,water,,,,,\nA1,2026-05-05,sang,,,,,\nA1,2026-05-06,water,,,,soap,\n"
            "A1,2026-05-07,water,,,,,\nA1,2026-05-07,fed,90,,,,\n"
        ),
    ).bad
    assert [(each.row, each.field) for each in bad] == [
        *((2, "on"), (3, "tag"), (4, "on"), (5, "what"), (6, "product"), (8, "on")),
    ]
    assert "one is on record" in bad[0].reason
    assert bad[1].way_out == "Mend the tag, or take the plants in first."
    assert "row 7 has one" in bad[5].reason


def test_blooms_come_in_and_out_of_order_are_refused(
    collection: Collection, survey: Callable[[str | bytes], Survey]
) -> None:
    collection.plants.add(PlantDraft("A1", "", ""))
    head = "tag,spike seen,first open,faded,flowers,size (cm),award\n"
    found = survey(f"{head}A1,2026-01-01,2026-02-01,2026-03-01,5,8.5,best in show\n")
    assert found.sort is Sort.BLOOMS
    assert took(collection, found).added == 1
    assert took(collection, found).same == 1
    (bad,) = took(collection, survey(f"{head}A1,2026-02-02,2026-02-01,,,,\n")).bad
    assert bad.field == "first_open_on"


# -- plants that are there ------------------------------------------------------------


def test_plants_that_are_there_change_only_where_that_is_wanted(
    collection: Collection, survey: Callable[[str | bytes], Survey]
) -> None:
    draft = PlantDraft("A1", "Old", "vanda", note="kept", pot_volume_l=1.5)
    collection.plants.add(draft)
    found = survey("tag,name,place,pot,note\na1,New,Hall,2,\nB1,Other,Hall,,\n")
    (bad,) = took(collection, found).bad
    assert bad.reason == "is on another plant already"
    report = took(collection, found, changes=True)
    assert (report.added, report.changed_count) == (1, 1)
    assert report.changed == (
        "A1: tag A1 → a1; name Old → New; pot_volume_l 1.5 → 2; place empty → hall",
    )
    changed = plants(collection)["a1"]
    assert (changed.name, changed.pot_volume_l, changed.note) == ("New", 2.0, "kept")
    assert changed.kind == "vanda"
    assert changed.place_id == plants(collection)["B1"].place_id
    collection.history.undo()
    assert plants(collection) == {"A1": plants(collection)["A1"]}
    assert plants(collection)["A1"].name == "Old"


def test_rows_that_change_nothing_are_the_same(
    collection: Collection, survey: Callable[[str | bytes], Survey]
) -> None:
    collection.plants.add(PlantDraft("A1", "Old", "vanda"))
    report = took(collection, survey("tag,name\nA1,Old\n"), changes=True)
    assert (report.same, report.changed_count, report.written) == (1, 0, None)
    assert not report.would_write


def test_benches_parents_and_plants_that_left_come_in(
    collection: Collection, survey: Callable[[str | bytes], Survey]
) -> None:
    collection.plants.add(PlantDraft("M1", "", ""))
    found = survey(
        "tag,place,bench_name,parent,parent_how,status,left_on,left_why\n"
        "A1,Hall,Top shelf,A2,division,,,\n"
        "A2,hall,top shelf,m1,keiki,,,\n"
        "A3,,,,,verschenkt,2026-01-02,to a friend\n"
    )
    report = took(collection, found)
    assert (report.new_places, report.new_benches) == (("Hall",), ("Top shelf",))
    there = plants(collection)
    assert there["A1"].parent_id == collection.plants.find("A2")
    assert there["A2"].parent_id == collection.plants.find("M1")
    assert there["A2"].parent_how is Descent.KEIKI
    assert there["A1"].bench_id == there["A2"].bench_id is not None
    assert (there["A1"].bench, there["A2"].bench) == (1, 2)
    assert there["A3"].status is Status.GIVEN_AWAY
    bad = took(
        collection,
        survey("tag,bench_name,parent\nB1,Top,\nB2,,Z9\n"),
    ).bad
    assert [(each.row, each.field) for each in bad] == [
        (2, "bench_name"),
        (3, "parent"),
    ]


@pytest.mark.parametrize(
    "text",
    ["tag,parent\nA1,a1\n", "tag,parent\nA1,A2\nA2,A3\nA3,A1\n"],
    ids=["itself", "round"],
)
def test_no_plant_comes_of_itself(
    collection: Collection, survey: Callable[[str | bytes], Survey], text: str
) -> None:
    bad = took(collection, survey(text)).bad
    assert len(bad) == text.count("\n") - 1
    assert bad[0].reason == "came of A1 itself"
    assert plants(collection) == {}


def test_a_new_parent_closes_no_round_with_those_on_record(
    collection: Collection, survey: Callable[[str | bytes], Survey]
) -> None:
    mother = collection.plants.add(PlantDraft("M1", "", "")).ids[0]
    child = PlantDraft("C1", "", "", parent_id=mother, parent_how=Descent.KEIKI)
    collection.plants.add(child)
    (bad,) = took(collection, survey("tag,parent\nM1,C1\n"), changes=True).bad
    assert (bad.field, bad.reason) == ("parent", "came of M1 itself")


# -- hostile files --------------------------------------------------------------------

HOSTILE: list[tuple[bytes, str]] = [
    (b"tag,name\nA1,a\x00b\n", "control character"),
    (b"tag,name\nA1," + b"x" * 1_000_000 + b"\n", "is not CSV"),
    (b'tag,name\nA1,"open\nA2,b\n', "is not CSV"),
    (b"tag,tag\nA1,A2\n", "stands twice"),
    (b"tag,name,name\nA1,A2,A3\n", "stands twice"),
    (b"\x89PNG\r\n\x1a\n\x00\x00\x00", "is not text"),
    (b"tag,name\nA1,\xff\xfe\x81", "not readable text"),
    (b"PK\x03\x04\x00\x00", "is a spreadsheet or a packed file"),
    ("tag,pot\nÆ1,".encode() + "½\n".encode("cp1252"), "'½' is not a number"),
    (b"\n" * 1000, "has no header"),
]


@pytest.mark.parametrize(("raw", "told"), HOSTILE, ids=range(len(HOSTILE)))
def test_hostile_files_are_one_line_and_write_nothing(
    collection: Collection,
    survey: Callable[[str | bytes], Survey],
    raw: bytes,
    told: str,
) -> None:
    try:
        report = took(collection, survey(raw))
        line = report.bad[0].line()
    except InputError as error:
        line = error.line()
    assert told in line
    assert "\n" not in line
    assert len(line) < 2000
    assert plants(collection) == {}


def test_a_hundred_thousand_rows_take_few_statements_and_can_be_stopped(
    collection: Collection, survey: Callable[[str | bytes], Survey]
) -> None:
    collection.plants.add(PlantDraft("A1", "", ""))
    day = date(1990, 1, 1).toordinal()
    rows = "".join(
        f"A1,{date.fromordinal(day + at % 13_000).isoformat()},{at % 500}\n"
        for at in range(100_000)
    )
    found = survey(f"tag,on,emerging\n{rows}")
    told: list[int] = []

    def stop(done: int, of: int) -> None:
        told.append(done)
        assert of == 100_000
        if done >= 5_000:
            raise StoppedError("stopped")

    with pytest.raises(StoppedError):
        transfer.take(collection.ledger, found, found.choices, stop)
    assert told == list(range(0, 5_001, 500))
    statements: list[str] = []
    engine = collection.ledger.store._engine

    def count(*arguments: object) -> None:
        statements.append(str(arguments[2]))

    event.listen(engine, "before_cursor_execute", count)
    report = transfer.take(collection.ledger, found, found.choices)
    event.remove(engine, "before_cursor_execute", count)
    assert report.added + report.same == 100_000
    assert len(statements) < 20


def test_a_formula_comes_in_as_the_text_it_was(
    collection: Collection, survey: Callable[[str | bytes], Survey]
) -> None:
    took(collection, survey("tag,name,note\nA1,'=1+1,''-x\n"))
    assert plants(collection)["A1"].name == "=1+1"
    assert plants(collection)["A1"].note == "'-x"


def test_a_cell_that_cannot_be_read_is_named_in_each_of_its_rows(
    collection: Collection, survey: Callable[[str | bytes], Survey]
) -> None:
    text = "tag,name,hybrid\nA1,x,maybe\nA2,y,yes\nA3,z,maybe\nA4,z,yes\n"
    report = took(collection, survey(text))
    assert [(bad.row, bad.value) for bad in report.bad] == [(2, "maybe"), (4, "maybe")]
