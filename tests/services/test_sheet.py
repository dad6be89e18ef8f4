"""The week's sheet as facts: its rounds, its letters, and that the screen agrees."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace

from growdesk.domain import cautions
from growdesk.domain.explain import Judgement, Reason, Role, Strength
from growdesk.domain.facts import (
    CareKind,
    Flowering,
    House,
    Leaves,
    Look,
    NewGrowths,
    Pot,
    RootTips,
    Verdict,
    Water,
)
from growdesk.domain.pouring import rounded_l
from growdesk.domain.recheck import Recheck
from growdesk.services import sheet_words
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.demo import lay_demo
from growdesk.services.sheet_jugs import jug_for, with_week_letters
from growdesk.services.values import (
    DoneKind,
    Jug,
    MixPlan,
    PlaceDraft,
    PlantDraft,
    TinDraft,
    WaterDraft,
)
from growdesk.services.week import week_days

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from growdesk.services.sheet_values import Sheet, SheetLine

MONDAY = date(2026, 5, 11)
WEDNESDAY = date(2026, 5, 13)
SATURDAY = date(2026, 5, 16)
SUNDAY = date(2026, 5, 17)
WEEKDAYS = (2, 5)


@pytest.fixture
def clock() -> FixedClock:
    return FixedClock(MONDAY)


@pytest.fixture
def collection(tmp_path: Path, clock: FixedClock) -> Iterator[Collection]:
    """Give a collection of five plants, one for each verdict but flush."""
    opened = Collection.open(tmp_path / "mine", clock, create=True)
    place = opened.places.add(PlaceDraft(name="South sill")).ids[0]
    opened.mixing.add_tin(TinDraft("Green tin", "20-20-20"))
    opened.waters.add(WaterDraft("rain", 0.04))
    for bench, (tag, kind, look) in enumerate(
        (
            ("C3", "cattleya", _look(extending=1, tips=RootTips.RUNNING)),
            ("K7", "catasetum", _bare()),
            ("C9", "cattleya", _look(extending=0, tips=RootTips.NONE)),
            ("P1", "phalaenopsis", None),
        ),
        start=1,
    ):
        draft = PlantDraft(tag, f"{kind.title()} hybrid", kind, place, bench)
        plant_id = opened.plants.add(_with_pot(draft)).ids[0]
        if look is not None:
            opened.looks.record(plant_id, look)
    yield opened
    opened.close()


def _with_pot(draft: PlantDraft) -> PlantDraft:
    return PlantDraft(
        draft.tag,
        draft.name,
        draft.kind,
        draft.place_id,
        draft.bench,
        pot_volume_l=1.0,
    )


def _look(*, extending: int, tips: RootTips) -> Look:
    return Look(
        on=date(2026, 5, 10),
        new_growths=NewGrowths(emerging=0, extending=extending, maturing=0),
        root_tips=tips,
        flowering=frozenset({Flowering.OPEN}),
        pot=Pot.DRY,
        health=frozenset(),
    )


def _bare() -> Look:
    return Look(
        on=date(2026, 5, 10),
        new_growths=NewGrowths(emerging=1),
        leaves=Leaves.LEAFLESS,
        longest_new_root_mm=40.0,
    )


def line_of(sheet: Sheet, number: int, tag: str) -> SheetLine:
    """Give a plant's line in a round."""
    lines = [line for place in sheet.rounds[number].places for line in place.lines]
    return next(line for line in lines if line.tag == tag)


def plant_id(collection: Collection, tag: str) -> int:
    found = collection.plants.find(tag)
    assert found is not None
    return found


# Which days


@pytest.mark.parametrize(
    ("on", "today", "before", "rounds"),
    [
        (MONDAY, MONDAY, (), (WEDNESDAY, SATURDAY)),
        (SUNDAY, MONDAY, (), (WEDNESDAY, SATURDAY)),
        (WEDNESDAY, WEDNESDAY, (), (WEDNESDAY, SATURDAY)),
        (MONDAY, date(2026, 5, 14), (), (SATURDAY,)),
        (SUNDAY, SUNDAY, (), (SUNDAY,)),
        (MONDAY, SUNDAY, (), (SUNDAY,)),
        (SATURDAY, date(2026, 5, 20), (), (WEDNESDAY, SATURDAY)),
        (WEDNESDAY, date(2026, 5, 9), (date(2026, 5, 9),), (WEDNESDAY, SATURDAY)),
        (WEDNESDAY, date(2025, 5, 9), (), (WEDNESDAY, SATURDAY)),
    ],
)
def test_the_weeks_rounds(
    on: date, today: date, before: tuple[date, ...], rounds: tuple[date, ...]
) -> None:
    days = week_days(on, today, WEEKDAYS)
    assert (days.begins, days.before, days.rounds) == (MONDAY, before, rounds)


def test_a_week_without_watering_days_has_the_day_asked_for() -> None:
    assert week_days(WEDNESDAY, MONDAY, ()).rounds == (WEDNESDAY,)


# What a round says


def test_fed_wednesday_clear_saturday_because_of_wednesday(
    collection: Collection,
) -> None:
    sheet = collection.sheet.week(MONDAY)
    assert [each.on for each in sheet.rounds] == [WEDNESDAY, SATURDAY]
    wednesday, saturday = (line_of(sheet, number, "C3") for number in (0, 1))
    assert (wednesday.verdict, wednesday.letter) == (Verdict.FEED, "A")
    assert (saturday.verdict, saturday.water) == (Verdict.CLEAR_WATER, Water.IF_DRY)
    assert saturday.letter is None
    assert saturday.reason == "fed Wednesday 13 May"
    assert sheet.rounds[0].assumes is None
    assert sheet.rounds[1].assumes == "Holds if Wednesday 13 May was done."


def test_head_and_cautions(collection: Collection) -> None:
    collection.settings.set_word("collection", "Orchids of Lower Marling")
    sheet = collection.sheet.week(SUNDAY)
    assert sheet.collection == "Orchids of Lower Marling"
    assert sheet.week_of == MONDAY
    assert sheet.made_at == collection.clock.now()
    assert sheet.cautions_short == tuple(cautions.SHORT)
    assert sheet.cautions_full == tuple(cautions.FULL)


def test_a_collection_without_a_name_has_its_folders(collection: Collection) -> None:
    assert collection.sheet.week(MONDAY).collection == "mine"


def test_keep_dry_stands_first_and_in_its_bench_position(
    collection: Collection,
) -> None:
    first = collection.sheet.week(MONDAY).rounds[0]
    assert [line.tag for line in first.keep_dry] == ["K7"]
    (place,) = first.places
    assert [line.tag for line in place.lines] == ["C3", "K7", "C9", "P1"]
    assert first.keep_dry[0].place == place.name == "South sill"
    assert first.keep_dry[0].volume_l is None


def test_look_first_says_what_holds_and_how_to_decide(collection: Collection) -> None:
    line = line_of(collection.sheet.week(MONDAY), 0, "P1")
    jug = line_of(collection.sheet.week(MONDAY), 0, "C3")
    assert line.verdict is Verdict.LOOK_FIRST
    assert line.until_looked == "clear, if light"
    assert line.redecide is not None
    assert "new leaf" in line.redecide
    assert f"jug {jug.letter} {jug.strength_ppm_n:.0f} ppm N" in line.redecide
    assert line_of(collection.sheet.week(MONDAY), 0, "C3").redecide is None


def test_the_strength_beside_the_letter_is_the_jugs(collection: Collection) -> None:
    sheet = collection.sheet.week(MONDAY)
    (jug,) = sheet.rounds[0].mix.jugs
    assert line_of(sheet, 0, "C3").strength_ppm_n == jug.strength_ppm_n
    assert jug.doses
    assert sheet.rounds[0].mix.water == "rain"


def test_order_of_work_names_looks_dry_pots_and_suspects(
    collection: Collection, clock: FixedClock
) -> None:
    clock.day = WEDNESDAY
    sick = _look(extending=1, tips=RootTips.RUNNING)
    sick = Look(
        on=WEDNESDAY,
        new_growths=sick.new_growths,
        root_tips=sick.root_tips,
        health=frozenset({"pests"}),  # type: ignore[arg-type]
    )
    collection.looks.record(plant_id(collection, "C9"), sick)
    steps = collection.sheet.week(WEDNESDAY).rounds[0].order_of_work
    assert steps[0].startswith("Look first at P1")
    assert "Dry when looked at: C3." in steps[1]
    assert steps[2].startswith("Weak before strong: jug A ")
    assert steps[-1].startswith("Suspect plants last of all: C9. A clean blade ")


# What is on record


def test_a_plant_passed_by_is_fed_the_next_round(
    collection: Collection, clock: FixedClock
) -> None:
    clock.day = WEDNESDAY
    collection.day.pass_by([plant_id(collection, "C3")], WEDNESDAY)
    sheet = collection.sheet.week(WEDNESDAY)
    done = line_of(sheet, 0, "C3").done
    assert done is not None
    assert done.kind is DoneKind.PASSED_BY
    assert line_of(sheet, 1, "C3").verdict is Verdict.FEED


def test_what_was_given_stands_over_what_was_planned(
    collection: Collection, clock: FixedClock
) -> None:
    clock.day = WEDNESDAY
    chosen = [plant_id(collection, "C3")]
    collection.day.give(chosen, WEDNESDAY, CareKind.CLEAR_WATER, None)
    sheet = collection.sheet.week(WEDNESDAY)
    done = line_of(sheet, 0, "C3").done
    assert done is not None
    assert done.what is CareKind.CLEAR_WATER
    assert line_of(sheet, 1, "C3").verdict is Verdict.FEED


def test_a_past_week_goes_by_what_was_ticked(
    collection: Collection, clock: FixedClock
) -> None:
    clock.day = WEDNESDAY
    collection.day.tick([plant_id(collection, "C9")], WEDNESDAY)
    clock.day = date(2026, 5, 20)
    sheet = collection.sheet.week(WEDNESDAY)
    assert sheet.rounds[1].assumes == "Goes by what was ticked on Wednesday 13 May."
    assert line_of(sheet, 1, "C3").verdict is Verdict.FEED


def test_a_past_round_that_nobody_ticked_was_missed_and_changes_the_rest(
    collection: Collection, clock: FixedClock
) -> None:
    clock.day = date(2026, 5, 20)
    sheet = collection.sheet.week(WEDNESDAY)
    assert sheet.rounds[1].assumes == "Nothing is on record for Wednesday 13 May."
    assert line_of(sheet, 1, "C3").verdict is Verdict.FEED


def test_next_week_takes_this_weeks_rounds_as_done(collection: Collection) -> None:
    sheet = collection.sheet.week(MONDAY + timedelta(days=7))
    assert sheet.rounds[0].assumes == (
        "Holds if Wednesday 13 May and Saturday 16 May were done."
    )
    assert line_of(sheet, 0, "C3").verdict is Verdict.FEED


def test_making_a_sheet_writes_nothing(collection: Collection) -> None:
    before = (collection.history.view(), collection.day.view(WEDNESDAY))
    collection.sheet.week(MONDAY)
    assert (collection.history.view(), collection.day.view(WEDNESDAY)) == before


def test_an_empty_collection_has_a_sheet(tmp_path: Path) -> None:
    empty = Collection.open(tmp_path / "new", FixedClock(MONDAY), create=True)
    sheet = empty.sheet.week(MONDAY)
    empty.close()
    assert [(each.on, each.places) for each in sheet.rounds] == [
        (WEDNESDAY, ()),
        (SATURDAY, ()),
    ]


# The demo, through the year


@pytest.fixture(scope="module", params=["2026-01-07", "2026-05-13", "2026-10-14"])
def demo(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Collection]:
    on = date.fromisoformat(request.param)
    folder = lay_demo(tmp_path_factory.mktemp("demo") / "collection", on)
    opened = Collection.open(folder, FixedClock(on))
    yield opened
    opened.close()


def test_a_round_dosed_from_a_stock_bottle_has_its_cautions(demo: Collection) -> None:
    sheet = demo.sheet.week(demo.clock.today())
    doses = [d for r in sheet.rounds for jug in r.mix.jugs for d in jug.doses]
    assert any(dose.bottle for dose in doses)
    assert sheet.cautions_full == (*cautions.FULL, *cautions.STOCKS)


def test_the_sheet_says_what_the_screen_says(demo: Collection) -> None:
    today = demo.clock.today()
    first = demo.sheet.week(today).rounds[0]
    view = demo.day.view(today)
    assert first.on == view.on
    assert [line for place in first.places for line in place.lines] != []
    assert [
        (line.tag, line.verdict, line.water, line.letter, line.volume_l, line.done)
        for place in first.places
        for line in place.lines
    ] == [
        (line.tag, line.verdict, line.water, line.letter, line.volume_l, line.done)
        for line in view.lines
    ]
    assert first.mix.ladder == view.mix.ladder
    assert [(j.letter, j.strength_ppm_n, j.doses) for j in first.mix.jugs] == [
        (j.letter, j.strength_ppm_n, j.doses) for j in view.mix.jugs
    ]


def test_one_letter_is_one_strength_all_week(demo: Collection) -> None:
    sheet = demo.sheet.week(demo.clock.today())
    jugs = [jug for each in sheet.rounds for jug in each.mix.jugs]
    contents = {(jug.recipe_id, jug.strength_ppm_n) for jug in jugs}
    assert len({jug.letter for jug in jugs}) == len(contents)
    strengths = {jug.letter: jug.strength_ppm_n for jug in jugs}
    for each in sheet.rounds:
        for place in each.places:
            for line in place.lines:
                if line.letter is not None:
                    assert strengths[line.letter] == line.strength_ppm_n


def test_a_reason_is_six_words_at_most(demo: Collection) -> None:
    sheet = demo.sheet.week(demo.clock.today())
    for each in sheet.rounds:
        for place in each.places:
            for line in place.lines:
                assert 1 <= len(line.reason.split()) <= 6


def test_ticking_the_round_leaves_saturdays_verdicts_as_the_sheet_had_them(
    tmp_path: Path,
) -> None:
    clock = FixedClock(WEDNESDAY)
    demo = Collection.open(lay_demo(tmp_path / "demo", WEDNESDAY), clock)
    foreseen = demo.sheet.week(WEDNESDAY).rounds[1]
    planned = [
        line.plant_id
        for line in demo.day.view(WEDNESDAY).lines
        if line.verdict not in (Verdict.KEEP_DRY, Verdict.LOOK_FIRST)
    ]
    demo.day.tick(planned, WEDNESDAY)
    clock.day = SATURDAY
    seen = demo.day.view(SATURDAY).lines
    demo.close()
    assert [
        (line.tag, line.verdict) for place in foreseen.places for line in place.lines
    ] == [(line.tag, line.verdict) for line in seen]


# Jugs


def _jug(letter: str, strength: int, **more: object) -> Jug:
    values: dict[str, object] = {
        "volume_l": 1.0,
        "spare_l": 0.05,
        "tags": (f"T{strength}",),
        **more,
    }
    return Jug(
        letter=letter,
        strength_ppm_n=strength,
        elements_mg_per_l=(),
        ec_low_ms_per_cm=None,
        ec_high_ms_per_cm=None,
        warnings=(),
        **values,  # type: ignore[arg-type]
    )


def _mix(*jugs: Jug, ladder: tuple[str, ...] = ()) -> MixPlan:
    return MixPlan(jugs, ladder, (), (), 0.0, 0.0, None, None)


def test_letters_run_on_over_the_week_and_through_the_ladder() -> None:
    first, second = with_week_letters(
        [
            _mix(_jug("A", 120), _jug("B", 60)),
            _mix(
                _jug("A", 90),
                _jug("B", 60),
                ladder=("Mix A little in jug A, keep it for jug B.", "Jug B, done."),
            ),
        ]
    )
    assert [jug.letter for jug in first.jugs] == ["A", "B"]
    assert [jug.letter for jug in second.jugs] == ["C", "B"]
    assert second.ladder == (
        "Mix A little in jug C, keep it for jug B.",
        "Jug B, done.",
    )


def test_letters_that_change_places_are_not_changed_twice() -> None:
    _, second = with_week_letters(
        [
            _mix(_jug("A", 60)),
            _mix(_jug("A", 90), _jug("B", 60), ladder=("Jug A, then jug B.",)),
        ]
    )
    assert second.ladder == ("Jug B, then jug A.",)


@pytest.mark.parametrize(
    ("volume_l", "expected"),
    [(0.0, 0.05), (0.02, 0.05), (0.074, 0.05), (0.075, 0.1), (0.375, 0.4), (2.0, 2.0)],
)
def test_volumes_are_rounded_to_fifty_millilitres(
    volume_l: float, expected: float
) -> None:
    assert rounded_l(volume_l) == pytest.approx(expected)


@pytest.mark.parametrize(
    ("wish", "ceiling", "expected"),
    [
        (110.0, 400.0, "A"),
        (70.0, 400.0, "B"),
        (95.0, 400.0, "B"),
        (120.0, 100.0, "B"),
        (40.0, 400.0, None),
    ],
)
def test_the_jug_for_a_plant_not_counted_in(
    wish: float, ceiling: float, expected: str | None
) -> None:
    jugs = [_jug("A", 120), _jug("B", 60)]
    found = jug_for(Strength(wish, ceiling, ()), jugs, House())
    assert (found and found.letter) == expected


# Words


def _judged(verdict: Verdict, water: Water, ppm_n: float | None = None) -> Judgement:
    strength = None if ppm_n is None else Strength(ppm_n, 400.0, ())
    reason = Reason("x", Role.DECIDES, "still-no-growth-no-tips", {})
    return Judgement("T", "", MONDAY, verdict, water, "x", strength, None, (reason,))


NOTHING = _judged(Verdict.CLEAR_WATER, Water.IF_DRY)
FULL = _judged(Verdict.FEED, Water.THROUGH, 120.0)
HALF = _judged(Verdict.FEED, Water.THROUGH, 60.0)
WEAK = _judged(Verdict.FEED, Water.THROUGH, 30.0)
FLUSH = _judged(Verdict.FLUSH, Water.THROUGH)
DRY = _judged(Verdict.KEEP_DRY, Water.NONE)


@pytest.mark.parametrize(
    ("seen", "expected"),
    [
        (
            Recheck(NOTHING, FULL, FULL, FULL, by_leaf=False),
            "Root tip or new growth seen → jug A 120 ppm N; nothing → clear, if light.",
        ),
        (
            Recheck(NOTHING, FULL, HALF, FULL, by_leaf=True),
            (
                "Root tip seen → jug A 120 ppm N; only a new leaf → jug B 60 ppm N; "
                "nothing → clear, if light."
            ),
        ),
        (
            Recheck(NOTHING, FULL, NOTHING, FULL, by_leaf=False),
            "Root tip seen → jug A 120 ppm N; none → clear, if light.",
        ),
        (
            Recheck(NOTHING, NOTHING, WEAK, FULL, by_leaf=False),
            "New growth seen → feed next time, 30 ppm N; none → clear, if light.",
        ),
        (
            Recheck(NOTHING, NOTHING, NOTHING, FLUSH, by_leaf=False),
            "Root tips and new growth seen → flush; less → clear, if light.",
        ),
        (Recheck(DRY, DRY, DRY, DRY, by_leaf=False), "Whatever shows → keep dry."),
        (
            Recheck(DRY, DRY, DRY, DRY, by_leaf=False, rooted=FULL, rooted_mm=80.0),
            "New roots of 8 cm → jug A 120 ppm N; less → keep dry.",
        ),
        (
            Recheck(DRY, DRY, DRY, DRY, by_leaf=False, rooted=DRY, rooted_mm=80.0),
            "Whatever shows → keep dry.",
        ),
    ],
)
def test_the_line_to_decide_by(seen: Recheck, expected: str) -> None:
    jugs = [_jug("A", 120), _jug("B", 60)]

    def suits(judgement: Judgement) -> Jug | None:
        strength = judgement.strength
        return None if strength is None else jug_for(strength, jugs, House())

    assert sheet_words.redecide(seen, suits) == expected


def test_what_a_round_goes_by() -> None:
    assert sheet_words.assumed([], []) is None
    days = [MONDAY, WEDNESDAY, SATURDAY]
    assert sheet_words.assumed(days, []) == (
        "Holds if Monday 11 May, Wednesday 13 May and Saturday 16 May were done."
    )
    assert sheet_words.assumed([SATURDAY], [WEDNESDAY]) == (
        "Holds if Saturday 16 May was done. "
        "Goes by what was ticked on Wednesday 13 May."
    )
    assert sheet_words.assumed([], [], [MONDAY, WEDNESDAY]) == (
        "Nothing is on record for Monday 11 May and Wednesday 13 May."
    )


def test_newcomers_go_after_the_others_and_before_the_suspects(
    collection: Collection, clock: FixedClock
) -> None:
    clock.day = WEDNESDAY
    for tag, until in (("C3", WEDNESDAY), ("C9", WEDNESDAY - timedelta(days=1))):
        number = plant_id(collection, tag)
        draft = replace(collection.plants.get(number), quarantine_until=until)
        collection.plants.change(number, draft)
    steps = collection.sheet.week(WEDNESDAY).rounds[0].order_of_work
    assert steps[-1] == "Newcomers after all the others: C3."


def test_long_lists_of_tags_are_counted() -> None:
    step = sheet_words.suspect_step([f"T{number}" for number in range(40)])
    assert "T22, T23 and 16 more. A clean blade for each plant" in step
