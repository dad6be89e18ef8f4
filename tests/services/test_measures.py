"""Measures and vessels: kept, checked, put right, removed, and taken back."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, cast

import pytest
from msgspec.structs import replace

from growdesk.domain.errors import InputError
from growdesk.domain.measuring import Tool, ToolKind
from growdesk.domain.vessels import Vessel, VesselKind
from growdesk.services.jugs import fill
from growdesk.services.shelf import read_shelf
from growdesk.services.values import Changed, TinDraft

if TYPE_CHECKING:
    from collections.abc import Callable

    from growdesk.services.collection import Collection

SCALE = Tool(ToolKind.SCALE, "pocket scale", 0.1, 500)
SPOON = Tool(ToolKind.SPOON, "teaspoon", 0.5)
SYRINGE = Tool(ToolKind.SYRINGE, "10 mL syringe", 0.5, 10)
CYLINDER = Tool(ToolKind.CYLINDER, "cylinder", 1, 100)
JUG = Vessel(VesselKind.JUG, "blue jug", 2.0, 2, 100)
MUG = Vessel(VesselKind.MUG, "mug", 0.35)


def tin(collection: Collection, name: str) -> int:
    return collection.mixing.add_tin(TinDraft(name, "20-20-20")).ids[0]


@pytest.mark.parametrize("tool", [SCALE, SPOON, SYRINGE, CYLINDER])
def test_a_tool_comes_back_as_it_went_in(collection: Collection, tool: Tool) -> None:
    done = collection.measures.add_tool(tool)
    assert done.title == f"{tool.kind.value.capitalize()} {tool.name} added"
    assert done.changed == Changed.SHELF
    assert collection.measures.tools() == (replace(tool, key=done.ids[0]),)


@pytest.mark.parametrize("vessel", [JUG, MUG])
def test_a_vessel_comes_back_as_it_went_in(
    collection: Collection, vessel: Vessel
) -> None:
    done = collection.measures.add_vessel(vessel)
    assert done.title == f"{vessel.kind.value.capitalize()} {vessel.name} added"
    assert collection.measures.vessels() == (replace(vessel, key=done.ids[0]),)


def test_a_spoon_is_weighed_tin_by_tin(collection: Collection) -> None:
    one, two = tin(collection, "One"), tin(collection, "Two")
    measures = collection.measures
    spoon_id = measures.add_tool(replace(SPOON, g_per_level=((one, 4.1),))).ids[0]
    assert measures.tools()[0].g_per_level == ((one, 4.1),)
    measures.change_tool(spoon_id, replace(SPOON, g_per_level=((one, 4.3), (two, 3.2))))
    assert measures.tools()[0].g_per_level == ((one, 4.3), (two, 3.2))
    measures.change_tool(spoon_id, replace(SPOON, g_per_level=((two, 3.2),)))
    assert measures.tools()[0].g_per_level == ((two, 3.2),)
    collection.history.undo()
    assert dict(measures.tools()[0].g_per_level) == {one: 4.3, two: 3.2}


def test_a_tin_off_the_shelf_keeps_its_weight(collection: Collection) -> None:
    one, two = tin(collection, "One"), tin(collection, "Two")
    measures = collection.measures
    both = replace(SPOON, g_per_level=((one, 4.1), (two, 3.2)))
    spoon_id = measures.add_tool(both).ids[0]
    collection.mixing.remove_tin(one)
    assert [view.draft.name for view in measures.all().tins] == ["Two"]
    measures.change_tool(spoon_id, replace(SPOON, g_per_level=((two, 3.3),)))
    assert dict(measures.tools()[0].g_per_level) == {one: 4.1, two: 3.3}
    measures.change_tool(spoon_id, SCALE)
    assert measures.tools()[0].g_per_level == ()


def test_removed_and_brought_back(collection: Collection) -> None:
    one = tin(collection, "One")
    measures = collection.measures
    spoon_id = measures.add_tool(replace(SPOON, g_per_level=((one, 4.1),))).ids[0]
    jug_id = measures.add_vessel(JUG).ids[0]
    assert measures.remove_tool(spoon_id).title == "Measure teaspoon removed"
    assert measures.remove_vessel(jug_id).title == "Vessel blue jug removed"
    assert (measures.tools(), measures.vessels()) == ((), ())
    collection.history.undo()
    collection.history.undo()
    assert measures.tools()[0].g_per_level == ((one, 4.1),)
    assert measures.vessels()[0].name == "blue jug"


def test_all_of_it_at_once(collection: Collection) -> None:
    collection.measures.add_tool(SCALE)
    collection.measures.add_vessel(JUG)
    tin(collection, "One")
    house = replace(collection.settings.house(), measure_off_share=0.1)
    collection.settings.save_house(house)
    seen = collection.measures.all()
    assert [tool.name for tool in seen.tools] == ["pocket scale"]
    assert [vessel.name for vessel in seen.vessels] == ["blue jug"]
    assert [view.draft.name for view in seen.tins] == ["One"]
    assert seen.off_share == 0.1


@pytest.mark.parametrize(
    ("tool", "field", "said"),
    [
        (replace(SCALE, name=" "), "name", "is empty"),
        (replace(SCALE, step=0.0), "step", "0.0001"),
        (replace(SCALE, step=math.nan), "step", "number"),
        (replace(SCALE, step=500.0), "step", "100"),
        (replace(SCALE, step=1.0, most=0.5), "most", "less than the least it shows"),
        (replace(SYRINGE, most=None), "most", "is empty"),
        (replace(CYLINDER, most=None), "most", "is empty"),
        (replace(SPOON, step=2.0), "step", "1"),
        (replace(SPOON, most=3.0), "most", "is not asked of a spoon"),
        (replace(SPOON, g_per_level=((1, 0.0),)), "g_per_level", "0.05"),
        (replace(SPOON, g_per_level=((99, 4.0),)), "g_per_level", "no tin"),
        (replace(SCALE, g_per_level=((1, 4.0),)), "g_per_level", "weights are given"),
    ],
)
def test_a_tool_that_cannot_be_is_refused(
    collection: Collection, tool: Tool, field: str, said: str
) -> None:
    tin(collection, "One")
    with pytest.raises(InputError) as refused:
        collection.measures.add_tool(tool)
    assert refused.value.field == field
    assert said in refused.value.line()
    assert refused.value.hint or "from" in refused.value.line()
    assert collection.measures.tools() == ()


@pytest.mark.parametrize(
    ("vessel", "field", "said"),
    [
        (replace(JUG, name=""), "name", "is empty"),
        (replace(JUG, volume_l=0.0), "volume_l", "0.01"),
        (replace(JUG, volume_l=5000.0), "volume_l", "1000"),
        (replace(JUG, how_many=0), "how_many", "1"),
        (replace(JUG, step_ml=2500.0), "step_ml", "is more than it holds"),
        (replace(JUG, step_ml=-5.0), "step_ml", "0.1"),
    ],
)
def test_a_vessel_that_cannot_be_is_refused(
    collection: Collection, vessel: Vessel, field: str, said: str
) -> None:
    with pytest.raises(InputError) as refused:
        collection.measures.add_vessel(vessel)
    assert refused.value.field == field
    assert said in refused.value.line()
    assert collection.measures.vessels() == ()


def test_a_kind_nobody_knows_is_refused(collection: Collection) -> None:
    odd = replace(SCALE, kind=cast("ToolKind", "ladle"))
    with pytest.raises(InputError) as refused:
        collection.measures.add_tool(odd)
    assert "scale, spoon, syringe or cylinder" in refused.value.line()


def test_a_name_is_given_once(collection: Collection) -> None:
    measures = collection.measures
    scale_id = measures.add_tool(SCALE).ids[0]
    with pytest.raises(InputError, match="is a measure already"):
        measures.add_tool(replace(SYRINGE, name="Pocket SCALE"))
    measures.change_tool(scale_id, replace(SCALE, step=0.01))
    assert measures.tools()[0].step == 0.01
    measures.add_vessel(JUG)
    with pytest.raises(InputError, match="is a vessel already"):
        measures.add_vessel(replace(MUG, name="Blue jug"))


def test_what_is_gone_is_told(collection: Collection) -> None:
    measures = collection.measures
    works: tuple[Callable[[], object], ...] = (
        lambda: measures.change_tool(7, SCALE),
        lambda: measures.remove_tool(7),
        lambda: measures.change_vessel(7, JUG),
        lambda: measures.remove_vessel(7),
    )
    for work in works:
        with pytest.raises(InputError, match="is not there any more"):
            work()


def test_the_round_is_dosed_with_what_is_recorded(collection: Collection) -> None:
    """A jug is told as the scale weighs it, with the strength that this gives."""
    tin(collection, "One")
    house = collection.settings.house()
    collection.measures.add_tool(replace(SCALE, step=1.0))
    with collection.ledger.reading() as session:
        shelf = read_shelf(session)
    filled = fill(120, 2.0, house, shelf)
    assert [dose.amount for dose in filled.doses] == [1.0]
    assert filled.mixture is not None
    assert filled.mixture.strength_ppm_n == pytest.approx(100)
    assert any("Make a stock solution" in line for line in filled.warnings)
    lower = fill(160, 2.0, house, shelf, most_ppm_n=160.0)
    assert lower.mixture is not None
    assert lower.mixture.strength_ppm_n == pytest.approx(100)
    coarse = fill(120, 2.0, replace(house, measure_off_share=0.5), shelf)
    assert not any("stock" in line for line in coarse.warnings)


@pytest.mark.parametrize(("share", "too_small"), [(0.0416, True), (0.0417, False)])
def test_the_house_says_how_far_a_dose_may_be_off(
    collection: Collection, share: float, too_small: bool
) -> None:
    """Half a step of 0.1 g is 4.17 % of 1.2 g."""
    tin(collection, "One")
    collection.measures.add_tool(SCALE)
    house = replace(collection.settings.house(), measure_off_share=share)
    with collection.ledger.reading() as session:
        shelf = read_shelf(session)
    (dose,) = fill(120, 2.0, house, shelf).doses
    assert dose.mass_g == pytest.approx(1.2)
    assert dose.too_small is too_small
