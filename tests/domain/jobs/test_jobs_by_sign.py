"""Repots, looks, treatments, newcomers, stems and blooms: each side of each limit."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

import pytest
from msgspec.structs import replace

from growdesk.domain import job_words
from growdesk.domain.case import Case
from growdesk.domain.facts import (
    CareKind,
    Flowering,
    Health,
    House,
    Leaves,
    Medium,
    RootTips,
)
from growdesk.domain.jobs import (
    blooms,
    looks,
    newcomers,
    repots,
    stems,
    treatments,
)
from growdesk.domain.jobs.repot_moments import Moment, moment_of, months_of
from growdesk.domain.jobs.treatments import Treatment
from growdesk.services import kinds
from tests.domain.builders import (
    EMERGING,
    EQUATOR,
    HOUSE,
    NOTHING,
    SOUTH,
    day,
    did,
    kind_of,
    look,
    moving,
    plant,
    still,
)

if TYPE_CHECKING:
    from growdesk.domain.facts import Look, Plant
    from growdesk.domain.jobs.job import Job


def case_of(one: Plant, on: str, house: House = HOUSE) -> Case:
    return Case(one, kind_of(one), house, day(on))


def repot(one: Plant, on: str, days: int = 0, house: House = HOUSE) -> list[Job]:
    case = case_of(one, on, house)
    return list(repots.jobs(case, case.on + timedelta(days=days)))


def with_rule(**rules: Any) -> House:
    return replace(HOUSE, **rules)


def said(jobs: list[Job]) -> list[str]:
    return [job_words.said(job) for job in jobs]


# -- repots ---------------------------------------------------------------------


def test_a_repot_is_due_by_the_kind_or_its_medium_whichever_is_sooner() -> None:
    one = plant("cattleya", still("05-01"), repotted_on=day("2024-03-10"))
    (by_kind,) = repot(one, "05-08", 366)
    assert by_kind.on == date(2026, 9, 10)  # the kind's two years and a half
    (by_bark,) = repot(replace(one, medium=Medium.BARK), "03-01", 30)
    assert by_bark.on == date(2026, 3, 10)
    mineral = replace(one, medium=Medium.MINERAL)
    assert repot(mineral, "05-08", 366)[0].on == date(2026, 9, 10)


@pytest.mark.parametrize(
    ("medium", "rule"),
    [
        (Medium.BARK, "bark_years"),
        (Medium.SPHAGNUM, "sphagnum_years"),
        (Medium.MINERAL, "mineral_years"),
        (Medium.SEMI_HYDRO, "semi_hydro_years"),
        (Medium.SOIL, "soil_years"),
    ],
)
def test_how_long_a_medium_lasts_is_the_houses(medium: Medium, rule: str) -> None:
    one = plant("vanda", still("05-01"), repotted_on=day("2026-01-31"), medium=medium)
    house = with_rule(**{rule: 1.0})
    assert repot(one, "05-08", 268, house)[0].on == date(2027, 1, 31)
    assert repot(one, "05-08", 267, house) == []
    other = with_rule(**{rule: 1.5})
    assert repot(one, "05-08", 500, other)[0].on == date(2027, 7, 31)


def test_no_repot_is_dated_without_a_day_or_for_what_has_no_medium() -> None:
    on = "05-08"
    one = plant("cattleya", still("05-01"))
    assert repot(one, on, 3000) == []
    without: tuple[dict[str, Any], ...] = ({"mounted": True}, {"medium": Medium.NONE})
    for more in without:
        bare = plant("cattleya", still("05-01"), repotted_on=day("2020-01-01"), **more)
        assert repot(bare, on, 3000) == []
    seldom = plant("vanda", still("05-01"), repotted_on=day("2020-01-01"))
    assert repot(seldom, on, 3000) == []


def test_a_repot_on_record_silences_it() -> None:
    one = plant(
        "cattleya",
        moving("05-01"),
        repotted_on=day("2020-01-01"),
        care=(did("04-20", CareKind.REPOT),),
    )
    assert repot(one, "05-08") == []
    assert said(repot(one, "04-19")) == ["repot-waits"]  # nothing was seen by then


def test_due_waits_until_new_roots_start() -> None:
    one = plant(
        "cattleya",
        still("05-01"),
        repotted_on=day("2023-01-31"),
        medium=Medium.BARK,
    )
    (waits,) = repot(one, "05-08")
    assert (job_words.said(waits), waits.forecast) == ("repot-waits", True)
    starts = replace(
        one, looks=(*one.looks, look("05-07", root_tips=RootTips.STARTING))
    )
    (now,) = repot(starts, "05-08")
    assert (job_words.said(now), now.forecast) == ("repot-now", False)
    assert now.values["came"] == day("05-07")
    assert now.on == waits.on == date(2025, 1, 31)
    assert now.key == waits.key
    soon = replace(starts, repotted_on=day("2024-05-09"))
    assert said(repot(soon, "05-08", 1)) == ["repot-due"]
    assert said(repot(soon, "05-09", 1)) == ["repot-now"]


def test_flowers_are_waited_for() -> None:
    one = plant(
        "cattleya", moving("05-01", Flowering.OPEN), repotted_on=day("2020-01-31")
    )
    assert said(repot(one, "05-08")) == ["repot-in-flower"]
    after = plant(
        "cattleya", moving("05-01", Flowering.SPENT), repotted_on=day("2020-01-31")
    )
    assert said(repot(after, "05-08")) == ["repot-now"]


def test_the_year_after_29_february_is_the_last_of_february() -> None:
    assert repots.years_later(date(2028, 2, 29), 1.0) == date(2029, 2, 28)
    assert repots.years_later(date(2028, 2, 29), 4.0) == date(2032, 2, 29)
    assert repots.years_later(date(2027, 8, 31), 1.5) == date(2029, 2, 28)
    assert repots.years_later(date(2027, 1, 1), 1.0) == date(2028, 1, 1)


MOMENTS = {
    Moment.ROOTS: {
        *("general", "cattleya", "cattleya-bifoliate", "laelia", "laelia-rupicolous"),
        *("oncidium", "tolumnia", "dendrobium", "dendrobium-nobile", "vanda"),
        *("dendrobium-pendulous", "dendrobium-callista", "paphiopedilum-brachypetalum"),
        *("phragmipedium", "neofinetia", "angraecum", "pleurothallis", "restrepia"),
        *("coelogyne", "bulbophyllum", "brassavola", "rhyncholaelia", "guarianthe"),
        *("encyclia", "myrmecophila", "rossioglossum", "psychopsis", "gongora"),
        "sarcochilus",
    },
    Moment.GROWTH: {
        *("miltoniopsis", "miltonia", "zygopetalum", "dendrobium-biggibum", "brassia"),
        *("dendrobium-spatulata", "dendrobium-formosae", "dendrobium-kingianum"),
        *("lycaste", "lycaste-evergreen", "anguloa", "calanthe", "chysis", "disa"),
        *("coelogyne-cool", "odontoglossum", "stanhopea", "maxillaria"),
    },
    Moment.FLOWERED: {
        *("phalaenopsis", "dendrobium-latouria", "cymbidium", "paphiopedilum-green"),
        *("paphiopedilum-multifloral", "epidendrum"),
    },
    Moment.BEFORE_ROOTS: {"catasetum"},
    Moment.ASLEEP: {"pleione", "habenaria"},
    Moment.ANY: {"paphiopedilum"},
    Moment.SEASON: {"masdevallia", "dracula", "ludisia", "vanilla", "sobralia"},
}


def test_the_words_of_every_kind_are_read_for_their_sign() -> None:
    read: dict[Moment, set[str]] = {moment: set() for moment in Moment}
    for kind in kinds.table().kinds.values():
        read[moment_of(kind.repot_moment)].add(kind.key)
    assert read == MOMENTS


def test_words_that_name_no_sign_wait_for_none() -> None:
    assert moment_of("") is Moment.ANY
    assert moment_of("whenever it wants") is Moment.ANY


@pytest.mark.parametrize(
    ("kind", "shown", "waits"),
    [
        ("miltoniopsis", look("05-01", new_growths=EMERGING), still("05-01")),
        (
            "catasetum",
            look("05-01", new_growths=EMERGING, root_tips=RootTips.NONE),
            look("05-01", new_growths=EMERGING, root_tips=RootTips.RUNNING),
        ),
        (
            "pleione",
            look("05-01", leaves=Leaves.LEAFLESS, new_growths=NOTHING),
            look("05-01", leaves=Leaves.LEAFLESS, new_growths=EMERGING),
        ),
        (
            "phalaenopsis",
            look("05-01", Flowering.SPENT),
            look("05-01", Flowering.NONE),
        ),
    ],
)
def test_each_sign_is_waited_for(kind: str, shown: Look, waits: Look) -> None:
    for seen, expected in ((shown, "repot-now"), (waits, "repot-waits")):
        one = plant(kind, seen, repotted_on=day("2020-01-31"))
        assert said(repot(one, "05-08")) == [expected]


def test_a_season_of_its_own_turns_with_the_hemisphere() -> None:
    one = plant("ludisia", still("03-01"), repotted_on=day("2020-01-31"))
    assert said(repot(one, "03-01")) == ["repot-now"]
    assert said(repot(one, "06-01")) == ["repot-waits"]
    assert said(repot(one, "03-01", house=SOUTH)) == ["repot-waits"]
    assert said(repot(one, "09-01", house=SOUTH)) == ["repot-now"]
    assert said(repot(one, "06-01", house=EQUATOR)) == ["repot-now"]


# -- looks, treatments, newcomers -------------------------------------------------


def test_a_look_is_due_when_the_last_one_holds_no_longer() -> None:
    case = case_of(plant("cattleya", still("05-01")), "05-08")
    (due,) = looks.jobs(case, day("05-22"))
    assert (due.key, due.on, due.settled) == ("look-due", day("05-22"), True)
    assert list(looks.jobs(case, day("05-21"))) == []
    longer = case_of(case.plant, "05-08", replace(HOUSE, look_limit_days=30))
    assert [job.on for job in looks.jobs(longer, day("06-30"))] == [day("05-31")]


def test_a_plant_never_looked_at_is_dated_by_what_is_known_of_it() -> None:
    case = case_of(plant("cattleya"), "05-08")
    assert [job.on for job in looks.jobs(case, case.on)] == [case.on]
    came = list(looks.jobs(case, case.on, day("04-02")))
    assert [(job.key, job.on) for job in came] == [("look-never", day("04-02"))]
    watered = plant("cattleya", care=(did("03-01", CareKind.CLEAR_WATER),))
    first = looks.jobs(case_of(watered, "05-08"), case.on, day("04-02"))
    assert [job.on for job in first] == [day("03-01")]


def test_a_treatment_is_repeated_until_a_later_one_answers_it() -> None:
    first = Treatment(day("05-01"), "Neem soap", day("05-15"))
    (again,) = treatments.jobs("T1", [first], day("05-15"))
    assert (again.key, again.on) == ("treat-again", day("05-15"))
    assert list(treatments.jobs("T1", [first], day("05-14"))) == []
    second = Treatment(day("05-15"), "neem Soap", day("05-29"))
    both = treatments.jobs("T1", [second, first], day("06-30"))
    assert [job.on for job in both] == [day("05-29")]
    done = Treatment(day("05-15"), "neem soap")
    assert list(treatments.jobs("T1", [first, done], day("06-30"))) == []
    other = Treatment(day("05-15"), "Oil")
    assert len(list(treatments.jobs("T1", [first, other], day("06-30")))) == 1
    unnamed = Treatment(day("05-01"), "", day("05-15"))
    (job,) = treatments.jobs("T1", [unnamed], day("05-15"))
    assert job.key == "treat-again-unnamed"


def test_a_quarantine_ends_by_what_was_seen_of_it() -> None:
    ends = day("05-20")
    clean = plant("cattleya", look("05-10", health=()), quarantine_until=ends)

    def told(one: Plant, on: str = "05-20", until: date = ends) -> list[Job]:
        return list(newcomers.jobs(case_of(one, on), until))

    assert said(told(clean)) == ["quarantine-ends"]
    assert told(clean, until=day("05-19")) == []
    assert said(told(clean, "05-31")) == ["quarantine-ends"]
    assert said(told(clean, "06-01")) == ["quarantine-unseen"]
    assert said(told(replace(clean, looks=()))) == ["quarantine-unseen"]
    pests = plant(
        "cattleya", look("05-10", health=[Health.PESTS]), quarantine_until=ends
    )
    (trouble,) = told(pests)
    assert job_words.said(trouble) == "quarantine-trouble"
    assert (trouble.key, trouble.on) == ("quarantine-ends", ends)
    assert told(plant("cattleya", look("05-10"))) == []


# -- stems and blooms --------------------------------------------------------------


def stem(
    one: Plant, on: str = "05-08", days: int = 0, house: House = HOUSE
) -> list[Job]:
    case = case_of(one, on, house)
    return list(stems.jobs(case, case.on + timedelta(days=days)))


def test_a_keiki_is_potted_from_the_houses_length_of_root() -> None:
    def keiki(root_mm: float | None) -> Plant:
        return plant("phalaenopsis", look("05-01", keikis=1, keiki_root_mm=root_mm))

    assert stem(keiki(49.9)) == []
    assert stem(keiki(None)) == []
    (job,) = stem(keiki(50.0))
    assert (job.key, job.on) == ("keiki-to-pot", day("05-01"))
    assert stem(keiki(50.0), house=replace(HOUSE, keiki_root_mm=60.0)) == []
    gone = plant(
        "phalaenopsis",
        look("05-01", keikis=2, keiki_root_mm=70.0),
        look("05-05", keikis=0),
    )
    assert stem(gone) == []
    unsaid = plant(
        "phalaenopsis",
        look("05-01", keikis=2, keiki_root_mm=70.0),
        look("05-05"),
    )
    assert [job.on for job in stem(unsaid)] == [day("05-01")]


def test_pods_are_told_with_their_age_and_what_is_published() -> None:
    seen = (look("01-10", pods=1), look("05-01", pods=2))
    (job,) = stem(plant("phalaenopsis", *seen))
    assert (job.key, job.on, job.forecast) == ("pods-ripening", day("01-10"), True)
    assert job_words.sentence(job, day("05-08")) == (
        "It carries two pods, seen first 3 months ago. Pods of its kind take 4 to 8 "
        "months from pollination; they draw on the plant."
    )
    (silent,) = stem(plant("lycaste", *seen))
    assert silent.key == "pods"
    assert "months from pollination" not in job_words.sentence(silent, day("05-08"))
    assert stem(plant("phalaenopsis", *seen, look("05-05", pods=0))) == []


def test_a_spike_is_staked_where_its_kind_wants_it_and_not_turned() -> None:
    spiked = look("05-01", Flowering.SPIKE, spike_mm=150.0)
    stake = [job.key for job in stem(plant("phalaenopsis", spiked))]
    assert stake == ["do-not-turn", "stake-spike"]
    short = look("05-01", Flowering.SPIKE, spike_mm=149.0)
    assert [job.key for job in stem(plant("phalaenopsis", short))] == ["do-not-turn"]
    unmeasured = plant("phalaenopsis", look("05-01", Flowering.SPIKE))
    assert "stake-spike" in [job.key for job in stem(unmeasured)]
    hanging = plant("stanhopea", spiked)
    assert [job.key for job in stem(hanging)] == ["do-not-turn"]
    longer = replace(HOUSE, stake_spike_mm=200.0)
    assert len(stem(plant("phalaenopsis", spiked), house=longer)) == 1
    opened = plant("phalaenopsis", spiked, look("05-05", Flowering.OPEN))
    assert stem(opened) == []


def test_do_not_turn_spans_the_weeks_a_spike_of_its_kind_takes() -> None:
    one = plant("phalaenopsis", look("05-01", Flowering.SPIKE))
    turn, opens, _stake = stem(one, days=91 - 7)
    assert (turn.on, turn.until) == (day("05-01"), day("05-01") + timedelta(weeks=13))
    assert (opens.key, opens.on) == ("opens-from-spike", turn.until)
    assert [job.key for job in stem(one, days=91 - 8)] == ["do-not-turn", "stake-spike"]


def test_the_plants_own_years_go_before_its_kinds_weeks() -> None:
    one = plant("phalaenopsis", look("05-01", Flowering.SPIKE))
    case = case_of(one, "05-08")
    told = {job.key: job for job in stems.jobs(case, day("12-31"), day("09-10"))}
    assert set(told) == {"do-not-turn", "stake-spike"}
    assert told["do-not-turn"].until == day("09-10")
    assert told["stake-spike"].until == day("09-10")
    another = {job.key for job in stems.jobs(case, day("12-31"), day("2027-04-20"))}
    assert "opens-from-spike" in another


def test_a_bloom_is_expected_from_two_years_on() -> None:
    opened = [date(2024, 11, 10), date(2025, 11, 20)]
    on, until = day("10-01"), day("12-31")
    (job,) = blooms.jobs("T1", opened, on, until)
    assert job.values["day"] == day("11-15")
    assert job.until is not None
    assert (job.until - day("11-15")) == (day("11-15") - job.on)
    assert list(blooms.jobs("T1", opened[:1], on, until)) == []
    assert list(blooms.jobs("T1", opened, on, job.on - timedelta(days=1))) == []
    assert len(list(blooms.jobs("T1", opened, on, job.on))) == 1
    late = [*opened, date(2026, 11, 12)]
    assert list(blooms.jobs("T1", late, on, until)) != []  # not yet known on the day


def test_an_old_look_never_says_that_the_moment_to_repot_is_here() -> None:
    shown = look("05-01", new_growths=EMERGING, root_tips=RootTips.RUNNING)
    one = plant("cattleya", shown, medium=Medium.BARK, repotted_on=day("2024-01-01"))
    limit = HOUSE.look_limit_days
    last = shown.on + timedelta(days=limit)
    assert said(repot(one, last.isoformat())) == ["repot-now"]
    after = last + timedelta(days=1)
    assert said(repot(one, after.isoformat())) == ["repot-waits"]


def test_a_spike_that_should_be_open_by_now_is_staked_no_more() -> None:
    one = plant("phalaenopsis", look("01-10", Flowering.SPIKE))

    def keys(on: date) -> list[str]:
        case = Case(one, kinds.table().kinds["phalaenopsis"], HOUSE, on)
        return [job.key for job in stems.jobs(case, on)]

    opens = day("01-10") + timedelta(weeks=13)
    assert "stake-spike" in keys(opens)
    assert "stake-spike" not in keys(opens + timedelta(days=1))


def test_repeats_of_one_day_are_one_job_that_names_both() -> None:
    both = (
        Treatment(day("05-01"), "Neem soap", day("05-15")),
        Treatment(day("05-03"), "Sulphur", day("05-15")),
    )
    (job,) = treatments.jobs("T1", both, day("06-01"))
    assert (job.key, job.on) == ("treat-again", day("05-15"))
    assert job_words.sentence(job, day("05-10")).startswith(
        "Treated with Neem soap and Sulphur, last on 3 May;"
    )
    answered = (*both, Treatment(day("05-15"), "sulphur"))
    (job,) = treatments.jobs("T1", answered, day("06-01"))
    assert job_words.sentence(job, day("05-16")).startswith("Treated with Neem soap on")


def test_of_two_years_it_is_told_how_far_they_lie_apart() -> None:
    two = (date(2024, 3, 10), date(2025, 3, 18))
    (job,) = blooms.jobs("T1", two, day("01-10"), day("12-31"))
    assert job_words.sentence(job, day("01-10")) == (
        "By its own last two years, 8 days apart, it opens about 14 March; two years "
        "are little to go by."
    )
    three = (*two, date(2023, 3, 14))
    (job,) = blooms.jobs("T1", three, day("01-10"), day("12-31"))
    assert "give or take 3 days" in job_words.sentence(job, day("01-10"))


def test_what_is_open_is_neither_staked_nor_waited_for() -> None:
    def keys(opened: str | None, *flowering: Flowering) -> list[str]:
        one = plant("phalaenopsis", look("01-10", *flowering))
        case = Case(one, kinds.table().kinds["phalaenopsis"], HOUSE, day("01-20"))
        last = day(opened) if opened else None
        found = stems.jobs(case, day("12-31"), opened=last)
        return [job.key for job in found]

    waits = ["do-not-turn", "opens-from-spike", "stake-spike"]
    assert keys(None, Flowering.BUDS) == waits
    assert keys("01-09", Flowering.BUDS) == waits  # an earlier spike of this plant
    assert keys("01-10", Flowering.BUDS) == []
    assert keys(None, Flowering.BUDS, Flowering.OPEN) == ["do-not-turn"]
    assert keys(None, Flowering.OPEN) == []


@pytest.mark.parametrize(
    ("words", "months"),
    [
        ("spring", (3, 4, 5)),
        ("early spring, in a big deep pot", (2, 3, 4)),
        ("spring to early summer", (3, 4, 5, 6)),
        ("winter to early spring, before the heat", (12, 1, 2, 3)),
        ("the cool season", (10, 11, 12, 1, 2, 3)),
        ("the warm season, when unmanageable", (5, 6, 7, 8, 9)),
        ("autumn", (9, 10, 11)),
    ],
)
def test_a_season_named_is_those_months(words: str, months: tuple[int, ...]) -> None:
    assert months_of(words) == months


def test_flowers_seen_open_and_gone_since_are_the_moment_after_flowering() -> None:
    gone = look("05-20", Flowering.NONE)

    def stands(*before: Look) -> list[str]:
        one = plant(
            "phalaenopsis",
            *before,
            gone,
            medium=Medium.BARK,
            repotted_on=day("2024-01-01"),
        )
        return said(repot(one, "05-25"))

    assert stands(look("05-01", Flowering.OPEN)) == ["repot-now"]
    assert stands(look("05-01", Flowering.NONE)) == ["repot-waits"]
    assert stands() == ["repot-waits"]


def test_a_keiki_is_potted_within_a_month_of_its_roots() -> None:
    rooted = look("05-01", keikis=1, keiki_root_mm=HOUSE.keiki_root_mm)
    case = Case(
        plant("phalaenopsis", rooted),
        kinds.table().kinds["phalaenopsis"],
        HOUSE,
        day("05-02"),
    )
    (job,) = stems.jobs(case, day("12-31"))
    assert (job.on, job.until) == (day("05-01"), day("05-31"))
