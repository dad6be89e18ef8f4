"""Limits for orchids, from both sides, each with its sentence and its source.

Published: alkalinity aim 100 and 150 mg/L CaCO3 (P. Thomas, University of Georgia),
60 for small root volumes (C. Currey, Greenhouse Management); orchid levels of concern
(an orchid nursery's article: alkalinity 100 to 150, hardness 150, EC 0.5, Cl 30, Na
50); FAO 29 Table 1 (0.7 and 3 dS/m; HCO3 in meq/L, not mg/L; NO3-N 5 mg/L); classes of
hardness 60, 120, 180; drinking water 50 mg/L NO3 (WHO, EU).
"""

from __future__ import annotations

from typing import Any

import pytest
from msgspec.structs import replace

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


@pytest.mark.parametrize(
    ("water", "weight", "told"),
    [
        (
            WaterAnalysis(alkalinity_mg_per_l=61),
            Weight.WORTH_KNOWING,
            (
                "Alkalinity 61 mg/L is fine for grown plants; seedlings and very small "
                "pots do better below 60."
            ),
        ),
        (
            WaterAnalysis(alkalinity_mg_per_l=101),
            Weight.CARE,
            (
                "Alkalinity 101 mg/L is over the 100 to aim for; repot in time, or "
                "blend in some rain or RO water."
            ),
        ),
        (
            WaterAnalysis(alkalinity_mg_per_l=151),
            Weight.TOO_MUCH,
            (
                "Alkalinity 151 mg/L is over 150: bark and moss turn alkaline over the "
                "months and new leaves pale. Blend it with rain or RO water."
            ),
        ),
        (
            WaterAnalysis(alkalinity_mg_per_l=426),
            Weight.TOO_MUCH,
            (
                "Alkalinity 426 mg/L is severe: bark and moss turn alkaline and iron "
                "locks up. Blend it with rain or RO water, or use that alone."
            ),
        ),
        (
            WaterAnalysis(alkalinity_mg_per_l=80, hardness_mg_per_l=9.5),
            Weight.TOO_MUCH,
            (
                "This looks like softened water: alkalinity 80 mg/L with a hardness of "
                "only 9.5 is sodium. Take water from before the softener."
            ),
        ),
        (
            WaterAnalysis(ec_ms_per_cm=0.69),
            Weight.CARE,
            (
                "EC 0.69 mS/cm is over 0.5: a good part of what roots stand is used up "
                "before any feed. Blend it with rain or RO water."
            ),
        ),
        (
            WaterAnalysis(ec_ms_per_cm=0.7),
            Weight.TOO_MUCH,
            (
                "EC 0.7 mS/cm is over 0.5: a good part of what roots stand is used up "
                "before any feed. Blend it with rain or RO water."
            ),
        ),
        (
            WaterAnalysis(ec_ms_per_cm=3.01),
            Weight.TOO_MUCH,
            "EC 3.01 mS/cm is over 3: too salty to water any orchid with.",
        ),
        (
            WaterAnalysis(na_mg_per_l=51),
            Weight.TOO_MUCH,
            (
                "Sodium 51 mg/L is over 50; orchids store it and leaf tips die back. "
                "Blend this water, or use rain or RO."
            ),
        ),
        (
            WaterAnalysis(cl_mg_per_l=31),
            Weight.CARE,
            (
                "Chloride 31 mg/L is over 30; blend it, and give no feed that holds "
                "chloride."
            ),
        ),
        (
            WaterAnalysis(no3_mg_per_l=22.2),
            Weight.WORTH_KNOWING,
            (
                "It brings 5 ppm N of its own, which is counted in each jug; clear "
                "water feeds a little too."
            ),
        ),
        (
            WaterAnalysis(no3_mg_per_l=51),
            Weight.TOO_MUCH,
            (
                "Nitrate 51 mg/L is over the 50 for drinking water: no water for "
                "infants. It also feeds: 11.5 ppm N in clear water."
            ),
        ),
        (
            WaterAnalysis(hardness_mg_per_l=151),
            Weight.CARE,
            (
                "Hardness 151 mg/L is over 150 (hard): it leaves white crusts on "
                "leaves, bark and pots."
            ),
        ),
        (
            WaterAnalysis("rain", ec_ms_per_cm=0.11),
            Weight.CARE,
            (
                "EC 0.11 mS/cm is much for rain water; look at the barrel, the gutter "
                "and the meter."
            ),
        ),
        (
            WaterAnalysis("RO", ec_ms_per_cm=0.11),
            Weight.CARE,
            "EC 0.11 mS/cm is much for RO water; the membrane may be worn.",
        ),
    ],
)
def test_each_flag_has_its_weight_and_its_sentence(
    water: WaterAnalysis, weight: Weight, told: str
) -> None:
    found = water_flags(water)[0]
    assert (found.weight, flag_text(found)) == (weight, told)


def test_acid_is_named_after_too_much_alkalinity_alone() -> None:
    for alkalinity, named in ((150.4, False), (151, True), (426, True)):
        found = water_flags(WaterAnalysis(alkalinity_mg_per_l=alkalinity))
        assert ("acid-exists" in [flag.key for flag in found]) is named
    (acid,) = (
        flag_text(flag)
        for flag in water_flags(WaterAnalysis(alkalinity_mg_per_l=151))
        if flag.key == "acid-exists"
    )
    assert acid == (
        "Growers with much to water use acid against alkalinity; that is no home job, "
        "so ask a licensed adviser or your water supplier."
    )


@pytest.mark.parametrize(
    ("alkalinity", "hardness", "softened"),
    [(60, 1, False), (61, 1, True), (180, 44.9, True), (180, 45, False)],
)
def test_softened_water_from_both_sides(
    alkalinity: float, hardness: float, *, softened: bool
) -> None:
    water = WaterAnalysis(alkalinity_mg_per_l=alkalinity, hardness_mg_per_l=hardness)
    assert ("softened" in keys(water)) is softened


def test_moderately_hard_ends_at_120() -> None:
    assert hardness_class(120) == "moderately hard"
    assert hardness_class(120.1) == "hard"


@pytest.mark.parametrize(
    ("element", "field", "limit"),
    [("Na", "na_mg_per_l", 50.0), ("Cl", "cl_mg_per_l", 30.0)],
)
def test_a_salt_that_water_and_feed_bring_together(
    element: str, field: str, limit: float
) -> None:
    some: dict[str, Any] = {field: 10.0}
    water = WaterAnalysis(**some)
    assert feed_flags(water, {element: limit}) == ()
    (found,) = feed_flags(water, {element: limit + 1})
    assert found.values == {
        "element": element,
        "amount": limit + 1,
        "limit": limit,
        "own": 10.0,
    }
    some[field] = limit + 1
    assert feed_flags(WaterAnalysis(**some), {element: limit + 9}) == ()


def test_a_water_at_its_most_sensitive_pot_says_what_to_use() -> None:
    (over,) = feed_flags(WaterAnalysis("tap", "", 0.45), {}, None, 0.45)
    assert flag_text(over) == (
        "The water alone reads 0.45 mS/cm and the most sensitive pot it goes to may "
        "read 0.45: use rain or RO water there."
    )
    assert feed_flags(WaterAnalysis("tap", "", 0.44), {}, None, 0.45) == ()


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (
            {"hardness_mg_per_l": 120},
            (
                "Calcium and magnesium make a hardness of 259 mg/L, not 120; look at "
                "the units."
            ),
        ),
        (
            {"hardness_mg_per_l": 120, "mg_mg_per_l": None},
            (
                "Ca alone makes a hardness of 210 mg/L, more than the 120 told; look "
                "at the units."
            ),
        ),
        (
            {"hardness_mg_per_l": 30, "ca_mg_per_l": None},
            (
                "Mg alone makes a hardness of 49 mg/L, more than the 30 told; look at "
                "the units."
            ),
        ),
        (
            {"ca_mg_per_l": 20, "hardness_mg_per_l": None, "ec_ms_per_cm": None},
            (
                "Alkalinity of 4.1 meq/L cannot stand with 2.8 meq/L of Ca, Mg, K and "
                "Na; look at the units, or for softened water."
            ),
        ),
        (
            {"cl_mg_per_l": 120, "ec_ms_per_cm": None},
            (
                "The ions do not balance: 6 meq/L of cations, 8.6 meq/L of anions. One "
                "is missing, or a unit is wrong."
            ),
        ),
        (
            {"ec_ms_per_cm": 0.058},
            (
                "These ions would read about 0.58 mS/cm or more, not 0.06; look at the "
                "units."
            ),
        ),
        (
            {"ec_ms_per_cm": 5.8},
            (
                "EC 5.8 mS/cm is more than these ions make, about 0.58; something is "
                "missing or a unit is wrong."
            ),
        ),
    ],
)
def test_what_does_not_fit_is_one_whole_sentence(
    change: dict[str, Any], told: str
) -> None:
    found = consistency(replace(TAP, **change))
    assert [flag_text(flag) for flag in found] == [told]


@pytest.mark.parametrize(
    ("change", "key", "fits"),
    # A fifth either way of the hardness told, 10 mg/L at least; the ions make 259.2.
    [
        ({"hardness_mg_per_l": 217}, "hardness-differs", True),
        ({"hardness_mg_per_l": 215}, "hardness-differs", False),
        ({"hardness_mg_per_l": 323}, "hardness-differs", True),
        ({"hardness_mg_per_l": 325}, "hardness-differs", False),
        (
            {"hardness_mg_per_l": 20, "ca_mg_per_l": 10, "mg_mg_per_l": 1.2},
            "hardness-differs",
            True,
        ),
        (
            {"hardness_mg_per_l": 19, "ca_mg_per_l": 10, "mg_mg_per_l": 1.2},
            "hardness-differs",
            False,
        ),
        # The ions read 0.578 mS/cm.
        ({"ec_ms_per_cm": 0.482}, "ec-too-small", True),
        ({"ec_ms_per_cm": 0.480}, "ec-too-small", False),
        ({"ec_ms_per_cm": 0.720}, "ec-too-large", True),
        ({"ec_ms_per_cm": 0.724}, "ec-too-large", False),
    ],
)
def test_a_fifth_is_within_what_analyses_differ(
    change: dict[str, Any], key: str, *, fits: bool
) -> None:
    found = {flag.key for flag in consistency(replace(TAP, **change))}
    assert (key not in found) is fits


@pytest.mark.parametrize("left_out", ["so4_mg_per_l", "cl_mg_per_l", "na_mg_per_l"])
def test_ions_that_are_not_all_told_need_not_make_the_ec(left_out: str) -> None:
    some: dict[str, Any] = {left_out: None, "ec_ms_per_cm": 2.0}
    assert consistency(replace(TAP, **some)) == ()


def test_one_side_alone_needs_as_much_of_the_other() -> None:
    """10 meq/L of sodium with an anion not told read 0.8 mS/cm at the very least."""
    for ec, fits in ((0.67, True), (0.66, False)):
        water = WaterAnalysis("tap", "", ec, na_mg_per_l=229.9)
        found = [flag.key for flag in consistency(water)]
        assert found == ([] if fits else ["ec-too-small"])
