"""Just repotted, salts in the pot, and fed too lately."""

from __future__ import annotations

from typing import Any

import pytest
from msgspec.structs import replace

from growdesk.domain.change import would_change
from growdesk.domain.facts import (
    Care,
    CareKind,
    Flowering,
    Health,
    Medium,
    RootTips,
)
from tests.domain.builders import (
    HOUSE,
    NOTHING,
    bloom_told,
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
)

FED = ("growing", "feed", "through")
SETTLING = ("just-repotted", "clear-water", "if-dry")
FLUSH = ("salts", "flush", "through")
SOON = ("too-soon", "clear-water", "if-dry")
REPOT = CareKind.REPOT
THREE = (fed("04-01"), fed("04-10"), fed("04-20"))
STOOD_STILL: dict[str, Any] = {"new_growths": NOTHING, "root_tips": RootTips.NONE}
GROWS = {"new_growths": replace(NOTHING, extending=1), "root_tips": RootTips.NONE}


# -- just repotted -----


@pytest.mark.parametrize(
    ("on", "settling"), [("05-01", True), ("05-15", True), ("05-16", False)]
)
def test_fourteen_days_after_a_repot_is_still_within(on: str, settling: bool) -> None:
    one = plant("cattleya", look("04-30", **GROWS), care=(did("05-01", REPOT),))
    assert (outcome(judged(one, on)) == SETTLING) is settling


def test_a_repot_of_the_day_itself_changes_the_day() -> None:
    one = plant("cattleya", moving("05-01"), care=(did("05-05", REPOT),))
    assert outcome(judged(one, "05-05")) == SETTLING
    assert outcome(judged(one, "05-04")) == FED


def test_the_plants_own_repot_day_counts_as_well() -> None:
    one = plant("cattleya", moving("05-01"), repotted_on=day("05-05"))
    assert outcome(judged(one, "05-08")) == SETTLING
    assert outcome(judged(one, "05-04")) == FED


def test_root_tips_seen_since_the_repot_end_it() -> None:
    care = (did("05-01", REPOT),)
    before = plant("cattleya", moving("04-30"), care=care)
    after = plant("cattleya", moving("04-30"), moving("05-06"), care=care)
    assert outcome(judged(before, "05-08")) == SETTLING
    assert outcome(judged(after, "05-08")) == FED


def test_the_settle_time_is_a_house_rule() -> None:
    one = plant("cattleya", look("04-30", **GROWS), care=(did("05-01", REPOT),))
    house = replace(HOUSE, settle_days=5)
    assert outcome(judged(one, "05-06", house)) == SETTLING
    assert outcome(judged(one, "05-07", house)) == FED


# -- salts -----


def test_the_third_feed_makes_the_next_watering_a_flush() -> None:
    grows = moving("05-05")
    two = plant("cattleya", grows, care=THREE[:2])
    three = plant("cattleya", grows, care=THREE)
    assert outcome(judged(two, "05-08")) == FED
    assert outcome(judged(three, "05-08")) == FLUSH


@pytest.mark.parametrize(
    ("more", "feeds", "flushed"),
    [
        ({"medium": Medium.SPHAGNUM}, 1, False),
        ({"medium": Medium.SPHAGNUM}, 2, True),
        ({"medium": Medium.BARK}, 2, False),
        ({"medium": Medium.BARK}, 3, True),
        ({"medium": Medium.SEMI_HYDRO}, 3, True),
        ({"medium": Medium.NONE}, 3, False),
        ({"mounted": True}, 3, False),
    ],
)
def test_each_potting_has_its_limit_of_feeds(
    more: dict[str, object], feeds: int, flushed: bool
) -> None:
    one = plant("cattleya", moving("05-05"), care=THREE[:feeds], **more)
    assert (outcome(judged(one, "05-08")) == FLUSH) is flushed


def test_the_limit_is_a_house_rule() -> None:
    one = plant("cattleya", moving("05-05"), care=THREE)
    house = replace(HOUSE, feeds_before_flush=4)
    assert outcome(judged(one, "05-08", house)) == FED


@pytest.mark.parametrize(
    ("washed", "flushed"),
    [("03-20", True), ("04-05", False), ("04-25", False)],
)
@pytest.mark.parametrize("what", [CareKind.FLUSH, REPOT])
def test_feeds_are_counted_since_the_last_flush_or_repot(
    what: CareKind, washed: str, flushed: bool
) -> None:
    one = plant("cattleya", moving("05-15"), care=(*THREE, did(washed, what)))
    assert (outcome(judged(one, "05-18")) == FLUSH) is flushed


def test_the_later_of_flush_and_repot_counts() -> None:
    care = (did("03-01", CareKind.FLUSH), did("04-12", REPOT), *THREE)
    one = plant("cattleya", moving("05-15"), care=care)
    assert judged(one, "05-18").rule != "salts"


def test_a_wash_by_repotting_is_not_called_a_flush() -> None:
    care = (did("03-01", REPOT), *THREE)
    got = judged(plant("cattleya", moving("05-15"), care=care), "05-18")
    assert outcome(got) == FLUSH
    assert "washed through on 1 March" not in deciding(got)


def test_clear_water_and_rain_are_no_flush() -> None:
    care = (*THREE, did("04-25", CareKind.CLEAR_WATER), did("04-26", CareKind.RAIN))
    one = plant("cattleya", moving("05-15"), care=care)
    assert outcome(judged(one, "05-18")) == FLUSH


def test_salt_burn_is_flushed_until_washed() -> None:
    burnt = moving("05-05", health=[Health.SALT_BURN])
    washed = (did("05-06", CareKind.FLUSH),)
    assert outcome(judged(plant("cattleya", burnt), "05-08")) == FLUSH
    assert outcome(judged(plant("cattleya", burnt, care=washed), "05-08")) == FED


def test_salt_burn_is_flushed_on_a_mount_too() -> None:
    burnt = moving("05-05", health=[Health.SALT_BURN])
    assert outcome(judged(plant("cattleya", burnt, mounted=True), "05-08")) == FLUSH


@pytest.mark.parametrize(
    ("seen", "washed", "flushed"),
    [
        (("burnt 05-05", "burnt 05-20"), "05-06", False),
        (("burnt 05-05", "burnt 05-20"), "05-05", False),
        (("burnt 05-05", "burnt 05-20"), "05-04", True),
        (("burnt 05-05", "not asked 05-10", "burnt 05-20"), "05-12", False),
        (("burnt 05-05", "clean 05-10", "burnt 05-20"), "05-12", True),
        (("burnt 05-05", "clean 05-10"), "05-01", False),
        (("burnt 05-05", "not asked 05-10"), "05-01", True),
    ],
)
@pytest.mark.parametrize("what", [CareKind.FLUSH, REPOT])
def test_burnt_tips_ask_for_one_flush_for_they_never_heal(
    seen: tuple[str, ...], washed: str, flushed: bool, what: CareKind
) -> None:
    health: dict[str, dict[str, Any]] = {
        "burnt": {"health": [Health.SALT_BURN]},
        "clean": {"health": []},
        "not asked": {},
    }
    looks = [moving(told[-5:], **health[told[:-6]]) for told in seen]
    one = plant("cattleya", *looks, care=(did(washed, what),))
    house = replace(HOUSE, settle_days=0)
    assert (outcome(judged(one, "05-22", house)) == FLUSH) is flushed


def test_the_sentence_of_burn_names_the_day_it_was_first_seen() -> None:
    looks = [moving(on, health=[Health.SALT_BURN]) for on in ("05-05", "05-20")]
    assert deciding(judged(plant("cattleya", *looks), "05-22")) == (
        "Flush: clear water in quantity. Salt burn was first seen on 5 May. It was not "
        "washed through between then and today."
    )


def test_a_flush_is_offered_against_burn_that_stays_on_the_leaves() -> None:
    one = plant("cattleya", moving("05-05", health=[Health.SALT_BURN]))
    told = would_change(one, kind_of(one), HOUSE, day("05-08"))
    assert "If it has been flushed, it would be fed." in told
    idle = replace(one, looks=(replace(one.looks[0], **STOOD_STILL),))
    told = would_change(idle, kind_of(idle), HOUSE, day("05-08"))
    assert told == (
        "If root tips are seen running, it would be flushed; feed follows.",
    )


@pytest.mark.parametrize(
    ("poured", "runoff", "flushed"),
    [
        (1.0, 1.5, False),
        (1.0, 1.51, True),
        (0.4, 0.8, False),
        (0.4, 0.81, True),
        (0.4, 0.7, False),
    ],
)
def test_runoff_is_held_against_what_was_poured(
    poured: float, runoff: float, flushed: bool
) -> None:
    """Default 1.5 times the last poured EC and at least 0.4 mS/cm above it."""
    seen = moving("05-05", runoff_ec_ms_per_cm=runoff)
    one = plant("cattleya", seen, care=(fed("05-01", 100, poured),))
    assert (outcome(judged(one, "05-08")) == FLUSH) is flushed


def test_the_sentence_of_a_high_runoff_names_both_with_their_unit() -> None:
    seen = moving("05-05", runoff_ec_ms_per_cm=2.25)
    one = plant("cattleya", seen, care=(fed("05-01", 100, 1.0),))
    text = deciding(judged(one, "05-08"))
    assert "2.25 mS/cm" in text
    assert "1 mS/cm" in text


def test_a_feed_poured_after_the_reading_did_not_cause_it() -> None:
    seen = moving("05-02", runoff_ec_ms_per_cm=1.3)
    care = (fed("05-01", 100, 1.0), fed("05-05", 30, 0.4))
    assert judged(plant("cattleya", seen, care=care), "05-12").rule != "salts"


def test_a_runoff_with_nothing_poured_on_record_says_nothing() -> None:
    seen = moving("05-05", runoff_ec_ms_per_cm=1.3)
    assert outcome(judged(plant("cattleya", seen), "05-08")) == FED


@pytest.mark.parametrize(
    ("tips", "growth"), [(RootTips.NONE, NOTHING), (RootTips.HIDDEN, NOTHING)]
)
def test_a_flush_is_put_off_while_the_plant_is_not_growing(
    tips: RootTips, growth: object
) -> None:
    shown = look("05-05", root_tips=tips, new_growths=growth)
    got = judged(plant("cattleya", shown, care=THREE), "05-08")
    assert outcome(got) == ("not-growing", "clear-water", "if-dry")
    assert [reason.role for reason in of_rule(got, "salts")] == ["not-a-reason"]
    assert "due a flush" in said(got)


def test_a_flush_put_off_with_hidden_roots_does_not_say_that_nothing_moves() -> None:
    shown = look("05-05", root_tips=RootTips.HIDDEN)
    got = judged(plant("cattleya", shown, care=THREE), "05-08")
    assert "nothing moves" not in said(got)


def test_a_flush_in_flower_leaves_the_bloom_out_of_it() -> None:
    got = judged(
        plant("cattleya", moving("05-05", Flowering.OPEN), care=THREE), "05-08"
    )
    assert outcome(got) == FLUSH
    assert len(bloom_told(got)) == 1


@pytest.mark.parametrize(
    ("on", "flushed"),
    [("10-10", False), ("10-11", True), ("10-31", True)],
)
def test_once_in_the_three_weeks_before_an_unfed_rest(on: str, flushed: bool) -> None:
    """Published: dendrobiums are flushed before the dry rest (G. Hands)."""
    one = plant("laelia-rupicolous", moving(on), care=(fed("10-01"),))
    assert (outcome(judged(one, on)) == FLUSH) is flushed


@pytest.mark.parametrize(
    "more", [{"mounted": True}, {"medium": Medium.NONE}], ids=["mounted", "bare root"]
)
def test_what_holds_no_feed_is_not_washed_before_a_rest(
    more: dict[str, object],
) -> None:
    one = plant("dendrobium-nobile", moving("08-28"), care=(fed("08-20"),), **more)
    assert judged(one, "08-30").rule == "growing"


@pytest.mark.parametrize(
    ("on", "last_fed", "clean"),
    [
        ("10-31", "10-20", True),
        ("10-28", "10-20", False),
        ("10-28", "10-26", True),
        ("10-28", "10-25", False),
        ("10-14", "10-10", False),
    ],
)
def test_clean_roots_are_promised_only_where_no_feed_follows(
    on: str, last_fed: str, clean: bool
) -> None:
    """The rest begins on Sunday 1 November; watering is on Wednesday and Saturday."""
    one = plant("laelia-rupicolous", moving(on), care=(fed(last_fed),))
    got = judged(one, on)
    assert outcome(got) == FLUSH
    assert ("goes into it with clean roots" in deciding(got)) is clean
    washed = "Its pot is washed through once in the 21 days before it."
    assert (washed in deciding(got)) is not clean


def test_not_twice_before_the_rest() -> None:
    care = (fed("10-01"), did("10-14", CareKind.FLUSH), fed("10-20"))
    one = plant("laelia-rupicolous", moving("10-25"), care=care)
    assert judged(one, "10-28").rule == "growing"


def test_not_before_the_rest_if_not_fed_since_the_last_flush() -> None:
    care = (fed("08-01"), did("09-01", CareKind.FLUSH))
    one = plant("laelia-rupicolous", moving("10-20"), care=care)
    assert judged(one, "10-22").rule == "growing"


def test_no_nitrogen_counts_as_an_unfed_rest_before_its_date() -> None:
    looks = (moving("06-01"), moving("09-01"))
    one = plant("dendrobium-nobile", *looks, care=(fed("08-20"),))
    assert outcome(judged(one, "09-03")) == FLUSH


@pytest.mark.parametrize("kind", ["cattleya", "phalaenopsis"])
def test_kinds_without_an_unfed_rest_are_not_washed_for_one(kind: str) -> None:
    one = plant(kind, moving("10-20"), care=(fed("10-01"),))
    assert judged(one, "10-22").rule == "growing"


# -- too soon -----


@pytest.mark.parametrize(("on", "soon"), [("05-11", True), ("05-12", False)])
def test_six_days_after_a_feed_the_next_is_allowed(on: str, soon: bool) -> None:
    one = plant("cattleya", moving("05-05"), care=(fed("05-06"),))
    assert (outcome(judged(one, on)) == SOON) is soon


@pytest.mark.parametrize(("own", "on"), [(14, "05-19"), (3, "05-08")])
def test_its_own_interval_comes_first(own: int, on: str) -> None:
    one = plant(
        "cattleya", moving("05-05"), care=(fed("05-06"),), feed_interval_days=own
    )
    assert outcome(judged(one, on)) == SOON
    after = day(on).replace(day=day(on).day + 1)
    assert outcome(judged(one, after)) == FED


@pytest.mark.parametrize(
    "more", [{"mounted": True}, {"medium": Medium.NONE}, {"medium": Medium.SEMI_HYDRO}]
)
def test_some_pottings_are_fed_at_every_watering(more: dict[str, object]) -> None:
    one = plant("cattleya", moving("05-05"), care=(fed("05-06"),), **more)
    assert outcome(judged(one, "05-07")) == FED
    slow = replace(one, feed_interval_days=14)
    assert outcome(judged(slow, "05-07")) == SOON


def test_the_house_interval_is_a_house_rule() -> None:
    one = plant("cattleya", moving("05-05"), care=(fed("05-06"),))
    assert outcome(judged(one, "05-12", replace(HOUSE, least_interval_days=7))) == SOON


@pytest.mark.parametrize(
    "what", [CareKind.FEED, CareKind.CLEAR_WATER, CareKind.FLUSH, CareKind.RAIN]
)
def test_what_was_done_on_the_day_does_not_change_the_day(what: CareKind) -> None:
    one = plant("cattleya", moving("05-05"), care=(did("05-08", what),))
    assert outcome(judged(one, "05-08")) == FED
    due = replace(one, care=(*THREE, did("05-08", what)))
    assert outcome(judged(due, "05-08")) == FLUSH


def test_care_of_later_days_is_not_used_and_said() -> None:
    one = plant("cattleya", moving("05-05"), care=(fed("05-09"), did("05-20", REPOT)))
    got = judged(one, "05-08")
    assert outcome(got) == FED
    assert "9 May" in said(got)


def test_salts_come_before_too_soon() -> None:
    one = plant("cattleya", moving("05-05"), care=(*THREE, fed("05-06")))
    got = judged(one, "05-08")
    assert outcome(got) == FLUSH
    assert [reason.role for reason in of_rule(got, "too-soon")] == ["not-a-reason"]


def test_a_flush_is_not_a_feed() -> None:
    care = (Care(day("05-06"), CareKind.FLUSH), fed("04-20"))
    assert (
        outcome(judged(plant("cattleya", moving("05-05"), care=care), "05-08")) == FED
    )
