"""Sheets for the away helper and the week say days, places and heads in German."""

from __future__ import annotations

import io
from datetime import date
from gettext import GNUTranslations
from itertools import pairwise
from typing import TYPE_CHECKING

import pytest

from growdesk.domain.speech import Manner, speak
from growdesk.services.away import AwayGroup
from growdesk.ui.printing.away_rows import short_day, stands
from growdesk.ui.printing.marks import Words
from growdesk.ui.printing.rows import columns, heads
from growdesk.ui.printing.setting import width_pt
from tests.languages.catalogue import compiled

if TYPE_CHECKING:
    from collections.abc import Iterator


@pytest.fixture(autouse=True)
def spoken() -> Iterator[None]:
    speak(Manner(GNUTranslations(io.BytesIO(compiled("de"))), ","))
    yield
    speak()


def group(*tags: str, first: int, of: int) -> AwayGroup:
    return AwayGroup(tags, "", first, of, (), None, "")


def test_a_day_has_the_short_name_of_its_language() -> None:
    assert short_day(date(2026, 12, 2)) == "Mi, 2. Dez"
    speak()
    assert short_day(date(2026, 12, 2)) == "Wed 2 Dec"


def test_places_along_a_bench_have_the_ordinals_of_their_language() -> None:
    assert stands(group("E7", first=4, of=4)) == "4. von 4"
    assert stands(group("E1", "E2", "E3", first=1, of=4)) == "1. bis 3. von 4"
    speak()
    told = [stands(group("A1", first=n, of=30)) for n in (1, 2, 3, 4, 11, 22)]
    assert [each.split()[0] for each in told] == [
        "1st",
        "2nd",
        "3rd",
        "4th",
        "11th",
        "22nd",
    ]


@pytest.mark.usefixtures("qapp")
def test_heads_over_the_boxes_of_the_week_do_not_run_into_each_other() -> None:
    said = [mark for mark in heads(columns((), 500.0)).marks if isinstance(mark, Words)]
    for row in {mark.y_pt for mark in said}:
        line = sorted(
            (mark for mark in said if mark.y_pt == row), key=lambda each: each.x_pt
        )
        for one, next_ in pairwise(line):
            assert one.x_pt + width_pt(one.text, one.face) < next_.x_pt, (
                one.text,
                next_.text,
            )
