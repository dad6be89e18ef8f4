"""Every write of every service is in the journal: undone and done again to the row."""

from __future__ import annotations

import ast
import inspect
import re
from datetime import timedelta
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any

from msgspec.structs import replace
from sqlalchemy import func, select

import growdesk
from growdesk.domain.facts import (
    CareKind,
    Look,
    Overrule,
    Reading,
    Verdict,
    Water,
)
from growdesk.domain.holding import Descent, Status
from growdesk.domain.measuring import Tool, ToolKind
from growdesk.domain.night import Expected
from growdesk.domain.stocktaking import Good, Sort, What
from growdesk.domain.vessels import Vessel, VesselKind
from growdesk.services.bench_values import BenchDraft
from growdesk.services.bin_values import BinKey, BinSort
from growdesk.services.bloom_values import BloomDraft
from growdesk.services.care_values import CareDraft
from growdesk.services.collection import Collection
from growdesk.services.meter_values import MeterDraft
from growdesk.services.photo_values import PhotoDraft
from growdesk.services.plant_values import Dividing, Leaving, ManyChanges
from growdesk.services.recipe_values import PartDraft, RecipeDraft
from growdesk.services.roster_values import ViewDraft
from growdesk.services.stock_values import StockWanted
from growdesk.services.stocktaking_values import EntryDraft
from growdesk.services.ticking import Repot
from growdesk.services.values import PlaceDraft, PlantDraft, TinDraft, WaterDraft
from growdesk.store.schema import RECORDED, ChangeRow
from tests.conftest import TODAY

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from tests.services.conftest import Bench

SERVICES = Path(growdesk.__file__).parent / "services"
DAY = timedelta(days=1)
Rows = dict[str, list[tuple[object, ...]]]
BESIDE_THE_JOURNAL = {
    "history.py": "undo and redo read the journal itself, they add nothing to it",
    "emptying.py": "the one thing that cannot be undone; a backup is made first",
    "demo.py": "laid into a new folder, where nothing was before",
    "carrying_over.py": "a whole collection, laid where nothing was before",
    "mending.py": "a value that cannot be read has no image to keep; all else has one",
}
OF_THE_HISTORY = {"history.undo", "history.redo", "history.undo_to", "history.redo_to"}


def acts(  # noqa: PLR0915 -- one write a line
    collection: Collection, bench: Bench, picture: Callable[..., Path]
) -> Iterator[tuple[str, Callable[[], object]]]:
    """Give one write after the other; each finds what those before it left."""
    c, feed, clear, dry = collection, bench.feed, bench.clear, bench.dry
    late = TODAY - DAY
    yield "day.tick", lambda: c.day.tick([feed, clear], TODAY)
    yield "day.untick", lambda: c.day.untick([feed], TODAY)
    yield "day.pass_by", lambda: c.day.pass_by([feed], TODAY)
    yield "day.give", lambda: c.day.give([feed], TODAY, CareKind.FEED, 100.0)
    yield "day.repot", lambda: c.day.repot([dry], Repot(TODAY))
    look = detail(c, feed).looks[0].look_id
    yield (
        "looks.record",
        lambda: c.looks.record(feed, Look(TODAY), "n", [picture("a.jpg")]),
    )
    yield "looks.change", lambda: c.looks.change(look, Look(TODAY), "changed")
    yield "looks.delete", lambda: c.looks.delete(detail(c, feed).looks[0].look_id)
    yield "plants.add", lambda: c.plants.add(PlantDraft("Z1", "", "cattleya"))
    z1 = need(c.plants.find("Z1"))
    yield (
        "plants.change",
        lambda: c.plants.change(z1, PlantDraft("Z2", "x", "cattleya")),
    )
    yield (
        "plants.change_many",
        lambda: c.plants.change_many([feed, z1], ManyChanges({}, "n")),
    )
    yield (
        "plants.divide",
        lambda: c.plants.divide(
            feed, Dividing(TODAY, Descent.DIVISION, ("Z3",), "", bench.place)
        ),
    )
    yield "plants.leave", lambda: c.plants.leave([z1], Leaving(Status.SOLD, TODAY))
    yield "plants.back", lambda: c.plants.back([z1])
    yield "plants.move", lambda: c.plants.move([z1], bench.place)
    word = Overrule(Verdict.KEEP_DRY, "a trial", TODAY + DAY, Water.NONE)
    yield "plants.overrule", lambda: c.plants.overrule([feed], word)
    yield "plants.remove", lambda: c.plants.remove([z1])
    yield "bin.put_back", lambda: c.bin.put_back(BinKey(BinSort.PLANT, z1))
    yield (
        "places.add",
        lambda: c.places.add(PlaceDraft("Yard", "garden", outdoors=True)),
    )
    yard = c.places.all()[-1].place_id
    yield (
        "places.change",
        lambda: c.places.change(
            yard, PlaceDraft("Yard", "garden", outdoors=True, note="n")
        ),
    )
    yield "benches.order_places", lambda: c.benches.order_places([yard, bench.place])
    yield "benches.add", lambda: c.benches.add(bench.place, BenchDraft("Top"))
    one = c.benches.add(bench.place, BenchDraft("Low")).ids[0]
    two = one - 1
    yield "benches.change", lambda: c.benches.change(one, BenchDraft("Low", note="n"))
    yield "benches.order", lambda: c.benches.order(bench.place, [one, two])
    yield "benches.put", lambda: c.benches.put(bench.place, one, [feed, clear])
    yield "benches.along", lambda: c.benches.along(bench.place, one, [clear, feed])
    yield "benches.remove", lambda: c.benches.remove(one)
    yield "readings.write", lambda: c.readings.write(bench.place, Reading(late, 18.0))
    yield "readings.change", lambda: c.readings.change(1, Reading(late, 19.0))
    yield "readings.remove", lambda: c.readings.remove([1])
    yield (
        "nights.expect",
        lambda: c.nights.expect(TODAY, {bench.place: Expected(3.0, 20.0)}),
    )
    c.plants.move([z1], yard)
    yield "rain.fell", lambda: c.rain.fell([yard], TODAY, 8.0)
    hall = c.places.add(PlaceDraft("Hall")).ids[0]
    yield "places.remove", lambda: c.places.remove(hall)
    yield "photos.add", lambda: c.photos.add(feed, [picture("b.jpg", "red")])
    parts = list(c.photos.arriving([picture("c.jpg", "blue")]))
    yield "photos.keep", lambda: c.photos.keep(feed, parts)
    photo = c.photos.of(feed)[0].photo_id
    hung = detail(c, feed).looks[0].look_id
    yield "photos.change", lambda: c.photos.change(photo, PhotoDraft(late, "n"))
    yield "photos.set_days", lambda: c.photos.set_days({photo: TODAY})
    yield "photos.hang", lambda: c.photos.hang([photo], hung)
    yield "photos.remove", lambda: c.photos.remove(photo)
    treat = CareDraft(late, CareKind.TREAT, note="scale", product="Soap")
    yield "care.add", lambda: c.care.add([feed, clear], treat)
    care = next(x for x in detail(c, clear).care if x.what is CareKind.TREAT).care_id
    yield "care.change", lambda: c.care.change(care, replace(treat, note="n"))
    yield "care.remove", lambda: c.care.remove([care])
    bloom = BloomDraft(None, late, None, 3)
    yield "blooms.add", lambda: c.blooms.add(feed, bloom)
    yield "blooms.change", lambda: c.blooms.change(1, replace(bloom, flowers=4))
    yield "blooms.remove", lambda: c.blooms.remove(1)
    salt = TinDraft("Salt", "0-0-0 + 9.8 Mg + 13 S")
    yield "mixing.add_tin", lambda: c.mixing.add_tin(salt)
    yield (
        "mixing.change_tin",
        lambda: c.mixing.change_tin(2, replace(salt, name="Epsom", in_use=False)),
    )
    yield "mixing.use_tin", lambda: c.mixing.use_tin(1)
    yield "waters.add", lambda: c.waters.add(WaterDraft("tap", 0.5, name="Tap"))
    yield (
        "waters.change",
        lambda: c.waters.change(2, WaterDraft("tap", 0.6, name="Tap", in_use=False)),
    )
    yield "waters.use", lambda: c.waters.use(1)
    recipe = RecipeDraft("House", (PartDraft(1, 1.0),))
    yield "recipes.add", lambda: c.recipes.add(recipe)
    yield "recipes.change", lambda: c.recipes.change(1, replace(recipe, name="Own"))
    yield "recipes.copy", lambda: c.recipes.copy(1)
    yield "recipes.use", lambda: c.recipes.use(2)
    yield "recipes.remove", lambda: c.recipes.remove(1)
    bottle = StockWanted("Bottle", ((2, 20.0),), volume_l=0.5)
    yield "stocks.make", lambda: c.stocks.make(bottle)
    yield "stocks.change", lambda: c.stocks.change(1, replace(bottle, volume_l=0.6))
    yield "stocks.empty", lambda: c.stocks.empty(1)
    entry = EntryDraft(Good(Sort.TIN, 1), TODAY, What.COUNTED, 100.0)
    yield "stocktaking.write", lambda: c.stocktaking.write(entry)
    yield (
        "stocktaking.change",
        lambda: c.stocktaking.change(1, replace(entry, amount=90.0)),
    )
    yield "stocktaking.remove", lambda: c.stocktaking.remove([1])
    yield "stocktaking.set_currency", lambda: c.stocktaking.set_currency("EUR")
    yield "mixing.remove_tin", lambda: c.mixing.remove_tin(2)
    yield "waters.remove", lambda: c.waters.remove(2)
    spoon = Tool(ToolKind.SPOON, "spoon", 0.5, None, ((1, 4.0),))
    yield "measures.add_tool", lambda: c.measures.add_tool(spoon)
    yield (
        "measures.change_tool",
        lambda: c.measures.change_tool(1, replace(spoon, name="big")),
    )
    yield "measures.remove_tool", lambda: c.measures.remove_tool(1)
    jug = Vessel(VesselKind.JUG, "Jug", 3.0)
    yield "measures.add_vessel", lambda: c.measures.add_vessel(jug)
    yield (
        "measures.change_vessel",
        lambda: c.measures.change_vessel(1, replace(jug, volume_l=4.0)),
    )
    yield "measures.remove_vessel", lambda: c.measures.remove_vessel(1)
    read = MeterDraft(TODAY, "A", 100, 0.9)
    yield "meter.write", lambda: c.meter.write(read)
    yield "meter.change", lambda: c.meter.change(1, replace(read, read_ms_per_cm=1.0))
    yield "meter.remove", lambda: c.meter.remove(1)
    yield "hindsight.mark", lambda: c.hindsight.mark(feed, TODAY, Verdict.KEEP_DRY)
    yield "hindsight.unmark", lambda: c.hindsight.unmark(feed, TODAY)
    yield "views.add", lambda: c.views.add(ViewDraft("Warm"))
    yield "views.change", lambda: c.views.change(1, ViewDraft("Warm", find="x"))
    yield "views.rename", lambda: c.views.rename(1, "Hot")
    yield "views.remove", lambda: c.views.remove(1)
    field = {"light_low_fc": "2100"}
    yield "kinds.correct", lambda: c.kinds.correct("cattleya", field)
    yield "kinds.restore", lambda: c.kinds.restore("cattleya", *field)
    yield "kinds.correct_for_plant", lambda: c.kinds.correct_for_plant(feed, field)
    yield "kinds.restore_for_plant", lambda: c.kinds.restore_for_plant(feed, *field)
    house = c.settings.house()
    yield (
        "settings.save_house",
        lambda: c.settings.save_house(replace(house, latitude=51.0)),
    )
    yield "settings.set_word", lambda: c.settings.set_word("currency", "CHF")
    yield "calendar.done", lambda: c.calendar.done(job(c))
    yield "calendar.reopen", lambda: c.calendar.reopen(job(c, closed=True))
    yield "calendar.let_go", lambda: c.calendar.let_go(job(c))


def detail(c: Collection, plant_id: int) -> Any:
    return c.day.detail(plant_id, TODAY)


def need(found: int | None) -> int:
    assert found is not None
    return found


def job(c: Collection, *, closed: bool = False) -> Any:
    lines = c.calendar.jobs(TODAY - 30 * DAY, TODAY + 90 * DAY)
    return next(
        each
        for each in lines
        if not each.settled
        and not each.forecast
        and (each.closed is not None) == closed
    )


def rows(collection: Collection) -> Rows:
    with collection.ledger.reading() as session:
        return {
            name: sorted(tuple(row) for row in session.execute(select(table.__table__)))
            for name, table in RECORDED.items()
        }


def written_by(collection: Collection) -> set[str]:
    """Give every method of a service that says it wrote something."""
    return {
        f"{name}.{method}"
        for name, value in vars(Collection).items()
        if isinstance(value, cached_property)
        for method, made in inspect.getmembers(
            type(getattr(collection, name)), inspect.isfunction
        )
        if not method.startswith("_")
        and "Written" in str(inspect.signature(made).return_annotation)
    }


def test_every_write_is_one_action_undone_and_done_again_to_the_row(
    collection: Collection, bench: Bench, picture: Callable[..., Path]
) -> None:
    done: set[str] = set()
    for name, act in acts(collection, bench, picture):
        before, last = rows(collection), last_change(collection)
        act()
        after = rows(collection)
        assert after != before, name
        assert rows_that_differ(before, after) <= journalled(collection, last), name
        title = collection.history.view().undo
        assert title, name
        assert not re.search(r"None|_|\{|\}", title), (name, title)
        while rows(collection) != before:
            assert collection.history.undo(), name
        while collection.history.redo():
            pass
        assert rows(collection) == after, name
        done.add(name)
    assert done == written_by(collection) - OF_THE_HISTORY


def last_change(collection: Collection) -> int:
    with collection.ledger.reading() as session:
        return session.scalar(select(func.max(ChangeRow.id))) or 0


def journalled(collection: Collection, since: int) -> set[tuple[str, int]]:
    """Give the rows that changes after one name."""
    with collection.ledger.reading() as session:
        named = select(ChangeRow.table_name, ChangeRow.row_id)
        return {(a, b) for a, b in session.execute(named.where(ChangeRow.id > since))}


def rows_that_differ(before: Rows, after: Rows) -> set[tuple[str, object]]:
    return {
        (name, row[0]) for name in before for row in {*before[name]} ^ {*after[name]}
    }


def test_no_service_writes_rows_beside_the_journal() -> None:
    found = set()
    for path in SERVICES.glob("*.py"):
        tree = ast.parse(path.read_text("utf-8"))
        for node in ast.walk(tree):
            imported = isinstance(node, ast.ImportFrom) and node.module == "sqlalchemy"
            names = {each.name for each in node.names} if imported else set()  # type: ignore[attr-defined]
            beside = isinstance(node, ast.Attribute) and node.attr == "unrecorded"
            silent = (
                isinstance(node, ast.keyword)
                and node.arg == "remember"
                and isinstance(node.value, ast.Constant)
            )
            if names & {"insert", "update", "delete"} or beside or silent:
                found.add(path.name)
    assert found == set(BESIDE_THE_JOURNAL)
