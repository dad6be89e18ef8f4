"""A wanted N:P:K:Ca:Mg as typed: elements or oxides, gaps, and what is refused."""

from __future__ import annotations

from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from growdesk.domain.errors import InputError
from growdesk.domain.recipe import Wanted
from growdesk.domain.wanted_text import parse_wanted, wanted_text


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("3:1:2", Wanted(3, 1, 2)),
        ("3:1:2:1:0.5", Wanted(3, 1, 2, 1, 0.5)),
        (" 3 : 1 : 2,5 ", Wanted(3, 1, 2.5)),
        ("15-5-15", Wanted(15, 5, 15)),
        ("15/5/15", Wanted(15, 5, 15)),
        ("100", Wanted(100)),
        ("3:x:2", Wanted(3, None, 2)),
        ("3::2::1", Wanted(3, None, 2, None, 1)),
        ("3:0:2", Wanted(3, 0, 2)),
        ("13 3 15 8 2", Wanted(13, 3, 15, 8, 2)),
        ("3", Wanted(3)),
        ("3:*:2:?:1", Wanted(3, None, 2, None, 1)),
        ("3:X:2", Wanted(3, None, 2)),
        (f"3{' ' * 57}:1", Wanted(3, 1)),
    ],
)
def test_typed_forms_are_understood(text: str, expected: Wanted) -> None:
    assert parse_wanted(text) == expected


def test_oxides_are_told_as_elements_behind_them() -> None:
    wanted = parse_wanted("15:5:15:7:3", oxides=True)
    assert wanted.n == 15
    found = (wanted.p, wanted.k, wanted.ca, wanted.mg)
    assert found == pytest.approx((2.182, 12.452, 5.003, 1.809), abs=5e-4)
    assert wanted_text(wanted) == "15:2.182:12.45:5.003:1.809"


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("", "is no N:P:K:Ca:Mg"),
        ("3:1:2:1:1:1", "is no N:P:K:Ca:Mg"),
        ("0:1:2", "wants no nitrogen"),
        ("x:1:2", "wants no nitrogen"),
        ("3:one:2", "has one where a number belongs"),
        ("3:-1:2", "has -1 where a number belongs"),
        ("3:1:2 Ca", "has 2 Ca where a number belongs"),
        ("9" * 70, "is no N:P:K:Ca:Mg"),
    ],
)
def test_what_cannot_be_meant_is_refused_with_a_way_out(
    text: str, problem: str
) -> None:
    with pytest.raises(InputError) as refused:
        parse_wanted(text)
    assert problem in refused.value.problem
    assert refused.value.field == "wanted"
    assert "3:1:2:1:0.5" in (refused.value.hint or "")


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("3:1:2:1:1:1", "wanted: '3:1:2:1:1:1' is no N:P:K:Ca:Mg."),
        (f"3{' ' * 58}:1", f"wanted: '3{' ' * 39}…' is no N:P:K:Ca:Mg."),
        (
            "0:1:2",
            "wanted: '0:1:2' wants no nitrogen, by which a feed's strength goes.",
        ),
        ("3:one:2", "wanted: '3:one:2' has one where a number belongs."),
        (f"3:{'a' * 25}", f"has {'a' * 20} where"),
        ("7" * 60, f"wanted: '{'7' * 60}' has {'7' * 20} where a number belongs."),
        ("7" * 61, f"wanted: '{'7' * 40}…' is no N:P:K:Ca:Mg."),
    ],
)
def test_a_refusal_names_what_was_typed_cut_where_it_is_long(
    text: str, told: str
) -> None:
    with pytest.raises(InputError) as refused:
        parse_wanted(text)
    assert told in str(refused.value)


PART = st.one_of(st.none(), st.integers(0, 9999).map(lambda n: n / 10))


@given(st.integers(1, 9999).map(lambda n: n / 10), PART, PART, PART, PART)
def test_what_is_written_is_read_back(
    n: float,
    p: float | None,
    k: float | None,
    ca: float | None,
    mg: float | None,
) -> None:
    wanted = Wanted(n, p, k, ca, mg)
    again = parse_wanted(wanted_text(wanted))
    for name in ("n", "p", "k", "ca", "mg"):
        before, after = getattr(wanted, name), getattr(again, name)
        assert (before is None) == (after is None)
        assert before is None or after == pytest.approx(before, rel=5e-4)


@given(st.one_of(st.text(max_size=80), st.text("0123456789:.,-/ xX", max_size=20)))
def test_any_text_is_understood_or_plainly_refused(text: str) -> None:
    with suppress(InputError):
        assert parse_wanted(text).n > 0
