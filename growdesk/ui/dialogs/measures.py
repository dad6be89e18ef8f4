"""Keep what doses are measured with, and what feed is mixed and carried in.

One list of two parts: measures, then jugs and cans. A vessel's key here is its number
below zero, so that one list holds both.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLineEdit, QListWidgetItem, QVBoxLayout
from typing_extensions import override

from growdesk.domain.errors import InputError
from growdesk.domain.measure_words import least_well
from growdesk.domain.measuring import Tool, ToolKind
from growdesk.domain.speech import Phrases, mark, plain, tr, trn
from growdesk.domain.vessels import Vessel, VesselKind
from growdesk.domain.volume_words import volume_text_fine
from growdesk.ui import sizes, typed, words
from growdesk.ui.dialogs.rows import KEY, RowsDialog
from growdesk.ui.widgets.form import choose
from growdesk.ui.widgets.parts import label
from growdesk.ui.widgets.spoon_table import SpoonTable

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from PySide6.QtWidgets import QWidget

    from growdesk.services.measures import MeasuresView

    Read = Callable[[str, str], float | None]

Kept = Tool | Vessel

EMPTY: Final = mark(
    "Nothing is recorded yet, so doses are told as reckoned. Add your scale first: "
    "what it reads to decides what a jug can really hold."
)
UNWEIGHED: Final = mark(
    "It measures nothing yet: a spoon counts for a tin once it was weighed with it."
)
TOOLS, VESSELS = mark("Measures"), mark("Jugs, cans, mugs")
_TITLE: Final = mark("Measures and jugs")
_NEW: Final = mark("New measure or jug")
_HEADING: Final = 0
_FIELD_PX: Final = 360
_KIND_TEXTS: Final = Phrases(
    {
        ToolKind.SCALE: "scale",
        ToolKind.SPOON: "spoon",
        ToolKind.SYRINGE: "syringe",
        ToolKind.CYLINDER: "measuring cylinder",
        VesselKind.JUG: "jug, to mix in",
        VesselKind.CAN: "can, to carry and pour with",
        VesselKind.BOTTLE: "bottle, for stock solutions",
        VesselKind.MUG: "mug, your own measure",
    }
)
_FILLED: Final = Phrases(
    {1.0: "whole", 0.5: "whole or half", 0.25: "by quarters"}, "how a spoon is filled"
)
_FIELDS: Final[Mapping[str, frozenset[str]]] = {
    "step": frozenset({"scale", "syringe", "cylinder"}),
    "most": frozenset({"scale", "syringe", "cylinder"}),
    "filled": frozenset({"spoon"}),
    "g_per_level": frozenset({"spoon"}),
    "volume_l": frozenset({"jug", "can", "bottle", "mug"}),
    "how_many": frozenset({"jug", "can", "bottle"}),
    "step_ml": frozenset({"jug", "can", "bottle"}),
}
_EXAMPLES: Final = {
    "scale": (mark("say 0.1 g"), mark("if it matters, say 500 g")),
    "syringe": (mark("its finest mark, say 0.5 mL"), mark("say 10 mL")),
    "cylinder": (mark("its finest mark, say 1 mL"), mark("say 100 mL")),
}


class MeasuresDialog(RowsDialog):
    """All measures and vessels, one of them in the form."""

    def __init__(self, parent: QWidget | None) -> None:
        super().__init__(parent, tr(_TITLE), tr(_NEW))
        self._things: dict[int, Kept] = {}
        self._off_share = 0.0
        self._exact: dict[QLineEdit, tuple[str, float | None]] = {}
        self.kind = self.form.combo("kind", tr("&Kind", "what sort it is"), [])
        self.name = self.form.line("name", tr("&Name"), tr("what you call it"))
        self.step = self.form.line("step", tr("&Reads to"))
        self.most = self.form.line("most", tr("&Holds at most"))
        self.filled = self.form.combo("filled", tr("&Filled"), tuple(_FILLED.items()))
        self.weights = SpoonTable()
        self.form.add("g_per_level", tr("&Level spoon"), self.weights)
        self.volume = self.form.line("volume_l", tr("H&olds"), tr("say 2 L or 12 oz"))
        self.how_many = self.form.line(
            "how_many", tr("How man&y"), tr("1 if left empty")
        )
        self.marks = self.form.line(
            "step_ml", tr("&Marks every"), tr("say 100 mL; empty where it has none")
        )
        self.form.end()
        self.form.keep_narrow(_FIELD_PX)
        sizes.least_wide(self.kind, _FIELD_PX)
        self.kind.currentIndexChanged.connect(lambda _row: self._kind_chosen())
        self.resize(sizes.area(720, 460))

    def show_all(self, view: MeasuresView, chosen: int | None) -> None:
        """Show what is recorded, by its keys here."""
        self._off_share = view.off_share
        tools = {tool.key or 0: tool for tool in view.tools}
        vessels = {-(vessel.key or 0): vessel for vessel in view.vessels}
        self._things = {**tools, **vessels}
        self.weights.show_tins(view.tins)
        self.show_rows([(k, _row(t)) for k, t in self._things.items()], chosen)
        self._put_heading(len(tools), tr(VESSELS), wanted=bool(vessels))
        self._put_heading(0, tr(TOOLS), wanted=bool(tools))

    @override
    def put_page(self, page: QVBoxLayout) -> None:
        self.stand = label("", tone="muted")
        self.body.addWidget(self.stand)
        super().put_page(page)

    @override
    def draft(self) -> Kept:
        """Give the measure or the vessel as entered."""
        kind = str(self.kind.currentData())
        if kind in set(ToolKind):
            return self._tool(ToolKind(kind))
        return self._vessel(VesselKind(kind))

    @override
    def show_key(self, key: int | None) -> None:
        thing = self._things.get(key) if key is not None else None
        self._offer_kinds(thing)
        self.name.setText("" if thing is None else thing.name)
        tool = thing if isinstance(thing, Tool) else None
        vessel = thing if isinstance(thing, Vessel) else None
        self._show_tool(tool)
        self._show_vessel(vessel)
        self._kind_chosen()
        said = self._stand_words(thing)
        self.stand.setText(said)
        self.stand.setVisible(bool(said))
        if thing is None:
            self.name.setFocus()

    @override
    def tab_stops(self) -> list[QWidget]:
        stops: list[QWidget] = []
        for each in super().tab_stops():
            stops += self.weights.lines.values() if each is self.weights else [each]
        return stops

    # -- inside ---------------------------------------------------------------------

    def _put_heading(self, row: int, text: str, *, wanted: bool) -> None:
        """Put a line above one part of the list that cannot be chosen."""
        if not wanted:
            return
        item = QListWidgetItem(text)
        item.setData(KEY, _HEADING)
        item.setData(KEY + 1, text)
        item.setFlags(Qt.ItemFlag.NoItemFlags)
        font = item.font()
        font.setBold(True)
        item.setFont(font)
        self.list.insertItem(row, item)

    def _offer_kinds(self, thing: Kept | None) -> None:
        """Offer the kinds a thing can be; a measure never becomes a jug."""
        sorts: list[ToolKind | VesselKind] = []
        if not isinstance(thing, Vessel):
            sorts += ToolKind
        if not isinstance(thing, Tool):
            sorts += VesselKind
        self.kind.blockSignals(True)  # noqa: FBT003 -- Qt's own signature
        self.kind.clear()
        for kind in sorts:
            self.kind.addItem(_KIND_TEXTS[kind], kind.value)
        choose(self.kind, ToolKind.SCALE if thing is None else thing.kind)
        self.kind.blockSignals(False)  # noqa: FBT003 -- Qt's own signature

    def _kind_chosen(self) -> None:
        """Show the fields that this kind has, with its own examples."""
        kind = str(self.kind.currentData())
        for field, kinds in _FIELDS.items():
            self.form.show_field(field, shown=kind in kinds)
        reads, holds = _EXAMPLES.get(kind, ("", ""))
        for line, example in ((self.step, reads), (self.most, holds)):
            line.setPlaceholderText(tr(example))
            line.setToolTip(tr(example))

    def _show_tool(self, tool: Tool | None) -> None:
        unit = "g" if tool is not None and tool.kind is ToolKind.SCALE else "mL"
        is_spoon = tool is not None and tool.kind is ToolKind.SPOON
        step = None if tool is None or is_spoon else tool.step
        self._put(self.step, step, unit)
        self._put(self.most, None if tool is None else tool.most, unit)
        self._offer_filled(tool.step if tool is not None and is_spoon else 0.5)
        self.weights.show_weights({} if tool is None else dict(tool.g_per_level))

    def _offer_filled(self, step: float) -> None:
        """Offer how a spoon is filled, an unusual part of it as it is recorded."""
        self.filled.clear()
        for value, text in _FILLED.items():
            self.filled.addItem(text, value)
        if self.filled.findData(step) < 0:
            self.filled.addItem(
                tr("to {step} of a spoon").format(step=plain(step)), step
            )
        choose(self.filled, step)

    def _show_vessel(self, vessel: Vessel | None) -> None:
        self._put(self.volume, None if vessel is None else vessel.volume_l, "L")
        self.how_many.setText("" if vessel is None else str(vessel.how_many))
        self._put(self.marks, None if vessel is None else vessel.step_ml, "mL")

    def _put(self, line: QLineEdit, value: float | None, unit: str) -> None:
        """Show an amount short, and remember it as it is."""
        line.setText(_amount(value, unit))
        self._exact[line] = (line.text(), value)

    def _read(self, line: QLineEdit, field: str, read: Read) -> float | None:
        """Give what a line says; what was not touched stays to the last digit."""
        shown, value = self._exact.get(line, ("", None))
        is_as_shown = line.text() == shown and not self._is_of_other_kind()
        return value if is_as_shown else read(line.text(), field)

    def _is_of_other_kind(self) -> bool:
        thing = self._things.get(self.key or 0)
        return thing is not None and thing.kind != self.kind.currentData()

    def _tool(self, kind: ToolKind) -> Tool:
        name = self.name.text().strip()
        if kind is ToolKind.SPOON:
            step = float(self.filled.currentData())
            return Tool(kind, name, step, None, self.weights.weights())
        amount = typed.mass_g if kind is ToolKind.SCALE else typed.volume_ml
        reads = self._read(self.step, "step", amount)
        if reads is None:
            hint = tr("Write what it reads to: {examples}.").format(
                examples=tr(_EXAMPLES[kind.value][0])
            )
            raise InputError("step", "", tr("is empty"), hint)
        return Tool(kind, name, reads, self._read(self.most, "most", amount))

    def _vessel(self, kind: VesselKind) -> Vessel:
        name = self.name.text().strip()
        volume_l = self._read(self.volume, "volume_l", typed.volume_l)
        if volume_l is None:
            raise InputError(
                "volume_l", "", tr("is empty"), tr("Write what it holds: 2 L.")
            )
        if kind is VesselKind.MUG:
            return Vessel(kind, name, volume_l)
        many = typed.whole(self.how_many.text(), "how_many", "2")
        marks = self._read(self.marks, "step_ml", typed.volume_ml)
        return Vessel(kind, name, volume_l, 1 if many is None else many, marks)

    def _stand_words(self, thing: Kept | None) -> str:
        if not self._things:
            return tr(EMPTY)
        if isinstance(thing, Tool) and thing.kind is ToolKind.SPOON:
            return (
                least_well(thing, self._off_share)
                if thing.g_per_level
                else tr(UNWEIGHED)
            )
        if isinstance(thing, Tool):
            return least_well(thing, self._off_share)
        return ""


def _row(thing: Kept) -> str:
    if isinstance(thing, Vessel):
        return f"{thing.name}, {volume_text_fine(thing.volume_l)}"
    if thing.kind is ToolKind.SCALE:
        return f"{thing.name}, {_amount(thing.step, 'g')}"
    if thing.kind is ToolKind.SPOON:
        weighed = len(thing.g_per_level)
        return f"{thing.name}, {_weighed(weighed)}"
    return f"{thing.name}, {_amount(thing.step, 'mL')}"


def _weighed(count: int) -> str:
    if not count:
        return tr("not weighed")
    return trn("{count} tin weighed", "{count} tins weighed", count).format(count=count)


def _amount(value: float | None, unit: str) -> str:
    if value is None:
        return ""
    if unit == "L":
        return volume_text_fine(value)
    return f"{words.number(value, 4)} {unit}"
