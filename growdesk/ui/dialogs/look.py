"""Take a look at a plant: signs, measures, note and photos, by keyboard in seconds.

Starts from the last look; a sign that was not looked at stays *not recorded*.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeVar

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLineEdit, QPlainTextEdit, QWidget
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
from growdesk.ui.widgets.form import Form
from growdesk.ui.widgets.parts import label
from growdesk.ui.widgets.photo_box import PhotoBox

if TYPE_CHECKING:
    from enum import StrEnum
    from pathlib import Path

S = TypeVar("S", bound="StrEnum")
STAGES = ("emerging", "extending", "maturing", "matured", "stalled")


@dataclass(frozen=True, slots=True)
class LookDraft:
    """A look as the form holds it; ``texts`` are the measures as typed."""

    look: Look
    note: str
    photos: tuple[Path, ...]


@dataclass(frozen=True, slots=True)
class LookStart:
    """What a look form opens with. ``measures`` keeps typed texts of a kept draft."""

    plant_id: int
    title: str
    look: Look
    monopodial: bool = False
    note: str = ""
    photos: tuple[Path, ...] = ()
    measures: tuple[tuple[str, str], ...] = ()
    look_id: int | None = None
    is_kept_draft: bool = False


_MEASURES = (
    ("longest_new_root_mm", "&Longest new root", "mm, or with a unit: 8 cm"),
    ("lead_length_mm", "Length of the lea&d", "mm, or with a unit: 12 cm"),
    ("runoff_ec_ms_per_cm", "Runoff &EC", "mS/cm of the last drips"),
)


class LookDialog(FormDialog):
    """One look, new or to be changed."""

    left = Signal(object)
    delete_wanted = Signal(int)

    def __init__(self, parent: QWidget | None, start: LookStart) -> None:
        super().__init__(parent, start.title, "Save the look")
        self._start = start
        self.form = Form()
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
        self.note.setFixedHeight(58)
        self.photos = PhotoBox()
        self._lay_out()
        self._show(start)
        self._opened_with = self._held()

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
    def refused(self, error: Exception) -> None:
        super().refused(error)
        if self.form.show_error(error):
            self.say("")

    @override
    def reject(self) -> None:
        """Leave; what was entered is handed out as a draft to be kept."""
        if self._held() != self._opened_with or self._start.is_kept_draft:
            self.left.emit(self._kept())
        super().reject()

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
        hint = (
            "A kept draft; nothing of it is saved yet."
            if self._start.is_kept_draft
            else "Tab moves on; arrows, digits or first letters choose. "
            "Ctrl+Enter saves, Esc leaves and keeps a draft."
        )
        self.body.addWidget(label(hint, tone="muted"))
        self.body.addWidget(self.form)
        if self._start.look_id is not None:
            self._add_delete(self._start.look_id)
        self.setMinimumWidth(760)

    def _add_delete(self, look_id: int) -> None:
        delete = self.buttons.addButton(
            "Delete this look", self.buttons.ButtonRole.DestructiveRole
        )
        delete.setAutoDefault(False)
        delete.setToolTip("It comes back by Undo")
        delete.clicked.connect(lambda: self.delete_wanted.emit(look_id))

    def _show(self, start: LookStart) -> None:
        look = start.look
        kept = dict(start.measures)
        self.day.setText(kept.get("on", look.on.isoformat()))
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
            value = getattr(look, field)
            editor.setText(kept.get(field, words.number(value)))
        self.note.setPlainText(start.note)
        self.photos.add(start.photos)
        first = self.leaf if start.monopodial else self.growths
        first.setFocus(Qt.FocusReason.TabFocusReason)

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

    def _held(self) -> tuple[object, ...]:
        return (
            self.day.text(),
            tuple(self.growths.counts.items()),
            self.roots.value,
            self.leaf.value,
            self.flowering.value,
            self.leaves.value,
            self.bulbs.value,
            self.pot.value,
            self.health.value,
            tuple(each.text() for each in self._measures.values()),
            self.note.toPlainText(),
            self.photos.paths,
        )

    def _kept(self) -> LookStart:
        """Give a start that opens the form again as it stands now."""
        texts = tuple((f, e.text()) for f, e in self._measures.items())
        texts = (*texts, ("on", self.day.text()))
        for editor in self._measures.values():
            editor.clear()  # kept as typed in ``measures``; they may hold a slip
        self.day.setText(self._start.look.on.isoformat())
        held = self.draft()
        return LookStart(
            plant_id=self._start.plant_id,
            title=self._start.title,
            look=held.look,
            monopodial=self._start.monopodial,
            note=self.note.toPlainText(),
            photos=held.photos,
            measures=texts,
            look_id=self._start.look_id,
            is_kept_draft=True,
        )


def _all(kinds: type[S]) -> tuple[tuple[StrEnum, str], ...]:
    return words.choices(tuple(kinds))


def _as(kind: type[S], value: StrEnum | None) -> S | None:
    return None if value is None else kind(value)


def _many(kind: type[S], held: frozenset[StrEnum] | None) -> frozenset[S] | None:
    return None if held is None else frozenset(kind(each) for each in held)
