"""The grower's measures: scales, spoons, syringes and cylinders; jugs, cans and mugs.

A spoon is known for a product only once the grower weighed it with that product. What
a dose then comes to is not known here.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct
from sqlalchemy import select

from growdesk.domain.errors import InputError
from growdesk.domain.measuring import ToolKind
from growdesk.domain.speech import Phrases, tr
from growdesk.domain.vessels import VesselKind
from growdesk.services import shelf
from growdesk.services.ledger import written
from growdesk.services.measure_checks import checked_tool, checked_vessel
from growdesk.services.named_rows import GONE, name_of, refuse_second
from growdesk.services.settings import read_house
from growdesk.store.schema import SpoonWeightRow, TinRow, ToolRow, VesselRow

if TYPE_CHECKING:
    from growdesk.domain.measuring import Tool
    from growdesk.domain.vessels import Vessel
    from growdesk.services.ledger import Ledger
    from growdesk.services.values import TinView, Written
    from growdesk.store.journal import Writing
    from growdesk.store.session import Session

    Row = type[ToolRow | VesselRow]


class MeasuresView(Struct, frozen=True):
    """All measures and vessels, with the tins a spoon may be weighed for.

    ``off_share`` is the share of a dose by which half a step may be off.
    """

    tools: tuple[Tool, ...]
    vessels: tuple[Vessel, ...]
    tins: tuple[TinView, ...]
    off_share: float


_TOOLS = Phrases(
    {
        ToolKind.SCALE: "Scale {name}",
        ToolKind.SPOON: "Spoon {name}",
        ToolKind.SYRINGE: "Syringe {name}",
        ToolKind.CYLINDER: "Cylinder {name}",
    }
)
_VESSELS = Phrases(
    {
        VesselKind.JUG: "Jug {name}",
        VesselKind.CAN: "Can {name}",
        VesselKind.BOTTLE: "Bottle {name}",
        VesselKind.MUG: "Mug {name}",
    }
)


class Measures:
    """The measures and vessels of one collection."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger

    def all(self) -> MeasuresView:
        """Give all that is recorded, in the order it was added."""
        with self._ledger.reading() as session:
            return MeasuresView(
                tools=shelf.tools(session),
                vessels=shelf.vessels(session),
                tins=shelf.tins(session),
                off_share=read_house(session).measure_off_share,
            )

    def tools(self) -> tuple[Tool, ...]:
        """Give the scales, spoons, syringes and cylinders."""
        with self._ledger.reading() as session:
            return shelf.tools(session)

    def vessels(self) -> tuple[Vessel, ...]:
        """Give the jugs, cans, bottles and mugs."""
        with self._ledger.reading() as session:
            return shelf.vessels(session)

    def add_tool(self, tool: Tool) -> Written:
        """Add a scale, spoon, syringe or cylinder; its ``key`` is not looked at."""
        kept = checked_tool(tool)
        title = tr("{titled} added").format(titled=_titled(kept))
        with self._ledger.writing(title) as writing:
            refuse_second(writing.session, ToolRow, kept.name, None, "measure")
            tool_id = writing.insert(ToolRow, _tool_values(kept))
            _weigh(writing, tool_id, kept)
        return written(writing, title, (tool_id,))

    def change_tool(self, tool_id: int, tool: Tool) -> Written:
        """Change a tool; what a spoon was weighed with is then what is given."""
        kept = checked_tool(tool)
        title = tr("{titled} changed").format(titled=_titled(kept))
        with self._ledger.writing(title) as writing:
            name_of(writing.session, ToolRow, tool_id, "measure")
            refuse_second(writing.session, ToolRow, kept.name, tool_id, "measure")
            writing.update(ToolRow, tool_id, _tool_values(kept))
            _weigh(writing, tool_id, kept)
        return written(writing, title, (tool_id,))

    def remove_tool(self, tool_id: int) -> Written:
        """Remove a tool, and with a spoon what it was weighed with."""
        with self._ledger.reading() as session:
            name = name_of(session, ToolRow, tool_id, "measure")
            title = tr("Measure {name} removed").format(name=name)
        with self._ledger.writing(title) as writing:
            weighed = list(_weighed(writing.session, tool_id).values())
            writing.delete_many(SpoonWeightRow, weighed)
            writing.delete(ToolRow, tool_id)
        return written(writing, title)

    def add_vessel(self, vessel: Vessel) -> Written:
        """Add a jug, can, bottle or mug; its ``key`` is not looked at."""
        kept = checked_vessel(vessel)
        title = tr("{titled} added").format(titled=_vessel_titled(kept))
        with self._ledger.writing(title) as writing:
            refuse_second(writing.session, VesselRow, kept.name, None, "vessel")
            vessel_id = writing.insert(VesselRow, _vessel_values(kept))
        return written(writing, title, (vessel_id,))

    def change_vessel(self, vessel_id: int, vessel: Vessel) -> Written:
        """Change a vessel."""
        kept = checked_vessel(vessel)
        title = tr("{titled} changed").format(titled=_vessel_titled(kept))
        with self._ledger.writing(title) as writing:
            name_of(writing.session, VesselRow, vessel_id, "vessel")
            refuse_second(writing.session, VesselRow, kept.name, vessel_id, "vessel")
            writing.update(VesselRow, vessel_id, _vessel_values(kept))
        return written(writing, title, (vessel_id,))

    def remove_vessel(self, vessel_id: int) -> Written:
        """Remove a vessel."""
        with self._ledger.reading() as session:
            name = name_of(session, VesselRow, vessel_id, "vessel")
            title = tr("Vessel {name} removed").format(name=name)
        with self._ledger.writing(title) as writing:
            writing.delete(VesselRow, vessel_id)
        return written(writing, title)


def _tool_values(tool: Tool) -> dict[str, object]:
    return {
        "kind": tool.kind.value,
        "name": tool.name,
        "step": tool.step,
        "most": tool.most,
    }


def _vessel_values(vessel: Vessel) -> dict[str, object]:
    return {
        "kind": vessel.kind.value,
        "name": vessel.name,
        "volume_l": vessel.volume_l,
        "how_many": vessel.how_many,
        "step_ml": vessel.step_ml,
    }


def _titled(tool: Tool) -> str:
    return _TOOLS[tool.kind].format(name=tool.name)


def _vessel_titled(vessel: Vessel) -> str:
    return _VESSELS[vessel.kind].format(name=vessel.name)


def _weigh(writing: Writing, tool_id: int, tool: Tool) -> None:
    """Keep what a spoon was weighed with; a tin that is gone keeps its weight."""
    rows = writing.session.execute(select(TinRow.id, TinRow.gone_on))
    tins = {row.id: row.gone_on for row in rows}
    known = _weighed(writing.session, tool_id)
    given = dict(tool.g_per_level)
    for tin_id in given:
        if tin_id not in tins:
            raise InputError(
                "g_per_level", tin_id, tr("is no tin on the shelf"), tr(GONE)
            )
    again = [
        (known[tin_id], {"g_per_level": grams})
        for tin_id, grams in given.items()
        if tin_id in known
    ]
    new = [
        {"tool_id": tool_id, "tin_id": tin_id, "g_per_level": grams}
        for tin_id, grams in given.items()
        if tin_id not in known
    ]
    is_spoon = tool.kind is ToolKind.SPOON
    gone = [
        row_id
        for tin_id, row_id in known.items()
        if tin_id not in given and (tins[tin_id] is None or not is_spoon)
    ]
    writing.update_many(SpoonWeightRow, again)
    writing.insert_many(SpoonWeightRow, new)
    writing.delete_many(SpoonWeightRow, gone)


def _weighed(session: Session, tool_id: int) -> dict[int, int]:
    """Give the rows of a spoon's weights by tin."""
    rows = session.execute(
        select(SpoonWeightRow.tin_id, SpoonWeightRow.id).where(
            SpoonWeightRow.tool_id == tool_id
        )
    )
    return {row.tin_id: row.id for row in rows}
