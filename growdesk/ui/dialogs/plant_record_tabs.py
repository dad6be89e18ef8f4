"""Give the further tabs of a plant's form: its origin, its keeping, what became of it.

As the first tabs, each fills itself from a draft and gives the draft back.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QCheckBox, QCompleter

from growdesk.domain.cautions import PAPERS
from growdesk.domain.day_words import figures
from growdesk.domain.errors import InputError
from growdesk.domain.holding import Descent, HeldAs, Status
from growdesk.domain.speech import Phrases, mark, tr
from growdesk.ui import typed, words
from growdesk.ui.dialogs.plant_tabs import note_box
from growdesk.ui.widgets.form import Form, choose

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from growdesk.services.plant_values import Kin
    from growdesk.services.values import PlantDraft
    from growdesk.ui.dialogs.plant_start import PlantStart

STATUS = Phrases(
    {
        Status.GROWING: "growing here",
        Status.GIVEN_AWAY: "given away",
        Status.SOLD: "sold",
        Status.LOST: "lost",
    }
)


class OriginTab:
    """Where a plant came from, and its papers."""

    title = mark("Origin")

    def __init__(self, start: PlantStart) -> None:
        self._plants = start.plants
        self.form = form = Form()
        self.acquired = form.line(
            "acquired_on", tr("&Acquired on"), typed.day_example()
        )
        self.source = form.line("source", tr("&Source"), tr("from whom"))
        self.parentage = form.line(
            "parentage", tr("&Parentage"), tr("seed parent × pollen parent")
        )
        self.hybrid = QCheckBox(tr("a hybrid"))
        form.add("hybrid", tr("H&ybrid"), self.hybrid)
        self.parent = form.line(
            "parent_id", tr("&Taken from"), tr("the tag of a plant of this collection")
        )
        completer = QCompleter([_named(each) for each in start.plants], self.parent)
        completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        completer.setFilterMode(Qt.MatchFlag.MatchContains)
        self.parent.setCompleter(completer)
        self.how = form.combo(
            "parent_how",
            tr("As &what"),
            [(None, tr(words.NOT_RECORDED)), *words.choices(tuple(Descent))],
        )
        self.papers = note_box()
        form.add("papers", tr("Pape&rs"), self.papers)
        form.note(tr(PAPERS))

    def fill(self, draft: PlantDraft) -> None:
        """Show a plant."""
        self.acquired.setText(iso(draft.acquired_on))
        self.source.setText(draft.source)
        self.parentage.setText(draft.parentage)
        self.hybrid.setChecked(draft.hybrid)
        parent = next((p for p in self._plants if p.plant_id == draft.parent_id), None)
        if parent is not None:
            self.parent.setText(parent.tag)
        choose(self.how, draft.parent_how)
        self.papers.setPlainText(draft.papers)

    def taken(self, draft: PlantDraft) -> PlantDraft:
        """Give a plant with what was entered here."""
        return replace(
            draft,
            acquired_on=typed.day(self.acquired.text(), "acquired_on"),
            source=self.source.text().strip(),
            parentage=self.parentage.text().strip(),
            hybrid=self.hybrid.isChecked(),
            parent_id=self._parent(draft.parent_id),
            parent_how=self.how.currentData(),
            papers=self.papers.toPlainText().strip(),
        )

    def _parent(self, before: int | None) -> int | None:
        """Give the plant named; one that lies in the bin stays as it was."""
        text = self.parent.text().strip()
        if text:
            return plant_of(text, self._plants, "parent_id")
        is_known = any(each.plant_id == before for each in self._plants)
        return None if is_known else before


class KeepingTab:
    """How a plant is kept: its number, what shares its tag, quarantine, repots."""

    title = mark("Keeping")

    def __init__(self) -> None:
        self.form = form = Form()
        self.bench = form.line("bench", tr("&Number"), tr("its place along the bench"))
        held = [(None, tr("one plant")), *words.choices(tuple(HeldAs))]
        self.held = form.combo("held_as", tr("To&gether"), held)
        self.how_many = form.line("how_many", tr("&How many"), tr("say 30"))
        form.note(tr("Pot volume and water a round are then of the whole pot or tray."))
        self.quarantine = form.line(
            "quarantine_until",
            tr("&Quarantine until"),
            tr("{day}, inclusive").format(day=typed.day_example()),
        )
        form.note(tr("A newcomer is kept apart until then."))
        self.repotted = form.line(
            "repotted_on", tr("&Repotted on"), typed.day_example()
        )
        self.slow = form.line(
            "slow_release_until",
            tr("S&low release until"),
            tr("feed grains in the pot, {day}").format(day=typed.day_example()),
        )
        self.held.currentIndexChanged.connect(lambda _row: self._show_count())

    def fill(self, draft: PlantDraft) -> None:
        """Show a plant."""
        self.bench.setText(words.number(draft.bench))
        choose(self.held, draft.held_as)
        self.how_many.setText(words.number(draft.how_many))
        self.quarantine.setText(iso(draft.quarantine_until))
        self.repotted.setText(iso(draft.repotted_on))
        self.slow.setText(iso(draft.slow_release_until))
        self._show_count()

    def taken(self, draft: PlantDraft) -> PlantDraft:
        """Give a plant with what was entered here."""
        held = self.held.currentData()
        how_many = typed.whole(self.how_many.text(), "how_many", "30")
        return replace(
            draft,
            bench=typed.whole(self.bench.text(), "bench", "3"),
            held_as=held,
            how_many=None if held is None else how_many,
            quarantine_until=typed.day(self.quarantine.text(), "quarantine_until"),
            repotted_on=typed.day(self.repotted.text(), "repotted_on"),
            slow_release_until=typed.day(self.slow.text(), "slow_release_until"),
        )

    def _show_count(self) -> None:
        self.how_many.setEnabled(self.held.currentData() is not None)


class StatusTab:
    """What became of a plant."""

    title = mark("Status")

    def __init__(self, today: date | None) -> None:
        self._today = today
        self.form = form = Form()
        self.status = form.combo("status", tr("&Status"), tuple(STATUS.items()))
        self.on = form.line("left_on", tr("O&n"), typed.day_example())
        self.why = note_box()
        form.add("left_why", tr("&Why"), self.why)
        form.note(
            tr(
                "What left is in no round and takes no feed. Its tag, "
                "its records and its photos are kept."
            )
        )
        self.status.currentIndexChanged.connect(lambda _row: self._show_left())
        self.status.activated.connect(lambda _row: self._propose())
        self._show_left()

    def fill(self, draft: PlantDraft) -> None:
        """Show a plant."""
        choose(self.status, draft.status)
        self.on.setText(iso(draft.left_on))
        self.why.setPlainText(draft.left_why)

    def taken(self, draft: PlantDraft) -> PlantDraft:
        """Give a plant with what was entered here; nothing of one that grows."""
        status = Status(self.status.currentData())
        if status is Status.GROWING:
            return replace(draft, status=status, left_on=None, left_why="")
        return replace(
            draft,
            status=status,
            left_on=typed.day(self.on.text(), "left_on"),
            left_why=self.why.toPlainText().strip(),
        )

    def _show_left(self) -> None:
        has_left = self.status.currentData() != Status.GROWING
        for each in (self.on, self.why):
            each.setEnabled(has_left)

    def _propose(self) -> None:
        """Propose today for a plant that is said to have left just now."""
        has_left = self.status.currentData() != Status.GROWING
        if has_left and not self.on.text() and self._today is not None:
            self.on.setText(figures(self._today))


def plant_of(text: str, plants: Sequence[Kin], field: str) -> int:
    """Give the plant whose tag, or tag and name, was typed."""
    folded = text.casefold()
    for each in plants:
        if folded in {each.tag.casefold(), _named(each).casefold()}:
            return each.plant_id
    hint = tr("Type the tag of a plant on record, or leave it empty.")
    raise InputError(field, text, tr("is no plant's tag"), hint)


def iso(on: date | None) -> str:
    """Give a day as it is typed."""
    return "" if on is None else figures(on)


def _named(plant: Kin) -> str:
    return f"{plant.tag} {plant.name}".strip()
