"""The plan of a collection where one large dose is measured better than small ones."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Any

import pytest

from growdesk.domain.facts import Look, NewGrowths, RootTips
from growdesk.domain.measuring import Tool, ToolKind
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.values import PlaceDraft, PlantDraft, TinDraft, WaterDraft

if TYPE_CHECKING:
    from pathlib import Path

    from tests.program.conftest import Growdesk

ON = date(2026, 5, 20)


def lay(folder: Path) -> None:
    collection = Collection.open(folder, FixedClock(ON), create=True)
    place = collection.places.add(PlaceDraft("East window")).ids[0]
    for tag, ppm_n, pot_l in (("A1", 200.0, 16.0), ("A2", 60.0, 4.0)):
        plant = PlantDraft(
            tag,
            "Cattleya",
            "cattleya",
            place_id=place,
            pot_volume_l=pot_l,
            full_strength_ppm_n=ppm_n,
        )
        look = Look(
            on=ON, new_growths=NewGrowths(extending=1), root_tips=RootTips.RUNNING
        )
        collection.looks.record(collection.plants.add(plant).ids[0], look)
    collection.mixing.add_tin(TinDraft("Blue", "20-20-20"))
    collection.waters.add(WaterDraft("rain"))
    collection.measures.add_tool(Tool(ToolKind.SCALE, "Kitchen scale", 1.0))
    collection.close()


def test_a_ladder_that_goes_first_says_what_its_jugs_come_to_and_should_read(
    growdesk: Growdesk, tmp_path: Path
) -> None:
    folder = tmp_path / "own"
    lay(folder)
    asked = ("plan", "--on", ON.isoformat(), "--collection", folder)
    plan: Any = growdesk(*asked, "--json").json
    assert plan["ladder_first"]
    strong, weak = plan["ladder_jugs"]
    assert [strong["letter"], weak["letter"]] == ["A", "B"]
    thinned = weak["gives_ppm_n"] / strong["gives_ppm_n"]
    assert thinned == pytest.approx(60 / 200, abs=0.02)
    low, high = weak["ec_range_ms_per_cm"]
    told = growdesk(*asked).out
    assert f"Diluted so, jug B should read {low:.2f} to {high:.2f} mS/cm" in told
    assert told.index("Pour the ") < told.index("Diluted so, jug A")
