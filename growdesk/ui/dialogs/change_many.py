"""Take in what many plants are given alike; what is left alone stays as each has it.

Hands out ``ManyChanges`` with the fields that were touched.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QTabWidget, QVBoxLayout, QWidget
from typing_extensions import override

from growdesk.domain.cautions import PAPERS
from growdesk.domain.errors import InputError
from growdesk.domain.facts import Medium, Size
from growdesk.domain.speech import mark, tr
from growdesk.services.plant_values import ManyChanges
from growdesk.ui import sizes, typed, words
from growdesk.ui.dialogs.base import FormDialog
from growdesk.ui.widgets.form import Form
from growdesk.ui.widgets.parts import label
from growdesk.ui.widgets.whom_head import whom_head

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from PySide6.QtWidgets import QComboBox, QLineEdit

    from growdesk.ui.dialogs.held import Held

LEFT_ALONE = mark("as each has it")
EMPTIES = "-"
"""Typed into a line, it empties the field of every plant."""
_UNTOUCHED = "untouched"


class ChangeManyDialog(FormDialog):
    """Many plants, changed alike in the fields that are touched."""

    def __init__(
        self,
        parent: QWidget | None,
        whom: str,
        count: int,
        kinds: Sequence[tuple[str, str]],
    ) -> None:
        save = (
            tr("Change it")
            if count == 1
            else tr("Change all {count}").format(count=count)
        )
        super().__init__(parent, tr("Change several plants"), save)
        self._choices: dict[str, QComboBox] = {}
        self._lines: dict[str, tuple[QLineEdit, Callable[[str, str], object], object]]
        self._lines = {}
        self.body.addWidget(whom_head(whom))
        self.body.addWidget(
            label(
                tr(
                    "What is left alone stays as each has it. A dash ({empties}) "
                    "empties a line of all of them."
                ).format(empties=EMPTIES),
                tone="muted",
            )
        )
        self.forms = (Form(), Form(), Form())
        self._build_plants(self.forms[0], kinds)
        self._build_rules(self.forms[1])
        self._build_origin(self.forms[2])
        self.tabs = QTabWidget()
        self.tabs.setAccessibleName(tr("What is changed"))
        names = (tr("Plants"), tr("Own rules"), tr("Origin and note"))
        for form, name in zip(self.forms, names, strict=True):
            self.tabs.addTab(_page(form), name)
        self.body.addWidget(self.tabs)
        sizes.least_wide(self, 560)
        self.begin()
        self._choices["kind"].setFocus()

    # -- FormDialog -----------------------------------------------------------------

    @override
    def draft(self) -> ManyChanges:
        """Give the fields that were touched, and the note to add."""
        values: dict[str, object] = {
            field: combo.currentData()
            for field, combo in self._choices.items()
            if combo.currentData() != _UNTOUCHED
        }
        for field, (line, read, empty) in self._lines.items():
            text = line.text().strip()
            if text == EMPTIES:
                values[field] = empty
            elif text:
                values[field] = read(text, field)
        return ManyChanges(values, self.note.text().strip())

    @override
    def show_beside(self, error: Exception) -> bool:
        field = error.field if isinstance(error, InputError) else ""
        for number, form in enumerate(self.forms):
            if form.has(field):
                self.tabs.setCurrentIndex(number)
                form.show_error(error)
                return True
        return False

    @override
    def kept(self) -> Held:
        """Give what was touched."""
        return self.changes()

    # -- building -------------------------------------------------------------------

    def _build_plants(self, form: Form, kinds: Sequence[tuple[str, str]]) -> None:
        known = [("", tr("not known: judged with care")), *kinds]
        self._choice(form, "kind", tr("&Kind"), known)
        self._choice(form, "medium", tr("&Medium"), _open(Medium))
        self._choice(
            form, "mounted", tr("Mo&unted"), _yes_no(tr("mounted"), tr("in a pot"))
        )
        self._choice(form, "size", tr("Si&ze"), _open(Size))
        self._line(form, "pot_volume_l", tr("P&ot volume"), typed.volume_l)
        self._line(form, "volume_l", tr("&Water a round"), typed.volume_l)
        covers = _yes_no(tr("under a cover from rain"), tr("in the open"))
        self._choice(form, "under_cover", tr("Co&ver"), covers)
        hybrids = _yes_no(tr("a hybrid"), tr("a species"))
        self._choice(form, "hybrid", tr("H&ybrid"), hybrids)

    def _build_rules(self, form: Form) -> None:
        number = partial(_number, example="120")
        self._line(form, "full_strength_ppm_n", tr("&Full strength, ppm N"), number)
        self._line(form, "feed_ceiling_ppm_n", tr("&Ceiling, ppm N"), number)
        self._line(form, "feed_interval_days", tr("Fed &every, days"), _whole)
        rests = _yes_no(tr("ignores its kind's rest"), tr("rests as its kind"))
        self._choice(form, "ignores_rest", tr("&Rest"), rests)
        self._line(form, "slow_release_until", tr("S&low release until"), typed.day)

    def _build_origin(self, form: Form) -> None:
        self._line(form, "acquired_on", tr("&Acquired on"), typed.day)
        self._line(form, "source", tr("&Source"), _as_typed, "")
        self._line(form, "parentage", tr("&Parentage"), _as_typed, "")
        self._line(form, "papers", tr("Pape&rs"), _as_typed, "")
        form.note(tr(PAPERS))
        self._line(form, "quarantine_until", tr("&Quarantine until"), typed.day)
        self.note = form.line(
            "note", tr("Not&e, added"), tr("to what each has already")
        )

    def _choice(
        self,
        form: Form,
        field: str,
        title: str,
        values: Sequence[tuple[object, str]],
    ) -> None:
        choices = [(_UNTOUCHED, tr(LEFT_ALONE)), *values]
        self._choices[field] = form.combo(field, title, choices)

    def _line(
        self,
        form: Form,
        field: str,
        title: str,
        read: Callable[[str, str], object],
        empty: object = None,
    ) -> None:
        self._lines[field] = form.line(field, title, tr(LEFT_ALONE)), read, empty


def _open(kinds: type[Medium | Size]) -> list[tuple[object, str]]:
    return [(None, tr(words.NOT_RECORDED)), *words.choices(tuple(kinds))]


def _yes_no(yes: str, no: str) -> list[tuple[object, str]]:
    return [(True, yes), (False, no)]


def _number(text: str, field: str, *, example: str) -> float | None:
    return typed.number(text, field, example)


def _whole(text: str, field: str) -> int | None:
    return typed.whole(text, field, "7")


def _as_typed(text: str, _field: str) -> str:
    return text


def _page(form: QWidget) -> QWidget:
    page = QWidget()
    column = QVBoxLayout(page)
    column.setContentsMargins(4, 12, 4, 4)
    column.addWidget(form)
    column.addStretch(1)
    return page
