"""Meter readings: kept beside what was to be expected, changed, removed, undone."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace

from growdesk.domain.errors import InputError
from growdesk.domain.facts import Look, NewGrowths, RootTips
from growdesk.domain.measuring import Tool, ToolKind
from growdesk.domain.meter import Check, Standing
from growdesk.services.meter import CHART_DAYS, answer, answer_to, jug_of
from growdesk.services.meter_values import JugToRead, MeterDraft, MeterView
from growdesk.services.values import Changed, PlantDraft, TinDraft

if TYPE_CHECKING:
    from growdesk.services.collection import Collection
    from tests.services.conftest import Bench


def draft(on: date, **given: object) -> MeterDraft:
    made = MeterDraft(on, "A", 150, 0.62, None, 0.5, 0.7)
    return replace(made, **given)


def only(collection: Collection) -> MeterView:
    (view,) = collection.meter.all()
    return view


def test_a_days_jugs_with_what_they_should_read(
    collection: Collection, bench: Bench, today: date
) -> None:
    del bench
    (jug,) = collection.meter.jugs(today)
    (mixed,) = collection.day.view(today).mix.jugs
    assert (jug.letter, jug.strength_ppm_n) == ("A", mixed.strength_ppm_n)
    assert mixed.spare_l > 0
    assert jug.volume_l == mixed.volume_l + mixed.spare_l
    assert jug.expected is not None
    assert jug.expected.low_ms_per_cm == mixed.ec_low_ms_per_cm
    assert jug.expected.ec_ms_per_cm is None
    assert jug.expected.water_ms_per_cm == 0
    assert jug.expected.why == mixed.ec_why


def test_a_jug_of_salts_tells_its_nitrogen(
    collection: Collection, bench: Bench, today: date
) -> None:
    del bench
    salt = collection.mixing.add_tin(TinDraft("Salt", "13.8-0-46.5", formula="KNO3"))
    collection.mixing.use_tin(salt.ids[0])
    (jug,) = collection.meter.jugs(today)
    assert jug.expected is not None
    assert jug.gives_ppm_n is not None
    ec = jug.expected.ec_ms_per_cm
    assert ec is not None
    found = answer_to(jug, ec, None)
    assert found.compared is not None
    assert found.compared.standing is Standing.IN_BAND
    assert found.compared.ppm_n == pytest.approx(jug.gives_ppm_n)
    assert found.checks == ()
    half = answer(jug, f"{ec / 2:.2f}", None)
    assert half.compared is not None
    assert half.compared.checks[0].check is Check.TDS_SCALE
    assert half.checks


def test_where_the_ladder_goes_first_its_jugs_are_held_against_it(
    collection: Collection, bench: Bench, today: date
) -> None:
    for tag, ppm_n, litres in (("L1", 300.0, 4.0), ("L2", 60.0, 1.0)):
        plant = PlantDraft(
            tag,
            "Cattleya",
            "cattleya",
            place_id=bench.place,
            pot_volume_l=4 * litres,
            full_strength_ppm_n=ppm_n,
        )
        look = Look(today, NewGrowths(extending=1), root_tips=RootTips.RUNNING)
        collection.looks.record(collection.plants.add(plant).ids[0], look)
    collection.measures.add_tool(Tool(ToolKind.SCALE, "Kitchen scale", 1.0))
    mix = collection.day.view(today).mix
    assert mix.ladder_first
    jugs = collection.meter.jugs(today)
    letters = [jug.letter for jug in mix.jugs]
    assert [jug.letter for jug in jugs] == letters * 2
    count = len(letters)
    assert [jug.is_diluted for jug in jugs] == [True] * count + [False] * count
    weak, weak_alone = jugs[count - 1], jugs[-1]
    assert weak.expected is not None
    assert weak.gives_ppm_n == pytest.approx(mix.ladder_jugs[-1].gives_ppm_n)
    assert weak.expected == mix.ladder_jugs[-1].ec
    assert weak_alone.expected != weak.expected


def test_a_jug_that_nothing_is_known_of() -> None:
    jug = JugToRead("A", 150, 1.0, "", None, None, None)
    found = answer(jug, "1250 uS/cm", None)
    assert found.compared is None
    assert found.said == (
        "1.25 mS/cm at 25 °C; nothing is known of this jug to hold it against.",
    )


def test_a_reading_is_kept_with_what_was_expected(
    collection: Collection, today: date
) -> None:
    done = collection.meter.write(draft(today, temperature_c=20.0, note=" stirred "))
    assert done.changed == Changed.SHELF
    assert done.title == "Jug A: 0.62 mS/cm read"
    view = only(collection)
    assert view.reading_id == done.ids[0]
    assert view.draft == draft(today, temperature_c=20.0, note="stirred")
    assert view.ec_ms_per_cm == pytest.approx(0.62 / 0.9)
    assert view.standing is Standing.IN_BAND
    assert jug_of(view).expected is not None


def test_where_kept_readings_lie(collection: Collection, today: date) -> None:
    for read in (0.40, 0.60, 0.80):
        collection.meter.write(draft(today, read_ms_per_cm=read))
    collection.meter.write(
        draft(today, expected_low_ms_per_cm=None, expected_high_ms_per_cm=None)
    )
    found = [(view.standing, view.off_ms_per_cm) for view in collection.meter.all()]
    assert found == [
        (None, 0.0),
        (Standing.ABOVE, pytest.approx(0.1)),
        (Standing.IN_BAND, 0.0),
        (Standing.BELOW, pytest.approx(0.1)),
    ]


def test_changed_removed_and_undone(collection: Collection, today: date) -> None:
    reading_id = collection.meter.write(draft(today)).ids[0]
    collection.meter.change(reading_id, draft(today, read_ms_per_cm=0.9))
    assert only(collection).standing is Standing.ABOVE
    collection.history.undo()
    assert only(collection).standing is Standing.IN_BAND
    collection.meter.remove(reading_id)
    assert collection.meter.all() == ()
    collection.history.undo()
    assert only(collection).draft == draft(today)
    collection.history.undo()
    assert collection.meter.all() == ()


@pytest.mark.parametrize(
    ("given", "field"),
    [
        ({"on": date(2100, 1, 1)}, "on"),
        ({"letter": " "}, "letter"),
        ({"letter": "ABCDE"}, "letter"),
        ({"strength_ppm_n": 0}, "strength_ppm_n"),
        ({"read_ms_per_cm": 21.0}, "reading"),
        ({"read_ms_per_cm": float("nan")}, "reading"),
        ({"temperature_c": 45.0}, "temperature"),
        ({"expected_low_ms_per_cm": 2.0}, "expected"),
        ({"recipe_id": 99}, "recipe"),
        ({"note": "x" * 100_000}, "note"),
    ],
)
def test_readings_refused(
    collection: Collection, today: date, given: dict[str, object], field: str
) -> None:
    with pytest.raises(InputError) as refused:
        collection.meter.write(replace(draft(today), **given))
    assert refused.value.field == field
    assert collection.meter.all() == ()


def test_a_reading_that_is_gone(collection: Collection, today: date) -> None:
    with pytest.raises(InputError, match="not there any more"):
        collection.meter.change(7, draft(today))
    with pytest.raises(InputError, match="not there any more"):
        collection.meter.remove(7)


def test_the_chart_holds_a_year_oldest_first(
    collection: Collection, today: date
) -> None:
    for days in (0, CHART_DAYS, CHART_DAYS + 1, 20):
        collection.meter.write(draft(today - timedelta(days=days)))
    chart = collection.meter.chart(today)
    assert chart.since == today - timedelta(days=CHART_DAYS)
    assert [(today - view.draft.on).days for view in chart.readings] == [
        CHART_DAYS,
        20,
        0,
    ]
    earlier = collection.meter.chart(today - timedelta(days=1))
    assert [(today - view.draft.on).days for view in earlier.readings] == [
        CHART_DAYS + 1,
        CHART_DAYS,
        20,
    ]
