"""A meter's reading against its jug, and what to check first."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from growdesk.domain.errors import InputError
from growdesk.domain.expected_ec import ExpectedEc
from growdesk.domain.meter import (
    TDS_SCALES,
    Check,
    Compared,
    Standing,
    compare,
    parse_reading_ms_per_cm,
    ppm_n_of,
    reading_at_25,
    tds_ppm,
    uncorrected_c,
)
from growdesk.domain.meter_words import (
    check_texts,
    lines,
    standing_text,
    tds_text,
    unexpected_text,
)

KNOWN = ExpectedEc(1.33, 1.47, 1.40, "From ions.", (), 0.4)
RANGE = ExpectedEc(0.8, 1.2, None, "A range.", (), 0.1)
WATERLESS = ExpectedEc(0.95, 1.05, 1.0, "From ions.", (), None)


def first(compared: Compared) -> Check:
    return compared.checks[0].check


def test_the_line_of_the_handout() -> None:
    """Read: K. Nemali, Purdue HO-286-W; 1.68 in water of 0.20 with 0.74 per 100."""
    assert ppm_n_of(1.68, 0.20, 0.74) == pytest.approx(200)
    assert ppm_n_of(0.1, 0.2, 0.74) == 0


@pytest.mark.parametrize(
    ("ec", "scale", "ppm"),
    [
        # Read: r0kud.blogspot.com 2013/06, a note on TDS scales; B. Faber, UC ANR, for
        # 640; Univ. of Tennessee, Protected Ag Solutions, for 640 ppm per mS/cm.
        (2.4, 500, 1200),
        (2.4, 700, 1680),
        (1.0, 640, 640),
    ],
)
def test_scales_are_other_faces(ec: float, scale: int, ppm: float) -> None:
    assert tds_ppm(ec, scale) == pytest.approx(ppm)
    assert parse_reading_ms_per_cm(f"{ppm:g} ppm {scale}") == pytest.approx(ec)


@pytest.mark.parametrize(
    ("ec", "standing", "off"),
    [
        (1.40, Standing.IN_BAND, 0),
        (1.33, Standing.IN_BAND, 0),
        (1.4749, Standing.IN_BAND, 0),
        (1.32, Standing.BELOW, 0.01),
        (1.48, Standing.ABOVE, 0.01),
        (0.9, Standing.BELOW, 0.43),
    ],
)
def test_where_a_reading_lies(ec: float, standing: Standing, off: float) -> None:
    found = compare(ec, KNOWN, None, 150)
    assert found.standing is standing
    assert found.off_ms_per_cm == pytest.approx(off)
    assert bool(found.checks) == (standing is not Standing.IN_BAND)


@pytest.mark.parametrize(
    ("shown", "warm"),
    # Read: Mettler Toledo S230 manual 11.2, the 1413 µS/cm standard.
    [(1.147, 15), (1.278, 20), (1.413, 25), (1.552, 30)],
)
def test_a_meter_that_does_not_correct(shown: float, warm: float) -> None:
    assert reading_at_25(shown, warm) == pytest.approx(1.413, rel=0.016)
    found = compare(shown, ExpectedEc(1.38, 1.45, 1.413), warm)
    assert found.standing is Standing.IN_BAND
    assert lines(found)[0].startswith(f"The meter shows {shown:.2f} mS/cm at {warm} °C")


def test_the_nitrogen_a_reading_stands_for() -> None:
    assert compare(1.40, KNOWN, None, 150).ppm_n == pytest.approx(150)
    assert compare(0.90, KNOWN, None, 150).ppm_n == pytest.approx(75)
    assert compare(1.0, RANGE, None, 150).ppm_n is None
    assert compare(1.0, WATERLESS, None, 150).ppm_n is None
    assert compare(1.0, KNOWN).ppm_n is None


@pytest.mark.parametrize(
    ("ec", "check", "scale"),
    [
        (0.70, Check.TDS_SCALE, 500),
        (0.90, Check.TDS_SCALE, 640),
        (0.98, Check.TDS_SCALE, 700),
        (0.0014, Check.MICROSIEMENS, None),
        (0.41, Check.FEED_LEFT_OUT, None),
        (2.40, Check.TWICE, None),
        (1.25, Check.STIR, None),
        (1.60, Check.STIR, None),
    ],
)
def test_what_the_number_points_at(ec: float, check: Check, scale: int | None) -> None:
    found = compare(ec, KNOWN, None, 150)
    assert first(found) is check
    assert found.checks[0].scale == scale


def test_half_the_feed_is_said_after_a_scale_that_fits_as_well() -> None:
    found = compare(0.90, KNOWN, None, 150)
    assert [p.check for p in found.checks[:2]] == [Check.TDS_SCALE, Check.HALF]
    alone = compare(0.85, ExpectedEc(1.43, 1.57, 1.5, water_ms_per_cm=0.2))
    assert first(alone) is Check.HALF


def test_a_reading_corrected_twice() -> None:
    found = compare(1.40, KNOWN, 18, 150)
    assert found.ec_ms_per_cm == pytest.approx(1.40 / 0.86)
    assert first(found) is Check.CORRECTED_TWICE
    assert Check.TEMPERATURE not in [pointed.check for pointed in found.checks]
    assert "leave the temperature empty" in lines(found)[3]


def test_the_usual_order() -> None:
    found = compare(1.25, KNOWN, None, 150)
    assert [pointed.check for pointed in found.checks] == [
        Check.STIR,
        Check.TEMPERATURE,
        Check.CALIBRATION,
        Check.DOSE,
        Check.LITRES,
        Check.WATER,
        Check.TIN,
    ]
    assert lines(found)[:2] == (
        "1.25 mS/cm is 0.08 mS/cm too low: this jug should read 1.33 to 1.47 mS/cm.",
        "By this reading it holds about 128 ppm N instead of 150.",
    )
    assert check_texts(found)[0] == (
        "Stir the jug well and read again: feed that lies on the bottom is not read."
    )
    assert "fresh 1.413 mS/cm standard" in check_texts(found)[2]
    assert "0.40 mS/cm of this figure" in check_texts(found)[5]
    high = check_texts(compare(1.6, KNOWN, None, 150))
    assert "rinse the probe" in high[0]
    assert "less water" in high[4]


@pytest.mark.parametrize(
    ("shown", "warm"),
    [(1.12, "15"), (1.25, "20"), (1.57, "31"), (0.85, "5"), (0.83, None), (1.69, None)],
)
def test_a_meter_that_does_not_correct_is_told_by_the_degrees(
    shown: float, warm: str | None
) -> None:
    """By 2 % a degree 1.40 reads 1.12 at 15 °C and 1.57 at 31 °C."""
    told = check_texts(compare(shown, KNOWN, None, 150))
    found = [line for line in told if "does not correct to 25 °C would read" in line]
    assert [f"at about {warm} °C" in line for line in found] == [True] * bool(warm)
    assert "at about" not in " ".join(check_texts(compare(1.6, KNOWN, 24, 150)))


def test_far_under_the_waters_own_ec_it_is_not_the_water_alone() -> None:
    assert first(compare(0.41, KNOWN)) is Check.FEED_LEFT_OUT
    assert first(compare(0.3, KNOWN)) is Check.FEED_LEFT_OUT
    under = compare(0.05, KNOWN)
    assert first(under) is Check.UNDER_WATER
    assert "less than the water alone" in check_texts(under)[0]


def test_an_unknown_water_is_checked_first_where_the_reading_is_high() -> None:
    found = compare(1.4, WATERLESS)
    assert first(found) is Check.WATER
    assert "is not known" in check_texts(found)[0]
    assert first(compare(0.9, WATERLESS)) is Check.STIR


def test_a_right_reading_is_one_sentence_and_its_nitrogen() -> None:
    assert lines(compare(1.41, KNOWN, None, 150)) == (
        "1.41 mS/cm is right: this jug should read 1.33 to 1.47 mS/cm.",
        "By this reading it holds about 152 ppm N.",
    )
    assert lines(compare(1.0, RANGE)) == (standing_text(compare(1.0, RANGE)),)


def test_the_scales_beside_a_reading() -> None:
    assert tds_text(1.2, TDS_SCALES) == "600 ppm (500), 768 ppm (640), 840 ppm (700)"


@pytest.mark.parametrize(
    ("text", "ec"),
    [
        ("620 uS", 0.62),
        ("0,62 mS", 0.62),
        ("1.25", 1.25),
        ("1,25 mS/cm", 1.25),
        ("1250 uS/cm", 1.25),
        ("1250 µS/cm", 1.25),
        ("1.25 dS/m", 1.25),
        ("600 ppm 500", 1.2),
        ("600 ppm @500", 1.2),
        ("600 ppm (500)", 1.2),
        ("768 ppm on 640 scale", 1.2),
        ("0.84 ppt 700", 1.2),
        ("0", 0.0),
    ],
)
def test_readings_as_they_are_typed(text: str, ec: float) -> None:
    assert parse_reading_ms_per_cm(text) == pytest.approx(ec)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "is empty"),
        ("much", "is not a conductivity"),
        ("1250", 'Write "1250 uS/cm", or with its scale "1250 ppm 500".'),
        ("600 ppm", "It is 1.20 mS/cm on the 500 scale, 0.94 mS/cm on the 640 scale"),
        ("99999 ppm 500", "is not what a jug can read"),
        ("-1", "more than nothing"),
        ("5 L", "is not a conductivity"),
    ],
)
def test_readings_asked_back(text: str, says: str) -> None:
    with pytest.raises(InputError) as refused:
        parse_reading_ms_per_cm(text)
    assert refused.value.field == "reading"
    assert says in refused.value.line()


@pytest.mark.parametrize(
    ("shown", "warm", "field"),
    [
        (21, None, "reading"),
        (-0.1, None, "reading"),
        (float("nan"), None, "reading"),
        (1.2, 41, "temperature"),
        (1.2, -1, "temperature"),
        (1.2, float("nan"), "temperature"),
    ],
)
def test_readings_no_jug_has(shown: float, warm: float | None, field: str) -> None:
    with pytest.raises(InputError) as refused:
        compare(shown, KNOWN, warm)
    assert refused.value.field == field
    assert refused.value.hint


@given(
    shown=st.floats(0, 20),
    one=st.floats(0, 3),
    other=st.floats(0, 3),
    warm=st.none() | st.floats(0, 40),
    single=st.booleans(),
)
def test_any_reading_gets_whole_sentences(
    shown: float, one: float, other: float, warm: float | None, *, single: bool
) -> None:
    low, high = sorted((one, other))
    middle = (low + high) / 2 if single else None
    found = compare(
        shown, ExpectedEc(low, high, middle, water_ms_per_cm=0.1), warm, 120
    )
    said = lines(found)
    assert len(said) == len(set(said))
    for sentence in said:
        assert sentence[0].isupper() or sentence[0].isdigit()
        assert sentence.endswith(".")
        assert "{" not in sentence
        assert "None" not in sentence


def test_of_a_range_the_scale_nearest_to_its_middle_is_named() -> None:
    found = compare(0.58, RANGE)
    pointed = [each for each in found.checks if each.check is Check.TDS_SCALE]
    assert [each.scale for each in pointed] == [640], "0.91, not 1.16 or 0.83"


@pytest.mark.parametrize(
    ("shown", "warm", "at", "told"),
    [
        (
            0.7,
            None,
            0,
            (
                "The number fits a meter that tells salt instead of EC: 700 ppm on its "
                "500 scale is 1.40 mS/cm. Set the meter to mS/cm."
            ),
        ),
        (
            0.0014,
            None,
            0,
            (
                "The number fits µS/cm, which are thousandths of mS/cm: type it with "
                "its unit."
            ),
        ),
        (
            1.4,
            18,
            0,
            (
                "Without the correction for 18 °C it fits: the meter seems to correct "
                "by itself, so leave the temperature empty."
            ),
        ),
        (
            0.41,
            None,
            0,
            "It reads as the water alone does: see whether the feed went in.",
        ),
        (
            0.05,
            None,
            0,
            (
                "It reads less than the water alone should: see that the probe is "
                "wholly in, and which water went in."
            ),
        ),
        (
            2.4,
            None,
            0,
            (
                "It reads as twice the feed would: see whether it was weighed twice, "
                "or half the water filled in."
            ),
        ),
        (
            0.9,
            None,
            1,
            (
                "It reads as half the feed would: see whether a part was left out, or "
                "twice the water filled in."
            ),
        ),
        (1.6, None, 0, "Stir the jug well, rinse the probe and read again."),
        (
            2.4,
            None,
            2,
            (
                "See that the meter corrects to 25 °C; if it does not, type the feed's "
                "temperature with the reading."
            ),
        ),
        (
            1.25,
            None,
            1,
            (
                "A meter that does not correct to 25 °C would read this at about 20 "
                "°C: take the feed's temperature and type it with the reading."
            ),
        ),
        (
            1.25,
            None,
            2,
            (
                "Check the meter in fresh 1.413 mS/cm standard, at the temperature on "
                "its label."
            ),
        ),
        (
            1.25,
            None,
            3,
            (
                "Look at the scale's zero, the level spoon and the jug's letter, and "
                "weigh the dose again."
            ),
        ),
        (1.25, None, 4, "See whether more water went in than the jug's litres."),
        (1.6, None, 4, "See whether less water went in than the jug's litres."),
        (
            1.25,
            None,
            5,
            "Read the water alone: 0.40 mS/cm of this figure is taken to be its own.",
        ),
        (
            1.25,
            None,
            6,
            "See that the right tin was taken; another feed gives another EC.",
        ),
    ],
)
def test_each_check_says_what_to_do(
    shown: float, warm: float | None, at: int, told: str
) -> None:
    assert check_texts(compare(shown, KNOWN, warm, 150))[at] == told


def test_a_reading_too_high_and_one_brought_to_25_degrees() -> None:
    assert lines(compare(1.4, KNOWN, 18, 150))[:3] == (
        "The meter shows 1.40 mS/cm at 18 °C; at 25 °C that is 1.63.",
        "1.63 mS/cm is 0.16 mS/cm too high: this jug should read 1.33 to 1.47 mS/cm.",
        "By this reading it holds about 184 ppm N instead of 150.",
    )
    assert check_texts(compare(1.4, WATERLESS))[0] == (
        "Read the water alone: its own EC is not known and is missing from this band."
    )
    assert unexpected_text(1.236) == (
        "1.24 mS/cm at 25 °C; nothing is known of this jug to hold it against."
    )


def test_no_nitrogen_is_told_of_a_jug_without_a_strength() -> None:
    assert len(lines(compare(1.41, KNOWN))) == 1


SHARES = ExpectedEc(1.15, 1.25, 1.2, water_ms_per_cm=0.2)
"""A feed of 1 mS/cm in a water of 0.2, so that a share is read off."""


@pytest.mark.parametrize(
    ("ec", "check"),
    [
        (0.07, Check.UNDER_WATER),
        (0.09, Check.FEED_LEFT_OUT),
        (0.31, Check.FEED_LEFT_OUT),
        (0.33, None),
        (0.63, None),
        (0.65, Check.HALF),
        (0.75, Check.HALF),
        (0.77, None),
        (1.95, None),
        (1.97, Check.TWICE),
        (2.43, Check.TWICE),
        (2.45, None),
    ],
)
def test_how_near_to_none_half_or_twice_a_reading_points_at_it(
    ec: float, check: Check | None
) -> None:
    by_share = {Check.UNDER_WATER, Check.FEED_LEFT_OUT, Check.HALF, Check.TWICE}
    found = [each.check for each in compare(ec, SHARES).checks]
    assert [each for each in found if each in by_share] == [check] * bool(check)


def test_a_feed_that_hardly_conducts_is_told_by_no_share() -> None:
    weak = ExpectedEc(0.27, 0.30, 0.29, water_ms_per_cm=0.2)
    assert first(compare(0.38, weak)) is Check.STIR
    read = ExpectedEc(0.29, 0.32, 0.31, water_ms_per_cm=0.2)
    assert first(compare(0.42, read)) is Check.TWICE


def test_no_nitrogen_is_read_off_a_feed_within_the_meters_last_digit() -> None:
    for whole, ppm_n in ((0.219, None), (0.221, 50)):
        found = compare(
            whole, ExpectedEc(0.1, 0.4, whole, water_ms_per_cm=0.2), None, 50
        )
        assert found.ppm_n == (None if ppm_n is None else pytest.approx(ppm_n))


@pytest.mark.parametrize(
    ("ec", "warm"),
    # By 2 % a degree from 1.00 at 25 °C; told from 5 to 35 °C and 2 degrees off.
    [
        (0.59, None),
        (0.61, 5.5),
        (0.95, 22.5),
        (0.97, None),
        (1.03, None),
        (1.05, 27.5),
        (1.19, 34.5),
        (1.21, None),
    ],
)
def test_degrees_that_a_jug_may_have(ec: float, warm: float | None) -> None:
    found = uncorrected_c(compare(ec, ExpectedEc(0.99, 1.01, 1.0)))
    assert found == (None if warm is None else pytest.approx(warm))


@pytest.mark.parametrize(("shown", "warm"), [(0, 0), (20, 40), (0.5, None)])
def test_the_ends_of_what_a_jug_reads_are_taken(
    shown: float, warm: float | None
) -> None:
    assert compare(shown, KNOWN, warm).shown_ms_per_cm == shown
    assert parse_reading_ms_per_cm("20") == 20
    assert parse_reading_ms_per_cm("10000 ppm 500") == 20
    with pytest.raises(InputError, match="its unit is not told"):
        parse_reading_ms_per_cm("20.1")
    with pytest.raises(InputError, match="is not what a jug can read"):
        parse_reading_ms_per_cm("10001 ppm 500")
