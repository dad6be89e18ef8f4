"""What would change a verdict: few sentences, settled, and each of them true."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, given, settings
from msgspec.structs import replace

from growdesk.domain.change import would_change
from growdesk.domain.facts import (
    CareKind,
    Flowering,
    Health,
    House,
    Leaves,
    Look,
    NewGrowths,
    NewLeaf,
    Overrule,
    Place,
    Plant,
    RootTips,
    Verdict,
)
from growdesk.domain.judging import decider_of
from tests.domain.builders import (
    EMERGING,
    EXTENDING,
    HOUSE,
    cases,
    day,
    did,
    fed,
    judged,
    kind_known,
    kind_of,
    look,
    moving,
    plant,
    still,
    warm_place,
)

if TYPE_CHECKING:
    from datetime import date

THREE = (fed("04-01"), fed("04-10"), fed("04-20"))
THREE_IN_WINTER = (fed("2025-11-01"), fed("2025-11-10"), fed("2025-11-20"))


def told(one: Plant, on: str | date, house: House = HOUSE) -> tuple[str, ...]:
    when = day(on) if isinstance(on, str) else on
    return would_change(one, kind_of(one), house, when, kind_known=kind_known(one))


def seen_today(one: Plant, on: str, **signs: object) -> Plant:
    """Give the plant looked at today, as last time but for some signs."""
    last = max(one.looks, key=lambda k: k.on)
    fresh = replace(last, on=day(on), lead_length_mm=None, **signs)
    return replace(one, looks=(*one.looks, fresh))


# -- by hand: the sentence is said, and the sight does it -----


@pytest.mark.parametrize(
    ("one", "on", "words", "sight"),
    [
        (
            plant("cattleya", still("01-20", Flowering.OPEN)),
            "01-24",
            "root tips",
            {"root_tips": RootTips.RUNNING},
        ),
        (
            plant("cattleya", still("01-20")),
            "01-24",
            "new growth",
            {"new_growths": EXTENDING},
        ),
        (
            plant("phalaenopsis", still("05-05", new_leaf=NewLeaf.NONE)),
            "05-08",
            "new leaf",
            {"new_leaf": NewLeaf.EXTENDING},
        ),
        (
            plant("phalaenopsis", still("05-05", new_leaf=NewLeaf.NONE)),
            "05-08",
            "spike",
            {"flowering": frozenset({Flowering.SPIKE})},
        ),
        (
            plant("cattleya", moving("03-05")),
            "05-08",
            "a look today",
            {},
        ),
        (
            plant("cattleya", moving("05-05", health=[Health.ROT])),
            "05-08",
            "clean of rot",
            {"health": frozenset()},
        ),
        (
            plant(
                "catasetum",
                look(
                    "04-05",
                    leaves=Leaves.LEAFLESS,
                    longest_new_root_mm=40,
                    new_growths=EMERGING,
                ),
            ),
            "04-08",
            "8 cm",
            {"longest_new_root_mm": 80.0, "root_tips": RootTips.RUNNING},
        ),
    ],
)
def test_a_sight_that_brings_feed_is_named_and_does(
    one: Plant, on: str, words: str, sight: dict[str, object]
) -> None:
    assert judged(one, on).verdict != "feed"
    sentences = told(one, on)
    assert [text for text in sentences if words in text and "fed" in text], sentences
    assert judged(seen_today(one, on, **sight), on).verdict == "feed"


def test_a_flush_given_brings_feed() -> None:
    one = plant("cattleya", moving("05-05"), care=THREE)
    assert judged(one, "05-08").verdict == "flush"
    assert [text for text in told(one, "05-08") if "flushed" in text]
    done = replace(one, care=(*THREE, did("05-07", CareKind.FLUSH)))
    assert judged(done, "05-08").verdict == "feed"


def test_salt_burn_where_a_spike_alone_draws_feed_names_the_flush() -> None:
    shown = still("05-05", Flowering.SPIKE, health=[Health.SALT_BURN])
    one = plant("oncidium", shown)
    assert judged(one, "05-08").verdict == "flush"
    assert [text for text in told(one, "05-08") if "flushed" in text]


def test_an_old_look_that_would_flush_names_what_is_to_be_done() -> None:
    one = plant("cattleya", moving("04-25"), care=(*THREE, fed("04-22")))
    assert judged(one, "05-20").verdict == "look-first"
    (sentence,) = told(one, "05-20")
    assert sentence == (
        "If a look today shows what the last one did, it would be flushed; feed "
        "follows."
    )
    assert judged(seen_today(one, "05-20"), "05-20").verdict == "flush"


def flushed(one: Plant, on: str) -> Plant:
    return replace(one, care=(*one.care, did(on, CareKind.FLUSH)))


@pytest.mark.parametrize(
    ("seen", "words"),
    [
        (still("01-29"), "more than 13 °C and root tips are seen running"),
        (moving("01-29"), "more than 13 °C"),
    ],
)
def test_a_flush_that_waits_is_not_offered_but_what_it_waits_for(
    seen: Look, words: str
) -> None:
    care = (fed("01-10"), fed("01-17"), fed("01-24"))
    one = plant("oncidium", seen, care=care, place=warm_place(11, "01-31"))
    assert judged(one, "01-31").rule == "too-cold"
    assert told(one, "01-31") == (
        f"If its place averages {words}, it would be flushed; feed follows.",
    )
    washed = flushed(one, "01-30")
    assert judged(washed, "01-31").verdict == "clear-water"
    warm = replace(one, place=warm_place(13.1, "01-31"))
    warm = seen_today(warm, "01-31", root_tips=RootTips.RUNNING)
    assert judged(warm, "01-31").verdict == "flush"
    assert judged(flushed(warm, "01-30"), "01-31").verdict == "feed"


def test_burnt_tips_of_a_plant_at_rest_are_flushed_once_it_grows() -> None:
    one = plant("oncidium", still("01-29", health=[Health.SALT_BURN]))
    assert judged(one, "01-31").rule == "not-growing"
    assert told(one, "01-31")[0] == (
        "If root tips are seen running, it would be flushed; feed follows."
    )
    grown = seen_today(one, "01-31", root_tips=RootTips.RUNNING)
    assert judged(grown, "01-31").verdict == "flush"


def test_a_trouble_seen_today_is_washed_out_by_the_flush_after_it() -> None:
    for signs in ({"health": [Health.SALT_BURN]}, {"runoff_ec_ms_per_cm": 1.8}):
        one = plant("cattleya", moving("05-08", **signs))
        assert judged(one, "05-08").verdict == "flush"
        assert told(one, "05-08") == ("If it has been flushed, it would be fed.",)
        assert judged(flushed(one, "05-08"), "05-09").verdict == "feed"


def test_water_too_salty_to_flush_with_asks_for_rain() -> None:
    one = plant("cattleya", moving("05-05", runoff_ec_ms_per_cm=2.5))
    hard = replace(HOUSE, water_ec_ms_per_cm=2.0)
    assert judged(one, "05-08", hard).verdict == "clear-water"
    assert told(one, "05-08", hard) == (
        "If it has been flushed with rain or RO water, it would be fed.",
    )
    assert judged(flushed(one, "05-06"), "05-08", hard).verdict == "feed"


# -- an old look of a kind that rests bare -----


@pytest.mark.parametrize("on", ["2027-01-15", "2027-04-15", "2027-05-10"])
def test_last_summers_leaf_and_root_feed_nothing_on_a_sight_of_today(on: str) -> None:
    shown = {"leaves": Leaves.FIRM, "longest_new_root_mm": 150.0}
    one = plant("catasetum", moving("2026-08-20", **shown))
    assert judged(one, on).verdict == "look-first"
    assert told(one, on) == ("If its longest new root measures 8 cm, it would be fed.",)
    for tips in (RootTips.NONE, RootTips.STARTING, RootTips.RUNNING):
        signs = {"leaves": None, "longest_new_root_mm": None, "root_tips": tips}
        assert judged(seen_today(one, on, **signs), on).verdict == "keep-dry"


def test_an_old_look_of_another_kind_may_still_hold() -> None:
    one = plant("cattleya", moving("03-05"))
    assert told(one, "05-08") == (
        "If a look today shows what the last one did, it would be fed.",
    )


def test_where_only_the_look_is_missing_it_says_what_one_would_bring() -> None:
    one = plant("dendrobium-nobile", moving("11-12"))
    assert judged(one, "12-20").verdict == "look-first"
    (sentence,) = told(one, "12-20")
    assert sentence == (
        "If a look today shows what the last one did, it would get clear water, if the "
        "pot is light."
    )
    got = judged(seen_today(one, "12-20"), "12-20")
    assert (got.verdict, got.water) == ("clear-water", "if-dry")


def test_leaves_that_go_leave_it_bare() -> None:
    gone = {"new_growths": NewGrowths(0, 0, 0, 1), "leaves": Leaves.YELLOWING}
    one = plant("catasetum", still("12-26", **gone))
    assert judged(one, "12-28").rule == "going-down"
    assert (
        "If a look finds it bare and nothing on the move, it would be kept dry."
        in told(one, "12-28")
    )
    bare = seen_today(one, "12-28", leaves=Leaves.LEAFLESS)
    assert judged(bare, "12-28").verdict == "keep-dry"


def test_the_day_after_an_interval_is_named() -> None:
    one = plant("cattleya", moving("05-05"), care=(fed("05-06"),))
    assert [text for text in told(one, "05-08") if "12 May" in text]


def test_the_end_of_a_rest_is_named() -> None:
    one = plant("laelia-rupicolous", still("03-20"))
    sentences = told(one, "03-22")
    assert [text for text in sentences if "root tips" in text]


def test_the_end_of_an_overrule_is_named() -> None:
    said_so = Overrule(Verdict.KEEP_DRY, "a friend waters it", day("05-20"))
    one = plant("cattleya", moving("05-05"), overrule=said_so)
    assert [text for text in told(one, "05-08") if "21 May" in text]


def test_a_warmer_place_is_named() -> None:
    one = plant("cattleya", moving("05-05"), place=warm_place(10, "05-08"))
    assert [text for text in told(one, "05-08") if "more than 13 °C" in text]


def test_soft_canes_wait_for_a_date_and_a_shoot() -> None:
    one = plant("dendrobium-nobile", still("02-12", Flowering.BUDS))
    sentences = told(one, "02-14")
    assert [text for text in sentences if "1 March" in text], sentences


def test_a_rest_without_nitrogen_is_not_ended_by_a_root_tip() -> None:
    one = plant("dendrobium-nobile", still("11-12"))
    for text in told(one, "11-14"):
        assert not text.startswith("If root tips")


def test_a_catasetum_is_not_told_that_a_root_tip_brings_feed() -> None:
    bare = look("04-05", leaves=Leaves.LEAFLESS, new_growths=EMERGING)
    for text in told(plant("catasetum", bare), "04-08"):
        assert "root tips are seen" not in text


def test_after_a_repot_a_new_growth_alone_brings_no_feed() -> None:
    """Only root tips seen since the repot do, not what was seen before it."""
    one = plant("cattleya", moving("05-05"), care=(did("05-06", CareKind.REPOT),))
    grown = seen_today(one, "05-08", new_growths=EXTENDING, root_tips=None)
    assert judged(grown, "05-08").rule == "just-repotted"
    sentences = told(one, "05-08")
    assert [text for text in sentences if "root tips" in text]
    assert not [text for text in sentences if text.startswith("If a new growth")]


def test_a_lead_that_stands_still_is_not_asked_to_be_seen_extending() -> None:
    """It was seen extending already; what is wanted is a longer one, or a root."""
    signs = {"new_growths": EXTENDING, "lead_length_mm": 60.0}
    one = plant("cattleya", still("05-01", **signs), still("05-22", **signs))
    assert judged(one, "05-24").rule == "not-growing"
    sentences = told(one, "05-24")
    assert "If a new growth is seen extending, it would be fed." not in sentences


def test_only_the_smallest_sights_are_named() -> None:
    """A root tip is enough once a leaf is out; 8 cm of root are not asked for."""
    one = plant("catasetum", still("10-10", leaves=Leaves.FIRM))
    grown = seen_today(one, "10-12", root_tips=RootTips.RUNNING)
    assert judged(grown, "10-12").verdict == "feed"
    assert not [text for text in told(one, "10-12") if "8 cm" in text]


# -- what stops feed -----


def test_what_would_stop_feed_is_named() -> None:
    sentences = told(plant("cattleya", moving("05-05")), "05-08")
    assert 1 <= len(sentences) <= 3
    assert [text for text in sentences if "no new growth and no root tips" in text]
    assert not [text for text in sentences if "°C" in text]
    assert all("would be fed" not in text for text in sentences)


def test_what_stops_feed_does() -> None:
    one = plant("cattleya", moving("05-05"))
    none = NewGrowths(0, 0, 0)
    still_now = seen_today(one, "05-08", new_growths=none, root_tips=RootTips.NONE)
    rotten = seen_today(one, "05-08", health=frozenset({Health.ROT}))
    cold = replace(one, place=Place(mean_temperature_c=kind_of(one).least_feed_c))
    verdicts = [judged(p, "05-08").verdict for p in (still_now, rotten, cold)]
    assert verdicts == [Verdict.CLEAR_WATER, Verdict.KEEP_DRY, Verdict.CLEAR_WATER]


@pytest.mark.parametrize(
    ("one", "stop"),
    [
        (
            plant("miltoniopsis", moving("05-05", root_tips=RootTips.HIDDEN)),
            "no new growth and a look at its roots finds no tip on the move",
        ),
        (
            plant("miltoniopsis", look("05-05", root_tips=RootTips.HIDDEN)),
            "a look at its roots finds no tip on the move",
        ),
        (
            plant("cattleya", moving("05-05", root_tips=RootTips.NONE)),
            "no new growth",
        ),
        (
            plant("vanda", still("05-05", new_growths=EXTENDING)),
            "no new growth",
        ),
        (
            plant("vanda", still("05-05", root_tips=RootTips.STARTING)),
            "no root tips",
        ),
        (
            plant("phalaenopsis", moving("05-05", Flowering.BUDS)),
            "no new growth, no root tips and no spike and no buds on the way",
        ),
    ],
)
def test_a_stop_names_only_what_is_there_to_vanish(one: Plant, stop: str) -> None:
    assert judged(one, "05-08").verdict == "feed"
    seen = stop if stop.startswith("a look") else f"a look finds {stop}"
    assert told(one, "05-08") == (f"If {seen}, it would get clear water instead.",)


@pytest.mark.parametrize(
    ("one", "on"),
    [
        (plant("cattleya", still("01-20")), "01-24"),
        (plant("cattleya", moving("01-20")), "01-24"),
        (plant("cattleya"), "01-24"),
        (plant("catasetum", look("04-05", leaves=Leaves.LEAFLESS)), "04-08"),
        (plant("catasetum", still("01-05", leaves=Leaves.FIRM)), "01-08"),
        (plant("lycaste", still("11-05", leaves=Leaves.YELLOWING)), "11-08"),
        (plant("dendrobium-nobile", still("11-12")), "11-14"),
        (plant("dendrobium-nobile", moving("09-20")), "09-22"),
        (plant("laelia-rupicolous", still("01-12")), "01-14"),
        (plant("cattleya", moving("05-05", health=[Health.NO_ROOTS])), "05-08"),
        (plant("phalaenopsis", look("05-05", root_tips=RootTips.HIDDEN)), "05-08"),
        (plant("cattleya", moving("07-05"), place=warm_place(35, "07-08")), "07-08"),
        (plant("oncidium", still("01-05"), place=warm_place(10, "01-08")), "01-08"),
        (plant("oncidium", still("01-05"), care=THREE_IN_WINTER), "01-08"),
        (
            plant(
                "oncidium",
                still("01-05"),
                care=THREE_IN_WINTER,
                place=warm_place(13, "01-08"),
            ),
            "01-08",
        ),
        (plant("cattleya", moving("05-05"), repotted_on=day("05-06")), "05-08"),
        (plant("cattleya", still("05-05"), care=THREE), "05-08"),
        (plant("catasetum", still("03-01", leaves=Leaves.LEAFLESS)), "05-08"),
    ],
)
def test_there_are_one_to_three_sentences(one: Plant, on: str) -> None:
    assert 1 <= len(told(one, on)) <= 3


def test_a_bare_lycaste_is_told_what_brings_water_before_what_brings_feed() -> None:
    bare = still("03-01", leaves=Leaves.LEAFLESS, new_leaf=NewLeaf.NONE)
    one = plant("lycaste", bare)
    assert judged(one, "03-04").verdict is Verdict.KEEP_DRY
    first, *others = told(one, "03-04")
    assert first == (
        "If root tips are seen running, it would get a little clear water."
    )
    assert others
    assert all(text.endswith("it would be fed.") for text in others)


def test_a_catasetum_is_not_offered_water_for_its_new_growth() -> None:
    bare = look("03-01", leaves=Leaves.LEAFLESS, new_growths=EMERGING)
    one = plant("catasetum", bare)
    assert judged(one, "03-04").verdict is Verdict.KEEP_DRY
    assert told(one, "03-04") == (
        "If its longest new root measures 8 cm, it would be fed.",
    )


def test_the_day_on_which_the_calendar_stops_feed_is_named() -> None:
    one = plant("dendrobium-nobile", moving("08-01"), care=(fed("07-01"),))
    assert judged(one, "08-03").verdict is Verdict.FEED
    assert "From 25 August on it would be flushed before it is fed again." in told(
        one, "08-03"
    )
    clean = plant("dendrobium-nobile", moving("09-01"))
    assert (
        "From 15 September on it would get clear water, even if it looks as it does"
        " now." in told(clean, "09-03")
    )


def test_a_day_far_off_is_not_named() -> None:
    one = plant("dendrobium-nobile", moving("06-01"))
    assert not [text for text in told(one, "06-03") if text.startswith("From")]


def test_a_date_and_two_things_at_once_are_named_where_no_less_does() -> None:
    cold = warm_place(5.0, "01-09")
    one = plant("dendrobium-kingianum", still("2025-12-31"), place=cold)
    assert judged(one, "01-09").rule == "too-cold"
    (sentence,) = told(one, "01-09")
    assert sentence == (
        "From 1 March on, if its place averages more than 8 °C and a new shoot is seen"
        " with root tips of its own, it would be fed."
    )


@settings(max_examples=100, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(facts=cases())
def test_what_decides_is_the_same_asked_shortly_or_in_full(
    facts: tuple[Plant, House, date],
) -> None:
    one, house, on = facts
    full = judged(one, on, house)
    short = decider_of(one, kind_of(one), house, on, kind_known=kind_known(one))
    assert (short.rule, short.verdict, short.water) == (
        full.rule,
        full.verdict,
        full.water,
    )
    assert short.reason == full.reasons[0]


def test_a_bare_catasetum_without_roots_is_told_how_long_they_must_be() -> None:
    bare = look(
        "03-01",
        leaves=Leaves.LEAFLESS,
        new_growths=EMERGING,
        health=[Health.NO_ROOTS],
    )
    one = plant("catasetum", bare)
    assert judged(one, "03-04").verdict is Verdict.KEEP_DRY
    water, feed = told(one, "03-04")
    assert water == (
        "If its longest new root measures 8 cm, it would get a little clear water."
    )
    assert feed == (
        "If live roots are seen again with running tips and its longest new root"
        " measures 8 cm, it would be fed."
    )
