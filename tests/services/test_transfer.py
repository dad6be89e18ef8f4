"""Plants come in from CSV all or none; what goes out comes back the same."""

from __future__ import annotations

import csv
import io
import json
from contextlib import closing
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sqlalchemy import event

from growdesk.domain.errors import ForeignError, InputError, StoreError
from growdesk.domain.facts import (
    CareKind,
    Flowering,
    Look,
    Medium,
    NewGrowths,
    Reading,
    RootTips,
    Size,
)
from growdesk.domain.facts_file import read_facts
from growdesk.services import csv_cells, transfer
from growdesk.services.collection import Collection
from growdesk.services.csv_form import read_table, write_table
from growdesk.services.transfer import DryRun, export
from growdesk.services.values import PlaceDraft, PlantDraft

if TYPE_CHECKING:
    from growdesk.services.clock import FixedClock

FULL = (
    "tag,name,kind,place,bench,hybrid,pot_volume_l,volume_l,medium,mounted,size,"
    "under_cover,repotted_on,slow_release_until,full_strength_ppm_n,"
    "feed_ceiling_ppm_n,feed_interval_days,ignores_rest,acquired_on,source,note"
    "\nA1,Cattleya hybrid,cattleya,Hall,3,true,1.5,0.3,bark,no,blooming,yes,"
    '2025-04-02,2026-06-01,200,120.5,7,1,2024-11-30,a friend,"two\nlines; and, more"\n'
)


def took(
    collection: Collection,
    tmp_path: Path,
    text: str | bytes,
    *,
    dry_run: bool = False,
) -> DryRun:
    """Import a text as if it were a file."""
    path = tmp_path / "plants.csv"
    path.write_bytes(text.encode() if isinstance(text, str) else text)
    return import_csv(collection, path, dry_run=dry_run)


def import_csv(collection: Collection, path: Path, *, dry_run: bool) -> DryRun:
    survey = transfer.survey_of(path)
    work = transfer.dry_run if dry_run else transfer.take
    return work(collection.ledger, survey, transfer.choose(survey))


def plants(collection: Collection) -> dict[str, PlantDraft]:
    return {draft.tag: draft for _, draft in collection.plants.all()}


def test_every_field_comes_in(collection: Collection, tmp_path: Path) -> None:
    report = took(collection, tmp_path, FULL)
    assert (report.tags, report.new_places) == (("A1",), ("Hall",))
    assert (report.bad, report.notices) == ((), ())
    assert report.written is not None
    (place,) = collection.places.all()
    assert plants(collection)["A1"] == PlantDraft(
        tag="A1",
        name="Cattleya hybrid",
        kind="cattleya",
        place_id=place.place_id,
        bench=3,
        hybrid=True,
        pot_volume_l=1.5,
        volume_l=0.3,
        medium=Medium.BARK,
        mounted=False,
        size=Size.BLOOMING,
        under_cover=True,
        repotted_on=date(2025, 4, 2),
        slow_release_until=date(2026, 6, 1),
        full_strength_ppm_n=200.0,
        feed_ceiling_ppm_n=120.5,
        feed_interval_days=7,
        ignores_rest=True,
        acquired_on=date(2024, 11, 30),
        source="a friend",
        note="two\nlines; and, more",
    )


def test_only_the_tag_is_needed_and_the_name_gives_the_kind(
    collection: Collection, tmp_path: Path
) -> None:
    took(collection, tmp_path, "tag,name\nA1,Phalaenopsis amabilis\nA2,\n")
    found = plants(collection)
    assert found["A1"].kind == "phalaenopsis"
    assert found["A2"].kind == ""
    assert found["A2"].pot_volume_l is None


def test_a_kind_that_is_not_known_comes_in_with_a_notice(
    collection: Collection, tmp_path: Path
) -> None:
    report = took(collection, tmp_path, "tag,name,kind\nA1,Ærø,no-such\nA2,Ærø,\n")
    (notice,) = report.notices
    assert "Row 2, kind: 'no-such'" in notice
    assert report.written
    assert plants(collection)["A1"].kind == "no-such"


@pytest.mark.parametrize(
    "raw",
    [
        "tag;name;pot_volume_l\nA1;Ærø;1,5\n".encode("utf-8-sig"),
        "tag,name,pot_volume_l\r\nA1,Ærø,1.5\r\n".encode(),
        'tag,name,pot_volume_l\r\n"A1","Ærø","1,5"\r\n\r\n'.encode(),
        " tag , name , pot_volume_l \n A1 , Ærø , 1.5 \n".encode(),
        "tag\tname\tpot_volume_l\nA1\tÆrø\t1,5\n".encode("utf-16"),
        b"\xfe\xff" + "tag\tname\tpot_volume_l\nA1\tÆrø\t1,5\n".encode("utf-16-be"),
        "tag\tname\tpot_volume_l\nA1\tÆrø\t1,5\n".encode("utf-16-be"),
        "tag\tname\tpot_volume_l\nA1\tÆrø\t1,5\n".encode("utf-16-le"),
        "tag\tname\tpot_volume_l\nA1\tÆrø\t1.5\n".encode(),
    ],
    ids=[
        "semicolons",
        "windows",
        "quoted",
        "spaces",
        "utf-16",
        "utf-16-be",
        "be",
        "le",
        "tabs",
    ],
)
def test_csv_is_read_as_spreadsheets_write_it(
    collection: Collection, tmp_path: Path, raw: bytes
) -> None:
    report = took(collection, tmp_path, raw)
    assert report.bad == ()
    assert report.notices == ()
    assert (plants(collection)["A1"].name, plants(collection)["A1"].pot_volume_l) == (
        "Ærø",
        1.5,
    )


def test_an_old_windows_file_is_read_with_a_notice(
    collection: Collection, tmp_path: Path
) -> None:
    report = took(collection, tmp_path, "tag,name\nA1,Töchter\n".encode("cp1252"))
    assert plants(collection)["A1"].name == "Töchter"
    (notice,) = report.notices
    assert "Windows-1252" in notice


def test_a_dry_run_writes_nothing(collection: Collection, tmp_path: Path) -> None:
    report = took(collection, tmp_path, FULL, dry_run=True)
    assert (report.tags, report.new_places) == (("A1",), ("Hall",))
    assert (report.bad, report.written) == ((), None)
    assert plants(collection) == {}
    assert collection.places.all() == ()
    assert collection.history.view().undo is None


def test_one_undo_takes_all_back(collection: Collection, tmp_path: Path) -> None:
    took(collection, tmp_path, "tag,place\nA1,Hall\nA2,Hall\nA3,Sill\n")
    assert len(collection.places.all()) == 2
    assert collection.history.view().undo == "Plants taken in from plants.csv"
    collection.history.undo()
    assert plants(collection) == {}
    assert collection.places.all() == ()
    collection.history.redo()
    assert set(plants(collection)) == {"A1", "A2", "A3"}


BAD_ROWS: list[tuple[str, tuple[str, ...]]] = [
    ("tag,pot_volume_l\nA1,-1\n", ("Row 2", "pot_volume_l", "-1", "at most 500")),
    ("tag,pot_volume_l\nA1,501\n", ("501",)),
    ("tag,pot_volume_l\nA1,nan\n", ("nan", "not a number")),
    ("tag,pot_volume_l\nA1,1.5 L\n", ("1.5 L", "without a unit")),
    ('tag,pot_volume_l\nA1,"1,500"\n', ("1,500", "two ways")),
    ("tag,pot_volume_l\nA1," + "9" * 400 + "\n", ("pot_volume_l",)),
    ("tag,bench\nA1,1.5\n", ("bench", "whole number")),
    ("tag,acquired_on\nA1,2026-02-30\n", ("acquired_on", "2026-02-30")),
    ("tag,acquired_on\nA1,29.02.2026\n", ("29.02.2026", "not a day that exists")),
    ("tag,acquired_on\nA1,soon\n", ("soon", "year-month-day")),
    ("tag,acquired_on\nA1,2199-01-01\n", ("acquired_on", "still to come")),
    ("tag,medium\nA1,moss\n", ("medium", "moss", "sphagnum")),
    ("tag,size\nA1,huge\n", ("size", "huge", "seedling")),
    ("tag,hybrid\nA1,perhaps\n", ("hybrid", "perhaps", "true or false")),
    ("tag,name\n,Vanda\n", ("Row 2", "tag", "empty")),
    ("tag,name\nA1,Vanda,extra\n", ("Row 2", "extra", "beyond the last field")),
    ("tag\nA1\nA1\n", ("Row 3", "A1", "another")),
    ("tag,name\nA1,a\x00b\n", ("name", "control character")),
    ("tag,feed_interval_days\nA1,0\n", ("feed_interval_days", "0")),
]


@pytest.mark.parametrize(("text", "told"), BAD_ROWS, ids=[t[:40] for t, _ in BAD_ROWS])
def test_a_bad_row_is_named_and_nothing_is_written(
    collection: Collection, tmp_path: Path, text: str, told: tuple[str, ...]
) -> None:
    report = took(collection, tmp_path, f"{text}Z9\n")
    (problem,) = [bad.line() for bad in report.bad]
    for part in told:
        assert part in problem
    assert "\n" not in problem
    assert not report.written
    assert plants(collection) == {}
    assert took(collection, tmp_path, text, dry_run=True).bad == report.bad


def test_all_bad_rows_are_named(collection: Collection, tmp_path: Path) -> None:
    report = took(collection, tmp_path, "tag,volume_l\nA1,x\nA2,1\nA3,y\n\nA4,z\n")
    assert [bad.row for bad in report.bad] == [2, 4, 6]
    assert report.tags == ("A2",)


BAD_FILES: list[tuple[bytes, str]] = [
    (b"", "has no header"),
    (b"\n\ntag\nA1\n", "has no header"),
    (b"name\nVanda\n", "names no tag"),
    (b"tag,colour\nA1,red\n", "'colour' is not a field"),
    (b"tag,nmae\nA1,Vanda\n", "Did you mean name?"),
    (b"tag,tag\nA1,A1\n", "stands twice"),
    (b'tag,name\nA1,"no end\nA2,\n', "is not CSV"),
    (b"tag,name\nA1," + b"x" * 200_000, "is not CSV"),
    (b"\xff\xfet\x00a\x00g", "not readable text"),
    (b"tag\n\x81\n", "not readable text"),
]


@pytest.mark.parametrize(("raw", "told"), BAD_FILES, ids=[t for _, t in BAD_FILES])
def test_a_file_that_is_no_list_of_plants_is_one_line(
    collection: Collection, tmp_path: Path, raw: bytes, told: str
) -> None:
    with pytest.raises(InputError) as caught:
        took(collection, tmp_path, raw)
    assert told in caught.value.line()
    assert len(caught.value.line()) < 700


def test_a_file_that_is_not_there_is_one_line(
    collection: Collection, tmp_path: Path
) -> None:
    with pytest.raises(InputError, match="is not there"):
        import_csv(collection, tmp_path / "no.csv", dry_run=True)
    with pytest.raises(InputError, match="is a folder"):
        import_csv(collection, tmp_path, dry_run=True)


texts = st.text(
    st.characters(exclude_categories=("Cs", "Cc")) | st.sampled_from("=+-@'\",;\n\t"),
    max_size=12,
).map(str.strip)
"""Texts as the collection keeps them: trimmed."""


@given(text=texts)
def test_a_text_goes_out_harmless_and_comes_back_as_it_was(text: str) -> None:
    raw = write_table(["note", "end"], [[text, "x"]])
    (cells,) = list(csv.reader(io.StringIO(raw.decode("utf-8-sig"), newline="")))[1:]
    assert not cells[0].startswith(("=", "+", "-", "@", "\t", "\r"))
    ((_, back),) = read_table(raw, "x.csv").rows
    assert back[0] == text


def test_numbers_stay_numbers() -> None:
    raw = write_table(["a"], [[-1.5], [3.0], [None], [True], [date(2026, 3, 1)], [-4]])
    assert raw.decode("utf-8-sig").split() == [
        *("a", "-1.5", "3", '""', "true", "2026-03-01", "-4"),
    ]


@given(value=st.floats(0.001, 500))
def test_a_number_comes_back_as_it_was(value: float) -> None:
    raw = write_table(["a"], [[value]])
    ((_, cells),) = read_table(raw, "x.csv").rows
    assert csv_cells.number("a", cells[0]) == value


@pytest.fixture
def filled(collection: Collection) -> Collection:
    """Give a collection with one of everything that is exported."""
    place_id = collection.places.add(PlaceDraft("=Hall", lamps_hours=12, lamps_ppfd=80))
    draft = PlantDraft(
        "A2", "-Cattleya", "cattleya", place_id.ids[0], pot_volume_l=1.125, note="@home"
    )
    plant_id = collection.plants.add(draft).ids[0]
    gone = collection.plants.add(PlantDraft("A1", "Binned", "")).ids[0]
    look = Look(
        on=date(2026, 5, 1),
        new_growths=NewGrowths(extending=1),
        root_tips=RootTips.RUNNING,
        flowering=frozenset({Flowering.BUDS, Flowering.OPEN}),
        health=frozenset(),
    )
    collection.looks.record(plant_id, look, "+1 root")
    collection.looks.record(gone, look, "not exported")
    collection.day.give([plant_id], date(2026, 5, 2), CareKind.FEED, 120.0)
    read = Reading(date(2026, 5, 3), 18.5, 15, 22)
    collection.readings.write(place_id.ids[0], read)
    collection.plants.remove([gone])
    return collection


def table(path: Path) -> list[dict[str, str]]:
    text = path.read_bytes().decode("utf-8-sig")
    return list(csv.DictReader(io.StringIO(text, newline="")))


def test_an_export_holds_all_tables(filled: Collection, tmp_path: Path) -> None:
    out = tmp_path / "out"
    made = export(filled, out)
    assert (made.plants, made.looks, made.care) == (1, 1, 1)
    assert {path.name for path in out.iterdir()} == {
        *("benches.csv", "blooms.csv", "care.csv", "drawn.csv", "facts.json"),
        *("forecasts.csv", "growdesk.json", "house_rules.csv", "jobs_done.csv"),
        *("kind_corrections.csv", "looks.csv", "marks.csv", "meter.csv"),
        *("pass_bys.csv", "photos.csv", "places.csv", "plant_corrections.csv"),
        *("plants.csv", "readings.csv", "recipe_parts.csv", "recipe_uses.csv"),
        *("recipes.csv", "saved_views.csv", "shelf_entries.csv", "spoon_weights.csv"),
        *("stock_parts.csv", "stocks.csv", "tins.csv", "tools.csv", "vessels.csv"),
        "waters.csv",
    }
    assert made.notices == (
        "1 plant lies in the bin and stayed behind, with all that is on record of it.",
    )
    (plant,) = table(out / "plants.csv")
    assert (plant["tag"], plant["name"], plant["place"]) == (
        "A2",
        "'-Cattleya",
        "'=Hall",
    )
    assert (plant["pot_volume_l"], plant["note"]) == ("1.125", "'@home")
    (look,) = table(out / "looks.csv")
    assert (look["tag"], look["on"], look["extending"]) == ("A2", "2026-05-01", "1")
    assert (look["emerging"], look["flowering"]) == ("", "buds,open")
    assert look["note"] == "'+1 root"
    (care,) = table(out / "care.csv")
    assert (care["what"], care["strength_ppm_n"]) == ("feed", "120")
    (place,) = table(out / "places.csv")
    assert (place["lamps_hours"], place["controlled"]) == ("12", "false")
    (reading,) = table(out / "readings.csv")
    assert (reading["place"], reading["mean_c"]) == ("'=Hall", "18.5")


def test_the_facts_of_an_export_can_be_read(filled: Collection, tmp_path: Path) -> None:
    export(filled, tmp_path / "out")
    text = (tmp_path / "out" / "facts.json").read_text(encoding="utf-8")
    house, (plant,) = read_facts(json.loads(text))
    assert house == filled.settings.house()
    assert plant.tag == "A2"
    assert plant.place.name == "=Hall"
    assert plant.place.readings[0].mean_c == 18.5
    assert plant.looks[0].root_tips is RootTips.RUNNING
    assert plant.care[0].strength_ppm_n == 120.0


def test_exported_plants_come_back_the_same(
    filled: Collection, tmp_path: Path, clock: FixedClock
) -> None:
    export(filled, tmp_path / "out")
    with closing(Collection.open(tmp_path / "new", clock, create=True)) as other:
        report = import_csv(other, tmp_path / "out" / "plants.csv", dry_run=False)
        assert report.bad == ()
        assert plants(other) == plants(filled)
        assert [place.draft.name for place in other.places.all()] == ["=Hall"]


@pytest.mark.file
def test_an_export_may_be_written_again_and_over_nothing_else(
    filled: Collection, tmp_path: Path
) -> None:
    out = tmp_path / "out"
    export(filled, out)
    export(filled, out)
    (out / "letter.txt").write_text("dear aunt")
    with pytest.raises(ForeignError, match=r"letter\.txt"):
        export(filled, out)
    with pytest.raises(ForeignError, match="is a file"):
        export(filled, out / "letter.txt")
    with pytest.raises(ForeignError, match=r"collection\."):
        export(filled, filled.folder)
    assert (out / "letter.txt").read_text() == "dear aunt"


def test_an_export_that_cannot_be_written_is_one_line(
    filled: Collection, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("growdesk.services.collection_export.write_whole", full)
    with pytest.raises(StoreError, match="disk is full"):
        export(filled, tmp_path / "out")


def test_a_file_beyond_the_limit_is_refused_without_being_read_whole(
    collection: Collection, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("growdesk.services.files_in.MOST_BYTES", 20)
    assert took(collection, tmp_path, "tag\n" + "A" * 16).written
    with pytest.raises(InputError, match="is too large"):
        took(collection, tmp_path, "tag\n" + "B" * 17)
    with pytest.raises(InputError, match="is too large"):
        import_csv(collection, Path("/dev/zero"), dry_run=True)


def test_a_header_without_plants_writes_nothing(
    collection: Collection, tmp_path: Path
) -> None:
    assert not took(collection, tmp_path, "tag,name\n").written
    assert collection.history.view().undo is None


def test_benches_go_on_from_the_last_in_each_place(
    collection: Collection, tmp_path: Path
) -> None:
    hall = collection.places.add(PlaceDraft("Hall")).ids[0]
    collection.plants.add(PlantDraft("H1", "", "", hall, bench=7))
    collection.plants.add(PlantDraft("N1", "", "", bench=3))
    took(
        collection,
        tmp_path,
        "tag,place,bench\nH2,hall,\nH3,Hall,20\nH4,HALL,\nS1,Sill,\nS2,sill,\nN2,,\n",
    )
    benches = {tag: draft.bench for tag, draft in plants(collection).items()}
    assert benches == {
        "H1": 7,
        "H2": 8,
        "H3": 20,
        "H4": 21,
        "S1": 1,
        "S2": 2,
        "N1": 3,
        "N2": 4,
    }
    assert len(collection.places.all()) == 2


def test_statements_do_not_grow_with_the_rows(
    collection: Collection, tmp_path: Path
) -> None:
    """A list twice as long must not ask the collection more often."""

    def statements(tags: list[str]) -> int:
        counted: list[str] = []

        def count(*arguments: object) -> None:
            counted.append(str(arguments[2]))

        engine = collection.ledger.store._engine
        event.listen(engine, "before_cursor_execute", count)
        rows = "".join(f"{tag},Place {tag[-1]}\n" for tag in tags)
        took(collection, tmp_path, f"tag,place\n{rows}")
        event.remove(engine, "before_cursor_execute", count)
        return len(counted)

    few = statements([f"A{number}" for number in range(10)])
    assert statements([f"B{number}" for number in range(200)]) <= few


def test_two_looks_of_a_day_go_out_as_the_one_that_is_judged(
    filled: Collection, tmp_path: Path
) -> None:
    plant_id = filled.plants.find("A2")
    assert plant_id is not None
    later = Look(on=date(2026, 5, 1), root_tips=RootTips.NONE)
    filled.looks.record(plant_id, later)
    export(filled, tmp_path / "out")
    text = (tmp_path / "out" / "facts.json").read_text(encoding="utf-8")
    _, (plant,) = read_facts(json.loads(text))
    (look,) = plant.looks
    assert look.root_tips is RootTips.NONE
    assert look.health == frozenset()
    assert len(table(tmp_path / "out" / "looks.csv")) == 2


def test_a_file_marked_as_utf_8_is_not_taken_for_a_wider_one() -> None:
    rows = [("\x00A\x001\x00", "\x00b"), ("\x00",)]
    written = write_table(("head",), rows)
    read = read_table(written, "u.csv", trimmed=False)
    assert [cells for _, cells in read.rows] == rows
