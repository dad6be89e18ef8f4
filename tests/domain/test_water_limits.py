"""Limits for orchids, from both sides, each with its sentence and its source.

Published: alkalinity aim 100 and 150 mg/L CaCO3 (P. Thomas, University of Georgia),
60 for small root volumes (C. Currey, Greenhouse Management); orchid levels of concern
(an orchid nursery's article: alkalinity 100 to 150, hardness 150, EC 0.5, Cl 30, Na
50); FAO 29 Table 1 (0.7 and 3 dS/m; HCO3 in meq/L, not mg/L; NO3-N 5 mg/L); classes of
hardness 60, 120, 180; drinking water 50 mg/L NO3 (WHO, EU).
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from growdesk.domain import water_limits
from growdesk.domain.water_analysis import WaterAnalysis
from growdesk.domain.water_checks import consistency
from growdesk.domain.water_limits import Weight, feed_flags, hardness_class, water_flags
from growdesk.domain.water_words import flag_text, holds_text

TAP = WaterAnalysis(
    "tap",
    "",
    0.58,
    alkalinity_mg_per_l=204,
    hardness_mg_per_l=259,
    ca_mg_per_l=84,
    mg_mg_per_l=12,
    k_mg_per_l=3,
    na_mg_per_l=18,
    cl_mg_per_l=32,
    so4_mg_per_l=45,
    no3_mg_per_l=12,
)


def keys(water: WaterAnalysis) -> list[str]:
    return [flag.key for flag in water_flags(water)]


@pytest.mark.parametrize(
    ("field", "below", "above", "key"),
    [
        ("alkalinity_mg_per_l", 60.4, 61, "alkalinity-small"),
        ("alkalinity_mg_per_l", 100.4, 101, "alkalinity-high"),
        ("alkalinity_mg_per_l", 150.4, 151, "alkalinity-over"),
        ("alkalinity_mg_per_l", 425, 426, "alkalinity-severe"),
        ("hardness_mg_per_l", 150, 151, "hardness-over"),
        ("ec_ms_per_cm", 0.5, 0.51, "ec-over"),
        ("ec_ms_per_cm", 3.0, 3.01, "ec-severe"),
        ("na_mg_per_l", 50, 51, "sodium-over"),
        ("cl_mg_per_l", 30, 31, "chloride-over"),
        ("no3_mg_per_l", 22.0, 22.2, "nitrate-feeds"),
        ("no3_mg_per_l", 50, 51, "nitrate-drinking"),
    ],
)
def test_each_limit_from_both_sides(
    field: str, below: float, above: float, key: str
) -> None:
    told: dict[str, Any] = {field: below}
    assert key not in keys(WaterAnalysis(**told))
    told[field] = above
    assert key in keys(WaterAnalysis(**told))


@pytest.mark.parametrize(
    "water",
    [
        WaterAnalysis(no3_mg_per_l=60),
        WaterAnalysis(no3_mg_per_l=30),
        WaterAnalysis(alkalinity_mg_per_l=120),
        WaterAnalysis(
            ec_ms_per_cm=4,
            alkalinity_mg_per_l=500,
            hardness_mg_per_l=400,
            na_mg_per_l=300,
            cl_mg_per_l=300,
        ),
        WaterAnalysis("rain", ec_ms_per_cm=0.4),
        WaterAnalysis("ro", ec_ms_per_cm=0.4),
    ],
)
def test_every_flag_is_a_sentence_without_a_brace_left(water: WaterAnalysis) -> None:
    told = [flag_text(flag) for flag in water_flags(water)]
    assert told
    assert all(flag.source for flag in water_flags(water))
    assert not any("{" in text for text in told)


def test_bicarbonate_of_the_guideline_is_in_meq_not_mg() -> None:
    slight, severe = water_limits.FAO_ALKALINITY_MG_PER_L
    assert slight == pytest.approx(75, rel=0.002)  # 1.5 meq/L is 91.5 mg/L HCO3
    assert severe == pytest.approx(425, rel=0.002)  # 8.5 meq/L is 518.5 mg/L HCO3


def test_clean_water_says_nothing() -> None:
    clean = WaterAnalysis("tap", "", 0.2, 40, 60, 18, 3, 1, 8, 10, 12, 4)
    assert water_flags(clean) == ()
    assert consistency(clean) == ()
    assert water_flags(WaterAnalysis("rain")) == ()
    assert consistency(WaterAnalysis("RO", "", 0.3)) == ()


def test_the_weightiest_comes_first_and_acid_is_only_named() -> None:
    found = water_flags(TAP)
    assert [flag.weight for flag in found] == sorted(
        (flag.weight for flag in found), reverse=True
    )
    said = [flag_text(flag) for flag in found]
    assert said[0].startswith("Alkalinity 204 mg/L is over 150:")
    acid = [line for line in said if "acid" in line]
    assert len(acid) == 1
    assert acid[0].endswith("ask a licensed adviser or your water supplier.")
    assert not any(digit in acid[0] for digit in "0123456789")


def test_softened_water_is_told_by_its_missing_calcium() -> None:
    soft = WaterAnalysis("tap", "", 0.5, alkalinity_mg_per_l=180, hardness_mg_per_l=10)
    assert "softened" in keys(soft)
    assert "softened" not in keys(replace(soft, hardness_mg_per_l=46))
    by_ions = replace(soft, hardness_mg_per_l=None, ca_mg_per_l=3, mg_mg_per_l=1)
    assert "softened" in keys(by_ions)


@pytest.mark.parametrize(
    ("kind", "key"), [("rain", "no-pure-rain"), ("RO", "no-pure-ro")]
)
def test_water_that_is_no_longer_pure(kind: str, key: str) -> None:
    assert keys(WaterAnalysis(kind, "", 0.1)) == []
    assert keys(WaterAnalysis(kind, "", 0.11)) == [key]


@pytest.mark.parametrize(
    ("hardness", "word"),
    [(60, "soft"), (61, "moderately hard"), (180, "hard"), (181, "very hard")],
)
def test_classes_of_hardness(hardness: float, word: str) -> None:
    assert hardness_class(hardness) == word


def test_what_the_water_does_to_a_feed() -> None:
    water = replace(TAP, cl_mg_per_l=20, ec_ms_per_cm=0.45)
    (salt, over) = feed_flags(water, {"N": 100, "Cl": 60, "Na": 18}, 1.1, 0.8)
    assert flag_text(salt) == (
        "With this water the feed holds 60 mg/L Cl, over 30; the water brings 20 of "
        "it, the feed the rest."
    )
    assert flag_text(over) == (
        "With this water the jug reads 1.1 mS/cm or more, over the 0.8 that its most "
        "sensitive pot may read; 0.45 of it is the water's. Rain or RO "
        "water keeps it below."
    )
    assert feed_flags(TAP, {"Cl": 60}) == ()  # the water's own flag says it already
    assert feed_flags(WaterAnalysis("rain"), {"Cl": 60}) == ()  # the feed's own


def test_a_pot_s_limit_is_told_where_the_water_is_what_passes_it() -> None:
    water = WaterAnalysis("tap", "", 0.45)
    assert feed_flags(water, {}, 0.8, 0.8) == ()
    assert [f.key for f in feed_flags(water, {}, 0.81, 0.8)] == ["feed-over-kind"]
    assert feed_flags(water, {}, 1.3, 0.8) == ()  # the feed alone is over it
    (over,) = feed_flags(water, {}, 1.3, 0.45)
    assert over.key == "water-over-kind"
    assert over.weight is Weight.TOO_MUCH
    assert feed_flags(water, {}, 1.3, None) == ()


@pytest.mark.parametrize(
    ("change", "key", "words"),
    [
        ({"hardness_mg_per_l": 120}, "hardness-differs", "make a hardness of 259 mg/L"),
        (
            {"hardness_mg_per_l": 120, "mg_mg_per_l": None},
            "hardness-too-small",
            "Ca alone makes a hardness of 210 mg/L",
        ),
        (
            {"ca_mg_per_l": 20, "hardness_mg_per_l": None},
            "alkalinity-alone",
            "Alkalinity of 4.1 meq/L cannot stand with 2.8 meq/L",
        ),
        (
            {"cl_mg_per_l": 120},
            "charges-differ",
            "6 meq/L of cations, 8.6 meq/L of anions",
        ),
        ({"ec_ms_per_cm": 0.058}, "ec-too-small", "not 0.06"),
        ({"ec_ms_per_cm": 5.8}, "ec-too-large", "EC 5.8 mS/cm is more than"),
    ],
)
def test_an_analysis_that_does_not_fit_together(
    change: dict[str, Any], key: str, words: str
) -> None:
    assert consistency(TAP) == ()
    found = consistency(replace(TAP, **change))
    said = {flag.key: flag_text(flag) for flag in found}
    assert words in said[key]


def test_what_a_water_holds_in_words() -> None:
    assert holds_text(WaterAnalysis("tap", "", 0.55, 120, na_mg_per_l=9.25)) == (
        "EC 0.55 mS/cm, alkalinity 120 mg/L CaCO3, sodium 9.2 mg/L"
    )
    assert holds_text(WaterAnalysis("rain")) == ""
