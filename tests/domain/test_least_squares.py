"""Our small non-negative least squares against scipy's and its own conditions."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from growdesk.domain.least_squares import least_not_negative

nnls = pytest.importorskip("scipy.optimize").nnls
VALUE = st.sampled_from((0.0, 0.0, 1.0, 2.0, 0.1, 3.0, 17.0, -1.0, -0.25, 400.0))


@st.composite
def problems(draw: st.DrawFn) -> tuple[np.ndarray, np.ndarray]:
    """Give up to seven columns of up to eight rows; two may be one, or all nothing."""
    rows, count = draw(st.integers(1, 8)), draw(st.integers(1, 7))
    column = st.lists(VALUE, min_size=rows, max_size=rows)
    columns = draw(st.lists(column, min_size=count, max_size=count))
    if draw(st.booleans()):
        columns.append([2.0 * value for value in columns[0]])
    return np.array(columns).T, np.array(draw(column))


@given(problems())
def test_misses_by_no_more_than_scipy_s(problem: tuple[np.ndarray, np.ndarray]) -> None:
    matrix, right = problem
    found = np.array(least_not_negative(matrix.T.tolist(), right.tolist()))
    lengths = np.linalg.norm(matrix, axis=0)
    lengths[lengths == 0] = 1.0
    _x, least = nnls(matrix / lengths, right)
    assert (found >= 0).all()
    missed = np.linalg.norm(matrix @ found - right)
    assert missed == pytest.approx(least, rel=1e-9, abs=1e-9)
    gains = (matrix / lengths).T @ (right - matrix @ found)
    allowed = 1e-9 * (1 + np.linalg.norm(right))
    assert (gains <= allowed).all()
    assert (np.abs(gains[found > 0]) <= allowed).all()


def test_nothing_to_choose_from_and_nothing_wanted() -> None:
    assert least_not_negative([], [1.0]) == []
    assert least_not_negative([[1.0, 2.0]], [0.0, 0.0]) == [0.0]
    assert least_not_negative([[0.0], [2.0]], [5.0]) == [0.0, 2.5]


def test_a_column_that_was_taken_goes_where_the_others_need_it_no_more() -> None:
    """All three gain in turn; with all of them the second would be below nothing."""
    columns = [[3.0, 2.0, 2.0], [0.0, 1.0, 0.0], [1.0, 3.0, 1.0]]
    assert least_not_negative(columns, [3.0, 3.0, 3.0]) == pytest.approx(
        [1.0, 0.0, 4 / 11]
    )
