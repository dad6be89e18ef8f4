from __future__ import annotations

import sqlite3
import subprocess
import sys
from collections import Counter
from contextlib import closing
from datetime import date, timedelta
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from PIL import Image, ImageChops, ImageStat

from growdesk import assets
from growdesk.domain.errors import InputError, StoreError
from growdesk.domain.facts import CareKind, Facing, Flowering, RootTips, Verdict
from growdesk.domain.facts_fields import FIRST_YEAR, LAST_YEAR
from growdesk.domain.holding import Status
from growdesk.domain.jobs.job import Sort
from growdesk.domain.judging import judge
from growdesk.domain.night import Shelter
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.demo import lay_demo
from growdesk.services.demo_unfold import as_facts, read_data, unfold
from growdesk.services.kinds import table

if TYPE_CHECKING:
    from growdesk.domain.explain import Judgement
    from growdesk.domain.facts import Plant
    from growdesk.services.demo_values import Demo

ROOT = Path(assets.demo_path("collection.json")).parent.parent
DAYS = [date(2026, 1, 3) + timedelta(days=14 * n) for n in range(26)]
DAYS += [date(2028, 2, 29), date(2027, 12, 31), date(2028, 12, 31), date(2027, 1, 1)]
DAYS += [date(2026, 7, 6) + timedelta(days=n) for n in range(7)]  # each weekday
IDS = [day.isoformat() for day in DAYS]

FEED, CLEAR, FLUSH = Verdict.FEED, Verdict.CLEAR_WATER, Verdict.FLUSH
DRY, LOOK = Verdict.KEEP_DRY, Verdict.LOOK_FIRST
ARGUABLE = {
    "in bloom and growing": ("A1", FEED, "growing"),
    "in bloom and nothing moving": ("A3", CLEAR, "not-growing"),
    "leafless and in bloom": ("E2", DRY, "leafless-rest"),
    "new growth up, roots too short": ("E1", DRY, "leafless-rest"),
    "bare, with a look gone old": ("E3", DRY, "leafless-rest"),
    "moth orchid spiking": ("B1", FEED, "growing"),
    "idle moth orchid, roots hidden": ("B2", FEED, "idle-never-resting"),
    "feeds at the limit, in bark": ("B3", FLUSH, "salts"),
    "feeds at the limit, in sphagnum": ("C3", FLUSH, "salts"),
    "fed yesterday": ("B6", CLEAR, "too-soon"),
    "just repotted": ("C4", CLEAR, "just-repotted"),
    "no roots": ("D2", CLEAR, "cannot-drink"),
    "overruled by the grower": ("D3", DRY, "overruled"),
    "rot": ("E7", DRY, "rot"),
    "look gone old": ("A7", LOOK, "look-out-of-date"),
    "never looked at": ("B7", LOOK, "look-out-of-date"),
    "seedling": ("C1", FEED, "growing"),
}


@cache
def demo_on(day: date) -> Demo:
    return unfold(read_data(), day)


@cache
def plants_on(day: date) -> dict[str, Plant]:
    return {plant.tag: plant for plant in as_facts(demo_on(day))}


@cache
def judged_on(day: date) -> dict[str, Judgement]:
    kinds = table().kinds
    house = demo_on(day).house
    return {
        tag: judge(plant, kinds[plant.kind], house, day)
        for tag, plant in plants_on(day).items()
    }


@pytest.mark.parametrize("day", DAYS, ids=IDS)
@pytest.mark.parametrize("case", ARGUABLE)
def test_the_arguable_plants_keep_their_verdict_on_any_day(
    case: str, day: date
) -> None:
    tag, verdict, rule = ARGUABLE[case]
    judged = judged_on(day)[tag]
    assert (judged.verdict, judged.rule) == (verdict, rule)


@pytest.mark.parametrize("day", DAYS, ids=IDS)
def test_any_day_is_a_believable_watering_day(day: date) -> None:
    counts = Counter(judged.verdict for judged in judged_on(day).values())
    assert sum(counts.values()) == 36
    assert 11 <= counts[FEED] <= 19
    assert 5 <= counts[CLEAR] <= 14
    assert 2 <= counts[FLUSH] <= 4
    assert 5 <= counts[DRY] <= 6
    assert counts[LOOK] == 3


@pytest.mark.parametrize("day", DAYS, ids=IDS)
def test_the_strengths_of_a_day_need_more_than_one_jug(day: date) -> None:
    strengths = [
        judged.strength_ppm_n
        for judged in judged_on(day).values()
        if judged.strength_ppm_n is not None
    ]
    assert max(strengths) > 2 * min(strengths)


def test_the_arguable_plants_show_what_they_are_argued_about() -> None:
    plants = plants_on(date(2026, 11, 25))
    newest = {tag: plant.looks[-1] for tag, plant in plants.items() if plant.looks}
    assert newest["A1"].flowering == frozenset({Flowering.OPEN})
    assert newest["A3"].flowering == frozenset({Flowering.OPEN})
    assert newest["A3"].root_tips is RootTips.NONE
    assert newest["B1"].flowering == frozenset({Flowering.SPIKE})
    assert newest["B1"].root_tips is RootTips.NONE
    assert newest["B2"].root_tips is RootTips.HIDDEN
    assert newest["B2"].new_leaf is None
    assert newest["E1"].longest_new_root_mm == 40
    assert newest["E2"].flowering == frozenset({Flowering.OPEN})
    assert plants["B7"].looks == ()


@pytest.mark.parametrize("month", [1, 2])
def test_the_soft_cane_dendrobium_in_bud_gets_water_and_no_nitrogen(month: int) -> None:
    day = date(2027, month, 15)
    look = plants_on(day)["E6"].looks[-1]
    assert look.flowering == frozenset({Flowering.BUDS})
    judged = judged_on(day)["E6"]
    assert (judged.verdict, judged.rule) == (CLEAR, "unfed-rest")


def test_seasons_show_in_the_plants_that_follow_the_calendar() -> None:
    winter, summer = judged_on(date(2027, 1, 15)), judged_on(date(2027, 7, 10))
    assert winter["F1"].rule == "too-cold"
    assert winter["E4"].verdict is DRY
    assert summer["E4"].verdict is FEED
    assert summer["E6"].verdict is FEED
    # An east window loses most of its light in winter; a south one, with the sun low
    # before it, keeps more.
    for tag, most in (("B5", 0.5), ("A6", 0.8)):
        in_winter, in_summer = (by[tag].strength_ppm_n for by in (winter, summer))
        assert in_winter is not None
        assert in_summer is not None
        assert in_winter < most * in_summer


def test_it_holds_fifteen_kinds_and_more_over_several_places() -> None:
    plants = plants_on(DAYS[0]).values()
    assert len({plant.kind for plant in plants}) >= 15
    assert len({plant.place.name for plant in plants}) >= 6
    for plant in plants:
        assert plant.kind in table().kinds
        assert plant.place.readings


def test_a_kind_is_the_one_its_name_leads_to_or_a_closer_one() -> None:
    closer = {"A6": "epidendrum", "E5": "laelia-rupicolous"}
    for tag, plant in plants_on(DAYS[0]).items():
        found = table().find(plant.name)
        assert found is not None, plant.name
        assert closer.get(tag, found.key) == plant.kind


@pytest.mark.parametrize("day", DAYS[::6])
def test_eighteen_months_of_looks_two_or_three_weeks_apart(day: date) -> None:
    for plant in plants_on(day).values():
        days = [look.on for look in plant.looks]
        assert days == sorted(set(days))
        if days:
            assert max(days) < day
            assert (day - min(days)).days > 520
            gaps = {(b - a).days for a, b in pairwise(days)}
            assert gaps <= set(range(14, 21))


@pytest.mark.parametrize("day", DAYS[::6])
def test_rounds_fall_on_watering_days_and_nothing_lies_ahead(day: date) -> None:
    rounds = {CareKind.FEED, CareKind.CLEAR_WATER, CareKind.FLUSH}
    for tag, plant in plants_on(day).items():
        assert all(care.on < day for care in plant.care)
        if tag != "B6":
            given = [care for care in plant.care if care.what in rounds]
            assert {care.on.weekday() for care in given} <= {2, 5}
        for care in plant.care:
            assert (care.strength_ppm_n is not None) == (care.what is CareKind.FEED)


def test_windows_are_told_by_the_light_they_give() -> None:
    windows = {place.draft.name: place.draft for place in demo_on(DAYS[0]).places}
    facings = {name: draft.facing for name, draft in windows.items()}
    assert [name for name, draft in windows.items() if draft.outdoors] == [
        "Yard, under the pear"
    ]
    assert facings["South sill, living room"] is Facing.SOUTH
    assert facings["East bay, dining room"] is Facing.EAST
    assert [name for name, facing in facings.items() if facing is None] == [
        "Lamp shelf"
    ]
    told = {
        step.key
        for judged in judged_on(date(2026, 7, 11)).values()
        if judged.strength is not None
        for step in judged.strength.steps
    }
    assert {"season-window", "season-lamps"} <= told
    assert "season-light" not in told


def test_readings_follow_the_year_and_stay_in_reason() -> None:
    places = {place.draft.name: place for place in demo_on(DAYS[0]).places}
    balcony = places["Glazed balcony"].readings
    january = [r.mean_c for r in balcony if r.on.month == 1 and r.mean_c is not None]
    july = [r.mean_c for r in balcony if r.on.month == 7 and r.mean_c is not None]
    assert max(january) < 8
    assert min(july) > 19
    sill = places["South sill, living room"].readings
    assert min(r.mean_c for r in sill if r.mean_c is not None) > 16


def test_every_picture_hangs_on_a_look_that_shows_it() -> None:
    shipped = {path.name for path in assets.demo_path("pictures").glob("*.jpg")}
    assert 12 <= len(shipped) <= 20
    for day in DAYS:
        hung = [
            name
            for p in demo_on(day).plants
            for entry in p.looks
            for name in entry.pictures
        ]
        assert sorted(hung) == sorted(shipped)


def test_pictures_are_small_and_whole() -> None:
    paths = list(assets.demo_path("pictures").glob("*.jpg"))
    assert sum(path.stat().st_size for path in paths) < 1_500_000
    for path in paths:
        with Image.open(path) as image:
            image.load()
            assert image.size == (640, 480)


def test_what_left_is_told_why_and_is_in_no_round() -> None:
    left = {plant.draft.tag: plant for plant in demo_on(DAYS[0]).left}
    assert {plant.draft.status for plant in left.values()} == {
        Status.LOST,
        Status.SOLD,
        Status.GIVEN_AWAY,
    }
    for plant in left.values():
        day = plant.draft.left_on
        assert day is not None
        assert plant.draft.left_why
        assert all(entry.look.on <= day for entry in plant.looks)
        assert all(entry.care.on <= day for entry in plant.care)
    assert not set(left) & set(plants_on(DAYS[0]))
    assert left["A8"].parent == "A1"


@pytest.mark.parametrize("day", DAYS[::5])
def test_flowerings_of_several_years_are_on_record(day: date) -> None:
    old = [p for p in demo_on(day).plants if len(p.blooms) >= 4]
    assert len(old) >= 12
    for plant in old:
        opened = [b.first_open_on for b in plant.blooms if b.first_open_on is not None]
        assert opened == sorted(opened)
        assert all(b.flowers for b in plant.blooms)
        assert plant.draft.acquired_on is not None
        assert plant.draft.acquired_on < opened[0]


def test_two_plants_spend_the_summer_in_the_yard_and_are_rained_on() -> None:
    inside, outside = demo_on(date(2026, 3, 1)), demo_on(date(2026, 7, 15))
    for demo, place in ((inside, "Glazed balcony"), (outside, "Yard, under the pear")):
        stands = {p.draft.tag: p.place for p in demo.plants}
        assert (stands["F1"], stands["F2"], stands["F3"]) == (
            place,
            place,
            "Glazed balcony",
        )
    cymbidium = next(p for p in outside.plants if p.draft.tag == "F1")
    moves = [e for e in cymbidium.care if e.care.what is CareKind.MOVE]
    yard, balcony = "Yard, under the pear", "Glazed balcony"
    assert [move.to_place for move in moves] == [yard, balcony, yard]
    rain = [e.care.rain_mm for e in cymbidium.care if e.care.what is CareKind.RAIN]
    assert len(rain) > 10
    assert max(mm for mm in rain if mm is not None) > 20


def test_making_the_file_again_gives_the_same_file(tmp_path: Path) -> None:
    again = tmp_path / "collection.json"
    _run("make_demo.py", "--to", str(again))
    assert again.read_bytes() == assets.demo_path("collection.json").read_bytes()


def test_drawing_a_picture_again_gives_the_same_picture(tmp_path: Path) -> None:
    _run("draw_pictures.py", "--to", str(tmp_path), "root-tips", "cattleya-flower")
    for name in ("root-tips.jpg", "cattleya-flower.jpg"):
        with (
            Image.open(tmp_path / name) as drawn,
            Image.open(assets.demo_path(f"pictures/{name}")) as shipped,
        ):
            # another libjpeg may round otherwise; another drawing differs by far more
            apart = ImageStat.Stat(ImageChops.difference(drawn, shipped)).mean
        assert max(apart) < 1.5


@pytest.mark.file
def test_a_laid_demo_holds_everything_and_no_history(tmp_path: Path) -> None:
    folder = lay_demo(tmp_path / "demo", date(2028, 2, 29))
    rows = {
        name: _count(folder, name)
        for name in (
            *("plant", "look", "care", "bloom", "reading", "tin", "water", "recipe"),
            *("tool", "spoon_weight", "vessel", "stock", "drawn", "shelf_entry"),
            *("meter", "bench", "saved_view", "forecast"),
        )
    }
    assert rows["plant"] == 36 + 4
    assert rows["look"] > 1000
    assert rows["care"] > 2000
    assert rows["bloom"] >= 100
    assert rows["bench"] == 6
    assert (rows["saved_view"], rows["forecast"]) == (2, 2)
    assert rows["reading"] > 7 * 100
    assert (rows["tin"], rows["water"], rows["recipe"]) == (6, 4, 2)
    assert (rows["tool"], rows["spoon_weight"], rows["vessel"]) == (5, 2, 4)
    assert rows["stock"] == 2
    assert rows["drawn"] > rows["care"]
    assert rows["shelf_entry"] == 11
    assert rows["meter"] >= 8
    assert _count(folder, "action") == 0
    assert _count(folder, "change") == 0


def test_a_cold_night_is_expected_in_the_demo(tmp_path: Path) -> None:
    on = date(2026, 11, 25)
    collection = Collection.open(lay_demo(tmp_path / "demo", on), FixedClock(on))
    shelters = {move.shelter for move in collection.nights.view(on).moves}
    views = [
        view.draft.name for view in collection.views.all() if view.view_id is not None
    ]
    nights = [
        line.place
        for line in collection.calendar.jobs(last=on)
        if line.sort is Sort.WEATHER
    ]
    collection.close()
    assert shelters == {Shelter.FROM_GLASS, Shelter.ELSEWHERE}
    assert views == ["Flowered last", "Where they came from"]
    assert nights == ["South sill, living room", "Glazed balcony"]


@pytest.mark.file
def test_laid_photos_are_the_shipped_pictures(tmp_path: Path) -> None:
    folder = lay_demo(tmp_path / "demo", date(2026, 5, 1))
    with closing(sqlite3.connect(folder / "collection.sqlite")) as file:
        photos = file.execute(
            "SELECT file_name, sha256, ext, width, height, taken_on, look.day,"
            " has_location"
            " FROM photo JOIN look ON look.id = photo.look_id"
        ).fetchall()
    assert len(photos) == len(list(assets.demo_path("pictures").glob("*.jpg")))
    placed = [name for name, *_, has_location in photos if has_location]
    assert placed == ["oncidium-spray.jpg"]
    for name, sha256, ext, width, height, taken_on, day, _placed in photos:
        copied = folder / "photos" / sha256[:2] / f"{sha256}.{ext}"
        assert copied.read_bytes() == assets.demo_path(f"pictures/{name}").read_bytes()
        assert (width, height, taken_on) == (640, 480, day)


@pytest.mark.parametrize("day", [date(2028, 2, 29), date(2026, 7, 11)])
def test_opened_it_is_judged_as_it_was_unfolded(tmp_path: Path, day: date) -> None:
    folder = lay_demo(tmp_path / "demo", day)
    collection = Collection.open(folder, FixedClock(day))
    try:
        view = collection.day.view(day)
        house = collection.settings.house()
        name = collection.settings.word("collection")
        undo = collection.history.view().undo
        photos = [
            photo
            for line in view.lines
            for photo in collection.photos.of(line.plant_id)
        ]
    finally:
        collection.close()
    assert {line.tag: line.verdict for line in view.lines} == {
        tag: judged.verdict for tag, judged in judged_on(day).items()
    }
    assert all(step.done for step in view.setup)
    assert 3 <= len(view.mix.jugs) <= 4
    assert all(jug.doses for jug in view.mix.jugs)
    assert bool(view.mix.outside_band) == (view.mix.one_more is not None)
    assert view.mix.volume_unknown == ()
    assert house == demo_on(day).house
    assert name == demo_on(day).name
    assert undo is None
    assert [photo.problem for photo in photos] == [None] * 19


@pytest.mark.file
def test_the_same_day_lays_the_same_data(tmp_path: Path) -> None:
    day = date(2026, 9, 12)
    one, other = (lay_demo(tmp_path / name, day) for name in ("one", "other"))
    assert _dump(one) == _dump(other)
    assert _dump(one) != _dump(lay_demo(tmp_path / "later", day + timedelta(days=1)))


def test_a_demo_is_not_laid_over_a_collection(tmp_path: Path) -> None:
    folder = lay_demo(tmp_path / "demo", date(2026, 9, 12))
    before = _dump(folder)
    with pytest.raises(StoreError, match="already holds a collection"):
        lay_demo(folder, date(2026, 9, 12))
    assert _dump(folder) == before


@pytest.mark.parametrize("day", [date.min, date.max])
def test_a_day_without_past_or_future_is_refused(tmp_path: Path, day: date) -> None:
    with pytest.raises(InputError) as caught:
        lay_demo(tmp_path / "demo", day)
    assert day.isoformat() in caught.value.line()
    assert "--on: " in caught.value.line()
    assert "Give a day in the years 1900 to 2200." in caught.value.line()
    assert not (tmp_path / "demo").exists()


@pytest.mark.parametrize("day", [date(FIRST_YEAR, 1, 1), date(LAST_YEAR, 12, 31)])
def test_the_demo_takes_every_day_that_can_be_meant(tmp_path: Path, day: date) -> None:
    folder = lay_demo(tmp_path / "demo", day)
    with closing(Collection.open(folder, FixedClock(day))) as collection:
        assert len(collection.day.view(day).lines) >= 30


def _run(script: str, *arguments: str) -> None:
    subprocess.run(
        [sys.executable, str(ROOT / "demo" / script), *arguments],
        check=True,
        capture_output=True,
    )


def _count(folder: Path, name: str) -> int:
    with closing(sqlite3.connect(folder / "collection.sqlite")) as file:
        found = file.execute(f"SELECT count(*) FROM {name}").fetchone()  # noqa: S608
        return int(found[0])


def _dump(folder: Path) -> list[str]:
    with closing(sqlite3.connect(folder / "collection.sqlite")) as file:
        return list(file.iterdump())
