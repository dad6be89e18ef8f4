"""Marks on past decisions, counted by rule and kind."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from growdesk.domain.facts import Verdict
from growdesk.domain.hindsight import Mark, tally

FEED, CLEAR, DRY = Verdict.FEED, Verdict.CLEAR_WATER, Verdict.KEEP_DRY

_marks = st.lists(
    st.builds(
        Mark,
        st.sampled_from(("too-soon", "not-growing", "salts")),
        st.sampled_from(("cattleya", "oncidium")),
        st.sampled_from(Verdict),
        st.sampled_from(Verdict),
    )
)


def test_marks_are_counted_by_rule_and_kind_the_most_wrong_first() -> None:
    marks = (
        Mark("too-soon", "oncidium", CLEAR, FEED),
        Mark("not-growing", "cattleya", CLEAR, CLEAR),
        Mark("not-growing", "cattleya", CLEAR, FEED),
        Mark("not-growing", "cattleya", CLEAR, DRY),
        Mark("not-growing", "cattleya", CLEAR, FEED),
        Mark("growing", "cattleya", FEED, FEED),
    )
    rows = tally(marks)
    assert [(r.rule, r.kind, r.marked, r.right, r.wrong) for r in rows] == [
        ("not-growing", "cattleya", 4, 1, 3),
        ("too-soon", "oncidium", 1, 0, 1),
        ("growing", "cattleya", 1, 1, 0),
    ]
    assert rows[0].better == ((FEED, 2), (DRY, 1))
    assert rows[2].better == ()


def test_no_marks_are_no_rows() -> None:
    assert tally(()) == ()


@given(_marks)
def test_every_mark_is_counted_once_whatever_their_order(marks: list[Mark]) -> None:
    rows = tally(marks)
    assert rows == tally(reversed(marks))
    assert sum(row.marked for row in rows) == len(marks)
    assert sum(row.right for row in rows) == sum(mark.right for mark in marks)
    for row in rows:
        assert sum(count for _, count in row.better) == row.wrong
