"""The sentences: whole, in the present tense, and never claiming more than the look."""

from __future__ import annotations

import re
from datetime import date
from itertools import product
from typing import Any

import pytest
from msgspec.structs import replace

from growdesk.domain import day_words, templates, wording
from growdesk.domain.change import would_change
from growdesk.domain.explain import Reason, Role, ToldLine
from growdesk.domain.facts import (
    Care,
    CareKind,
    Flowering,
    Health,
    Leaves,
    Look,
    NewGrowths,
    NewLeaf,
    Overrule,
    Place,
    Plant,
    RootTips,
    Verdict,
    Water,
)
from growdesk.domain.quantity_words import length_text
from tests.domain.builders import (
    EMERGING,
    EXTENDING,
    HOUSE,
    MATURING,
    day,
    deciding,
    fed,
    judged,
    kind_of,
    look,
    moving,
    plant,
    said,
    still,
)

MOST_WORDS_A_LINE = 20
NEVER = (
    "active growth detected",
    "plant state",
    "factor",
    "optimal",
    "insufficient data",
    "dormancy protocol",
)
ALL_TEXTS = [
    *templates.REASONS.values(),
    *templates.SHORT.values(),
    *templates.STEPS.values(),
    *templates.LIGHT.values(),
    *templates.VERDICTS.values(),
    templates.STRENGTH,
]


# -- the table of templates -----


@pytest.mark.parametrize("phrase", NEVER)
def test_what_the_design_never_says(phrase: str) -> None:
    shown = [re.sub(r"\{\w+\}", "", text).lower() for text in ALL_TEXTS]
    assert not [text for text in shown if phrase in text]


@pytest.mark.parametrize("pair", list(product(Verdict, Water)))
def test_every_verdict_has_its_sentence(pair: tuple[Verdict, Water]) -> None:
    """An overrule may join any verdict with any water."""
    text = templates.VERDICTS[pair[0].value, pair[1].value]
    assert text.endswith(".")


@pytest.mark.parametrize("key", sorted(templates.SHORT))
def test_short_reasons_have_six_words_at_most(key: str) -> None:
    assert 1 <= len(templates.SHORT[key].split()) <= 6
    assert key == "still" or key in templates.REASONS


STILL_KEYS = [
    f"still-{grown}-{tips}"
    for grown in (
        "no-growth",
        "growth-not-recorded",
        "growth-stalled",
        "no-leaf",
        "leaf-not-recorded",
    )
    for tips in ("no-tips", "tips-hidden", "tips-not-recorded")
]
SIGN_KEYS = (
    "growth-extending",
    "growth-emerging",
    "growth-maturing",
    "tips-running",
    "tips-starting",
    "leaf-extending",
    "leaf-starting",
)
BLOOM_KEYS = [
    f"bloom-{stage}-{now}-{side}"
    for stage in ("buds", "open", "fading")
    for now in ("today", "then")
    for side in ("fed", "not")
]
SAID_KEYS = [
    f"would-have-said-{verdict}"
    for verdict in ("feed", "flush", "clear-water", "keep-dry")
]
UNTIL_KEYS = [f"until-looked-{water}" for water in ("none", "sparing", "if-dry")]


@pytest.mark.parametrize(
    "key",
    [
        *STILL_KEYS,
        *SIGN_KEYS,
        *(f"despite-{key}" for key in SIGN_KEYS),
        *BLOOM_KEYS,
        *SAID_KEYS,
        *UNTIL_KEYS,
    ],
)
def test_every_key_that_is_put_together_is_there(key: str) -> None:
    assert key in templates.REASONS


def test_every_field_of_a_template_has_a_name() -> None:
    for text in ALL_TEXTS:
        assert "{}" not in text
        assert text.count("{") == len(re.findall(r"\{[a-z_]+\}", text))


@pytest.mark.parametrize(
    ("kind", "on", "leaves"),
    [("laelia-rupicolous", "01-15", None), ("catasetum", "01-15", Leaves.FIRM)],
)
def test_the_same_sight_is_not_told_twice(
    kind: str, on: str, leaves: Leaves | None
) -> None:
    text = said(judged(plant(kind, still(on, leaves=leaves)), "01-18"))
    seen = re.findall(r"nothing new on the move|no new growth and no root tips", text)
    assert len(seen) == 1, text


# -- numbers and days -----


@pytest.mark.parametrize(
    ("mm", "text"),
    [(4, "4 mm"), (9.5, "9.5 mm"), (10, "1 cm"), (42, "4.2 cm"), (80, "8 cm")],
)
def test_lengths_have_their_unit(mm: float, text: str) -> None:
    assert length_text(mm) == text


@pytest.mark.parametrize(
    ("seen", "text"),
    [
        ("2026-03-03", "3 March"),
        ("2025-12-01", "1 December"),
        ("2025-05-03", "3 May 2025"),
    ],
)
def test_far_days_have_their_year(seen: str, text: str) -> None:
    assert day_words.day_text(day(seen), day("2026-05-08")) == text


@pytest.mark.parametrize(
    ("seen", "text"),
    [
        ("2025-11-09", "9 November"),
        ("2025-11-08", "8 November 2025"),
        ("2026-11-04", "4 November"),
        ("2026-11-05", "5 November 2026"),
    ],
)
def test_the_year_is_said_from_181_days_on(seen: str, text: str) -> None:
    assert day_words.day_text(day(seen), day("2026-05-08")) == text


@pytest.mark.parametrize(
    ("number", "text"), [(2, "2"), (2.04, "2"), (2.06, "2.1"), (100, "100"), (0, "0")]
)
def test_numbers_have_one_place_and_no_needless_zeros(number: float, text: str) -> None:
    assert wording.number_text(number) == text
    assert wording.number_text(0.126, 2) == "0.13"


@pytest.mark.parametrize(
    ("name", "value", "text"),
    [
        ("count", 1, "1 feed"),
        ("count", 3, "3 feeds"),
        ("days", 1, "1 day"),
        ("interval", 14, "14 days"),
        ("settle_days", 21, "21 days"),
        ("share", 0.5, "half"),
        ("share", 0.4, "40 %"),
        ("mean_c", 12.25, "12.2 °C"),
        ("root_mm", 9.0, "9 mm"),
        ("full_dli", 9.94, "9.9"),
        ("full_dli", 9.96, "10"),
        ("full_dli", 22.4, "22"),
        ("water_ec", 0.08, "0.08"),
        ("water_ec", 0.16, "0.2"),
        ("ec", 1.234, "1.23"),
        ("limit", 0.75, "0.75"),
        ("poured", 0.755, "0.76"),
        ("step", 12.5, "12.5"),
        ("seen", None, "a day not recorded"),
        ("kind", "Unheardofia", "Unheardofia"),
    ],
)
def test_a_value_is_said_with_its_unit(name: str, value: object, text: str) -> None:
    assert wording._value_text(name, value, day("2026-05-08")) == text


def test_days_are_counted_in_words() -> None:
    assert wording.days_text(1) == "1 day"
    assert wording.days_text(25) == "25 days"


def test_numbers_in_the_strength_line_have_their_unit() -> None:
    """Every number with its unit."""
    one = plant("cattleya", moving("02-05"), place=Place(mean_temperature_c=15.0))
    line = wording.strength_sentence(judged(one, "02-08"))
    bare = re.findall(
        r"(?<![\d.×])(?<!× )\b\d+(?:\.\d+)?(?! ?(?:ppm N|mg|°C|days|mm|%|mol|\.\d|\d))",
        line,
    )
    assert bare == [], line


def test_the_strength_stands_in_one_line_and_only_for_feed() -> None:
    fed_one = judged(plant("cattleya", moving("02-05")), "02-08")
    line = wording.strength_sentence(fed_one)
    assert "ppm N" in line
    assert "\n" not in line
    assert line.count(".") - len(re.findall(r"\d\.\d", line)) == 1
    dry = judged(plant("cattleya", still("02-05")), "02-08")
    assert wording.strength_sentence(dry) == ""


# -- the order of what is said -----


def test_the_deciding_sentence_opens_with_what_to_do() -> None:
    got = judged(plant("cattleya", still("01-20", Flowering.OPEN)), "01-24")
    told = wording.tell(got)
    assert told[0].role == "decides"
    assert told[0].sentence.startswith("Clear water, if the pot is light.")
    assert [one.rule for one in told[1:]] == ["bloom"]


# -- models of tone in the design: the same facts must be named -----


def test_the_bare_catasetum_of_the_design() -> None:
    one = plant(
        "catasetum",
        look(
            "03-03",
            leaves=Leaves.LEAFLESS,
            longest_new_root_mm=40,
            new_growths=EMERGING,
        ),
    )
    text = said(judged(one, "03-28"))
    assert text.startswith("Keep dry.")
    for words in ("3 March", "4 cm", "8 cm", "25 days", "look at the roots today"):
        assert words in text
    assert "no water" in text
    assert "new growth" in text


def test_the_cattleya_in_flower_of_the_design() -> None:
    one = plant("cattleya", still("01-20", Flowering.OPEN))
    text = said(judged(one, "01-24"))
    assert "On 20 January no new growth and no root tips showed." in text
    assert "isn't the reason" in text


def test_the_soft_cane_dendrobium_of_the_design() -> None:
    one = plant("dendrobium-nobile", still("02-12", Flowering.BUDS))
    text = deciding(judged(one, "02-14"))
    assert "12 February" in text
    assert "nitrogen is not" in text
    assert "new shoots with roots of their own" in text


# -- never more than the look did -----


def short(one: Plant, on: str) -> str:
    return wording.short(judged(one, on))


@pytest.mark.parametrize(
    "signs", [{}, {"root_tips": RootTips.HIDDEN}, {"root_tips": RootTips.NONE}]
)
def test_the_sheet_does_not_say_that_nothing_moves_when_nobody_looked(
    signs: dict[str, object],
) -> None:
    assert short(plant("cattleya", look("05-05", **signs)), "05-08") != "nothing moves"


def test_the_sheet_may_say_so_when_somebody_did() -> None:
    assert short(plant("cattleya", still("05-05")), "05-08") == "nothing moves"


def test_still_green_with_signs_not_recorded_claims_no_stillness() -> None:
    one = plant("catasetum", look("01-20", leaves=Leaves.FIRM))
    assert "nothing new was moving" not in said(judged(one, "01-22"))


def test_still_green_is_not_said_of_leaves_nobody_recorded() -> None:
    summer = look("2025-06-05", leaves=Leaves.FIRM, longest_new_root_mm=90)
    winter = look("01-20", root_tips=RootTips.NONE)
    got = judged(plant("catasetum", summer, winter), "01-22")
    assert "still in leaf" not in said(got)


def test_a_growth_still_maturing_is_not_called_made_up() -> None:
    shown = still("11-05", leaves=Leaves.YELLOWING, new_growths=MATURING)
    got = judged(plant("lycaste", shown), "11-08")
    assert got.rule == "going-down"
    assert "is made up" not in said(got)


def test_running_roots_without_a_length_are_not_called_unrooted() -> None:
    shown = look("03-05", leaves=Leaves.LEAFLESS, root_tips=RootTips.RUNNING)
    got = judged(plant("lycaste", shown), "03-08")
    assert (got.rule, got.water) == ("leafless-rest", "sparing")
    assert "not rooted yet" not in said(got)


def test_a_plant_is_not_called_at_rest_when_its_leaves_are_not_recorded() -> None:
    got = judged(plant("lycaste", still("07-05")), "07-08")
    assert "is at rest" not in said(got)


def test_the_day_of_a_leaf_is_the_day_it_was_seen() -> None:
    looks = (
        look("04-20", leaves=Leaves.FIRM, new_growths=EMERGING),
        look("05-05", new_growths=EXTENDING, root_tips=RootTips.NONE),
    )
    got = judged(plant("catasetum", *looks), "05-08")
    assert got.verdict != "feed"
    assert "A leaf was out on 5 May" not in said(got)


def test_a_place_with_one_undated_mean_was_not_read_all_week() -> None:
    one = plant("cattleya", moving("05-05"), place=Place(mean_temperature_c=10.0))
    got = judged(one, "05-08")
    assert got.rule == "too-cold"
    assert "last week" not in deciding(got)


def test_an_undated_mean_is_not_called_a_mean_over_21_days() -> None:
    one = plant("cattleya", moving("05-05"), place=Place(mean_temperature_c=15.0))
    assert "21 days" not in wording.strength_sentence(judged(one, "05-08"))


def test_no_flush_on_record_is_not_called_never_flushed() -> None:
    care = tuple(fed(on) for on in ("04-01", "04-10", "04-20"))
    one = plant("cattleya", moving("05-05"), care=care)
    assert short(one, "05-08") != "never flushed yet"
    assert "no flush is on record" in deciding(judged(one, "05-08"))


def test_a_root_just_short_is_not_told_as_long_enough() -> None:
    bare = look("05-05", leaves=Leaves.LEAFLESS, longest_new_root_mm=79.99)
    assert ("with roots of 7.999 cm. It is watered when they reach 8 cm.") in deciding(
        judged(plant("catasetum", bare), "05-08")
    )


@pytest.mark.parametrize(("ec", "told"), [(1.506, "1.51"), (1.52, "1.52")])
def test_a_reading_just_over_its_limit_is_not_told_as_the_limit(
    ec: float, told: str
) -> None:
    one = plant("cattleya", moving("05-05", runoff_ec_ms_per_cm=ec))
    said_of_it = deciding(judged(one, "05-08"))
    assert f"Its runoff read {told} mS/cm on 5 May" in said_of_it
    assert "should hold 1.5 mS/cm at most" in said_of_it


def test_what_cannot_be_told_apart_is_told_as_it_is() -> None:
    values = {"mean_c": 27.0000001, "limit_c": 27.0}
    assert wording._shown(values, day("05-08")) == {
        "mean_c": "27 °C",
        "limit_c": "27 °C",
    }


def test_no_condition_holds_three_things_joined_by_and() -> None:
    rootless = look(
        "05-05",
        leaves=Leaves.SHRIVELLED,
        root_tips=RootTips.NONE,
        health=frozenset({Health.NO_ROOTS}),
    )
    one = plant("phalaenopsis", rootless)
    told = would_change(one, kind_of(one), HOUSE, day("05-08"))
    assert told
    assert all(sentence.count(" and ") <= 1 for sentence in told)


def test_overruled_without_a_look_speaks_of_no_look() -> None:
    overrule = Overrule(Verdict.FEED, "it is new", day("05-20"))
    got = judged(replace(plant("cattleya"), overrule=overrule), "05-08")
    assert "a day not recorded" not in said(got)
    assert "The look of" not in said(got)


def test_a_repot_of_the_day_is_not_asked_for_tips_seen_since() -> None:
    one = plant("cattleya", moving("05-05"), care=(Care(day("05-08"), CareKind.REPOT),))
    text = deciding(judged(one, "05-08"))
    assert "8 May" in text


@pytest.mark.parametrize("verdict", list(Verdict))
def test_an_overrule_names_the_growers_reason_once(verdict: Verdict) -> None:
    overrule = Overrule(verdict, "It stands in a bath.", day("05-20"))
    one = replace(plant("cattleya", still("05-05")), overrule=overrule)
    text = deciding(judged(one, "05-08"))
    assert text.count("stands in a bath") == 1
    assert ".." not in text


def test_a_reason_with_braces_is_left_as_it_was_typed() -> None:
    overrule = Overrule(Verdict.FEED, "bench {3}", day("05-20"))
    one = replace(plant("cattleya", still("05-05")), overrule=overrule)
    assert "bench {3}" in deciding(judged(one, "05-08"))


# -- every sentence against what was recorded, over the table of signs -----

GROWTHS = (None, NewGrowths(0, 0, 0, 1), EMERGING, EXTENDING, MATURING)
TIPS: tuple[RootTips | None, ...] = (None, *RootTips)
LEAVES: tuple[NewLeaf | None, ...] = (None, NewLeaf.NONE, NewLeaf.EXTENDING)
SEEN = date(2026, 5, 5)
CLAIMS: tuple[tuple[str, str, Any], ...] = (
    (r"no root tips", "root_tips", RootTips.NONE),
    (r"[Rr]oot tips (?:were|are) running", "root_tips", RootTips.RUNNING),
    (r"[Rr]oot tips were just starting", "root_tips", RootTips.STARTING),
    (r"root tips are hidden", "root_tips", RootTips.HIDDEN),
    (r"no new growth(?!s)", "new_growths", NewGrowths(0, 0, 0, 1)),
    (r"no new leaf was moving", "new_leaf", NewLeaf.NONE),
    (r"new growth was extending", "new_growths", EXTENDING),
    (r"new growth had emerged", "new_growths", EMERGING),
    (r"new growth was maturing", "new_growths", MATURING),
)


@pytest.mark.parametrize("kind", ["cattleya", "phalaenopsis", "laelia-rupicolous"])
@pytest.mark.parametrize("month", [1, 5])
def test_each_claim_is_backed_by_the_look(kind: str, month: int) -> None:
    for growths, tips, leaf in product(GROWTHS, TIPS, LEAVES):
        seen = replace(
            Look(SEEN.replace(month=month)),
            new_growths=growths,
            root_tips=tips,
            new_leaf=leaf,
        )
        got = judged(plant(kind, seen), seen.on.replace(day=8), HOUSE)
        text = said(got)
        for claim, field, value in CLAIMS:
            if re.search(claim, text):
                assert getattr(seen, field) == value, (claim, text)


def test_each_reason_says_one_idea_a_line() -> None:
    for key, template in templates.REASONS.items():
        for line in template.split("\n"):
            assert len(line.split()) <= MOST_WORDS_A_LINE, key
            assert line.strip() == line != "", key
            assert line[0].isupper() or line[0] == "{", key


def test_what_is_not_recorded_has_its_line_marked() -> None:
    told = ("not on record", "not recorded", "records no", "records neither")
    for key, template in templates.REASONS.items():
        found = [
            number
            for number, line in enumerate(template.split("\n"))
            if any(words in line for words in told)
        ]
        if found:
            assert [templates.NOT_RECORDED[key]] == found, key


def test_the_lines_of_a_reason_say_what_its_sentence_says() -> None:
    got = judged(plant("cattleya", look("05-05", root_tips=RootTips.NONE)), "05-08")
    first = wording.tell(got)[0]
    assert first.lines == (
        ToldLine("On 5 May no root tips showed."),
        ToldLine("New growths were not recorded.", is_open=True),
    )
    told = " ".join(line.text for line in first.lines)
    assert first.sentence == f"{wording.verdict_text(got)} {told}"


def test_a_line_that_a_grower_breaks_stays_one_line() -> None:
    reason = Reason(
        "overruled",
        Role.DECIDES,
        "overruled",
        {"until": day("05-20"), "why": "spots\nspread"},
    )
    (line,) = wording.reason_lines(reason, day("05-08"))
    assert line.text.endswith("spots\nspread")
