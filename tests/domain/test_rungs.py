"""The strength as short lines: every step has one, and they say what the chain says."""

from __future__ import annotations

from string import Formatter

import pytest

from growdesk.domain import templates, wording
from growdesk.domain.facts import Medium, Place
from growdesk.domain.rungs import RUNGS, strength_rungs
from tests.domain.builders import judged, moving, plant


def asked(template: str) -> set[str]:
    return {name for _text, name, _spec, _conv in Formatter().parse(template) if name}


def test_every_step_has_its_line_and_no_other() -> None:
    assert set(RUNGS) == set(templates.STEPS)


@pytest.mark.parametrize("key", list(RUNGS))
def test_a_line_shows_what_its_sentence_shows_but_the_figure_beside_it(
    key: str,
) -> None:
    assert asked(RUNGS[key]) == asked(templates.STEPS[key]) - {"strength"}
    assert RUNGS[key][:1] in {RUNGS[key][:1].upper(), "{"}
    assert not RUNGS[key].endswith(".")


def test_the_figures_are_those_of_the_chain_down_to_the_strength() -> None:
    one = plant(
        "paphiopedilum-mottled",
        moving("02-05"),
        place=Place(mean_temperature_c=15.0),
        medium=Medium.SPHAGNUM,
    )
    judgement = judged(one, "02-08")
    assert judgement.strength is not None
    rungs = strength_rungs(judgement)
    assert [rung.text for rung in rungs][:2] == ["House's full strength", rungs[1].text]
    told = wording.strength_sentence(judgement)
    for rung in rungs[1:]:
        assert f"{rung.ppm_n} ppm N" in told
    assert float(rungs[-1].ppm_n) == judgement.strength.ppm_n
    assert len(rungs) > 3


def test_a_plant_not_fed_has_no_lines() -> None:
    assert strength_rungs(judged(plant("cattleya"), "02-08")) == ()
