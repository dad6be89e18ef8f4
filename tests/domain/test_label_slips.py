"""A nutrient told twice on a label: as its element and as its oxide."""

from __future__ import annotations

import pytest

from growdesk.domain.label_slips import told_once


@pytest.mark.parametrize(
    ("oxide", "element", "fits"),
    # 20 % P2O5 are 8.73 % P, 2 % CaO 1.429 % Ca: within 3 %, or 0.06 of small ones.
    [
        (("P2O5", 20.0), ("P", 8.46), False),
        (("P2O5", 20.0), ("P", 8.47), True),
        (("P2O5", 20.0), ("P", 8.99), True),
        (("P2O5", 20.0), ("P", 9.01), False),
        (("CaO", 2.0), ("Ca", 1.37), True),
        (("CaO", 2.0), ("Ca", 1.368), False),
        (("CaO", 2.0), ("Ca", 1.488), True),
        (("CaO", 2.0), ("Ca", 1.491), False),
    ],
)
def test_an_oxide_and_its_element_are_one_as_labels_round(
    oxide: tuple[str, float], element: tuple[str, float], *, fits: bool
) -> None:
    for first, other in ((oxide, element), (element, oxide)):
        kept, wrong = told_once([first, other])
        assert kept == ([first] if fits else [])
        assert bool(wrong) is not fits


def test_what_is_wrong_is_said_with_what_the_oxide_comes_to() -> None:
    told = "gives P twice: 20 % P2O5 is 8.73 % P, not 15 %"
    assert told_once([("P2O5", 20.0), ("P", 15.0)])[1] == told
    assert told_once([("P", 15.0), ("P2O5", 20.0)])[1] == told
    assert told_once([("CaO", 7.0), ("CaCO3", 3.0)])[1] == "gives Ca twice"


def test_the_same_name_twice_must_give_the_same_number() -> None:
    assert told_once([("Ca", 7.0), ("Mg", 2.0), ("Ca", 7.0)]) == (
        [("Ca", 7.0), ("Mg", 2.0)],
        "",
    )
    assert told_once([("Ca", 7.0), ("Ca", 7.1)]) == ([], "gives Ca twice")
