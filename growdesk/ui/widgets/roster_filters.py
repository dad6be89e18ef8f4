"""Choose which plants the table is about: place, kind, verdict, and what only."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from msgspec.structs import replace
from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QMenu, QPushButton, QWidget

from growdesk.domain.speech import mark, tr
from growdesk.services.roster_values import Only, ViewDraft, Whose
from growdesk.ui import roster_words, words
from growdesk.ui.widgets.fitted_combo import FittedCombo

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from PySide6.QtGui import QAction

    from growdesk.services.roster_values import RosterLine

_GONE = mark("gone from here")
_LEAST_SIGNS = 6
"""A choice gives way as far as this in a narrow window; its first words are read."""


class Choice(FittedCombo):
    """A combo whose choices stand for values; Qt would make texts of our words."""

    def __init__(self, name: str) -> None:
        super().__init__(_LEAST_SIGNS)
        self.setAccessibleName(name)
        self._offered: list[tuple[str, Any]] = []

    @property
    def value(self) -> Any:
        """Give what is chosen."""
        row = self.currentIndex()
        return self._offered[row][1] if row >= 0 else None

    def offer(self, choices: Iterable[tuple[str, Any]]) -> None:
        """Offer choices anew where they differ; what is chosen stays."""
        wanted = list(choices)
        if wanted == self._offered:
            return
        held, is_first = self.value, not self._offered
        self._put(wanted)
        if is_first:
            self.setCurrentIndex(0)
        else:
            self.choose(held)

    def choose(self, value: object) -> None:
        """Choose a value; one that nothing here has is offered as gone."""
        values = [each for _, each in self._offered]
        if value not in values:
            self._put([*self._offered, (tr(_GONE), value)])
            values.append(value)
        self.setCurrentIndex(values.index(value))

    def _put(self, choices: list[tuple[str, Any]]) -> None:
        self._offered = choices
        self.clear()
        self.addItems([text for text, _ in choices])


class RosterFilters(QWidget):
    """A row of choosers; what was chosen is in ``taken``."""

    changed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.whose = Choice(tr("Which plants"))
        self.place = Choice(tr("Place"))
        self.kind = Choice(tr("Kind"))
        self.verdict = Choice(tr("Verdict"))
        self.only = QPushButton(tr("Only…"))
        self.only.setAutoDefault(False)
        self._only: dict[Only, QAction] = {}
        self._fill_only()
        self.whose.offer((roster_words.WHOSE[each], each) for each in Whose)
        verdicts = [(words.VERDICT[each], each) for each in words.VERDICT_ORDER]
        self.verdict.offer([(tr("Every verdict"), None), *verdicts])
        self.show_lines(())
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(6)
        for each in self.combos:
            row.addWidget(each, 1)
            each.activated.connect(lambda _row: self.changed.emit())
        row.addWidget(self.only)

    @property
    def combos(self) -> tuple[Choice, ...]:
        """Give the choosers in their order."""
        return (self.whose, self.place, self.kind, self.verdict)

    def show_lines(self, lines: Iterable[RosterLine]) -> None:
        """Offer the places and kinds that there are; what is chosen stays."""
        places: dict[int, str] = {}
        kinds: dict[str, str] = {}
        for line in lines:
            kinds[line.kind_key] = line.kind_title
            if line.place_id is not None:
                places.setdefault(line.place_id, line.place)
        by_title = sorted(kinds.items(), key=lambda pair: pair[1].casefold())
        self.place.offer([(tr("Every place"), None), *((places[n], n) for n in places)])
        titles = [(title, key) for key, title in by_title]
        self.kind.offer([(tr("Every kind"), None), *titles])

    def show_view(self, view: ViewDraft) -> None:
        """Show what a view chooses."""
        self.whose.choose(view.whose)
        self.place.choose(view.place)
        self.kind.choose(view.kind)
        self.verdict.choose(view.verdict)
        for each, action in self._only.items():
            action.setChecked(each in view.only)
        self._name_only()

    def taken(self, view: ViewDraft) -> ViewDraft:
        """Give a view with what is chosen here."""
        return replace(
            view,
            whose=self.whose.value,
            place=self.place.value,
            kind=self.kind.value,
            verdict=self.verdict.value,
            only=frozenset(
                each for each, action in self._only.items() if action.isChecked()
            ),
        )

    def named(self) -> tuple[str, ...]:
        """Give the filters that leave plants out, in words."""
        found = [
            said.format(name=combo.currentText())
            for said, combo in (
                (tr("place {name}"), self.place),
                (tr("kind {name}"), self.kind),
                (tr("verdict {name}"), self.verdict),
            )
            if combo.value is not None
        ]
        only = (each for each, action in self._only.items() if action.isChecked())
        return (*found, *(roster_words.ONLY_INSIDE[each] for each in only))

    def _checked(self) -> list[str]:
        return [
            roster_words.ONLY[each]
            for each, action in self._only.items()
            if action.isChecked()
        ]

    def _fill_only(self) -> None:
        menu = QMenu(self.only)
        for each, text in roster_words.ONLY.items():
            action = menu.addAction(text)
            action.setCheckable(True)
            action.triggered.connect(self._only_changed)
            self._only[each] = action
        self.only.setMenu(menu)
        self._name_only()

    def _only_changed(self) -> None:
        self._name_only()
        self.changed.emit()

    def _name_only(self) -> None:
        checked = self._checked()
        self.only.setText(
            tr("Only… ({count})").format(count=len(checked)) if checked else tr("Only…")
        )
        self.only.setAccessibleName(
            tr("Only plants that are: {list}").format(list=_listed(checked))
        )
        self.only.setToolTip(
            "\n".join(checked) or tr("In flower, in quarantine, not looked at…")
        )


def _listed(checked: Sequence[str]) -> str:
    return ", ".join(checked) if checked else tr("anything")
