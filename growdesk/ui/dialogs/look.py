"""Take a look at a plant: signs, measures, note and photos, by keyboard in seconds.

Starts from the last look and says so, or blank; a sign that was not looked at stays
*not recorded*.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeVar

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QPlainTextEdit, QWidget
from typing_extensions import override

from growdesk.domain.facts import (
    Bulbs,
    Flowering,
    Health,
    Leaves,
    Look,
    NewGrowths,
    NewLeaf,
    Pot,
    RootTips,
)
from growdesk.ui import typed, words
from growdesk.ui.dialogs.base import FormDialog
from growdesk.ui.widgets.choices import ChoiceRow, GrowthCounts, ManyRow
from growdesk.ui.widgets.parts import button, label
from growdesk.ui.widgets.photo_box import PhotoBox

if TYPE_CHECKING:
    from enum import StrEnum
    from pathlib import Path

    from growdesk.ui.dialogs.held import Held

S = TypeVar("S", bound="StrEnum")
_NOTE_LINES, _NOTE_AROUND_PX = 4, 18
STAGES = ("emerging", "extending", "maturing", "matured", "stalled")


@dataclass(frozen=True, slots=True)
class LookDraft:
    """A look as the form holds it; ``texts`` are the measures as typed."""

    look: Look
    note: str
    photos: tuple[Path, ...]


@dataclass(frozen=True, slots=True)
class LookStart:
    """What a look form opens with; ``filled`` says where its signs come from.

    ``why`` says why a look is worth taking, and ``sign`` is the one in doubt.
    """

    plant_id: int
    title: str
    look: Look
    monopodial: bool = False
    note: str = ""
    filled: str = ""
    why: str = ""
    sign: str = ""
    look_id: int | None = None


_MEASURES = (
    ("longest_new_root_mm", "&Longest new root", "mm, or with a unit: 8 cm"),
    ("lead_length_mm", "Length of the lea&d", "mm, or with a unit: 12 cm"),
    ("runoff_ec_ms_per_cm", "Runoff &EC", "mS/cm of the last drips"),
)
_FIELD_OF = {
    "growth": "new_growths",
    "leaf": "new_leaf",
    "leaf-unfolds": "new_leaf",
    "tips": "root_tips",
    "flowering": "flowering",
    "roots": "longest_new_root_mm",
    "leaves": "leaves",
    "may-be-bare": "leaves",
    "rot": "health",
    "no-roots": "health",
    "shrivelled": "bulbs",
    "pot": "pot",
}
"""Which field tells of a sign, by its key in the domain or the key's first word."""


class LookDialog(FormDialog):
    """One look, new or to be changed."""

    delete_wanted = Signal(int)

    def __init__(self, parent: QWidget | None, start: LookStart) -> None:
        super().__init__(parent, start.title, "Save")
        self._start = start
        self.growths = GrowthCounts(STAGES)
        self.roots = ChoiceRow("Root tips", _all(RootTips))
        self.leaf = ChoiceRow("New leaf", _all(NewLeaf))
        self.flowering = ManyRow("Flowering", _all(Flowering), Flowering.NONE)
        self.leaves = ChoiceRow("Leaves", _all(Leaves))
        self.bulbs = ChoiceRow("Pseudobulbs", _all(Bulbs))
        self.pot = ChoiceRow("Pot", _all(Pot))
        self.health = ManyRow("Trouble", _all(Health), None)
        self.note = QPlainTextEdit()
        self.note.setTabChangesFocus(True)
        self.note.textChanged.connect(self._fit_note)
        self._fit_note()
        self.photos = PhotoBox()
        self._lay_out()
        self._show(start)
        self.begin()

    # -- FormDialog -----------------------------------------------------------------

    @override
    def draft(self) -> LookDraft:
        """Give the look as entered."""
        look = Look(
            on=typed.needed_day(self.day.text(), "on"),
            new_growths=self._growths(),
            root_tips=_as(RootTips, self.roots.value),
            longest_new_root_mm=self._measure("longest_new_root_mm"),
            lead_length_mm=self._measure("lead_length_mm"),
            new_leaf=_as(NewLeaf, self.leaf.value),
            flowering=_many(Flowering, self.flowering.value),
            leaves=_as(Leaves, self.leaves.value),
            bulbs=_as(Bulbs, self.bulbs.value),
            pot=_as(Pot, self.pot.value),
            health=_many(Health, self.health.value),
            runoff_ec_ms_per_cm=self._measure("runoff_ec_ms_per_cm"),
        )
        note = self.note.toPlainText().strip()
        return LookDraft(look, note, self.photos.paths)

    @override
    def kept(self) -> Held:
        """Give the whole look as it stands, its day too, once anything was changed."""
        return self.held() if self.changes() else {}

    @override
    def throw_away(self) -> None:
        super().throw_away()
        self._first().setFocus(Qt.FocusReason.OtherFocusReason)

    def start_blank(self) -> None:
        """Take the signs of the last look away: none of them is recorded yet."""
        self.growths.set_counts({})
        for row in (self.roots, self.leaf, self.leaves, self.bulbs, self.pot):
            row.set_value(None)
        for many in (self.flowering, self.health):
            many.set_value(None)
        self._first().setFocus(Qt.FocusReason.TabFocusReason)

    def measure(self, field: str) -> QLineEdit:
        """Give the line a measure is typed into."""
        return self._measures[field]

    # -- inside ---------------------------------------------------------------------

    def _lay_out(self) -> None:
        add = self.form.add
        growth_rows = [
            ("new_growths", "&New growths", self.growths),
            ("root_tips", "&Root tips", self.roots),
        ]
        leaf_row = ("new_leaf", "New lea&f", self.leaf)
        if self._start.monopodial:
            growth_rows = [leaf_row, growth_rows[1], growth_rows[0]]
        else:
            growth_rows.append(leaf_row)
        for field, title, editor in growth_rows:
            add(field, title, editor)
        add("flowering", "Flo&wering", self.flowering)
        add("leaves", "Lea&ves", self.leaves)
        add("bulbs", "Pseudo&bulbs", self.bulbs)
        add("pot", "&Pot", self.pot)
        add("health", "&Trouble", self.health)
        self._measures = {
            field: self.form.line(field, title, hint)
            for field, title, hint in _MEASURES
        }
        add("note", "N&ote", self.note)
        add("photos", "P&hotos", self.photos)
        self.day = self.form.line("on", "Da&y of the look", "2026-11-25")
        self.form.end()
        if self._start.why:
            why = label(self._start.why, scale=1.08)
            why.setObjectName("why-look")
            self.top.addWidget(why)
        if self._start.filled:
            self._add_origin(self._start.filled)
        hint = (
            "Tab moves on; arrows, digits or first letters choose. "
            "Ctrl+Enter saves, Esc leaves and keeps a draft."
        )
        self.top.addWidget(label(hint, tone="muted"))
        self.body.addWidget(self.form)
        if self._start.look_id is not None:
            self._add_delete(self._start.look_id)
        self.setMinimumWidth(760)

    def _add_origin(self, filled: str) -> None:
        row = QHBoxLayout()
        row.addWidget(label(filled), 1)
        self.blank_button = button(
            "&Start blank", self.start_blank, "All signs not recorded"
        )
        row.addWidget(self.blank_button)
        self.top.addLayout(row)

    def _first(self) -> QWidget:
        """Give the row of the sign in doubt, else the first of the form."""
        rows: dict[str, QWidget] = {
            "new_growths": self.growths,
            "root_tips": self.roots,
            "new_leaf": self.leaf,
            "flowering": self.flowering,
            "leaves": self.leaves,
            "bulbs": self.bulbs,
            "pot": self.pot,
            "health": self.health,
            **self._measures,
        }
        first = "new_leaf" if self._start.monopodial else "new_growths"
        return rows[field_of(self._start.sign) or first]

    def _add_delete(self, look_id: int) -> None:
        delete = self.buttons.addButton(
            "Remove the look", self.buttons.ButtonRole.DestructiveRole
        )
        delete.setAutoDefault(False)
        delete.setToolTip("It comes back by Undo")
        delete.clicked.connect(lambda: self.delete_wanted.emit(look_id))

    def _show(self, start: LookStart) -> None:
        look = start.look
        self.day.setText(look.on.isoformat())
        if look.new_growths is not None:
            counts = {stage: getattr(look.new_growths, stage) for stage in STAGES}
            self.growths.set_counts(counts)
        self.roots.set_value(look.root_tips)
        self.leaf.set_value(look.new_leaf)
        self.flowering.set_value(look.flowering)
        self.leaves.set_value(look.leaves)
        self.bulbs.set_value(look.bulbs)
        self.pot.set_value(look.pot)
        self.health.set_value(look.health)
        for field, editor in self._measures.items():
            editor.setText(words.number(getattr(look, field)))
        self.note.setPlainText(start.note)
        self._first().setFocus(Qt.FocusReason.TabFocusReason)

    def _fit_note(self) -> None:
        """Let the note be a line high, and as high as what it holds up to a few."""
        wrapped = round(self.note.document().size().height())
        lines = min(max(wrapped, self.note.blockCount(), 1), _NOTE_LINES)
        high = lines * self.note.fontMetrics().lineSpacing() + _NOTE_AROUND_PX
        self.note.setFixedHeight(high)

    def _growths(self) -> NewGrowths | None:
        counts = self.growths.counts
        if all(count is None for count in counts.values()):
            return None
        return NewGrowths(**counts)

    def _measure(self, field: str) -> float | None:
        text = self._measures[field].text().strip()
        if field == "runoff_ec_ms_per_cm":
            return typed.ec_ms_per_cm(text, field)
        return typed.length_mm(text, field)


def field_of(sign: str) -> str:
    """Give the field of the form that a sign's key speaks of, or nothing."""
    whole = _FIELD_OF.get(sign)
    return whole or _FIELD_OF.get(sign.partition("-")[0], "")


def _all(kinds: type[S]) -> tuple[tuple[StrEnum, str], ...]:
    return words.choices(tuple(kinds))


def _as(kind: type[S], value: StrEnum | None) -> S | None:
    return None if value is None else kind(value)


def _many(kind: type[S], held: frozenset[StrEnum] | None) -> frozenset[S] | None:
    return None if held is None else frozenset(kind(each) for each in held)
