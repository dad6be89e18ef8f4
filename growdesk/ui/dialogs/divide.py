"""Take in a division: how many new plants, their tags, where they go, into what."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from msgspec import Struct
from PySide6.QtWidgets import QCheckBox
from typing_extensions import override

from growdesk.domain.cautions import CLEAN_BLADE, PAPERS
from growdesk.domain.day_words import figures
from growdesk.domain.errors import InputError
from growdesk.domain.facts import Medium
from growdesk.domain.holding import Descent
from growdesk.domain.speech import tr, trn
from growdesk.services.plant_values import Dividing
from growdesk.ui import measured_lines, sizes, typed, words
from growdesk.ui.dialogs.base import FormDialog
from growdesk.ui.picking import whom_of
from growdesk.ui.widgets.place_choice import PlaceChoice
from growdesk.ui.widgets.whom_head import whom_head

if TYPE_CHECKING:
    from datetime import date

    from PySide6.QtWidgets import QWidget

    from growdesk.services.bench_values import BenchChoice
    from growdesk.services.values import PlaceView, PlantDraft
    from growdesk.ui.dialogs.held import Held

_SPLIT = re.compile(r"[,;\n]")
_CLONE = re.compile(r"\s+['\"‘“].*")
"""The clone and what follows it: a seedling is another plant than its parent's."""
_BESIDE = frozenset({Descent.DIVISION, Descent.BACK_BULB})
"""What is taken when the parent comes out of its pot, so that it is potted anew."""


class DivideStart(Struct, frozen=True):
    """What the form opens with; ``tags`` are free ones, as many as may be needed."""

    parent: PlantDraft
    on: date
    tags: tuple[str, ...]
    places: tuple[PlaceView, ...]
    benches: tuple[BenchChoice, ...] = ()


class DivideDialog(FormDialog):
    """New plants taken from one."""

    def __init__(self, parent: QWidget | None, start: DivideStart) -> None:
        super().__init__(
            parent,
            tr("New plants from {tag}").format(tag=start.parent.tag),
            tr("Make them"),
        )
        self._start = start
        self.body.addWidget(whom_head(whom_of(start.parent.tag, start.parent.name)))
        form = self.form
        self.how = form.combo("how", tr("Taken &as"), words.choices(tuple(Descent)))
        self.count = form.line("count", tr("&How many"), tr("say 2"))
        self.tags = form.line("tags", tr("&Tags"), "A12, A13")
        self.name = form.line("name", tr("&Name"), tr("as the parent"))
        self.where = PlaceChoice(form, start.benches)
        self.pot = form.line(
            "pot_volume_l", tr("P&ot volume"), tr("of each; say 0.5 L")
        )
        media = [(None, tr("as the parent has it")), *words.choices(tuple(Medium))]
        self.medium = form.combo("medium", tr("&Medium"), media)
        self.repotted = QCheckBox(tr("potted anew as well"))
        form.add("parent_repotted", tr("The pa&rent"), self.repotted)
        form.note(
            tr("It counts as repotted on that day. Left in its pot, it does not.")
        )
        self.day = form.line("on", tr("&Day"), typed.day_example())
        self.line = form.line("note", tr("Not&e"))
        form.note(tr(CLEAN_BLADE))
        form.note(tr(PAPERS))
        form.end()
        self.body.addWidget(form)
        self.body.addStretch(1)
        self.count.textEdited.connect(lambda _text: self._propose_tags())
        self.how.currentIndexChanged.connect(lambda _row: self._show_how())
        self._fill()
        sizes.least_wide(self, 520)
        self.begin()
        self.how.setFocus()

    @override
    def draft(self) -> Dividing:
        """Give what was entered."""
        return Dividing(
            on=typed.needed_day(self.day.text(), "on"),
            how=Descent(self.how.currentData()),
            tags=self._tags(),
            name=self.name.text().strip(),
            place_id=self.where.place_id,
            bench_id=self.where.bench_id,
            medium=self.medium.currentData(),
            pot_volume_l=measured_lines.volume_l(self.pot, "pot_volume_l"),
            parent_repotted=self.repotted.isChecked(),
            note=self.line.text().strip(),
        )

    @override
    def show_beside(self, error: Exception) -> bool:
        """Tell a slip in one new plant's tag beside the tags."""
        if isinstance(error, InputError) and error.field == "tag":
            error = InputError("tags", error.value, error.problem, error.hint)
        return super().show_beside(error)

    @override
    def kept(self) -> Held:
        """Give the whole form as it stands, its day too, once anything was changed."""
        return self.held() if self.changes() else {}

    def _fill(self) -> None:
        parent = self._start.parent
        self.count.setText("1")
        self.tags.setText(self._start.tags[0])
        self.name.setText(parent.name)
        self.where.offer(self._start.places, parent.place_id, parent.bench_id)
        self.day.setText(figures(self._start.on))
        self._show_how()

    def _propose_tags(self) -> None:
        """Propose as many free tags as plants are asked for."""
        try:
            count = typed.whole(self.count.text(), "count", "2") or 0
        except InputError:
            return
        if 0 < count <= len(self._start.tags):
            self.tags.setText(", ".join(self._start.tags[:count]))

    def _show_how(self) -> None:
        """Go by how it was taken: the parent's pot, and the name of a seedling."""
        how = Descent(self.how.currentData())
        self.repotted.setChecked(how in _BESIDE)
        own = self._start.parent.name
        bare = _CLONE.sub("", own)
        if self.name.text() in {own, bare}:
            self.name.setText(bare if how is Descent.SEEDLING else own)

    def _tags(self) -> tuple[str, ...]:
        typed_tags = (each.strip() for each in _SPLIT.split(self.tags.text()))
        tags = tuple(each for each in typed_tags if each)
        count = typed.whole(self.count.text(), "count", "2")
        if count is not None and count != len(tags):
            hint = trn(
                "Give {count} tag, with commas between.",
                "Give {count} tags, with commas between.",
                count,
            ).format(count=count)
            raise InputError(
                "tags",
                self.tags.text(),
                tr("names {plants}").format(plants=words.plants(len(tags))),
                hint,
            )
        return tags
