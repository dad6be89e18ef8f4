"""What a look is worth: what it may turn, how likely, and in what order."""

from __future__ import annotations

from datetime import date, timedelta
from math import prod
from typing import Any

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from growdesk.domain import worth_looking as module
from growdesk.domain.case import Case
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
    Plant,
    RootTips,
    Verdict,
    Water,
)
from growdesk.domain.judging import judge
from growdesk.domain.kinds import Rest
from growdesk.domain.worth_looking import Worth, worth_looking
from growdesk.domain.worth_words import SIGNS, TURNS, about, faded, why
from tests.domain.builders import (
    EMERGING,
    EXTENDING,
    HOUSE,
    KIND_KEYS,
    MATURING,
    NOTHING,
    SOUTH,
    cases,
    day,
    did,
    fed,
    judged,
    kind_of,
    look,
    looks_on,
    moving,
    outcome,
    plant,
    still,
)

MOST_JUDGEMENTS = 16


def worth(one: Plant, on: str | date, house: House = HOUSE) -> Worth:
    when = day(on) if isinstance(on, str) else on
    return worth_looking(one, kind_of(one), house, when)


# -- one plant -----------------------------------------------------------------------


def test_a_fresh_look_is_not_worth_another() -> None:
    for one in (plant("cattleya", still("05-10")), plant("cattleya", moving("05-10"))):
        found = worth(one, "05-10")
        assert (found.likelihood, found.turns_to, why(found, day("05-10"))) == (
            0.0,
            None,
            "",
        )


def test_a_plant_at_a_standstill_may_have_begun() -> None:
    one = plant("cattleya", still("2026-02-18"))
    found = worth(one, "03-04")
    # two signs that hold 14 days, 14 days old: each as likely gone as not
    assert found.likelihood == pytest.approx(0.75)
    assert found.turns_to == (Verdict.FEED, Water.THROUGH)
    assert (found.age_days, found.holds_days, found.chance) == (14, 14.0, 0.5)
    assert why(found, day("03-04")) == (
        "No new growth and no root tips showed on 18 February, 14 days ago. This is "
        "the season in which its kind wakes, and something may have begun. Then it "
        "would be fed."
    )


def test_the_same_plant_in_the_depth_of_its_rest_is_worth_less() -> None:
    winter = worth(plant("cattleya", still("2025-12-01")), "2025-12-15")
    waking = worth(plant("cattleya", still("2026-02-18")), "2026-03-04")
    south = worth(plant("cattleya", still("2026-06-01")), "2026-06-15", SOUTH)
    assert winter.likelihood < 0.5 * waking.likelihood
    assert south.likelihood == pytest.approx(winter.likelihood)


def test_a_moth_orchid_fed_only_for_its_buds() -> None:
    buds = still("11-03", Flowering.BUDS, new_leaf=NewLeaf.FULL)
    one = plant("phalaenopsis", buds)
    assert judged(one, "11-20").verdict is Verdict.FEED
    found = worth(one, "11-20")
    assert found.key == "flowering-buds"
    assert found.turns_to == (Verdict.CLEAR_WATER, Water.IF_DRY)
    assert found.likelihood == pytest.approx(1 - 2 ** (-17 / (13 * 7 / 6)))
    assert why(found, day("11-20")) == (
        "Its buds were closed on 3 November, 17 days ago. In this kind that holds for "
        "about 2 weeks, and they may be open by now. Then it would get clear water, if "
        "the pot is light."
    )


def test_open_flowers_are_never_why() -> None:
    one = plant("cattleya", moving("11-03", Flowering.OPEN))
    without = plant("cattleya", moving("11-03", Flowering.SPENT))
    assert worth(one, "11-20") == worth(without, "11-20")


def test_all_that_moves_has_to_stop_before_a_growing_plant_is_off_feed() -> None:
    one = plant("cattleya", moving("11-03"))
    found = worth(one, "11-20")
    assert found.key == "all-come-to-rest"
    assert found.turns_to == (Verdict.CLEAR_WATER, Water.IF_DRY)
    extends, matures, tips = 26 * 7 / 4, 26 * 7 / 8, 14.0
    chance = 1.0
    for days in (extends, matures, tips):
        chance *= 1 - 2 ** (-17 / days)
    assert found.likelihood == pytest.approx(chance)
    alone = plant("cattleya", look("11-03", root_tips=RootTips.RUNNING))
    assert worth(alone, "11-20").likelihood > 3 * found.likelihood


@pytest.mark.parametrize(
    ("signs", "steps"),
    [
        # weeks of a vanda's leaf: a quarter starting, three quarters extending
        ({"new_leaf": NewLeaf.EXTENDING}, [14 * 7 * 0.75 / 2, 14.0]),
        (
            {"new_leaf": NewLeaf.STARTING},
            [14 * 7 * 0.25 / 2, 14 * 7 * 0.75 / 2, 14.0],
        ),
        (
            {"new_leaf": NewLeaf.EXTENDING, "root_tips": RootTips.STARTING},
            [14 * 7 * 0.75 / 2, 10.0, 14.0],
        ),
    ],
)
def test_a_leaf_and_root_tips_have_to_stop_both(
    signs: dict[str, Any], steps: list[float]
) -> None:
    seen = look("11-03", **{"root_tips": RootTips.RUNNING, **signs})
    found = worth(plant("vanda", seen), "11-20")
    assert found.key == "all-come-to-rest"
    assert found.likelihood == pytest.approx(prod(1 - 2 ** (-17 / d) for d in steps))


def test_a_spike_that_is_fed_has_to_open_too() -> None:
    seen = look("11-03", Flowering.SPIKE, root_tips=RootTips.RUNNING)
    found = worth(plant("phalaenopsis", replace(seen, new_leaf=NewLeaf.FULL)), "11-20")
    assert found.key == "all-come-to-rest"
    steps = [14.0, 13 * 7 / 3, 13 * 7 / 6]
    assert found.likelihood == pytest.approx(prod(1 - 2 ** (-17 / d) for d in steps))


def test_new_shoots_of_a_soft_cane_need_roots_of_their_own() -> None:
    one = plant("dendrobium-nobile", still("03-20", flowering=frozenset()))
    found = worth(one, "04-06")
    assert found.key == "growth-and-tips-none-waking"
    assert found.turns_to == (Verdict.CLEAR_WATER, Water.IF_DRY)
    # 17 days at 14 days each: either brings the water back, and only both the feed
    assert found.likelihood >= 1 - (2 ** (-17 / 14)) ** 2
    rooted = still("03-20", new_growths=EXTENDING, flowering=frozenset())
    single = worth(plant("dendrobium-nobile", rooted), "04-06")
    assert single.key == "tips-none-waking"
    assert single.turns_to == (Verdict.FEED, Water.THROUGH)


def test_a_catasetums_roots_are_worth_measuring_when_they_are_due() -> None:
    bare: dict[str, Any] = {"leaves": Leaves.LEAFLESS, "new_growths": EMERGING}
    tips = RootTips.RUNNING
    short = look("04-01", root_tips=tips, longest_new_root_mm=50.0, **bare)
    found = worth(plant("catasetum", short), "04-15")
    assert found.key == "roots-short"
    assert found.likelihood >= 0.5
    assert why(found, day("04-15")).startswith(
        "Its longest new root was 5 cm on 1 April, 14 days ago. At about 1.5 cm a week "
        "it may have reached 8 cm."
    )
    house = replace(HOUSE, resume_root_mm=120.0)
    assert worth(plant("catasetum", short), "04-15", house).likelihood < (
        found.likelihood
    )


def test_one_at_rest_is_hardly_worth_a_look_until_it_wakes() -> None:
    bare = still("2025-12-20", leaves=Leaves.LEAFLESS)
    found = [worth(plant("catasetum", bare), on) for on in ("01-05", "02-10", "04-20")]
    likelihoods = [one.likelihood for one in found]
    assert likelihoods == sorted(likelihoods)
    assert likelihoods[0] < 0.1
    assert likelihoods[2] > 0.8
    assert {one.verdict for one in found} == {Verdict.KEEP_DRY}


@pytest.mark.parametrize(
    ("last", "likely"),
    [(moving("04-20"), True), (still("04-20"), False)],
    ids=["grew", "stood"],
)
def test_a_look_out_of_date_is_held_against_what_is_done_until_then(
    last: Look,
    likely: bool,
) -> None:
    one = plant("cattleya", last)
    found = worth(one, "05-15")
    assert found.verdict is Verdict.LOOK_FIRST
    assert found.turns_to == (Verdict.FEED, Water.THROUGH)
    if likely:
        assert found.key == "looked-long-ago"
        stopped = [26 * 7 / 4, 26 * 7 / 8, 28.0]  # extending, maturing, root tips
        chance = prod(1 - 2 ** (-25 / days) for days in stopped)
        assert found.likelihood == pytest.approx(1 - chance)
        assert why(found, day("05-15")).startswith(
            "It was last looked at on 20 April, 25 days ago, and may still show what "
            "it did."
        )
    else:
        assert found.key == "growth-and-tips-none"
        assert 0.5 < found.likelihood < 0.9


def test_a_growing_plant_is_the_less_worth_the_longer_nobody_looked() -> None:
    one = plant("cattleya", look("01-01", root_tips=RootTips.RUNNING))
    soon, late = worth(one, "02-01"), worth(one, "04-01")
    assert soon.key == late.key == "looked-long-ago"
    assert soon.likelihood > late.likelihood


@pytest.mark.parametrize(
    ("kind", "likelihood", "key"),
    [
        ("cattleya", 0.75, "never-looked"),
        ("phalaenopsis", 0.75, "never-looked"),
        ("catasetum", 0.5, "never-looked-leafless"),
        ("lycaste", 0.5, "never-looked-leafless"),
        # a soft cane asks for both to be fed; either alone brings the water back
        ("dendrobium-nobile", 0.75, "never-looked"),
    ],
)
def test_what_a_first_look_may_show_is_counted_alike(
    kind: str, likelihood: float, key: str
) -> None:
    found = worth(plant(kind), "07-10")
    assert (found.likelihood, found.key) == (likelihood, key)
    either = (Verdict.CLEAR_WATER, Water.IF_DRY)
    by_both = kind == "dendrobium-nobile"
    assert found.turns_to == (either if by_both else (Verdict.FEED, Water.THROUGH))
    assert (found.age_days, found.holds_days) == (None, None)


def test_a_plant_that_cannot_be_fed_now_is_not_worth_a_first_look() -> None:
    just_fed = plant("cattleya", care=(fed("07-08"),))
    assert worth(just_fed, "07-10").likelihood == 0.0


def test_an_overruled_plant_is_left_alone_until_its_day() -> None:
    said = Overrule(Verdict.FEED, "on trial", day("05-20"))
    one = plant("cattleya", still("04-20"), overrule=said)
    assert worth(one, "05-20").likelihood == 0.0
    assert worth(one, "05-21").likelihood > 0.5


def test_rot_that_was_cut_may_have_dried() -> None:
    one = plant("cattleya", still("05-01", health={Health.ROT}))
    found = worth(one, "05-15")
    assert found.key == "rot"
    assert found.likelihood == pytest.approx(0.5)


def test_a_stalled_lead_is_not_taken_for_one_that_grows() -> None:
    one = plant(
        "cattleya",
        still("05-01", new_growths=EXTENDING, lead_length_mm=60.0),
        still("06-01", new_growths=EXTENDING, lead_length_mm=60.0),
    )
    found = worth(one, "06-15")
    assert found.verdict is Verdict.CLEAR_WATER
    assert found.turns_to == (Verdict.FEED, Water.THROUGH)
    assert found.key in {"growth-stalled", "tips-none"}
    assert 0.4 < found.likelihood < 0.6


def test_a_runoff_read_before_a_flush_is_not_read_again_by_a_look() -> None:
    salty = moving("05-01", runoff_ec_ms_per_cm=3.0)
    care = (fed("04-20", ec=1.0), did("05-05", CareKind.FLUSH))
    one = plant("cattleya", salty, care=care)
    assert worth(one, "05-15").turns_to == (Verdict.CLEAR_WATER, Water.IF_DRY)


# -- the bench of a grower with ten minutes ------------------------------------------


def bench() -> dict[str, Plant]:
    """Give twelve plants on 4 March, the most worth a look first."""
    bare: dict[str, Any] = {"leaves": Leaves.LEAFLESS}
    said = Overrule(Verdict.KEEP_DRY, "sold, to be fetched", day("04-01"))
    return {
        # Growing when last seen, and the look is just too old to feed by: only a look
        # stands between it and its feed.
        "grew 24 days ago": plant("cattleya", moving("02-08")),
        # Stood still in its rest, which is over: three weeks without a look in the
        # very weeks in which cattleyas break.
        "waking, 20 days": plant("cattleya", still("02-12")),
        # Buds, shoots and tips break from soft canes now, and bring the water back.
        "soft cane without buds, 14 days": plant(
            "dendrobium-nobile", still("02-18", Flowering.NONE)
        ),
        # Nobody has ever looked; of four things it may show, three mean feed.
        "never seen": plant("oncidium"),
        # Fed for its buds alone, and buds of this kind open in some two weeks.
        "fed for its buds, 18 days": plant(
            "phalaenopsis", still("02-14", Flowering.BUDS, new_leaf=NewLeaf.FULL)
        ),
        # Roots of 5.5 cm twelve days ago; they are awaited at 8 to water it.
        "roots nearly there": plant(
            "catasetum",
            look(
                "02-20",
                new_growths=EMERGING,
                root_tips=RootTips.RUNNING,
                longest_new_root_mm=55.0,
                **bare,
            ),
        ),
        # Waking like the other, but looked over the day before yesterday.
        "waking, 2 days": plant("cattleya", still("03-02")),
        # Cut three days ago; it is too soon to hope.
        "rot, 3 days": plant("cattleya", still("03-01", health={Health.ROT})),
        # Bare and asleep: it has to wake and to root before anything changes.
        "bare, 13 days": plant("catasetum", still("02-19", **bare)),
        # Lead and roots would both have to stop within the week.
        "all on the move, 8 days": plant("cattleya", moving("02-24")),
        # Maturing five days ago, and feed came yesterday: no look feeds it today.
        "fed yesterday": plant(
            "cattleya", still("02-27", new_growths=MATURING), care=(fed("03-03"),)
        ),
        # The grower has spoken.
        "overruled": plant("cattleya", still("02-12"), overrule=said),
    }


def test_a_bench_of_twelve_stands_in_the_order_a_grower_would_go() -> None:
    found = {name: worth(one, "03-04").likelihood for name, one in bench().items()}
    ranked = sorted(found, key=lambda name: -found[name])
    assert ranked == list(found)
    assert found["grew 24 days ago"] > 0.85
    assert found["fed for its buds, 18 days"] > 0.5 > found["waking, 2 days"]
    assert found["all on the move, 8 days"] < 0.1
    assert found["fed yesterday"] == found["overruled"] == 0.0


def half_a_year_on(one: Plant) -> Plant:
    """Give a plant with all its days moved from March to September."""
    later = timedelta(days=184)
    said = one.overrule
    return replace(
        one,
        looks=tuple(replace(seen, on=seen.on + later) for seen in one.looks),
        care=tuple(replace(care, on=care.on + later) for care in one.care),
        overrule=said and replace(said, until=said.until + later),
    )


def test_the_same_bench_half_a_year_on_in_the_south_is_worth_the_same() -> None:
    for name, one in bench().items():
        here = worth(one, "03-04")
        there = worth(half_a_year_on(one), day("03-04") + timedelta(days=184), SOUTH)
        assert there.key == here.key, name
        assert there.likelihood == pytest.approx(here.likelihood), name


@pytest.mark.parametrize(
    ("kind", "on", "key"),
    [
        ("cattleya", "03-04", "growth-and-tips-none-waking"),
        ("cattleya", "06-20", "growth-and-tips-none"),
        ("vanda", "03-04", "leaf-and-tips-none-waking"),
        ("phalaenopsis", "03-04", "leaf-and-tips-none"),
    ],
)
def test_one_sentence_names_all_that_was_looked_for_in_vain(
    kind: str, on: str, key: str
) -> None:
    seen = day(on) - timedelta(days=10)
    one = plant(kind, still(seen, new_leaf=NewLeaf.NONE))
    assert worth(one, on).key == key


def test_a_leaf_seen_years_ago_promises_nothing() -> None:
    """That it still unfolds is past all chance, and so no look is worth it for that."""
    one = plant("phalaenopsis", look("2024-01-01", new_leaf=NewLeaf.STARTING))
    found = worth_looking(one, kind_of(one), House(), date(2026, 1, 1))
    assert (found.likelihood, found.turns_to) == (0.0, None)
    assert why(found, date(2026, 1, 1)) == ""


# -- for all facts -------------------------------------------------------------------


@given(cases())
@settings(max_examples=150, suppress_health_check=[HealthCheck.too_slow])
def test_any_plant_has_a_worth_and_its_sentence(
    case: tuple[Plant, House, date],
) -> None:
    one, house, on = case
    asked = 0

    def counted(*given_: Any, **more: Any) -> Any:
        nonlocal asked
        asked += 1
        return judge(*given_, **more)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(module, "judge", counted)
        found = worth_looking(one, kind_of(one), house, on)
    assert asked <= MOST_JUDGEMENTS
    assert found == worth_looking(one, kind_of(one), house, on)
    assert 0.0 <= found.likelihood <= 1.0
    assert 0.0 <= found.chance <= found.likelihood + 1e-9
    now = judge(one, kind_of(one), house, on)
    assert (found.verdict, found.water) == (now.verdict, now.water)
    told = why(found, on)
    assert bool(told) is (found.turns_to is not None) is (found.likelihood > 0)
    assert "{" not in told
    assert "None" not in told
    if found.turns_to is not None:
        assert found.turns_to != (now.verdict, now.water)


@given(cases())
@settings(max_examples=100, suppress_health_check=[HealthCheck.too_slow])
def test_the_order_of_looks_and_care_changes_nothing(
    case: tuple[Plant, House, date],
) -> None:
    one, house, on = case
    turned = replace(one, looks=one.looks[::-1], care=one.care[::-1])
    assert worth(one, on, house) == worth(turned, on, house)


@given(
    data=st.data(),
    kind=st.sampled_from(KIND_KEYS),
    on=st.dates(date(2025, 1, 1), date(2026, 12, 31)),
    latitude=st.sampled_from((-37.0, 0.0, 48.2)),
    ages=st.tuples(st.integers(0, 21), st.integers(0, 21)).map(sorted),
)
@settings(max_examples=200, suppress_health_check=[HealthCheck.too_slow])
def test_an_older_look_that_counts_is_never_less_worth_looking_at(
    data: st.DataObject, kind: str, on: date, latitude: float, ages: list[int]
) -> None:
    seen = data.draw(looks_on(st.just(on)))
    house = House(latitude=latitude)
    newer, older = (
        plant(kind, replace(seen, on=on - timedelta(days=age))) for age in ages
    )
    # a season turns at midwinter and midsummer, and with it what a look belongs to
    turns = {(6, 21), (12, 21)}
    days = [on - timedelta(days=back) for back in range(23)]
    assume(not any((one.month, one.day) in turns for one in days))
    before, after = judged(newer, on, house), judged(older, on, house)
    assert outcome(before) == outcome(after)
    assert worth(older, on, house).likelihood >= (
        worth(newer, on, house).likelihood - 1e-9
    )


@pytest.mark.parametrize("key", sorted(SIGNS))
def test_every_sentence_is_whole(key: str) -> None:
    shown = {
        "seen": day("05-01"),
        "resume_mm": 80.0,
        "rate_mm": 15.0,
        "root_mm": 40.0,
    }
    for turns_to in TURNS:
        turned = (Verdict(turns_to[0]), Water(turns_to[1]))
        one = Worth(0.5, key, shown, 9, 14.0, 0.5, Verdict.FEED, Water.THROUGH, turned)
        told = why(one, day("05-10"))
        assert told.endswith(TURNS[turns_to])
        assert "{" not in told
        assert told.count(". ") == SIGNS[key].count(". ") + 1


def test_every_fade_has_its_sentence_and_every_outcome_its_turn() -> None:
    leafless = [k for k in KIND_KEYS if kind_of(plant(k)).rest is Rest.LEAFLESS]
    looks = [
        still("05-01"),
        moving("05-01"),
        look("05-01", *Flowering),
        look("05-01", new_growths=NewGrowths(1, 1, 1), new_leaf=NewLeaf.STARTING),
    ]
    keys = set()
    for kind in (*leafless, "cattleya", "phalaenopsis", "dendrobium-nobile"):
        for seen in looks:
            for on in ("05-12", "07-12"):
                case = Case(plant(kind, seen), kind_of(plant(kind)), HOUSE, day(on))
                for fade in module.signs_of(case):
                    keys.add(fade.key)
                    assert "{" not in faded(fade, day(on))
    assert keys <= set(SIGNS)
    assert len(keys) > 20


@pytest.mark.parametrize(
    ("days", "text"),
    [
        (0.3, "1 day"),
        (10, "10 days"),
        (13.9, "14 days"),
        (14, "2 weeks"),
        (45.5, "6 weeks"),
        (90, "13 weeks"),
        (91, "3 months"),
        (182, "6 months"),
        (700, "23 months"),
    ],
)
def test_times_are_said_in_days_weeks_or_months(days: float, text: str) -> None:
    assert about(days) == text


def test_nothing_is_said_of_signs_that_still_hold() -> None:
    assert (
        worth(plant("cattleya", still("05-10", new_growths=NOTHING)), "05-10").key == ""
    )


def test_the_sign_named_beside_a_verdict_is_the_one_that_would_turn_it() -> None:
    def named(one: Plant, on: str) -> str | None:
        fade = module.outlived(judged(one, on), one, kind_of(one), HOUSE)
        return None if fade is None else fade.key

    seen = look("10-20", Flowering.OPEN, root_tips=RootTips.RUNNING)
    one = plant("cattleya", seen)
    # the flowers hold shorter, but the tips alone decide
    assert named(one, "11-05") == "tips-running"
    assert named(plant("cattleya", moving("10-20", Flowering.OPEN)), "11-05") == (
        "flowering-open"
    )
    assert named(one, "10-25") is None
    assert named(one, "11-25") is None  # all of the look is out of date
    said = Overrule(Verdict.FEED, "on trial", day("11-30"))
    assert named(replace(one, overrule=said), "11-05") is None
