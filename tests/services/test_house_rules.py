"""The declarations of the house rules: whole, and true to the domain."""

from __future__ import annotations

from collections import Counter
from itertools import groupby
from typing import TYPE_CHECKING

import pytest

from growdesk.domain.facts import House
from growdesk.domain.facts_house import (
    FLAGS,
    MONTH_DAYS,
    NUMBERS,
    WEEKDAYS,
    WHOLE_NUMBERS,
)
from growdesk.services.house_rules import DECLARED
from growdesk.services.values import Setting, SettingKind

if TYPE_CHECKING:
    from collections.abc import Collection

KINDS: tuple[tuple[Collection[str], set[SettingKind]], ...] = (
    (NUMBERS, {SettingKind.FLOAT, SettingKind.SHARE}),
    (WHOLE_NUMBERS, {SettingKind.INT}),
    (FLAGS, {SettingKind.BOOL}),
    (MONTH_DAYS, {SettingKind.DAY}),
    (WEEKDAYS, {SettingKind.WEEKDAYS}),
)


def test_every_rule_of_the_house_is_declared_once() -> None:
    declared = [setting.key for setting in DECLARED]
    assert sorted(declared) == sorted(House.__struct_fields__)


@pytest.mark.parametrize("setting", DECLARED, ids=lambda setting: setting.key)
def test_each_says_what_it_means_and_where_it_is_from(setting: Setting) -> None:
    for text in (setting.text, setting.source):
        assert text[0].isupper()
        assert text.endswith(".")
        assert len(text.split()) >= 3
    assert setting.title
    assert setting.group


@pytest.mark.parametrize("setting", DECLARED, ids=lambda setting: setting.key)
def test_kind_range_and_default_are_the_domains(setting: Setting) -> None:
    (allowed_kinds,) = [kinds for keys, kinds in KINDS if setting.key in keys]
    assert setting.kind in allowed_kinds
    assert setting.default == getattr(House(), setting.key)
    assert setting.optional is (setting.default is None)
    allowed = NUMBERS.get(setting.key) or WHOLE_NUMBERS.get(setting.key)
    if allowed is None:
        assert (setting.minimum, setting.maximum) == (None, None)
        return
    assert (setting.minimum, setting.maximum) == (allowed.low, allowed.high)
    assert setting.above is allowed.above


def test_titles_are_each_their_own_and_groups_stand_together() -> None:
    titles = Counter(setting.title for setting in DECLARED)
    assert {title: n for title, n in titles.items() if n > 1} == {}
    headings = [heading for heading, _ in groupby(DECLARED, lambda s: s.group)]
    assert len(headings) == len(set(headings)) >= 6


def test_a_source_claims_no_more_than_was_read() -> None:
    """Each names print, or says that there is none, or that it is the grower's."""
    plain = ("house rule, ours", "house curve, ours", "no source", "Yours to say")
    print_named = (
        "American Orchid Society",
        "HortScience",
        "HortTechnology",
        "University",
        "orchid association",
        "Growers' pages",
        "specialist grower",
        "Common practice, weakly and weekly",
    )
    for setting in DECLARED:
        named = [word for word in (*plain, *print_named) if word in setting.source]
        assert named, setting.key
