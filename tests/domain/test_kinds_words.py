"""Every line in which the tables of kinds and a grower's corrections are refused."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from growdesk.domain.errors import InputError
from growdesk.domain.facts_kinds import read_kind_table
from growdesk.domain.kind_corrections import corrected, read_field
from growdesk.domain.kinds import KindTable, parse_table
from tests.domain.test_kinds import GENERA_CSV, KINDS_CSV, with_cell

if TYPE_CHECKING:
    from collections.abc import Callable

TABLE = parse_table(KINDS_CSV, GENERA_CSV)
CATTLEYA = TABLE.kinds["cattleya"]
LAST_KIND = len(KINDS_CSV.splitlines()) + 1
LAST_NAME = len(GENERA_CSV.splitlines()) + 1


def cell(column: str, value: str) -> KindTable:
    return parse_table(with_cell(column, value))


def name(row: str) -> KindTable:
    return parse_table(KINDS_CSV, f"{GENERA_CSV}{row}\n")


def kinds(given: object) -> KindTable:
    return read_kind_table({"kinds": given}, TABLE)


CASES: list[tuple[Callable[[], object], str]] = [
    (lambda: cell("key", ""), "kinds.csv, row 2, key: '' is missing."),
    (lambda: cell("title", ""), "kinds.csv, row 2, title: '' is missing."),
    (lambda: cell("source", ""), "kinds.csv, row 2, source: '' is missing."),
    (
        lambda: cell("habit", "bushy"),
        (
            "kinds.csv, row 2, habit: 'bushy' is none of sympodial, monopodial,"
            " tuberous."
        ),
    ),
    (
        lambda: cell("rest", "sleepy"),
        (
            "kinds.csv, row 2, rest: 'sleepy' is none of none, reduced, cool-"
            "dry-unfed, no-nitrogen, leafless-dry."
        ),
    ),
    (
        lambda: cell("rest_months", "11;13"),
        ("kinds.csv, row 2, rest_months: '11;13' is no list of months from 1 to 12."),
    ),
    (
        lambda: cell("rest_months", "11;11"),
        ("kinds.csv, row 2, rest_months: '11;11' is no list of months from 1 to 12."),
    ),
    (
        lambda: cell("rest_months", "0;1"),
        "kinds.csv, row 2, rest_months: '0;1' is no list of months from 1 to 12.",
    ),
    (
        lambda: cell("rest_months", "winter"),
        ("kinds.csv, row 2, rest_months: 'winter' is no list of months from 1 to 12."),
    ),
    (
        lambda: cell("rest_months", ""),
        "kinds.csv, row 2, rest_months: () does not go with rest reduced.",
    ),
    (
        lambda: cell("resume", "spring"),
        ("kinds.csv, row 2, resume: 'spring' is none of root-length, growth-or-roots."),
    ),
    (
        lambda: cell("resume", "growth-or-roots"),
        ("kinds.csv, row 2, resume: 'growth-or-roots' does not go with rest reduced."),
    ),
    (
        lambda: cell("resume_root_mm", "80"),
        "kinds.csv, row 2, resume_root_mm: 80.0 does not go with resume.",
    ),
    (
        lambda: cell("resume_root_mm", ""),
        "kinds.csv, row 2, resume_root_mm: '' is no number of 0 or more.",
    ),
    (
        lambda: cell("feeder", "greedy"),
        "kinds.csv, row 2, feeder: 'greedy' is none of light, medium, heavy.",
    ),
    (
        lambda: cell("warmth", "hot"),
        "kinds.csv, row 2, warmth: 'hot' is none of warm, intermediate, cool.",
    ),
    (
        lambda: cell("base_c", "nan"),
        "kinds.csv, row 2, base_c: 'nan' is no number of 0 or more.",
    ),
    (
        lambda: cell("base_c", "18"),
        "kinds.csv, row 2, base_c: 18.0 is not in order with best and stop.",
    ),
    (
        lambda: cell("least_feed_c", "40"),
        "kinds.csv, row 2, least_feed_c: 40.0 is not below most_feed_c.",
    ),
    (
        lambda: cell("light_low_fc", "-5"),
        "kinds.csv, row 2, light_low_fc: '-5' is no number of 0 or more.",
    ),
    (
        lambda: cell("light_low_fc", "9000"),
        "kinds.csv, row 2, light_low_fc: 9000.0 is above light_high_fc.",
    ),
    (
        lambda: cell("ceiling_ppm_n", "lots"),
        "kinds.csv, row 2, ceiling_ppm_n: 'lots' is no number of 0 or more.",
    ),
    (
        lambda: cell("ceiling_is_ours", "maybe"),
        "kinds.csv, row 2, ceiling_is_ours: 'maybe' is neither yes nor no.",
    ),
    (
        lambda: cell("idle_interval_days", "14.5"),
        "kinds.csv, row 2, idle_interval_days: '14.5' is no whole number.",
    ),
    (
        lambda: cell("repot_years", "inf"),
        "kinds.csv, row 2, repot_years: 'inf' is no number of 0 or more.",
    ),
    (
        lambda: cell("memory", "rest;colour;aroma"),
        "kinds.csv, row 2, memory: 'aroma, colour' names no column.",
    ),
    (
        lambda: cell("key", "cattleya"),
        "kinds.csv, row 4, key: 'cattleya' is given twice.",
    ),
    (lambda: cell("key", "generic"), "kinds.csv, key: 'general' is missing."),
    (
        lambda: cell("genera", "Cattleya"),
        (
            "kinds.csv, row 4, genera: 'Cattleya' leads to general already, not"
            " to cattleya."
        ),
    ),
    (
        lambda: parse_table(KINDS_CSV.replace("key,", "kez,")),
        "kinds.csv, header: 'key, kez' does not fit.",
    ),
    (
        lambda: parse_table(KINDS_CSV.replace("key,title,", "key,key,")),
        "kinds.csv, header: 'title' does not fit.",
    ),
    (
        lambda: parse_table(KINDS_CSV + "one,two\n"),
        f"kinds.csv, row {LAST_KIND}: 2 is not the number of cells (37).",
    ),
    (
        lambda: name(",Xx.,cattleya,memory"),
        f"genera.csv, row {LAST_NAME}, name: '' is missing.",
    ),
    (
        lambda: name("Xxara,Xx.,cattleya,"),
        f"genera.csv, row {LAST_NAME}, source: '' is missing.",
    ),
    (
        lambda: name("Xxara,Xx.,nonesuch,memory"),
        f"genera.csv, row {LAST_NAME}, kind: 'nonesuch' is not a kind.",
    ),
    (
        lambda: name("Cattleya,,laelia,memory"),
        (
            f"genera.csv, row {LAST_NAME}, name: 'Cattleya' leads to cattleya already, "
            "not to laelia."
        ),
    ),
    (
        lambda: name("Xxara,C.,cattleya,memory"),
        (
            f"genera.csv, row {LAST_NAME}, abbreviations: 'C' leads to cattleya "
            "already, not to xxara."
        ),
    ),
    (
        lambda: read_field("feeder", "huge"),
        ("feeder: 'huge' is none of light, medium, heavy. Use light, medium or heavy."),
    ),
    (
        lambda: read_field("feeder", ""),
        "feeder: '' is empty. Use light, medium or heavy.",
    ),
    (
        lambda: read_field("ceiling_ppm_n", "0"),
        (
            "ceiling_ppm_n: '0' cannot be meant. Give a number from 1 to 1000 "
            "ppm N, or leave it empty."
        ),
    ),
    (
        lambda: read_field("ceiling_ppm_n", "-5"),
        (
            "ceiling_ppm_n: '-5' is no number of 0 or more. Give a number from "
            "1 to 1000 ppm N, or leave it empty."
        ),
    ),
    (
        lambda: read_field("light_low_fc", "1e9"),
        (
            "light_low_fc: '1e9' cannot be meant. Give a number from 10 to "
            "12000 foot-candles."
        ),
    ),
    (
        lambda: read_field("light_low_fc", ""),
        "light_low_fc: '' is empty. Give a number from 10 to 12000 foot-candles.",
    ),
    (
        lambda: read_field("base_c", "61"),
        "base_c: '61' cannot be meant. Give a number from 0 to 60 °C.",
    ),
    (
        lambda: read_field("idle_interval_days", "2.5"),
        (
            "idle_interval_days: '2.5' is no whole number. Give a whole number "
            "from 1 to 365 days, or leave it empty."
        ),
    ),
    (
        lambda: read_field("idle_interval_days", "400"),
        (
            "idle_interval_days: '400' cannot be meant. Give a whole number "
            "from 1 to 365 days, or leave it empty."
        ),
    ),
    (
        lambda: read_field("growth_weeks", "0"),
        "growth_weeks: '0' cannot be meant. Give a number from 0.5 to 104 weeks.",
    ),
    (
        lambda: read_field("rest_months", "1;5;6"),
        (
            "rest_months: '1;5;6' is more than one run of months. Give months "
            "that follow one another, over the turn of the year too."
        ),
    ),
    (
        lambda: read_field("rest_months", "11;13"),
        (
            "rest_months: '11;13' is no list of months from 1 to 12. Give "
            "months from 1 to 12, as 11;12;1, or leave it empty."
        ),
    ),
    (
        lambda: read_field("spike_draws_feed", "maybe"),
        "spike_draws_feed: 'maybe' is neither yes nor no. Use yes or no.",
    ),
    (lambda: read_field("title", " "), "title: ' ' is empty. Write a few words."),
    (
        lambda: read_field("title", "a\x00b"),
        ('title: "a\\u0000b" holds a control character. Take the invisible signs out.'),
    ),
    (
        lambda: read_field("advice", "a" * 1001),
        (
            "advice: "
            '"aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa… is '
            "too long. Give at most 1000 characters."
        ),
    ),
    (
        lambda: read_field("resume", "soon"),
        (
            "resume: 'soon' is none of root-length, growth-or-roots. Use root-"
            "length or growth-or-roots, or leave it empty."
        ),
    ),
    (
        lambda: corrected(CATTLEYA, {"rest": "none"}),
        (
            "rest: 'none' does not go with rest months November to February, "
            "rest ends with none, roots that end it 0 mm. A rest has months and"
            " no rest has none; only a leafless one has what ends it, and a "
            "length of roots goes only with that. Correct them together."
        ),
    ),
    (
        lambda: corrected(CATTLEYA, {"rest_months": ""}),
        (
            "rest_months: '' does not go with rest reduced, rest ends with "
            "none, roots that end it 0 mm. A rest has months and no rest has "
            "none; only a leafless one has what ends it, and a length of roots "
            "goes only with that. Correct them together."
        ),
    ),
    (
        lambda: corrected(CATTLEYA, {"resume": "root-length"}),
        (
            "resume: 'root-length' does not go with rest reduced, rest months "
            "November to February, roots that end it 0 mm. A rest has months "
            "and no rest has none; only a leafless one has what ends it, and a "
            "length of roots goes only with that. Correct them together."
        ),
    ),
    (
        lambda: corrected(CATTLEYA, {"resume_root_mm": "50"}),
        (
            "resume_root_mm: '50' does not go with rest reduced, rest months "
            "November to February, rest ends with none. A rest has months and "
            "no rest has none; only a leafless one has what ends it, and a "
            "length of roots goes only with that. Correct them together."
        ),
    ),
    (
        lambda: corrected(CATTLEYA, {"light_low_fc": "6000"}),
        (
            "light_low_fc: '6000' does not go with light to 5000 foot-candles. "
            "Give a low that is at most the high, or correct both together."
        ),
    ),
    (
        lambda: corrected(CATTLEYA, {"light_high_fc": "2000"}),
        (
            "light_high_fc: '2000' does not go with light from 3000 foot-"
            "candles. Give a low that is at most the high, or correct both "
            "together."
        ),
    ),
    (
        lambda: corrected(CATTLEYA, {"base_c": "18"}),
        (
            "base_c: '18' does not go with best from 17 °C, best to 26 °C, "
            "growth stops at 34 °C. They rise from where growth begins over the"
            " best range to where it stops. Correct them together."
        ),
    ),
    (
        lambda: corrected(CATTLEYA, {"best_low_c": "27"}),
        (
            "best_low_c: '27' does not go with growth begins at 8 °C, best to "
            "26 °C, growth stops at 34 °C. They rise from where growth begins "
            "over the best range to where it stops. Correct them together."
        ),
    ),
    (
        lambda: corrected(CATTLEYA, {"stop_c": "26"}),
        (
            "stop_c: '26' does not go with growth begins at 8 °C, best from 17 "
            "°C, best to 26 °C. They rise from where growth begins over the "
            "best range to where it stops. Correct them together."
        ),
    ),
    (
        lambda: corrected(CATTLEYA, {"most_feed_c": "13"}),
        (
            "most_feed_c: '13' does not go with too cold to feed at 13 °C. Too "
            "cold lies below too hot. Correct both together."
        ),
    ),
    (
        lambda: corrected(CATTLEYA, {"least_feed_c": "40"}),
        (
            "least_feed_c: '40' does not go with too hot to feed above 32 °C. "
            "Too cold lies below too hot. Correct both together."
        ),
    ),
    (
        lambda: kinds([]),
        (
            "kinds: a list is no object of kinds. Write it in braces, each "
            "kind's key with its corrected fields."
        ),
    ),
    (
        lambda: kinds({"catleya": {}}),
        (
            "kinds: 'catleya' is not a kind. Did you mean cattleya? growdesk "
            "kinds lists all keys."
        ),
    ),
    (
        lambda: kinds({"zzz": {}}),
        "kinds: 'zzz' is not a kind. growdesk kinds lists all keys.",
    ),
    (
        lambda: kinds({"cattleya": []}),
        (
            "kinds, cattleya: a list is not a kind that can be corrected. Write"
            " it in braces, as in the example of the README."
        ),
    ),
    (
        lambda: kinds({"cattleya": {"feder": "light"}}),
        (
            "kinds, cattleya: 'feder' is not a field of a kind that can be "
            "corrected. Did you mean feeder?"
        ),
    ),
    (
        lambda: kinds({"cattleya": {"feeder": 3}}),
        "kinds, cattleya, feeder: 3 is not a text. Write it in quotes.",
    ),
    (
        lambda: kinds({"cattleya": {"feeder": "huge"}}),
        (
            'kinds, cattleya, feeder: "huge" is none of light, medium, heavy. '
            "Use light, medium or heavy."
        ),
    ),
    (
        lambda: kinds({"cattleya": {"ceiling_ppm_n": "100"}}),
        (
            'kinds, cattleya, ceiling_ppm_n: "100" is not a number. Write a '
            "plain number without quotes or a unit, or null."
        ),
    ),
    (
        lambda: kinds({"cattleya": {"ceiling_ppm_n": 1e10}}),
        (
            "kinds, cattleya, ceiling_ppm_n: 10000000000.0 cannot be meant. "
            "Give a number from -1e+09 to 1e+09."
        ),
    ),
    (
        lambda: kinds({"cattleya": {"base_c": ""}}),
        'kinds, cattleya, base_c: "" is empty. Give a number from 0 to 60 °C.',
    ),
    (
        lambda: kinds({"cattleya": {"rest_months": "11;12"}}),
        (
            'kinds, cattleya, rest_months: "11;12" is not a list of months. '
            "Write the months as numbers in square brackets, as [11, 12, 1]."
        ),
    ),
    (
        lambda: kinds({"cattleya": {"rest_months": [13]}}),
        (
            "kinds, cattleya, rest_months: 13 cannot be meant. Give a number "
            "from 1 to 12."
        ),
    ),
    (
        lambda: kinds({"cattleya": {"rest_months": [0]}}),
        (
            "kinds, cattleya, rest_months: 0 cannot be meant. Give a number "
            "from 1 to 12."
        ),
    ),
    (
        lambda: kinds({"cattleya": {"spike_draws_feed": "yes"}}),
        (
            'kinds, cattleya, spike_draws_feed: "yes" is neither true nor '
            "false. Write true or false without quotes."
        ),
    ),
    (
        lambda: kinds({"cattleya": {"rest": "none"}}),
        (
            "kinds, cattleya, rest: 'none' does not go with rest months "
            "November to February, rest ends with none, roots that end it 0 mm."
            " A rest has months and no rest has none; only a leafless one has "
            "what ends it, and a length of roots goes only with that. Correct "
            "them together."
        ),
    ),
]


@pytest.mark.parametrize(("ask", "line"), CASES, ids=[line[:60] for _, line in CASES])
def test_a_kind_is_refused_in_these_words(ask: Callable[[], object], line: str) -> None:
    with pytest.raises(InputError) as refused:
        ask()
    assert refused.value.line() == line
