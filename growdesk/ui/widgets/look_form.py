"""The form of one look: its signs, measures, note, photos and day, row by row.

A row that was not touched stays as the last look had it; *not recorded* is never
*none*. The signs of spike, pods and keikis are rare, and come into sight where the
plant may have them or on being asked for.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLineEdit, QPlainTextEdit, QPushButton, QWidget

from growdesk.domain.day_words import figures
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
from growdesk.domain.speech import mark, tr
from growdesk.ui import measured_lines, sign_words, typed, words
from growdesk.ui.widgets.choices import ChoiceRow, GrowthCounts, ManyRow
from growdesk.ui.widgets.form import Form
from growdesk.ui.widgets.parts import link_line
from growdesk.ui.widgets.photo_box import PhotoBox

if TYPE_CHECKING:
    from enum import StrEnum

S = TypeVar("S", bound="StrEnum")
STAGES = tuple(sign_words.STAGES)
_NOTE_LINES, _NOTE_AROUND_PX = 4, 18
_MEASURES = (
    ("longest_new_root_mm", mark("&Longest new root"), "8 cm"),
    ("lead_length_mm", mark("Length of the lea&d"), "12 cm"),
    ("runoff_ec_ms_per_cm", mark("Runoff &EC"), mark("mS/cm of the last drips")),
)
_RARE = (
    ("spike_mm", mark("Length of the spi&ke"), "30 cm"),
    ("pods", mark("Pods &carried"), mark("how many, say 1")),
    ("keikis", mark("Keikis, by their n&umber"), mark("how many, say 2")),
    ("keiki_root_mm", mark("Lon&gest root of a keiki"), "8 cm"),
)
_COUNTS = frozenset({"pods", "keikis"})
_RISING = frozenset({Flowering.SHEATH, Flowering.SPIKE, Flowering.BUDS})
_SETTING = frozenset({Flowering.FADING, Flowering.SPENT})


class LookForm(Form):
    """All rows of a look; ``monopodial`` asks for the leaf first."""

    def __init__(self, *, monopodial: bool = False) -> None:
        super().__init__()
        self._monopodial = monopodial
        self.growths = GrowthCounts(sign_words.STAGES)
        self.roots = ChoiceRow(tr("Root tips"), _all(RootTips))
        self.leaf = ChoiceRow(tr("New leaf"), _all(NewLeaf))
        self.flowering = ManyRow(tr("Flowering"), _all(Flowering), Flowering.NONE)
        self.leaves = ChoiceRow(tr("Leaves"), _all(Leaves))
        self.bulbs = ChoiceRow(tr("Pseudobulbs"), _all(Bulbs))
        self.pot = ChoiceRow(tr("Pot"), _all(Pot))
        self.health = ManyRow(tr("Trouble"), _all(Health), None)
        self.note_box = QPlainTextEdit()
        self.note_box.setTabChangesFocus(True)
        self.note_box.textChanged.connect(self._fit_note)
        self._fit_note()
        self.photos = PhotoBox()
        self._all_asked = False
        self._add_rows()
        self.flowering.changed.connect(self._offer_rare)
        for field, _title, _hint in _RARE:
            self._measures[field].textChanged.connect(self._offer_rare)
        self._offer_rare()

    # -- what stands in it ----------------------------------------------------------

    def show_look(self, look: Look, note: str = "") -> None:
        """Fill the rows with a look."""
        self.day.setText(figures(look.on))
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
            if field.endswith("_mm"):
                measured_lines.show_length(editor, getattr(look, field))
            else:
                editor.setText(words.number(getattr(look, field)))
        self.note_box.setPlainText(note)

    def look(self) -> Look:
        """Give the look as entered; raises ``InputError`` on a slip."""
        return Look(
            on=typed.needed_day(self.day.text(), "on"),
            new_growths=self._growths(),
            root_tips=_as(RootTips, self.roots.value),
            longest_new_root_mm=self._length("longest_new_root_mm"),
            lead_length_mm=self._length("lead_length_mm"),
            new_leaf=_as(NewLeaf, self.leaf.value),
            flowering=_many(Flowering, self.flowering.value),
            leaves=_as(Leaves, self.leaves.value),
            bulbs=_as(Bulbs, self.bulbs.value),
            pot=_as(Pot, self.pot.value),
            health=_many(Health, self.health.value),
            runoff_ec_ms_per_cm=typed.ec_ms_per_cm(
                self._text("runoff_ec_ms_per_cm"), "runoff_ec_ms_per_cm"
            ),
            keikis=typed.whole(self._text("keikis"), "keikis", "2"),
            keiki_root_mm=self._length("keiki_root_mm"),
            pods=typed.whole(self._text("pods"), "pods", "1"),
            spike_mm=self._length("spike_mm"),
        )

    def note_text(self) -> str:
        """Give the note as entered."""
        return self.note_box.toPlainText().strip()

    def start_blank(self) -> None:
        """Take the signs of the last look away: none of them is recorded yet."""
        self.growths.set_counts({})
        for row in (self.roots, self.leaf, self.leaves, self.bulbs, self.pot):
            row.set_value(None)
        for many in (self.flowering, self.health):
            many.set_value(None)
        for field in _COUNTS:
            self._measures[field].clear()

    # -- where things are -----------------------------------------------------------

    def measure(self, field: str) -> QLineEdit:
        """Give the line a measure or a count is typed into."""
        return self._measures[field]

    def row(self, field: str) -> QWidget:
        """Give the row of a field, else the one that is asked for first."""
        first = "new_leaf" if self._monopodial else "new_growths"
        return self.editors[field or first]

    def ask_all(self) -> None:
        """Bring the rare signs into sight, the first that was not there in focus."""
        missing = [f for f, _t, _h in _RARE if self._measures[f].isHidden()]
        self._all_asked = True
        self._offer_rare()
        if missing:
            reason = Qt.FocusReason.TabFocusReason
            self._measures[missing[0]].setFocus(reason)

    # -- inside ---------------------------------------------------------------------

    def _add_rows(self) -> None:
        growth_rows = [
            ("new_growths", tr("&New growths"), self.growths),
            ("root_tips", tr("&Root tips"), self.roots),
        ]
        leaf_row = ("new_leaf", tr("New lea&f"), self.leaf)
        if self._monopodial:
            growth_rows = [leaf_row, growth_rows[1], growth_rows[0]]
        else:
            growth_rows.append(leaf_row)
        for field, title, editor in growth_rows:
            self.add(field, title, editor)
        self.add("flowering", tr("Flo&wering"), self.flowering)
        self._measures = {each[0]: self._measure(*each) for each in _RARE}
        self.add("leaves", tr("Lea&ves"), self.leaves)
        self.add("bulbs", tr("Pseudo&bulbs"), self.bulbs)
        self.add("pot", tr("&Pot"), self.pot)
        self.add("health", tr("&Trouble"), self.health)
        self._measures |= {each[0]: self._measure(*each) for each in _MEASURES}
        self.more: QPushButton = link_line(
            tr("&More signs: spike, pods, keikis"), self.ask_all
        )
        self.wide(self.more)
        self.add("note", tr("N&ote"), self.note_box)
        self.add("photos", tr("P&hotos"), self.photos)
        self.day = self.line("on", tr("Da&y of the look"), typed.day_example())
        self.end()

    def _measure(self, field: str, title: str, hint: str) -> QLineEdit:
        """Add a line for a measure; the hint of a length is another length."""
        if field.endswith("_mm"):
            return self.line(field, tr(title), measured_lines.length_hint(hint))
        return self.line(field, tr(title), tr(hint))

    def _offer_rare(self) -> None:
        """Show the rare signs that the plant may have, or that were asked for."""
        stages = self.flowering.value or frozenset()
        asked = {
            "spike_mm": bool(stages & _RISING),
            "pods": bool(stages & _SETTING),
            "keiki_root_mm": self._text("keikis") not in {"", "0"},
        }
        hidden = False
        for field, _title, _hint in _RARE:
            wanted = asked.get(field, False) or bool(self._text(field))
            self.show_field(field, shown=wanted or self._all_asked)
            hidden = hidden or not (wanted or self._all_asked)
        self.more.setVisible(hidden)

    def _fit_note(self) -> None:
        """Let the note be a line high, and as high as what it holds up to a few."""
        wrapped = round(self.note_box.document().size().height())
        lines = min(max(wrapped, self.note_box.blockCount(), 1), _NOTE_LINES)
        high = lines * self.note_box.fontMetrics().lineSpacing() + _NOTE_AROUND_PX
        self.note_box.setFixedHeight(high)

    def _growths(self) -> NewGrowths | None:
        counts = self.growths.counts
        if all(count is None for count in counts.values()):
            return None
        return NewGrowths(**counts)

    def _length(self, field: str) -> float | None:
        return measured_lines.length_mm(self._measures[field], field)

    def _text(self, field: str) -> str:
        return self._measures[field].text().strip()


def _all(kinds: type[S]) -> tuple[tuple[StrEnum, str], ...]:
    return words.choices(tuple(kinds))


def _as(kind: type[S], value: StrEnum | None) -> S | None:
    return None if value is None else kind(value)


def _many(kind: type[S], held: frozenset[StrEnum] | None) -> frozenset[S] | None:
    return None if held is None else frozenset(kind(each) for each in held)
