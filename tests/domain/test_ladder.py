"""Volumes that add up to the millilitre, and one whole sentence a step."""

from __future__ import annotations

import json
import re
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from growdesk.domain.batches import Batch, letter, plan_batches
from growdesk.domain.cautions import FULL, SHORT
from growdesk.domain.ladder import ladder, litres, plan_report, sentences, unmeasured
from growdesk.domain.servings import Serving


def batch(name: str, strength: int, volume_l: float) -> Batch:
    return Batch(name, strength, volume_l, ("A1",))


def ml(volume_l: float) -> int:
    """Give a step's volume in millilitres, which must be whole."""
    whole = round(volume_l * 1000)
    assert volume_l * 1000 == pytest.approx(whole, abs=1e-6)
    return whole


def test_three_jugs() -> None:
    steps = ladder([batch("A", 300, 1), batch("B", 150, 2), batch("C", 50, 3)])
    assert [step.letter for step in steps] == ["A", "B", "C"]
    assert [step.mix_l for step in steps] == [2.5, 3.0, 3.0]
    assert [step.kept_l for step in steps] == [0, 1.5, 1.0]
    assert [step.add_water_l for step in steps] == [0, 1.5, 2.0]
    assert [step.use_l for step in steps] == [1, 2, 3]
    assert [step.keep_l for step in steps] == [1.5, 1.0, 0]
    assert [step.result_ppm_n for step in steps] == [300, 150, 50]
    assert [step.sentence for step in steps] == [
        "Mix 2.5 L at 300 ppm N in jug A, use 1 L of it, and keep 1.5 L for jug B.",
        (
            "Pour the 1.5 L kept into jug B, add 1.5 L of water to make 3 L at 150 "
            "ppm N, use 2 L of it, and keep 1 L for jug C."
        ),
        (
            "Pour the 1 L kept into jug C, add 2 L of water to make 3 L at 50 ppm N, "
            "and use all of it."
        ),
    ]


def test_one_jug_is_mixed_and_used() -> None:
    (step,) = ladder([batch("A", 150, 2.5)])
    assert step.sentence == "Mix 2.5 L at 150 ppm N in jug A and use all of it."


def test_no_jug_no_step() -> None:
    assert ladder([]) == ()
    assert sentences([]) == ()


def test_the_dilution_law() -> None:
    # Read: US Army MD0837, armymedical.tpub.com/md0837: C1 V1 = C2 V2. From memory,
    # arithmetic only: 20 mL of 20 000 ppm N makes 4 L of 100 ppm N.
    stock, feed = ladder([batch("A", 10_000, 0.001), batch("B", 100, 4)])
    assert stock.keep_l == 0.04
    assert feed.result_ppm_n == 100


_JUGS = st.lists(
    st.tuples(st.integers(1, 400), st.floats(0.05, 50)),
    min_size=1,
    max_size=8,
    unique_by=lambda jug: jug[0],
)


@settings(deadline=None)
@given(_JUGS)
def test_volumes_add_up_and_no_jug_is_too_strong(jugs: list[tuple[int, float]]) -> None:
    ordered = sorted(jugs, reverse=True)
    batches = [batch(letter(i), ppm, v) for i, (ppm, v) in enumerate(ordered)]
    steps = ladder(reversed(batches))
    assert [step.letter for step in steps] == [b.letter for b in batches]
    for step, wanted in zip(steps, batches, strict=True):
        assert ml(step.mix_l) == ml(step.use_l) + ml(step.keep_l)
        assert step.use_l + 1e-9 >= wanted.volume_l
        assert step.use_l < wanted.volume_l + 0.001 + 1e-9
    for before, step in pairwise(steps):
        assert step.kept_l == before.keep_l
        assert step.is_fresh == (step.kept_l == 0)
        assert step.result_ppm_n <= step.strength_ppm_n + 1e-6
        if step.is_fresh:
            wanted_ml = ml(step.mix_l) * step.strength_ppm_n / before.strength_ppm_n
            assert wanted_ml < 1
            continue
        assert ml(step.mix_l) == ml(step.kept_l) + ml(step.add_water_l)
        nitrogen = before.result_ppm_n * step.kept_l
        assert step.result_ppm_n * step.mix_l == pytest.approx(nitrogen)
    poured = sum(ml(step.mix_l) for step in steps if step.is_fresh)
    poured += sum(ml(step.add_water_l) for step in steps)
    assert poured == sum(ml(step.use_l) for step in steps)
    assert steps[-1].keep_l == 0


@settings(deadline=None)
@given(_JUGS)
def test_a_sentence_for_each_step(jugs: list[tuple[int, float]]) -> None:
    batches = [batch(letter(i), ppm, volume) for i, (ppm, volume) in enumerate(jugs)]
    lines = sentences(batches)
    assert len(lines) == len(batches)
    for line in lines:
        assert line[0].isupper()
        assert line.endswith(".")
        assert "{" not in line
        assert "  " not in line


def test_close_to_the_wish_in_household_jugs() -> None:
    """Rounding what is kept down to a millilitre costs less than half a per cent."""
    steps = ladder([batch("A", 187, 0.7), batch("B", 113, 1.3), batch("C", 41, 0.9)])
    for step in steps:
        assert step.result_ppm_n == pytest.approx(step.strength_ppm_n, rel=0.005)


def test_jugs_without_known_litres_are_told() -> None:
    batches = [batch("A", 300, 1), batch("B", 150, 0), batch("C", 50, 3)]
    assert [step.letter for step in ladder(batches)] == ["A", "C"]
    assert unmeasured(batches) == (
        "Jug B, 150 ppm N: the litres are not known, so it is mixed on its own.",
    )
    assert len(sentences(batches)) == 3


def test_report() -> None:
    plants = [
        Serving("A2", 300, 400, 0.5),
        Serving("A10", 300, 400, 0.25),
        Serving("B1", 100, 200, None),
        Serving("B2", 100, 200, 1.0),
    ]
    report = json.loads(json.dumps(plan_report(plan_batches(plants))))
    assert report["batches"] == [
        {
            "letter": "A",
            "strength_ppm_n": 300,
            "volume_l": 0.75,
            "tags": ["A2", "A10"],
        },
        {"letter": "B", "strength_ppm_n": 100, "volume_l": 1.0, "tags": ["B1", "B2"]},
    ]
    assert [list(step) for step in report["ladder"]] == [["sentence"], ["sentence"]]
    assert report["outside_band"] == []
    assert report["volume_unknown"] == ["B1"]


@pytest.mark.parametrize(
    ("volume_l", "text"),
    [(0.75, "750 mL"), (1, "1 L"), (2.35, "2.35 L"), (1.001, "1001 mL"), (10, "10 L")],
)
def test_volumes_as_read_at_the_bench(volume_l: float, text: str) -> None:
    assert litres(volume_l) == text


_TOLD = re.compile(r"([\d.]+) (mL|L)\b")


def told_ml(sentence: str) -> list[int]:
    """Give the volumes of a sentence in its order, in millilitres."""
    return [
        round(float(number) * (1 if unit == "mL" else 1000))
        for number, unit in _TOLD.findall(sentence)
    ]


@settings(deadline=None)
@given(_JUGS, st.sampled_from([None, 1, 2, 5]))
def test_what_the_sentences_tell_adds_up_and_no_jug_is_too_strong(
    jugs: list[tuple[int, float]], fine_ml: int | None
) -> None:
    ordered = sorted(jugs, reverse=True)
    batches = [batch(letter(i), ppm, v) for i, (ppm, v) in enumerate(ordered)]
    steps = ladder(batches, fine_ml=fine_ml)
    kept, carried = 0, float(steps[0].strength_ppm_n)
    for step in steps:
        told = told_ml(step.sentence)
        if step.is_fresh:
            assert kept == 0
            carried = float(step.strength_ppm_n)
        else:
            assert told.pop(0) == kept == round(step.told_kept_l * 1000)
            water = told.pop(0)
            assert told[0] == kept + water
            carried = carried * kept / told[0]
        mix = told.pop(0)
        assert mix == round(step.told_mix_l * 1000)
        assert carried <= step.strength_ppm_n + 1e-6
        use, kept = told or (mix, 0)
        assert mix == use + kept
        assert use % 10 == 0
        assert 0 <= use - ml(step.use_l) < 10


@settings(deadline=None)
@given(_JUGS, st.floats(0, 60))
def test_nitrogen_of_the_water_is_thinned_by_nothing(
    jugs: list[tuple[int, float]], water_ppm_n: float
) -> None:
    batches = [batch(letter(i), ppm, v) for i, (ppm, v) in enumerate(jugs)]
    steps = ladder(batches, water_ppm_n)
    for before, step in pairwise(steps):
        assert step.result_ppm_n <= step.strength_ppm_n + 1e-6
        if not step.is_fresh:
            nitrogen = before.result_ppm_n * step.kept_l
            nitrogen += water_ppm_n * step.add_water_l
            assert step.result_ppm_n * step.mix_l == pytest.approx(nitrogen)


def test_a_ladder_with_water_that_brings_nitrogen() -> None:
    """Of 100 and 60 ppm N in water of 20, the feed brings 80 and 40: half is kept."""
    first, second = ladder([batch("A", 100, 1), batch("B", 60, 1)], 20.0)
    assert (first.mix_l, first.keep_l) == (1.5, 0.5)
    assert second.add_water_l == 0.5
    assert second.result_ppm_n == pytest.approx(60.0)


def test_less_than_a_millilitre_is_not_carried_on() -> None:
    first, second = ladder([batch("A", 400, 1), batch("B", 1, 0.1)])
    assert (first.mix_l, first.keep_l) == (1.0, 0.0)
    assert second.is_fresh
    assert first.sentence == "Mix 1 L at 400 ppm N in jug A and use all of it."
    assert second.sentence == "Mix 100 mL at 1 ppm N in jug B and use all of it."


def test_told_volumes_are_in_steps_that_a_jug_can_show() -> None:
    first, second = ladder([batch("A", 150, 0.7), batch("B", 110, 1.533)])
    assert (first.mix_l, first.keep_l) == (1.824, 1.124)
    assert told_ml(first.sentence) == [1820, 700, 1120]
    assert told_ml(second.sentence) == [1120, 420, 1540]
    assert second.sentence.startswith("Pour the 1.12 L kept into jug B, add 420 mL")
    weak, _ = ladder([batch("A", 300, 0.5), batch("B", 30, 0.37)])
    assert told_ml(weak.sentence) == [537, 500, 37]


def test_what_is_kept_is_told_as_finely_as_it_is_measured() -> None:
    """296 mL of 143 ppm N make 710 of 60; 290 would make it 2 % weaker."""
    batches = [batch("A", 143, 3.9), batch("B", 60, 0.71)]
    coarse, fine = ladder(batches), ladder(batches, fine_ml=2)
    assert told_ml(coarse[0].sentence) == [4190, 3900, 290]
    assert told_ml(fine[0].sentence) == [4196, 3900, 296]
    assert coarse[0].keep_l == fine[0].keep_l == 0.297
    large = [batch("A", 143, 3.9), batch("B", 60, 7.1)]
    assert ladder(large, fine_ml=2) == ladder(large)


def test_cautions_are_whole_sentences() -> None:
    assert len(SHORT) == 2
    for line in (*SHORT, *FULL):
        assert line.endswith(".")
        assert line[0].isupper()
    block = " ".join(FULL)
    for word in ("children", "label", "gloves", "poison centre", "wells", "adviser"):
        assert word in block
