"""What is exported comes back the same: every column, every text, every verdict."""

from __future__ import annotations

import csv
import io
import json
import shutil
from contextlib import closing
from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from PIL import Image
from sqlalchemy import select

from growdesk.domain.errors import (
    ForeignError,
    InputError,
    StoreError,
    TooNewError,
)
from growdesk.domain.facts import CareKind, Health, Look, RootTips
from growdesk.domain.holding import Descent, Status
from growdesk.services.care_of_files import check
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.demo import lay_demo
from growdesk.services.long_work import StoppedError
from growdesk.services.roster_values import ViewDraft
from growdesk.services.table_forms import FORMS, Names
from growdesk.services.transfer import export, read_folder, take_folder
from growdesk.services.values import PlaceDraft, PlantDraft, TinDraft
from growdesk.services.view_form import text_of, view_of
from growdesk.store.mapping import WORD_SETS, WORDS
from growdesk.store.migrations import SCHEMA
from growdesk.store.schema import RECORDED
from growdesk.store.whole_files import write_whole

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from sqlalchemy import Column

DAY = date(2026, 11, 25)
HOSTILE = (
    "=1+1",
    "+cmd|' /C calc'!A0",
    "-2+3",
    "@SUM(A1)",
    "'",
    "'=1",
    "''-x",
    'say "no", then;\tgo',
    "two\nlines",
    "أوركيد \u202e abc",
    "\U0001f338 Ærø 蘭",
    "#1",
    "nothing",
    "1,500",
    "2026-05-06",
    "a, b",
)


def files(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def there_and_back(
    collection: Collection, at: Path, clock: FixedClock
) -> tuple[Collection, dict[str, bytes], dict[str, bytes]]:
    """Export, take that into a new collection, and export this one."""
    export(collection, at / "out")
    other = Collection.open(at / "other", clock, create=True)
    take_folder(other, read_folder(at / "out"))
    export(other, at / "again")
    return other, files(at / "out"), files(at / "again")


def judged(collection: Collection, on: date) -> dict[str, object]:
    """Give all that is said of each plant on a day, by its tag."""
    house, plants, table = collection.day.facts(on)
    view = collection.day.view(on)
    lines = {
        line.tag: (
            *(line.verdict, line.water, line.strength_ppm_n, line.volume_l),
            *(line.letter, line.short_reason, line.done, line.place, line.bench),
        )
        for line in view.lines
    }
    facts = {plant.tag: plant for plant in plants}
    order = [line.tag for line in view.lines]
    return {"house": house, "lines": lines, "facts": facts, "order": order} | {
        "kinds": {key: kind for key, kind in table.kinds.items() if kind.corrected}
    }


def on_hand(collection: Collection) -> list[tuple[object, ...]]:
    return [
        (row.name, round(row.hand.amount, 9), row.began, row.rate_told, row.lasts_told)
        for row in collection.stocktaking.view().rows
        if row.hand is not None
    ]


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Collection]:
    folder = tmp_path_factory.mktemp("demo") / "collection"
    lay_demo(folder, DAY)
    with closing(Collection.open(folder, FixedClock(DAY))) as laid:
        yield laid


def test_the_demo_comes_back_byte_for_byte_and_is_judged_alike(
    demo: Collection, tmp_path: Path
) -> None:
    other, first, second = there_and_back(demo, tmp_path, FixedClock(DAY))
    with closing(other):
        assert first == second
        assert len([name for name in first if name.startswith("photos/")]) == 19
        for days in (0, 30, 121, 170, 260, 364):
            on = DAY - timedelta(days=days)
            assert judged(other, on) == judged(demo, on)
        assert on_hand(other) == on_hand(demo)


# -- one of everything ----------------------------------------------------------------


OWN: dict[tuple[str, str], object] = {
    ("tin", "analysis"): "20-20-20",
    ("tin", "formula"): None,
    ("tin", "density_g_per_ml"): 1.25,
    ("tool", "kind"): "scale",
    ("vessel", "kind"): "jug",
    ("vessel", "how_many"): 3,
    ("water", "aim"): "share",
    ("water", "first_share"): 0.25,
    ("water", "aim_value"): 0.25,
    ("shelf_entry", "what"): "added",
    ("shelf_entry", "tin_id"): None,
    ("shelf_entry", "water_id"): None,
    ("drawn", "tin_id"): None,
    ("drawn", "water_id"): None,
    ("recipe", "wanted_n"): 10.5,
    ("recipe_use", "from_day"): "09-15",
    ("recipe_use", "until_day"): "12-01",
    ("setting", "value"): json.dumps(HOSTILE[0]),
    ("plant", "binned_on"): None,
    ("job_done", "what"): "let-go",
    ("saved_view", "what"): "{}",
    ("photo", "ext"): "jpg",
}
SELF = {"plant": ("parent_id",), "water": ("first_id", "second_id")}


def value_of(table: str, column: Column[Any], number: int) -> object:
    """Give a value that no default would give."""
    name = column.name
    if (table, name) in OWN or name in SELF.get(table, ()):
        return OWN.get((table, name))
    if column.foreign_keys:
        return number
    if name in WORDS:
        return list(WORDS[name])[-1].value
    kinds: dict[type, object] = {
        bool: True,
        int: number + 1,
        float: number + 0.123456789,
        date: DAY + timedelta(days=number - 30),
        str: _text(table, name, number),
    }
    return kinds[column.type.python_type]


def _text(table: str, name: str, number: int) -> str:
    if name in WORD_SETS:
        return ""
    text = HOSTILE[(sum(map(ord, table + name)) + number) % len(HOSTILE)]
    return f"{number} {text}" if name in {"tag", "name", "key", "field"} else text


def fill(collection: Collection) -> None:
    """Write two rows into every table, every column of them given."""
    with collection.ledger.writing("All") as writing:
        for name, row in RECORDED.items():
            columns = row.metadata.tables[name].c.items()
            rows = [
                {key: value_of(name, column, number) for key, column in columns}
                | {"id": number}
                for number in (1, 2)
            ]
            writing.insert_many(row, rows)
        writing.update(RECORDED["plant"], 1, {"parent_id": 2})
        writing.update(RECORDED["plant"], 2, {"parent_id": 1})


def rows_of(collection: Collection, table: str) -> list[dict[str, Any]]:
    with collection.ledger.reading() as session:
        made = RECORDED[table].__table__
        return [dict(row) for row in session.execute(select(made)).mappings()]


def test_every_column_of_every_table_comes_back(
    collection: Collection, tmp_path: Path, clock: FixedClock
) -> None:
    fill(collection)
    before = {name: rows_of(collection, name) for name in RECORDED}
    export(collection, tmp_path / "out")  # the photos are not there: they stay behind
    with closing(Collection.open(tmp_path / "new", clock, create=True)) as other:
        take_folder(other, read_folder(tmp_path / "out"))
        for name in RECORDED:
            if name == "photo":
                continue
            assert len(before[name]) == 2
            assert rows_of(other, name) == before[name], name
        other.history.undo()
        assert all(not rows_of(other, name) for name in RECORDED)
        other.history.redo()
        assert rows_of(other, "plant") == before["plant"]


def test_every_table_that_is_journalled_has_a_file() -> None:
    assert [form.name for form in FORMS] == list(RECORDED)
    assert len({form.file for form in FORMS}) == len(FORMS)


# -- texts and names ------------------------------------------------------------------

texts = st.one_of(
    st.sampled_from(HOSTILE),
    st.text(st.characters(exclude_categories=("Cs", "Cc")), max_size=8),
).map(str.strip)
days = st.integers(0, 400).map(lambda ago: DAY - timedelta(days=ago))
plants = st.lists(
    st.fixed_dictionaries(
        {
            "tag": texts.filter(bool).filter(lambda text: not {*text} & {*"\n\t"}),
            "name": texts,
            "note": texts,
            "kind": st.sampled_from(["", "cattleya", "catasetum", "no such"]),
            "status": st.sampled_from(list(Status)),
            "looks": st.lists(
                st.tuples(
                    days,
                    st.sampled_from([None, *RootTips]),
                    st.none() | st.frozensets(st.sampled_from(list(Health))),
                    texts,
                ),
                max_size=3,
            ),
            "care": st.lists(
                st.tuples(days, st.sampled_from(list(CareKind)[:4])), max_size=3
            ),
        }
    ),
    max_size=4,
    unique_by=lambda plant: str(plant["tag"]).casefold(),
)


@given(made=plants, tins=st.lists(texts.filter(bool), max_size=4))
@settings(
    max_examples=15,
    deadline=None,
    phases=(Phase.explicit, Phase.generate),
)
def test_any_collection_comes_back(
    made: list[dict[str, Any]],
    tins: list[str],
    tmp_path_factory: pytest.TempPathFactory,
) -> None:
    at, clock = tmp_path_factory.mktemp("any"), FixedClock(DAY)
    with closing(Collection.open(at / "one", clock, create=True)) as one:
        place = one.places.add(PlaceDraft("=Sill")).ids[0]
        for name in tins:
            if "\n" not in name and "\t" not in name:
                one.mixing.add_tin(TinDraft(name, "20-20-20"))
        before = None
        for plant in made:
            fields = {key: plant[key] for key in ("tag", "name", "note", "kind")}
            draft = PlantDraft(
                **fields,
                place_id=place,
                parent_id=before,
                parent_how=Descent.KEIKI if before else None,
            )
            before = one.plants.add(draft).ids[0]
            for on, tips, health, note in plant["looks"]:
                one.looks.record(before, Look(on, root_tips=tips, health=health), note)
            for on, what in plant["care"]:
                one.day.give([before], on, what, 90 if what is CareKind.FEED else None)
            if plant["status"] is not Status.GROWING:
                left = replace(draft, status=plant["status"], left_on=DAY)
                one.plants.change(before, left)
        other, first, second = there_and_back(one, at, clock)
        with closing(other):
            assert first == second
            assert judged(other, DAY) == judged(one, DAY)
            assert [draft.note for _, draft in other.plants.all()] == [
                draft.note for _, draft in one.plants.all()
            ]
    shutil.rmtree(at)


@given(st.lists(st.sampled_from(["X", "X #1", "X #2", "#1", "", "Y"]), max_size=8))
def test_each_row_has_a_name_of_its_own(names: list[str]) -> None:
    found = Names()
    rows = [{"id": at, "name": name} for at, name in enumerate(names, 1)]
    assert found.add("tin", rows) is None
    ids = range(1, len(names) + 1)
    called = [found.of("tin", number) for number in ids]
    assert "" not in called
    assert [found.find("tin", (), name) for name in called] == [*ids]
    alone = [name for name in names if names.count(name) == 1 and name in {"X", "Y"}]
    assert set(alone) <= set(called)


def test_tins_of_one_name_and_care_of_one_day_are_told_apart(
    collection: Collection, tmp_path: Path, clock: FixedClock
) -> None:
    for _ in range(2):
        collection.mixing.add_tin(TinDraft("Green tin", "20-20-20"))
    plant = collection.plants.add(PlantDraft("A1", "", "")).ids[0]
    given = {"plant_id": plant, "day": clock.today(), "what": CareKind.CLEAR_WATER}
    with collection.ledger.writing("drawn") as writing:
        writing.insert_many(RECORDED["care"], [given, given])
        writing.insert_many(
            RECORDED["drawn"],
            [{"care_id": 2, "tin_id": 2, "amount": 1.5}],
        )
    other, first, second = there_and_back(collection, tmp_path, clock)
    with closing(other):
        assert first == second
        assert rows_of(other, "drawn")[0]["care_id"] == 2
        assert rows_of(other, "drawn")[0]["tin_id"] == 2
    assert b"A1,2026-05-20,clear-water #2,Green tin #2,,,1.5" in first["drawn.csv"]


@pytest.mark.file
def test_a_saved_view_keeps_its_place_by_name(
    collection: Collection, tmp_path: Path, clock: FixedClock
) -> None:
    """Numbers of places are others in another collection; their names are not."""
    ids = [collection.places.add(PlaceDraft(name)).ids[0] for name in ("Old", "Hall")]
    with collection.ledger.writing("gone") as writing:
        writing.delete(RECORDED["place"], ids[0])
    view = ViewDraft("Hall's", place=ids[1], find="=x")
    gone = ViewDraft("Lost", place=ids[0])
    collection.views.add(view)
    with collection.ledger.writing("old view") as writing:
        row = {"name": "Lost", "what": text_of(gone)}
        writing.insert_many(RECORDED["saved_view"], [row])
    other, first, second = there_and_back(collection, tmp_path, clock)
    with closing(other):
        assert first == second
        back = {row["name"]: row["what"] for row in rows_of(other, "saved_view")}
        assert view_of("Hall's", back["Hall's"]) == replace(view, place=1)
        assert view_of("Lost", back["Lost"]).place is None
        assert check(other.folder).problems == ()
    change(tmp_path / "out" / "saved_views.csv", 'Hall""', 'Yard""')
    with pytest.raises(InputError, match=r"saved_views\.csv, row 2.*'Yard' is not in"):
        read_folder(tmp_path / "out")


def test_what_lies_in_the_bin_stays_behind_with_all_of_it(
    collection: Collection, tmp_path: Path, clock: FixedClock
) -> None:
    mother = collection.plants.add(PlantDraft("A1", "", "")).ids[0]
    child = PlantDraft("A2", "", "", parent_id=mother, parent_how=Descent.DIVISION)
    collection.plants.add(child)
    collection.day.give([mother], clock.today(), CareKind.CLEAR_WATER, None)
    recipe = {"name": "Mix", "in_use": False, "note": ""}
    with collection.ledger.writing("more") as writing:
        writing.insert_many(RECORDED["recipe"], [recipe])
        writing.insert_many(
            RECORDED["recipe_use"], [{"recipe_id": 1, "plant_id": mother}]
        )
    collection.plants.remove([mother])
    other, first, _ = there_and_back(collection, tmp_path, clock)
    with closing(other):
        assert [draft.parent_id for _, draft in other.plants.all()] == [None]
    assert first["care.csv"].count(b"\n") == 1
    assert first["recipe_uses.csv"].count(b"\n") == 1, "or it would hold for all"


# -- photos ---------------------------------------------------------------------------


@pytest.fixture
def placed(tmp_path: Path) -> Callable[[str], Path]:
    """Give a way to make a JPEG that says where it was taken."""

    def make(name: str) -> Path:
        exif = Image.Exif()
        exif.get_ifd(0x8825)[1] = "N"
        exif.get_ifd(0x8825)[2] = (47.0, 30.0, 12.0)
        exif.get_ifd(0x8825)[3] = "E"
        exif.get_ifd(0x8825)[4] = (9.0, 26.0, 1.0)
        exif[0x0112] = 6
        Image.new("RGB", (64, 48), "green").save(tmp_path / name, exif=exif)
        return tmp_path / name

    return make


def test_photos_go_out_without_their_place_and_come_back(
    collection: Collection,
    placed: Callable[[str], Path],
    tmp_path: Path,
    clock: FixedClock,
) -> None:
    plant = collection.plants.add(PlantDraft("A1", "", "")).ids[0]
    look = Look(clock.today(), root_tips=RootTips.NONE)
    collection.looks.record(plant, look, photos=[placed("one.jpg")])
    other, first, second = there_and_back(collection, tmp_path, clock)
    with closing(other):
        assert first == second
        (name,) = [name for name in first if name.startswith("photos/")]
        exif = Image.open(io.BytesIO(first[name])).getexif()
        assert not exif.get_ifd(0x8825)
        assert exif[0x0112] == 6
        (photo,) = other.photos.of(1)
        assert photo.problem is None
        assert photo.look_id == 1
        assert photo.path.read_bytes() == first[name]
        assert collection.photos.of(plant)[0].path.read_bytes() != first[name]


def test_a_private_copy_keeps_the_very_files(
    collection: Collection,
    placed: Callable[[str], Path],
    tmp_path: Path,
    clock: FixedClock,
) -> None:
    plant = collection.plants.add(PlantDraft("A1", "", "")).ids[0]
    source = placed("one.jpg")
    collection.photos.add(plant, [source])
    export(collection, tmp_path / "out", keep_location=True)
    with closing(Collection.open(tmp_path / "new", clock, create=True)) as other:
        take_folder(other, read_folder(tmp_path / "out"))
        assert other.photos.of(1)[0].path.read_bytes() == source.read_bytes()
        assert rows_of(other, "photo") == rows_of(collection, "photo")


def test_a_photo_that_is_gone_is_named_and_the_rest_goes_out(
    collection: Collection, placed: Callable[[str], Path], tmp_path: Path
) -> None:
    plant = collection.plants.add(PlantDraft("A1", "", "")).ids[0]
    collection.photos.add(plant, [placed("one.jpg")])
    collection.photos.of(plant)[0].path.write_bytes(b"other")
    made = export(collection, tmp_path / "out")
    assert made.notices == ("A photo of plant A1 stayed behind. one.jpg is damaged.",)
    collection.photos.of(plant)[0].path.unlink()
    made = export(collection, tmp_path / "out")
    assert made.notices == ("A photo of plant A1 stayed behind. one.jpg is gone.",)
    assert (made.photos, made.plants) == (0, 1)
    read_folder(tmp_path / "out")


def test_photos_of_an_earlier_export_do_not_stay(
    collection: Collection, placed: Callable[[str], Path], tmp_path: Path
) -> None:
    plant = collection.plants.add(PlantDraft("A1", "", "")).ids[0]
    photo = collection.photos.add(plant, [placed("one.jpg")]).ids[0]
    export(collection, tmp_path / "out")
    collection.photos.remove(photo)
    export(collection, tmp_path / "out")
    assert list((tmp_path / "out" / "photos").iterdir()) == []
    (tmp_path / "out" / "photos" / "mine.jpg").write_bytes(b"x")
    with pytest.raises(ForeignError, match="holds other files"):
        export(collection, tmp_path / "out")


# -- half a folder, a damaged one, a foreign one --------------------------------------


@pytest.fixture
def out(collection: Collection, placed: Callable[[str], Path], tmp_path: Path) -> Path:
    place = collection.places.add(PlaceDraft("Hall")).ids[0]
    seen = Look(date(2026, 5, 1), root_tips=RootTips.NONE)
    ids = [
        collection.plants.add(PlantDraft(tag, "", "", place)).ids[0]
        for tag in ("A1", "A2")
    ]
    for plant in ids:
        collection.looks.record(plant, seen)
    collection.photos.add(ids[1], [placed("one.jpg")])
    export(collection, tmp_path / "out")
    return tmp_path / "out"


def change(path: Path, old: str, new: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")


def test_half_a_folder_is_known(
    collection: Collection, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, out: Path
) -> None:
    (out / "looks.csv").unlink()
    with pytest.raises(ForeignError, match=r"looks\.csv is missing"):
        read_folder(out)
    written: list[Path] = []

    def stop(target: Path, content: bytes) -> None:
        written.append(target)
        if len(written) > 5:
            raise OSError(28, "No space left on device")
        write_whole(target, content)

    monkeypatch.setattr("growdesk.services.collection_export.write_whole", stop)
    with pytest.raises(StoreError, match="disk is full"):
        export(collection, out)
    with pytest.raises(ForeignError, match=r"no whole export.*growdesk\.json"):
        read_folder(out)
    with pytest.raises(ForeignError, match="no whole export"):
        read_folder(tmp_path)


SLIPS: list[tuple[str, str, str, str]] = [
    ("looks.csv", "A1,2026-05-01", "A9,2026-05-01", r"looks.csv, row 2, tag: 'A9'"),
    ("looks.csv", "A1,2026-05-01", "A1,1.5.26", r"row 2, on.*is not a day"),
    ("looks.csv", "A1,2026-05-01", "A1,", r"row 2, on.*is empty"),
    ("looks.csv", ",none,", ",lots,", r"row 2, root_tips: 'lots' is none of"),
    ("plants.csv", "A1,,,Hall,1", "A1,,,Hall,1.5", r"row 2, bench.*not a whole"),
    ("plants.csv", "A1,,,Hall", "A1,,,Yard", r"row 2, place: 'Yard' is not in places"),
    ("plants.csv", "A1,,,Hall", ",,,Hall", r"plants.csv, row 2, tag is empty"),
    ("plants.csv", "A1,,,Hall", "A2,,,Hall", r"row 3: 'A2' stands twice"),
    ("plants.csv", "A1,,,Hall,1,false", "A1,,,Hall,1,so", r"row 2, hybrid"),
    ("plants.csv", "tag,name", "tag,title", r"plants.csv' has no column name"),
    ("plants.csv", "tag,name", "tag,extra,name", r"'extra' is no column"),
    ("growdesk.json", f'"schema": {SCHEMA}', '"schema": 400', "newer growdesk"),
    ("growdesk.json", "{", "[", "cannot be read"),
]


@pytest.mark.parametrize(
    ("file", "old", "new", "told"), SLIPS, ids=[f"{s[0]} {s[2]}" for s in SLIPS]
)
def test_a_damaged_folder_is_one_line_that_names_it(
    out: Path, file: str, old: str, new: str, told: str
) -> None:
    change(out / file, old, new)
    with pytest.raises((ForeignError, InputError, TooNewError)) as caught:
        read_folder(out)
    assert caught.match(told)
    assert "\n" not in caught.value.line()


def test_a_table_cut_short_or_a_photo_gone_is_named(out: Path) -> None:
    kept = (out / "plants.csv").read_bytes()
    (out / "plants.csv").write_bytes(kept[: kept.rindex(b"A2")])
    with pytest.raises(ForeignError, match=r"plants\.csv has 1 rows, and 2 were"):
        read_folder(out)
    (out / "plants.csv").write_bytes(kept)
    (photo,) = (out / "photos").iterdir()
    photo.write_bytes(photo.read_bytes()[:-9])
    with pytest.raises(ForeignError, match="is damaged"):
        read_folder(out)
    photo.unlink()
    with pytest.raises(ForeignError, match="is missing"):
        read_folder(out)


def test_a_table_changed_by_hand_is_taken_and_said(
    out: Path, tmp_path: Path, clock: FixedClock
) -> None:
    """As a German spreadsheet saves it: semicolons, decimal commas."""
    raw = (out / "plants.csv").read_text(encoding="utf-8-sig")
    rows = list(csv.reader(io.StringIO(raw, newline="")))
    rows[1][rows[0].index("pot_volume_l")] = "1,25"
    written = io.StringIO(newline="")
    csv.writer(written, delimiter=";").writerows(rows)
    (out / "plants.csv").write_text(written.getvalue(), encoding="utf-8")
    found = read_folder(out)
    assert found.notices == ("plants.csv was changed since it was exported.",)
    with closing(Collection.open(tmp_path / "new", clock, create=True)) as other:
        take_folder(other, found)
        assert other.plants.all()[0][1].pot_volume_l == 1.25


def test_a_folder_goes_into_an_empty_collection_only(
    collection: Collection, out: Path, tmp_path: Path, clock: FixedClock
) -> None:
    found = read_folder(out)
    before = {name: rows_of(collection, name) for name in RECORDED}
    with pytest.raises(StoreError, match="is not empty"):
        take_folder(collection, found)
    assert {name: rows_of(collection, name) for name in RECORDED} == before
    with closing(Collection.open(tmp_path / "new", clock, create=True)) as other:
        dry = take_folder(other, found, dry_run=True)
        assert (dry.plants, dry.looks, dry.photos, dry.written) == (2, 2, 1, None)
        assert all(not rows_of(other, name) for name in RECORDED)


def test_work_that_is_stopped_leaves_nothing_behind(
    collection: Collection, out: Path, tmp_path: Path, clock: FixedClock
) -> None:
    def stop(done: int, of: int) -> None:
        raise StoppedError(f"{done} of {of}")

    with pytest.raises(StoppedError):
        export(collection, tmp_path / "half", step=stop)
    with pytest.raises(ForeignError, match="no whole export"):
        read_folder(tmp_path / "half")
    with closing(Collection.open(tmp_path / "new", clock, create=True)) as other:
        with pytest.raises(StoppedError):
            take_folder(other, read_folder(out), step=stop)
        assert all(not rows_of(other, name) for name in RECORDED)
        assert not list((tmp_path / "new" / "photos").rglob("*.jpg"))
