"""Overrules, looks out of date, rot, plants that cannot drink, cold and heat."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from growdesk.domain.change import would_change
from growdesk.domain.facts import (
    Bulbs,
    Flowering,
    Health,
    Leaves,
    Look,
    Overrule,
    Place,
    Plant,
    Reading,
    RootTips,
    Verdict,
    Water,
)
from growdesk.domain.kinds import Warmth
from growdesk.services import kinds
from tests.domain.builders import (
    EXTENDING,
    HOUSE,
    bloom_told,
    day,
    deciding,
    fed,
    judged,
    kind_of,
    look,
    moving,
    of_rule,
    outcome,
    plant,
    said,
    sentences,
    still,
    warm_place,
)

FED = ("growing", "feed", "through")
BARE = look("04-05", leaves=Leaves.LEAFLESS, longest_new_root_mm=30)


def overruled(one: Plant, verdict: Verdict, water: Water | None = None) -> Plant:
    said_so = Overrule(verdict, "it is at a friend's house", day("05-20"), water)
    return replace(one, overrule=said_so)


# -- overruled -----


@pytest.mark.parametrize("verdict", list(Verdict))
@pytest.mark.parametrize("water", list(Water))
def test_an_overrule_is_done_as_said(verdict: Verdict, water: Water) -> None:
    one = overruled(plant("cattleya", still("05-05")), verdict, water)
    got = judged(one, "05-08")
    assert outcome(got) == ("overruled", verdict.value, water.value)
    assert "friend's house" in deciding(got)
    assert "20 May" in deciding(got)


@pytest.mark.parametrize("verdict", [Verdict.FEED, Verdict.FLUSH])
def test_feed_and_flush_go_through_unless_said_otherwise(verdict: Verdict) -> None:
    one = overruled(plant("cattleya", still("05-05")), verdict)
    assert judged(one, "05-08").water == "through"


def test_an_overrule_lifts_even_a_leafless_rest() -> None:
    got = judged(overruled(plant("catasetum", BARE), Verdict.FEED), "04-08")
    assert outcome(got) == ("overruled", "feed", "through")
    assert got.strength_ppm_n is not None


def test_an_overrule_stands_on_an_old_look_and_on_none() -> None:
    old = overruled(plant("cattleya", moving("01-05")), Verdict.FEED)
    none = overruled(plant("cattleya"), Verdict.FEED)
    assert [judged(one, "05-08").verdict for one in (old, none)] == ["feed", "feed"]


@pytest.mark.parametrize(("on", "held"), [("05-20", True), ("05-21", False)])
def test_an_overrule_holds_through_its_last_day(on: str, held: bool) -> None:
    one = overruled(plant("cattleya", moving("05-15")), Verdict.KEEP_DRY)
    assert (judged(one, on).rule == "overruled") is held


@pytest.mark.parametrize(
    ("one", "on", "said_without"),
    [
        (plant("cattleya", moving("05-05")), "05-08", "it would be fed."),
        (
            plant("cattleya", still("05-05")),
            "05-08",
            "it would get clear water, only if the pot is light.",
        ),
        (
            plant("cattleya", moving("05-05"), care=(fed("05-06"),)),
            "05-08",
            "it would get clear water, only if the pot is light.",
        ),
        (
            plant("encyclia", still("01-05")),
            "01-08",
            "it would get clear water, sparingly.",
        ),
        (
            plant("catasetum"),
            "05-08",
            "it would be looked at first, and stay dry until then.",
        ),
    ],
)
def test_an_overrule_says_what_would_be_done_without_it(
    one: Plant, on: str, said_without: str
) -> None:
    mine = overruled(one, Verdict.KEEP_DRY)
    got = judged(mine, on)
    told = sentences(got)
    assert told[0] == (
        "Keep dry. You overruled this, until 20 May: it is at a friend's house."
    )
    assert told[1] == f"Without the overrule {said_without}"
    assert got.reasons[1].role == "not-a-reason"


def test_an_overrule_that_changes_nothing_says_so() -> None:
    one = plant("catasetum", BARE)
    got = judged(overruled(one, Verdict.KEEP_DRY), "04-08")
    assert "Without the overrule it would get the same." in sentences(got)
    assert got.reasons[1].role == "supports"
    sparing = overruled(one, Verdict.CLEAR_WATER, Water.SPARING)
    assert "Without the overrule it would be kept dry." in said(
        judged(sparing, "04-08")
    )


@pytest.mark.parametrize(
    ("one", "verdict"),
    [
        (plant("cattleya", moving("05-05")), Verdict.FEED),
        (plant("cattleya", still("05-05")), Verdict.KEEP_DRY),
    ],
)
def test_until_when_an_overrule_holds_is_told(one: Plant, verdict: Verdict) -> None:
    mine = overruled(one, verdict)
    told = would_change(mine, kind_of(mine), HOUSE, day("05-08"))
    ends = "Your overrule holds until 20 May; after that it is judged anew."
    assert told[-1] == ends
    assert mine.overrule is not None
    later = replace(mine, overrule=replace(mine.overrule, since=day("05-12")))
    assert ends not in would_change(later, kind_of(later), HOUSE, day("05-08"))


@pytest.mark.parametrize(
    ("why", "told"),
    [
        ("it is on trial", "it is on trial."),
        ("It is on trial.", "It is on trial."),
        ("Because I say so! ", "Because I say so!"),
        ("is it really ill?", "is it really ill?"),
        ("we shall see…", "we shall see…"),
        ("it (the old one) is mine", "it (the old one) is mine."),
    ],
)
def test_an_own_reason_ends_with_one_mark(why: str, told: str) -> None:
    said_so = Overrule(Verdict.KEEP_DRY, why, day("05-20"))
    got = judged(plant("cattleya", still("05-05"), overrule=said_so), "05-08")
    assert deciding(got).endswith(f"until 20 May: {told}")


# -- look out of date -----


@pytest.mark.parametrize(
    ("on", "rule"), [("05-26", "growing"), ("05-27", "look-out-of-date")]
)
def test_a_look_21_days_old_still_counts(on: str, rule: str) -> None:
    assert judged(plant("cattleya", moving("05-05")), on).rule == rule


@pytest.mark.parametrize(("limit", "rule"), [(13, "look-out-of-date"), (14, "growing")])
def test_the_look_limit_is_a_house_rule(limit: int, rule: str) -> None:
    house = replace(HOUSE, look_limit_days=limit)
    assert judged(plant("cattleya", moving("05-05")), "05-19", house).rule == rule


def test_never_looked_at_is_looked_at_first() -> None:
    got = judged(plant("cattleya"), "05-08")
    assert outcome(got) == ("look-out-of-date", "look-first", "if-dry")


def test_looks_of_later_days_are_not_used_and_said() -> None:
    one = plant("cattleya", moving("05-12"))
    got = judged(one, "05-08")
    assert got.verdict == "look-first"
    assert "12 May" in said(got)


@pytest.mark.parametrize(
    ("kind", "shown", "words", "water"),
    [
        ("cattleya", moving("03-05"), "it would be fed", "if-dry"),
        ("cattleya", still("03-05"), "would get clear water", "if-dry"),
        ("laelia-rupicolous", still("02-01"), "would get clear water", "sparing"),
        ("cattleya", moving("03-05", health=[Health.ROT]), "would stay dry", "none"),
        (
            "cattleya",
            still("03-05", health=[Health.NO_ROOTS]),
            "clear water",
            "sparing",
        ),
    ],
)
def test_it_says_what_the_last_look_would_have_said(
    kind: str, shown: object, words: str, water: str
) -> None:
    got = judged(plant(kind, shown), "03-28")  # type: ignore[arg-type]
    assert (got.verdict, got.water) == ("look-first", water)
    assert words in said(got)
    assert "Until it is looked at" in said(got)


def test_a_flush_is_never_given_on_an_old_look() -> None:
    care = (fed("02-01"), fed("02-10"), fed("02-20"))
    got = judged(plant("cattleya", moving("03-05"), care=care), "03-28")
    assert (got.verdict, got.water) == ("look-first", "if-dry")
    assert "it would be flushed" in said(got)


def test_bloom_is_told_on_an_old_look_too() -> None:
    got = judged(plant("cattleya", moving("03-05", Flowering.OPEN)), "03-28")
    assert len(bloom_told(got)) == 1


# -- rot -----


def test_rot_is_kept_dry_with_what_to_do() -> None:
    got = judged(plant("cattleya", moving("05-05", health=[Health.ROT])), "05-08")
    assert outcome(got) == ("rot", "keep-dry", "none")
    for words in ("clean tissue", "dry", "warm", "moving air", "apart", "last"):
        assert words in said(got)


def test_rot_stands_until_a_look_without_it() -> None:
    rotten = moving("05-05", health=[Health.ROT])
    silent, clean = moving("05-12"), moving("05-12", health=[])
    assert judged(plant("cattleya", rotten, silent), "05-14").rule == "rot"
    assert outcome(judged(plant("cattleya", rotten, clean), "05-14")) == FED


# -- cannot drink -----


def test_no_live_roots_get_a_little_clear_water() -> None:
    got = judged(plant("cattleya", moving("05-05", health=[Health.NO_ROOTS])), "05-08")
    assert outcome(got) == ("cannot-drink", "clear-water", "sparing")


@pytest.mark.parametrize(
    "signs", [{"bulbs": Bulbs.SHRIVELLED}, {"leaves": Leaves.SHRIVELLED}]
)
def test_badly_shrivelled_with_live_roots_is_watered_through(
    signs: dict[str, object],
) -> None:
    got = judged(plant("cattleya", moving("05-05", health=[], **signs)), "05-08")
    assert outcome(got) == ("cannot-drink", "clear-water", "through")


def test_wrinkled_is_not_badly_shrivelled() -> None:
    got = judged(plant("cattleya", moving("05-05", bulbs=Bulbs.WRINKLED)), "05-08")
    assert outcome(got) == FED


def test_badly_shrivelled_in_a_rest_stays_with_the_rest() -> None:
    shown = still("01-05", bulbs=Bulbs.SHRIVELLED, health=[])
    got = judged(plant("laelia-rupicolous", shown), "01-08")
    assert outcome(got) == ("unfed-rest", "clear-water", "sparing")


def test_shrivelled_and_nobody_looked_at_the_roots_is_not_soaked() -> None:
    """A sentence does not say that roots live when nobody looked."""
    got = judged(plant("cattleya", look("05-05", bulbs=Bulbs.SHRIVELLED)), "05-08")
    assert (got.verdict, got.water) == ("clear-water", "sparing")
    assert "Whether its roots live is not known." in deciding(got)


# -- what proves that roots live -----


def shrivelled(**signs: object) -> Look:
    return look("05-05", bulbs=Bulbs.SHRIVELLED, **signs)


@pytest.mark.parametrize(
    "signs",
    [
        {"root_tips": RootTips.STARTING},
        {"root_tips": RootTips.RUNNING},
        {"health": []},
        {"health": [Health.PESTS]},
    ],
)
@pytest.mark.parametrize(
    ("seen", "water"), [("04-17", "through"), ("04-16", "sparing")]
)
def test_a_look_proves_live_roots_as_long_as_a_look_counts(
    signs: dict[str, object], seen: str, water: str
) -> None:
    """On 8 May a look of 17 April is 21 days old."""
    got = judged(plant("cattleya", look(seen, **signs), shrivelled()), "05-08")
    assert outcome(got) == ("cannot-drink", "clear-water", water)
    not_known = "Whether its roots live is not known" in deciding(got)
    assert not_known is (water == "sparing")


@pytest.mark.parametrize(
    "signs", [{}, {"root_tips": RootTips.NONE}, {"root_tips": RootTips.HIDDEN}]
)
def test_no_other_record_proves_live_roots(signs: dict[str, object]) -> None:
    got = judged(plant("cattleya", shrivelled(**signs)), "05-08")
    assert outcome(got) == ("cannot-drink", "clear-water", "sparing")


def test_the_look_that_is_judged_proves_however_old_it_is() -> None:
    one = plant("cattleya", shrivelled(root_tips=RootTips.RUNNING))
    got = judged(one, "06-08")
    assert (got.verdict, got.water) == ("look-first", "if-dry")


@pytest.mark.parametrize("tips", [RootTips.STARTING, RootTips.RUNNING])
def test_root_tips_on_the_move_end_no_live_roots(tips: RootTips) -> None:
    rootless = look("04-25", health=[Health.NO_ROOTS], root_tips=tips)
    seen = look("05-05", new_growths=EXTENDING, root_tips=tips)
    assert outcome(judged(plant("cattleya", rootless, seen), "05-08")) == FED
    alone = plant("cattleya", rootless)
    assert judged(alone, "05-08").rule == "cannot-drink", "the same look ends nothing"


@pytest.mark.parametrize("tips", [RootTips.NONE, RootTips.HIDDEN, None])
def test_other_tips_leave_no_live_roots_standing(tips: RootTips | None) -> None:
    rootless = look("04-25", health=[Health.NO_ROOTS])
    seen = look("05-05", new_growths=EXTENDING, root_tips=tips)
    got = judged(plant("cattleya", rootless, seen), "05-08")
    assert outcome(got) == ("cannot-drink", "clear-water", "sparing")
    assert "25 April" in deciding(got)


# -- trouble told whatever decides -----


@pytest.mark.parametrize(
    ("health", "sentence"),
    [
        (Health.ROT, "Rot was seen on 5 March."),
        (Health.NO_ROOTS, "It had no live roots on 5 March. Feed cannot help a plant "),
    ],
)
def test_an_old_look_tells_the_trouble_it_saw(health: Health, sentence: str) -> None:
    one = plant("cattleya", moving("03-05", health=[health]))
    got = judged(one, "03-28")
    assert got.verdict == "look-first"
    assert sentence in said(got)
    assert "5 March it would" in said(got)
    clean = plant("cattleya", moving("03-05", health=[]))
    assert sentence not in said(judged(clean, "03-28"))


def test_an_old_look_tells_nothing_else_that_lost() -> None:
    care = (fed("03-27"),)
    got = judged(plant("cattleya", moving("03-05"), care=care), "03-28")
    assert {reason.rule for reason in got.reasons} == {"look-out-of-date"}


APART = "It stands apart and is handled last."


@pytest.mark.parametrize(
    ("health", "sentence"),
    [
        ([Health.PESTS], "Pests were seen on 5 May. "),
        ([Health.VIRUS_SUSPECT], "A virus was suspected on 5 May. "),
        (
            [Health.PESTS, Health.VIRUS_SUSPECT],
            "Pests were seen and a virus was suspected on 5 May. ",
        ),
    ],
)
@pytest.mark.parametrize("on", ["05-08", "06-08"])
def test_suspects_are_told_in_one_sentence_and_decide_nothing(
    health: list[Health], sentence: str, on: str
) -> None:
    got = judged(plant("cattleya", moving("05-05", health=health)), on)
    clean = judged(plant("cattleya", moving("05-05", health=[])), on)
    assert outcome(got) == outcome(clean)
    assert [one for one in sentences(got) if APART in one] == [sentence + APART]
    assert APART not in said(clean)
    (reason,) = of_rule(got, "suspect")
    assert reason.role == "supports"


def test_suspects_are_told_until_a_look_without_them() -> None:
    seen = moving("05-01", health=[Health.PESTS])
    silent, clean = moving("05-05"), moving("05-05", health=[])
    assert "1 May. It stands apart" in said(
        judged(plant("cattleya", seen, silent), "05-08")
    )
    assert APART not in said(judged(plant("cattleya", seen, clean), "05-08"))


@pytest.mark.parametrize(("on", "told"), [("05-08", True), ("05-09", False)])
def test_a_newcomer_stands_apart_to_its_last_day(on: str, told: bool) -> None:
    one = plant("cattleya", moving("05-05"), quarantine_until=day("05-08"))
    got = judged(one, on)
    assert outcome(got) == outcome(judged(replace(one, quarantine_until=None), on))
    sentence = "It is new here and stands apart until 8 May, handled after the others."
    assert (sentence in sentences(got)) is told


@pytest.mark.parametrize("verdict", list(Verdict))
def test_suspects_are_told_beside_the_growers_own_word(verdict: Verdict) -> None:
    one = plant("cattleya", moving("05-05", health=[Health.PESTS]))
    assert APART in said(judged(overruled(one, verdict), "05-08"))


# -- too cold, too hot -----


def read_on(*days: int, mean_c: float) -> Place:
    """Give a place that was read on some days of May."""
    return Place(readings=tuple(Reading(day(f"05-{n:02}"), mean_c) for n in days))


@pytest.mark.parametrize(
    ("days", "sentence"),
    [
        ((13,), "Its place read 5 °C on 13 May. At 13 °C or less its roots "),
        ((13, 13), "Its place read 5 °C on 13 May. At 13 °C or less its roots "),
        ((14, 16, 18, 20), "Its place averaged 5 °C over 4 days of the last 7. At "),
        (tuple(range(15, 21)), "Its place averaged 5 °C over 6 days of the last 7. "),
        (tuple(range(14, 21)), "Its place has averaged 5 °C over the last 7 days. "),
        (tuple(range(13, 21)), "Its place has averaged 5 °C over the last 7 days. "),
        ((), "Its place stands at 5 °C. At 13 °C or less its roots "),
    ],
)
def test_what_was_read_is_told_and_no_more(
    days: tuple[int, ...], sentence: str
) -> None:
    place = replace(read_on(*days, mean_c=5.0), mean_temperature_c=5.0)
    got = judged(plant("cattleya", moving("05-18"), place=place), "05-20")
    assert outcome(got) == ("too-cold", "clear-water", "if-dry")
    assert f"if the pot is light. {sentence}" in deciding(got)


@pytest.mark.parametrize(
    ("days", "sentence"),
    [
        ((13,), "Its place read 35 °C on 13 May. Above 32 °C "),
        ((14, 20), "Its place averaged 35 °C over 2 days of the last 7. Above 32 °C "),
    ],
)
def test_heat_is_told_as_it_was_read(days: tuple[int, ...], sentence: str) -> None:
    place = read_on(*days, mean_c=35.0)
    got = judged(plant("cattleya", moving("05-18"), place=place), "05-20")
    assert got.rule == "too-hot"
    assert deciding(got).endswith(f"{sentence}this kind is not fed.")


@pytest.mark.parametrize("above", [0.4, 0.04, 0.004])
def test_a_mean_above_the_limit_is_never_told_as_the_limit(above: float) -> None:
    place = read_on(19, mean_c=27 + above)
    got = judged(plant("masdevallia", moving("05-18"), place=place), "05-20")
    assert f"read {27 + above:g} °C on 19 May. Above 27 °C" in deciding(got)


def test_a_mean_at_the_limit_is_told_as_it_is() -> None:
    place = read_on(19, mean_c=13.0)
    got = judged(plant("cattleya", moving("05-18"), place=place), "05-20")
    assert "read 13 °C on 19 May. At 13 °C or less" in deciding(got)


@pytest.mark.parametrize(
    ("kind", "least"), [("phalaenopsis", 15), ("cattleya", 13), ("masdevallia", 8)]
)
def test_at_or_below_its_least_a_kind_is_not_fed(kind: str, least: float) -> None:
    """Defaults: warm 15, intermediate 13, cool 8 °C; the limit is inclusive."""
    seen = moving("05-05")
    at = plant(kind, seen, place=warm_place(least, "05-08"))
    above = plant(kind, seen, place=warm_place(least + 0.1, "05-08"))
    assert outcome(judged(at, "05-08")) == ("too-cold", "clear-water", "if-dry")
    assert outcome(judged(above, "05-08")) == FED


@pytest.mark.parametrize(("kind", "most"), [("cattleya", 32), ("masdevallia", 27)])
def test_above_its_most_a_kind_is_not_fed(kind: str, most: float) -> None:
    seen = moving("07-05")
    at = plant(kind, seen, place=warm_place(most, "07-08"))
    above = plant(kind, seen, place=warm_place(most + 0.1, "07-08"))
    assert outcome(judged(at, "07-08")) == FED
    assert outcome(judged(above, "07-08")) == ("too-hot", "clear-water", "if-dry")


def test_every_kind_has_the_temperatures_of_its_warmth() -> None:
    least = {Warmth.WARM: 15, Warmth.INTERMEDIATE: 13, Warmth.COOL: 8}
    for kind in kinds.table().kinds.values():
        assert kind.least_feed_c == least[kind.warmth], kind.key
        assert kind.warmth is not Warmth.COOL or kind.most_feed_c == 27, kind.key


@pytest.mark.parametrize(("age", "cold"), [(6, True), (8, False)])
def test_only_readings_of_the_last_seven_days_count(age: int, cold: bool) -> None:
    read = (Reading(day(f"05-{20 - age:02}"), 5.0),)
    one = plant("cattleya", moving("05-15"), place=Place(readings=read))
    assert (judged(one, "05-20").rule == "too-cold") is cold


def test_readings_are_averaged_and_later_ones_left_out() -> None:
    read = (Reading(day("05-18"), 10.0), Reading(day("05-19"), 20.0))
    later = (Reading(day("05-21"), -30.0),)
    one = plant("cattleya", moving("05-15"), place=Place(readings=read + later))
    assert outcome(judged(one, "05-20")) == FED


def test_a_mean_is_taken_between_low_and_high() -> None:
    read = (Reading(day("05-19"), low_c=8.0, high_c=16.0),)
    one = plant("cattleya", moving("05-15"), place=Place(readings=read))
    got = judged(one, "05-20")
    assert got.rule == "too-cold"
    assert "12 °C" in deciding(got)


def test_without_readings_temperature_is_silent() -> None:
    one = plant("cattleya", moving("05-15"), place=Place())
    assert outcome(judged(one, "05-20")) == FED


def test_a_cold_place_puts_off_the_flush_and_keeps_it_told() -> None:
    care = (fed("04-01"), fed("04-10"), fed("04-20"))
    one = plant("oncidium", moving("05-05"), care=care, place=warm_place(12, "05-08"))
    got = judged(one, "05-08")
    assert outcome(got) == ("too-cold", "clear-water", "if-dry")
    lost = [reason for reason in got.reasons if reason.rule == "salts"]
    assert [reason.role for reason in lost] == ["not-a-reason"]


def test_root_tips_alone_count_as_live_roots() -> None:
    shown = still("05-05", bulbs=Bulbs.SHRIVELLED, root_tips=RootTips.STARTING)
    assert judged(plant("cattleya", shown), "05-08").water == "through"
