"""The solver against its conditions, against nudges and against every subset."""

from __future__ import annotations

from itertools import chain, combinations
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from growdesk.domain.analysis import Analysis
from growdesk.domain.product import Product
from growdesk.domain.recipe import Wanted
from growdesk.domain.recipe_solving import solve_g_per_l, weighed_against

if TYPE_CHECKING:
    from collections.abc import Sequence

PERCENT = st.sampled_from((0.0, 0.0, 2.0, 5.0, 13.0, 20.0, 34.0))
PARTS = st.one_of(st.none(), st.sampled_from((0.0, 0.1, 0.5, 1.0, 2.0, 3.0)))
TOLERANCE = 1e-6


@st.composite
def products(draw: st.DrawFn) -> tuple[Product, ...]:
    """Give up to five products, one at least with nitrogen."""
    made = []
    for number in range(draw(st.integers(1, 5))):
        n, p, k = draw(PERCENT), draw(PERCENT), draw(PERCENT)
        ca, mg = draw(PERCENT) / 2, draw(PERCENT) / 4
        assume(0 < n + p + k + ca + mg < 100)
        others = tuple((e, v) for e, v in (("Ca", ca), ("Mg", mg)) if v)
        made.append(Product(f"P{number}", Analysis(n, p, k, others)))
    assume(any(product.analysis.n_percent for product in made))
    return tuple(made)


WANTED = st.builds(Wanted, st.just(1.0), PARTS, PARTS, PARTS, PARTS)
NO_WATER: dict[str, float] = {}
WATER = st.one_of(
    st.just(NO_WATER),
    st.fixed_dictionaries(
        {
            "N": st.sampled_from((0.0, 5.0)),
            "Ca": st.sampled_from((0.0, 40.0, 200.0)),
            "Mg": st.sampled_from((0.0, 12.0)),
        }
    ),
)
STRENGTH = st.sampled_from((20.0, 75.0, 150.0))


class Problem:
    """The same problem written plainly: rows of misses, one equality, nothing below."""

    def __init__(
        self,
        given_products: Sequence[Product],
        wanted: dict[str, float],
        water: dict[str, float],
    ) -> None:
        against = weighed_against(wanted)
        rest = [element for element in wanted if element != "N"]
        brings = [product.mg_per_g() for product in given_products]
        self.a = np.array(
            [[b.get(e, 0.0) / against[e] for b in brings] for e in rest]
        ).reshape(len(rest), len(brings))
        self.b = np.array([(wanted[e] - water.get(e, 0.0)) / against[e] for e in rest])
        self.n = np.array([b.get("N", 0.0) for b in brings])
        self.needed = wanted["N"] - water.get("N", 0.0)

    def miss(self, x: np.ndarray) -> float:
        """Give the sum of squares."""
        return float(((self.a @ x - self.b) ** 2).sum())

    def gradient(self, x: np.ndarray) -> np.ndarray:
        """Give how the sum of squares rises with each product."""
        return np.asarray(2 * self.a.T @ (self.a @ x - self.b))

    def best_of_subsets(self) -> float:
        """Give the least miss over every subset solved with its equality alone."""
        count = len(self.n)
        subsets = chain.from_iterable(
            combinations(range(count), size) for size in range(1, count + 1)
        )
        return min(
            self.miss(x)
            for x in map(self._on, subsets)
            if x is not None and x.min() > -TOLERANCE
        )

    def _on(self, subset: tuple[int, ...]) -> np.ndarray | None:
        columns = list(subset)
        a, n = self.a[:, columns], self.n[columns] / self.needed
        size = len(columns)
        kkt = np.block([[2 * a.T @ a, n[:, None]], [n[None, :], np.zeros((1, 1))]])
        right = np.append(2 * a.T @ self.b, 1.0)
        x = np.zeros(len(self.n))
        x[columns] = np.linalg.lstsq(kkt, right, rcond=1e-12)[0][:size]
        if abs(self.n @ x - self.needed) > TOLERANCE * self.needed:
            return None
        return x


def posed(
    given_products: Sequence[Product],
    wanted: Wanted,
    water: dict[str, float],
    strength: float,
) -> tuple[Problem, np.ndarray]:
    mg = wanted.mg_per_l(strength)
    found = np.array(solve_g_per_l(given_products, mg, water))
    return Problem(given_products, mg, water), found


@given(products(), WANTED, WATER, STRENGTH)
def test_nothing_below_none_and_nitrogen_exact(
    given_products: tuple[Product, ...],
    wanted: Wanted,
    water: dict[str, float],
    strength: float,
) -> None:
    problem, found = posed(given_products, wanted, water, strength)
    assert (found >= 0).all()
    assert problem.n @ found == pytest.approx(problem.needed, rel=1e-9)


@given(products(), WANTED, WATER, STRENGTH)
def test_the_conditions_of_the_least_hold(
    given_products: tuple[Product, ...],
    wanted: Wanted,
    water: dict[str, float],
    strength: float,
) -> None:
    """Karush-Kuhn-Tucker: one price of nitrogen, at which no product would still pay.

    All that is taken rises the miss by exactly that price; what is left out by no less.
    """
    problem, x = posed(given_products, wanted, water, strength)
    gradient = problem.gradient(x)
    bringing = (x > 0) & (problem.n > 0)
    price = float((gradient / np.where(problem.n > 0, problem.n, 1))[bringing].mean())
    paid = gradient - price * problem.n
    scale = TOLERANCE * (1 + np.abs(problem.a).max(initial=0) * 10)
    scale *= 1 + problem.miss(x) ** 0.5
    assert (paid >= -scale).all()
    assert (np.abs(paid[x > 0]) <= scale).all()


@given(products(), WANTED, WATER, STRENGTH)
def test_no_exchange_of_a_little_comes_nearer(
    given_products: tuple[Product, ...],
    wanted: Wanted,
    water: dict[str, float],
    strength: float,
) -> None:
    problem, x = posed(given_products, wanted, water, strength)
    least = problem.miss(x)
    for more in range(len(x)):
        for less in range(len(x)):
            for step in (1e-4, 1e-2):
                tried = x.copy()
                tried[more] += step
                if problem.n[more] > 0:
                    if more == less or problem.n[less] <= 0:
                        continue
                    tried[less] -= step * problem.n[more] / problem.n[less]
                if tried.min() >= 0:
                    assert problem.miss(tried) >= least - 1e-9 * (1 + least)


@settings(max_examples=150)
@given(products(), WANTED, WATER, STRENGTH)
def test_no_subset_of_the_products_comes_nearer(
    given_products: tuple[Product, ...],
    wanted: Wanted,
    water: dict[str, float],
    strength: float,
) -> None:
    problem, x = posed(given_products, wanted, water, strength)
    best = problem.best_of_subsets()
    assert problem.miss(x) <= best + 1e-6 * (1 + best)


@given(products(), WANTED, STRENGTH, st.sampled_from((0.5, 2.0, 7.0)))
def test_with_pure_water_doses_grow_with_the_strength(
    given_products: tuple[Product, ...], wanted: Wanted, strength: float, times: float
) -> None:
    once, x = posed(given_products, wanted, {}, strength)
    _, y = posed(given_products, wanted, {}, strength * times)
    assert once.miss(y / times) == pytest.approx(once.miss(x), rel=1e-6, abs=1e-9)
