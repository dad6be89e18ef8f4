"""What judging remembers is all that it goes by: what is older need not be read."""

from __future__ import annotations

from datetime import date, timedelta

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from growdesk.domain.case import Case
from growdesk.domain.change import would_change
from growdesk.domain.facts import Care, CareKind, House, Look, Plant, RootTips
from growdesk.domain.remembered import (
    REMEMBERED,
    REMEMBERED_DAYS,
    forget_care,
    forget_looks,
)
from tests.domain.builders import HOUSE, cases, judged, kind_of, looks_on, plant

ON = date(2026, 11, 25)
OLD = st.integers(REMEMBERED_DAYS - 2, 7300).map(lambda days: ON - timedelta(days=days))
CARES = st.builds(
    Care,
    OLD,
    st.sampled_from(CareKind),
    strength_ppm_n=st.sampled_from((None, 80.0, 150.0)),
)


def as_read(whole: Plant, on: date) -> Plant:
    """Give a plant with what is read of it for a day, as ``load_known`` seeks it."""
    known = [look.on for look in whole.looks if look.on <= on]
    since = on - REMEMBERED
    first = min(since, max(known, default=since))
    return replace(
        whole,
        looks=tuple(look for look in whole.looks if look.on >= first),
        care=tuple(care for care in whole.care if care.on >= since),
    )


@settings(max_examples=80, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    cases(),
    st.lists(looks_on(OLD), max_size=6),
    st.lists(CARES, max_size=6),
    st.booleans(),
)
def test_all_rows_and_the_rows_read_are_judged_alike(
    facts: tuple[Plant, House, date],
    old_looks: list[Look],
    old_care: list[Care],
    only_old: bool,
) -> None:
    one, house, on = facts
    shift = on - ON
    looks = [replace(look, on=look.on + shift) for look in old_looks]
    care = [replace(each, on=each.on + shift) for each in old_care]
    whole = replace(
        one,
        looks=tuple(looks if only_old else [*looks, *one.looks]),
        care=(*care, *one.care),
    )
    read = as_read(whole, on)
    assert judged(whole, on, house) == judged(read, on, house)
    for later in (on, on + timedelta(days=6)):
        assert judged(whole, later, house) == judged(read, later, house)
    kind = kind_of(whole)
    assert would_change(whole, kind, house, on) == would_change(read, kind, house, on)


def test_two_years_are_remembered_to_the_day() -> None:
    first = ON - REMEMBERED
    days = (first - timedelta(days=1), first, ON)
    looks, care = [Look(day) for day in days], [Care(d, CareKind.FEED) for d in days]
    forget_looks(looks, ON)
    forget_care(care, ON)
    assert [look.on for look in looks] == [first, ON]
    assert [each.on for each in care] == [first, ON]


def test_the_newest_day_of_looks_stays_however_old() -> None:
    newest = ON - timedelta(days=3000)
    looks = [
        Look(newest - timedelta(days=9)),
        Look(newest, root_tips=RootTips.NONE),
        Look(newest, root_tips=RootTips.RUNNING),
    ]
    one = plant("cattleya", *looks)
    assert Case(one, kind_of(one), HOUSE, ON).looks == tuple(looks[1:])
