"""The last look made fresh: what could still be seen, and nothing of another day."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from growdesk.domain.case import Case
from growdesk.domain.facts import CareKind, Health, Leaves, NewLeaf, RootTips
from growdesk.domain.freshened import fresh_look, health, looked
from tests.domain.builders import (
    EXTENDING,
    HOUSE,
    day,
    did,
    kind_of,
    look,
    moving,
    plant,
    still,
)

if TYPE_CHECKING:
    from growdesk.domain.facts import Plant


def case_of(one: Plant, on: str) -> Case:
    return Case(one, kind_of(one), HOUSE, day(on))


def test_a_plant_never_looked_at_has_an_empty_look() -> None:
    fresh = fresh_look(case_of(plant("cattleya"), "05-08"))
    assert fresh == look("05-08")


def test_signs_are_carried_and_lengths_and_readings_are_not() -> None:
    one = plant(
        "cattleya", moving("05-05", lead_length_mm=60.0, runoff_ec_ms_per_cm=1.8)
    )
    assert fresh_look(case_of(one, "05-08")) == moving("05-08")
    assert fresh_look(case_of(one, "05-08"), day("05-20")) == moving("05-20")


def test_the_old_look_keeps_its_reading_on_its_own_day() -> None:
    one = plant("cattleya", moving("05-05", runoff_ec_ms_per_cm=1.8))
    later = looked(case_of(one, "05-08"), lambda look: look)
    read = [(k.on, k.runoff_ec_ms_per_cm) for k in later.looks]
    assert read == [(day("05-05"), 1.8), (day("05-08"), None)]


def test_a_look_dated_later_is_not_the_last_one() -> None:
    one = plant("cattleya", still("05-05"), moving("05-20"))
    assert fresh_look(case_of(one, "05-08")) == still("05-08")


@pytest.mark.parametrize(("repotted", "kept"), [("05-04", True), ("05-05", False)])
@pytest.mark.parametrize("what", [CareKind.REPOT, CareKind.DIVIDE])
def test_tips_of_before_a_repot_fall_away(
    repotted: str, kept: bool, what: CareKind
) -> None:
    one = plant("cattleya", moving("05-05"), care=(did(repotted, what),))
    tips = RootTips.RUNNING if kept else None
    assert fresh_look(case_of(one, "05-08")).root_tips is tips
    by_plant = plant("cattleya", moving("05-05"), repotted_on=day(repotted))
    assert fresh_look(case_of(by_plant, "05-08")).root_tips is tips


def test_a_lead_that_stands_still_stands_still() -> None:
    signs = {"new_growths": EXTENDING, "lead_length_mm": 60.0}
    one = plant("cattleya", still("05-01", **signs), still("05-22", **signs))
    later = looked(case_of(one, "05-24"), lambda look: look)
    assert case_of(later, "05-24").signs.stalled
    grown = plant(
        "cattleya",
        still("05-01", new_growths=EXTENDING, lead_length_mm=55.0),
        still("05-22", **signs),
    )
    assert fresh_look(case_of(grown, "05-24")).lead_length_mm is None


@pytest.mark.parametrize(
    ("what", "on", "burnt"),
    [
        (CareKind.FLUSH, "05-04", True),
        (CareKind.FLUSH, "05-05", False),
        (CareKind.FLUSH, "05-07", False),
        (CareKind.REPOT, "05-06", False),
        (CareKind.CLEAR_WATER, "05-06", True),
    ],
)
def test_salt_burn_is_not_carried_past_a_flush(
    what: CareKind, on: str, burnt: bool
) -> None:
    troubles = [Health.SALT_BURN, Health.PESTS]
    one = plant("cattleya", still("05-05", health=troubles), care=(did(on, what),))
    found = {Health.PESTS, Health.SALT_BURN} if burnt else {Health.PESTS}
    assert fresh_look(case_of(one, "05-08")).health == frozenset(found)


def test_health_goes_by_the_newest_look_that_recorded_it() -> None:
    one = plant("cattleya", still("05-01", health=[Health.ROT]), still("05-05"))
    assert health(case_of(one, "05-08"), day("05-08")) == {Health.ROT}
    assert fresh_look(case_of(one, "05-08")).health is None


@pytest.mark.parametrize(
    ("kind", "on", "known"),
    [
        ("catasetum", "08-31", True),
        ("catasetum", "09-11", False),
        ("lycaste", "09-11", False),
        ("cattleya", "09-11", True),
    ],
)
def test_an_old_look_says_nothing_of_leaf_and_roots_that_go(
    kind: str, on: str, known: bool
) -> None:
    shown = {
        "leaves": Leaves.FIRM,
        "new_leaf": NewLeaf.FULL,
        "longest_new_root_mm": 150.0,
    }
    fresh = fresh_look(case_of(plant(kind, moving("08-20", **shown)), on))
    seen = {name: getattr(fresh, name) for name in shown}
    assert seen == (shown if known else dict.fromkeys(shown))
    assert fresh.new_growths == EXTENDING
