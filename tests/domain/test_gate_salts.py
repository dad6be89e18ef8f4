"""A flush by what its kind stands, and by the estimate where the house goes by it."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING, Any

import pytest
from msgspec.structs import replace

from growdesk.domain import salt_balance
from growdesk.domain.change import would_change
from growdesk.domain.facts import (
    Care,
    CareKind,
    Flowering,
    Health,
    Leaves,
    Medium,
    Place,
    Plant,
    RootTips,
    Verdict,
)
from growdesk.domain.judging import decider_of, judge
from growdesk.domain.wording import short
from growdesk.domain.worth_looking import worth_looking
from tests.domain.builders import (
    HOUSE,
    day,
    deciding,
    did,
    fed,
    judged,
    kind_of,
    look,
    moving,
    of_rule,
    outcome,
    plant,
    said,
    still,
)

if TYPE_CHECKING:
    from collections.abc import Callable

BY_ESTIMATE = replace(HOUSE, flush_by_estimate=True, feeds_before_flush=20)
PATIENT = replace(BY_ESTIMATE, flush_by_estimate=False)
FLUSH = ("salts", "flush", "through")
FED = ("growing", "feed", "through")
CLEAR = CareKind.CLEAR_WATER


def salted(*looks: Any, weeks: int = 6, ppm_n: float = 350.0, **more: Any) -> Plant:
    """Give a plant in a litre of bark, washed on 1 April and fed strongly since."""
    first = day("04-04")
    feeds = tuple(
        Care(first + timedelta(days=7 * n), CareKind.FEED, ppm_n, None, 0.2)
        for n in range(weeks)
    )
    care = (did("04-01", CareKind.FLUSH), *feeds)
    potting = {"pot_volume_l": 1.0, "medium": Medium.BARK, **more}
    return plant("cattleya", *(looks or (moving("05-15"),)), care=care, **potting)


# -- the reading against its kind's limit -----


@pytest.mark.parametrize(
    ("kind", "runoff", "flushed"),
    [
        ("cattleya", 1.5, False),
        ("cattleya", 1.51, True),
        ("masdevallia", 0.8, False),
        ("masdevallia", 0.81, True),
        ("phalaenopsis", 1.9, False),
    ],
)
def test_a_reading_above_its_kinds_limit_is_flushed(
    kind: str, runoff: float, flushed: bool
) -> None:
    one = plant(kind, moving("05-05", runoff_ec_ms_per_cm=runoff))
    assert (outcome(judged(one, "05-08")) == FLUSH) is flushed


def test_the_sentence_names_reading_limit_and_kind() -> None:
    one = plant("cattleya", moving("05-05", runoff_ec_ms_per_cm=1.8))
    got = judged(one, "05-08")
    assert deciding(got) == (
        "Flush: clear water in quantity. Its runoff read 1.8 mS/cm on 5 May, 3 days "
        "ago. A pot of its kind should hold 1.5 mS/cm at most; its kind is Cattleya, "
        "one-leaved, and hybrids. It was not washed through between then and today."
    )
    assert short(got) == "runoff above its kind's limit"


@pytest.mark.parametrize(
    ("care", "begins"),
    [
        ((), "Its runoff reads 1.8 mS/cm today. A pot of its kind should hold 1.5"),
        (
            (fed("05-01", 100, 1.0),),
            "Its runoff reads 1.8 mS/cm today. With 1 mS/cm poured, 1.5 mS/cm is",
        ),
    ],
)
def test_a_reading_of_the_day_is_told_as_one(
    care: tuple[Care, ...], begins: str
) -> None:
    one = plant("cattleya", moving("05-08", runoff_ec_ms_per_cm=1.8), care=care)
    got = judged(one, "05-08")
    told = deciding(got).removeprefix("Flush: clear water in quantity. ")
    assert told.startswith(begins)
    assert short(got)


@pytest.mark.parametrize(("runoff", "flushed"), [(1.504, False), (1.506, True)])
@pytest.mark.parametrize("care", [(), (fed("05-01", 100, 1.0),)])
def test_a_limit_is_passed_by_what_a_meter_can_show(
    runoff: float, flushed: bool, care: tuple[Care, ...]
) -> None:
    """No sentence says that 1.5 was read and 1.5 is the most."""
    one = plant("cattleya", moving("05-05", runoff_ec_ms_per_cm=runoff), care=care)
    got = judged(one, "05-08")
    assert (outcome(got) == FLUSH) is flushed
    assert ("read 1.51 mS/cm" in said(got)) is flushed


def test_what_was_poured_is_told_before_the_kind() -> None:
    seen = moving("05-05", runoff_ec_ms_per_cm=1.8)
    one = plant("cattleya", seen, care=(fed("05-01", 100, 1.0),))
    assert judged(one, "05-08").reasons[0].key == "runoff-high"


@pytest.mark.parametrize(
    ("washed", "flushed"), [("05-04", True), ("05-05", False), ("05-07", False)]
)
@pytest.mark.parametrize("what", [CareKind.FLUSH, CareKind.REPOT])
def test_a_flush_or_repot_since_settles_the_reading(
    what: CareKind, washed: str, flushed: bool
) -> None:
    seen = moving("05-05", runoff_ec_ms_per_cm=1.8)
    one = plant("cattleya", seen, moving("05-08"), care=(did(washed, what),))
    house = replace(HOUSE, settle_days=0)
    assert (judged(one, "05-09", house).rule == "salts") is flushed


@pytest.mark.parametrize(
    ("on", "counts"),
    [("05-26", True), ("05-27", True), ("2027-05-05", True), ("2027-05-06", False)],
)
def test_a_reading_stands_until_it_is_washed_out_or_a_year_is_past(
    on: str, counts: bool
) -> None:
    high = moving("05-05", runoff_ec_ms_per_cm=1.8)
    one = plant("cattleya", high, moving(day(on) - timedelta(days=1)))
    assert (outcome(judged(one, on)) == FLUSH) is counts


def test_waiting_does_not_release_a_plant_with_a_high_reading() -> None:
    one = plant("cattleya", moving("05-20", runoff_ec_ms_per_cm=3.5), moving("06-11"))
    got = judged(replace(one, care=(fed("05-01", 100, 1.0),)), "06-15")
    assert outcome(got) == FLUSH
    assert "read 3.5 mS/cm on 20 May, 26 days ago" in deciding(got)
    told = would_change(one, kind_of(one), HOUSE, day("06-15"))
    assert "If it has been flushed, it would be fed." in told
    assert not [text for text in told if text.startswith("From ")]


def test_a_later_reading_replaces_it() -> None:
    looks = (
        moving("05-05", runoff_ec_ms_per_cm=1.8),
        moving("05-07", runoff_ec_ms_per_cm=1.2),
    )
    assert outcome(judged(plant("cattleya", *looks), "05-08")) == FED


def test_it_is_put_off_in_the_cold_and_while_nothing_grows() -> None:
    high = {"runoff_ec_ms_per_cm": 1.8}
    cold = plant(
        "cattleya", moving("05-05", **high), place=Place(mean_temperature_c=10.0)
    )
    got = judged(cold, "05-08")
    assert got.rule == "too-cold"
    assert "due a flush" in said(got)
    idle = judged(plant("cattleya", still("05-05", **high)), "05-08")
    assert outcome(idle) == ("not-growing", "clear-water", "if-dry")
    assert "due a flush" in said(idle)


def test_a_flush_after_the_reading_is_offered_as_what_would_bring_feed() -> None:
    one = plant("cattleya", moving("05-05", runoff_ec_ms_per_cm=1.8))
    told = would_change(one, kind_of(one), HOUSE, day("05-08"))
    assert "If it has been flushed, it would be fed." in told


def test_a_washed_out_reading_is_not_dated_anew_by_a_look() -> None:
    """A look that would release the plant shows its signs, not its old runoff."""
    high = still("04-25", runoff_ec_ms_per_cm=1.8)
    one = plant("cattleya", high, care=(did("04-28", CareKind.FLUSH),))
    told = would_change(one, kind_of(one), HOUSE, day("05-08"))
    assert "If root tips are seen running, it would be fed." in told


# -- water that is too salty itself -----


@pytest.mark.parametrize(("water", "ordered"), [(0.39, True), (0.4, False)])
@pytest.mark.parametrize(
    "due",
    [
        {"looks": (moving("05-05", runoff_ec_ms_per_cm=0.7),)},
        {"looks": (moving("05-05", health=[Health.SALT_BURN]),)},
        {"looks": (moving("05-05"),), "care": [fed(f"04-{n}") for n in (10, 17, 24)]},
    ],
)
def test_no_flush_is_ordered_with_water_above_its_kinds_limit(
    due: dict[str, Any], water: float, ordered: bool
) -> None:
    """A Disa is published for rain water only; its pot is taken at 0.4 mS/cm."""
    one = plant("disa", *due["looks"], care=tuple(due.get("care", ())))
    got = judged(one, "05-08", replace(HOUSE, water_ec_ms_per_cm=water))
    assert (outcome(got) == FLUSH) is ordered
    assert ordered or outcome(got) == ("salts", "clear-water", "if-dry")


def test_it_says_which_water_to_flush_with_and_why_it_is_due() -> None:
    one = plant("disa", moving("05-05", runoff_ec_ms_per_cm=0.7), pot_volume_l=1.0)
    got = judged(one, "05-08", replace(HOUSE, water_ec_ms_per_cm=0.62))
    assert deciding(got).startswith(
        "Clear water, if the pot is light. It is due a flush, but the water in use "
        "reads 0.62 mS/cm itself. A pot of its kind should hold 0.4 "
        "mS/cm at most"
    )
    assert "Flush it with rain or RO water" in deciding(got)
    assert [(r.role, r.key) for r in of_rule(got, "salts")] == [
        ("decides", "water-too-salty"),
        ("supports", "runoff-over-kind"),
    ]
    assert got.flush_l is None
    assert short(got) == "water too salty to flush"


def test_once_flushed_with_better_water_it_is_fed() -> None:
    high = moving("05-05", runoff_ec_ms_per_cm=0.7)
    one = plant("disa", high, care=(did("05-06", CareKind.FLUSH),))
    assert outcome(judged(one, "05-08", replace(HOUSE, water_ec_ms_per_cm=0.6))) == FED


# -- the estimate -----


def test_judging_follows_no_salts_until_a_plant_is_told(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """The course is followed once, in all its nine ways, and only where asked for."""
    one, counts, followed = salted(), [], salt_balance.followed

    def counted(*args: Any) -> salt_balance.Store:
        counts.append(1)
        return followed(*args)

    def asked(call: Callable[[], object]) -> int:
        counts.clear()
        call()
        return len(counts)

    monkeypatch.setattr(salt_balance, "followed", counted)
    kind, on = kind_of(one), day("05-20")
    assert asked(lambda: judge(one, kind, PATIENT, on)) == 0
    assert asked(lambda: would_change(one, kind, PATIENT, on)) == 0
    assert asked(lambda: worth_looking(one, kind, PATIENT, on)) == 0
    assert asked(lambda: decider_of(one, kind, HOUSE, on)) == 0
    assert asked(lambda: judge(one, kind, HOUSE, on)) == 1
    flushed = judge(one, kind, HOUSE, on)
    assert flushed.verdict is Verdict.FLUSH
    assert flushed.flush_l
    extremes = 4 * 2
    told = asked(lambda: judge(one, kind, PATIENT, on, tells_salts=True))
    assert told == 1 + extremes
    assert asked(lambda: decider_of(one, kind, BY_ESTIMATE, on)) == 1 + extremes


def test_the_estimate_alone_is_told_and_does_not_decide() -> None:
    got = judged(salted(), "05-20", PATIENT)
    assert outcome(got) == FED
    (told,) = of_rule(got, "salts")
    assert (told.role, told.key) == ("unknown", "salts-may-stand")
    assert "By what it was given since 1 April, its pot may stand at 2" in said(got)
    assert "Its kind's limit is 1.5 mS/cm. Measure the runoff." in said(got)


def test_the_house_may_let_its_lowest_decide() -> None:
    got = judged(salted(), "05-20", BY_ESTIMATE)
    assert outcome(got) == FLUSH
    assert got.reasons[0].key == "salts-over-kind"
    assert "mS/cm at the least. Its kind's limit is 1.5 mS/cm" in deciding(got)
    assert len(of_rule(got, "salts")) == 1
    assert short(got) == "salts high by estimate"


def test_the_lowest_has_to_be_above_the_limit() -> None:
    """Between lowest and usual the estimate is told, and still does not decide."""
    outcomes = []
    for ppm_n in range(30, 1000, 10):
        got = judged(salted(ppm_n=float(ppm_n)), "05-20", BY_ESTIMATE)
        outcomes.append((got.rule, tuple(r.key for r in of_rule(got, "salts"))))
    seen = list(dict.fromkeys(outcomes))
    assert seen == [
        ("growing", ()),
        ("growing", ("salts-may-stand",)),
        ("salts", ("salts-over-kind",)),
    ]


def test_weak_feeds_say_nothing() -> None:
    got = judged(salted(ppm_n=40.0), "05-20", BY_ESTIMATE)
    assert outcome(got) == FED
    assert not of_rule(got, "salts")


def test_it_supports_a_flush_due_for_another_reason() -> None:
    got = judged(salted(), "05-20")
    assert got.reasons[0].key == "feeds-at-limit"
    roles = [(r.role, r.key) for r in of_rule(got, "salts")]
    assert roles[1] == ("supports", "salts-stand-too")
    assert "Measure" not in said(got)


def test_nothing_is_measured_on_a_plant_that_gets_no_water() -> None:
    one = salted(look("05-15", leaves=Leaves.LEAFLESS, root_tips=RootTips.NONE))
    got = judged(replace(one, kind="catasetum"), "05-20", PATIENT)
    assert got.verdict is Verdict.KEEP_DRY
    assert not of_rule(got, "salts")


@pytest.mark.parametrize("more", [{"mounted": True}, {"medium": Medium.NONE}])
def test_what_holds_no_salts_has_no_estimate(more: dict[str, Any]) -> None:
    got = judged(salted(**more), "05-20", BY_ESTIMATE)
    assert not of_rule(got, "salts")


def test_a_pot_of_unknown_size_has_no_estimate() -> None:
    got = judged(salted(pot_volume_l=None), "05-20", BY_ESTIMATE)
    assert outcome(got) == FED
    assert got.flush_l is None


def test_water_above_the_limit_is_not_flushed_with_for_ever() -> None:
    house = replace(BY_ESTIMATE, water_ec_ms_per_cm=1.6)
    assert outcome(judged(salted(), "05-20", house)) == FED


def test_by_estimate_it_is_put_off_in_the_cold_and_while_nothing_grows() -> None:
    cold = replace(salted(), place=Place(mean_temperature_c=10.0))
    assert judged(cold, "05-20", BY_ESTIMATE).rule == "too-cold"
    idle = judged(salted(still("05-15")), "05-20", BY_ESTIMATE)
    assert outcome(idle) == ("not-growing", "clear-water", "if-dry")
    assert "due a flush" in said(idle)


def test_a_flush_by_estimate_is_done_once() -> None:
    one = salted()
    flushed = replace(one, care=(*one.care, did("05-20", CareKind.FLUSH)))
    assert outcome(judged(flushed, "05-21", BY_ESTIMATE)) != FLUSH


def test_open_flowers_change_nothing_of_it() -> None:
    plain = judged(salted(), "05-20", BY_ESTIMATE)
    bloom = salted(moving("05-15", Flowering.OPEN))
    assert outcome(judged(bloom, "05-20", BY_ESTIMATE)) == outcome(plain)


# -- the litres -----


def test_a_flush_carries_its_litres_and_other_verdicts_none() -> None:
    high = moving("05-15", runoff_ec_ms_per_cm=9.0)
    moss = plant("cattleya", high, pot_volume_l=1.0, medium=Medium.SPHAGNUM)
    got = judged(moss, "05-20")
    assert outcome(got) == FLUSH
    assert got.flush_l is not None
    assert 1.0 < got.flush_l < 3.0
    assert judged(salted(ppm_n=40.0), "05-20", PATIENT).flush_l is None


def test_a_pot_too_full_of_salts_is_flushed_twice() -> None:
    high = moving("05-15", runoff_ec_ms_per_cm=20.0)
    limit = replace(HOUSE, water_ec_ms_per_cm=1.3)
    pebbles = plant("cattleya", high, pot_volume_l=1.0, medium=Medium.SPHAGNUM)
    got = judged(pebbles, "05-20", limit)
    assert got.flush_l == 3.0
    assert "Flush it twice, some hours apart" in said(got)
    assert "twice" not in said(judged(pebbles, "05-20"))
