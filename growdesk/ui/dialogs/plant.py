"""Take in a plant, new or to be changed: what a tag needs first, the rest behind it.

Hands out a ``PlantDraft``. The kind is guessed from the name as it is typed, until the
grower chooses one.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QHBoxLayout,
    QPlainTextEdit,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from growdesk.domain.errors import InputError
from growdesk.domain.facts import Medium, Overrule, Size, Verdict
from growdesk.domain.rules.overruled import USUAL_WATER
from growdesk.ui import typed, words
from growdesk.ui.dialogs.base import FormDialog
from growdesk.ui.widgets.form import Form, choose
from growdesk.ui.widgets.parts import button, label

if TYPE_CHECKING:
    from collections.abc import Callable

    from growdesk.services.values import PlaceView, PlantDraft
    from growdesk.ui.dialogs.held import Held

_GUESS_MS = 150


@dataclass(frozen=True, slots=True)
class PlantStart:
    """What a plant form opens with."""

    plant_id: int | None
    draft: PlantDraft
    kinds: tuple[tuple[str, str], ...]
    places: tuple[PlaceView, ...]


class PlantDialog(FormDialog):
    """One plant in three tabs: the plant, its own rules, its papers."""

    place_wanted = Signal()

    def __init__(
        self, parent: QWidget | None, start: PlantStart, guess: Callable[[str], str]
    ) -> None:
        is_new = start.plant_id is None
        title = "New plant" if is_new else f"Plant {start.draft.tag}"
        save = "Add, then look" if is_new else "Save the plant"
        super().__init__(parent, title, save)
        self._start = start
        self._guess = guess
        self._kind_chosen = not is_new
        self.guess_pause = QTimer(self)
        self.guess_pause.setSingleShot(True)
        self.guess_pause.setInterval(_GUESS_MS)
        self.guess_pause.timeout.connect(self._guess_kind)
        self.forms = (Form(), Form(), Form())
        self.tabs = QTabWidget()
        self.tabs.setAccessibleName("The plant")
        self._build_plant(self.forms[0])
        self._build_rules(self.forms[1])
        self._build_papers(self.forms[2])
        for form, name in zip(
            self.forms, ("Plant", "Own rules", "Papers"), strict=True
        ):
            page = QWidget()
            column = QVBoxLayout(page)
            column.setContentsMargins(4, 12, 4, 4)
            column.addWidget(form)
            column.addStretch(1)
            self.tabs.addTab(page, name)
        self.body.addWidget(self.tabs)
        self.setMinimumWidth(560)
        self._show(start.draft)
        self.begin()
        self.name.setFocus()

    # -- FormDialog -----------------------------------------------------------------

    @override
    def draft(self) -> PlantDraft:
        """Give the plant as entered."""
        own = typed.number(self.own_strength.text(), "full_strength_ppm_n", "120")
        top = typed.number(self.ceiling.text(), "feed_ceiling_ppm_n", "200")
        return replace(
            self._start.draft,
            tag=self.tag.text().strip(),
            name=self.name.text().strip(),
            kind=self.kind.currentData() or "",
            place_id=self.place.currentData(),
            bench=typed.whole(self.bench.text(), "bench", "3"),
            hybrid=self.hybrid.isChecked(),
            pot_volume_l=typed.volume_l(self.pot.text(), "pot_volume_l"),
            volume_l=typed.volume_l(self.round.text(), "volume_l"),
            medium=self.medium.currentData(),
            mounted=self.mounted.isChecked(),
            size=self.size_choice.currentData(),
            under_cover=self.cover.isChecked(),
            repotted_on=typed.day(self.repotted.text(), "repotted_on"),
            slow_release_until=typed.day(self.slow.text(), "slow_release_until"),
            full_strength_ppm_n=own,
            feed_ceiling_ppm_n=top,
            feed_interval_days=typed.whole(
                self.interval.text(), "feed_interval_days", "7"
            ),
            ignores_rest=self.ignores_rest.isChecked(),
            overrule=self._overrule(),
            acquired_on=typed.day(self.acquired.text(), "acquired_on"),
            source=self.source.text().strip(),
            note=self.note.toPlainText().strip(),
        )

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
    def take_draft(self, kept: Held) -> None:
        self._kind_chosen = self._kind_chosen or "kind" in kept
        super().take_draft(kept)

    # -- places made on the way -----------------------------------------------------

    def offer_places(self, places: tuple[PlaceView, ...], chosen: int | None) -> None:
        """Take a new list of places and choose one of them."""
        self.place.clear()
        self.place.addItem("no place yet", None)
        for view in places:
            self.place.addItem(view.draft.name, view.place_id)
        choose(self.place, chosen)

    # -- building -------------------------------------------------------------------

    def _build_plant(self, form: Form) -> None:
        self.tag = form.line("tag", "&Tag", "the number on the label in the pot")
        self.name = form.line("name", "&Name", "genus, species or grex, 'Clone'")
        kinds = [("", "not known: judged with care"), *self._start.kinds]
        self.kind = form.combo("kind", "&Kind", kinds)
        self.kind.activated.connect(lambda _row: self._kind_by_hand())
        self.name.textEdited.connect(lambda _text: self.guess_pause.start())
        self.place = form.combo("place_id", "&Place", ())
        new_place = button("New place…", self.place_wanted.emit)
        form.wide(_right(new_place))
        self.pot = form.line("pot_volume_l", "P&ot volume", "say 1.5 L or 0.4 gal")
        self.medium = form.combo("medium", "&Medium", _optional(Medium))
        self.mounted = QCheckBox("mounted, no pot")
        form.add("mounted", "Mo&unted", self.mounted)
        self.size_choice = form.combo("size", "Si&ze", _optional(Size))

    def _build_rules(self, form: Form) -> None:
        form.wide(
            label("All empty: the plant goes by its kind and the house.", tone="muted")
        )
        self.own_strength = form.line(
            "full_strength_ppm_n", "&Full strength", "ppm N, say 120"
        )
        self.ceiling = form.line("feed_ceiling_ppm_n", "&Ceiling", "ppm N, say 200")
        self.interval = form.line("feed_interval_days", "Fed &every", "days, say 7")
        self.round = form.line("volume_l", "&Water a round", "say 300 mL")
        self.ignores_rest = QCheckBox("ignores its kind's rest")
        form.add("ignores_rest", "&Rest", self.ignores_rest)
        self.cover = QCheckBox("under a cover from rain")
        form.add("under_cover", "Co&ver", self.cover)
        verdicts: list[tuple[object, str]] = [(None, "no, judge it")]
        verdicts += [
            (verdict, words.VERDICT[verdict]) for verdict in words.VERDICT_ORDER
        ]
        self.overrule = form.combo("overrule", "&Overrule", verdicts)
        self.overrule_reason = form.line("reason", "Re&ason", "why, in your own words")
        self.overrule_until = form.line("until", "U&ntil", "2026-11-25, inclusive")
        self.overrule.currentIndexChanged.connect(lambda _row: self._show_overrule())

    def _build_papers(self, form: Form) -> None:
        self.hybrid = QCheckBox("a hybrid")
        form.add("hybrid", "H&ybrid", self.hybrid)
        self.bench = form.line("bench", "&Bench place", "its number along the bench")
        self.repotted = form.line("repotted_on", "&Repotted on", "2026-11-25")
        self.slow = form.line(
            "slow_release_until",
            "S&low release until",
            "feed grains in the pot, 2026-11-25",
        )
        self.acquired = form.line("acquired_on", "&Acquired on", "2026-11-25")
        self.source = form.line("source", "&Source", "from whom")
        self.note = QPlainTextEdit()
        self.note.setTabChangesFocus(True)
        self.note.setFixedHeight(70)
        form.add("note", "No&te", self.note)

    def _show(self, draft: PlantDraft) -> None:
        self.tag.setText(draft.tag)
        self.name.setText(draft.name)
        choose(self.kind, draft.kind)
        self.offer_places(self._start.places, draft.place_id)
        self.pot.setText(_litres(draft.pot_volume_l))
        self.round.setText(_litres(draft.volume_l))
        choose(self.medium, draft.medium)
        self.mounted.setChecked(draft.mounted)
        choose(self.size_choice, draft.size)
        self.cover.setChecked(draft.under_cover)
        self.own_strength.setText(words.number(draft.full_strength_ppm_n))
        self.ceiling.setText(words.number(draft.feed_ceiling_ppm_n))
        self.interval.setText(words.number(draft.feed_interval_days))
        self.ignores_rest.setChecked(draft.ignores_rest)
        self.hybrid.setChecked(draft.hybrid)
        self.bench.setText(words.number(draft.bench))
        self.repotted.setText(_iso(draft.repotted_on))
        self.slow.setText(_iso(draft.slow_release_until))
        self.acquired.setText(_iso(draft.acquired_on))
        self.source.setText(draft.source)
        self.note.setPlainText(draft.note)
        self._fill_overrule(draft.overrule)

    def _fill_overrule(self, overrule: Overrule | None) -> None:
        if overrule is not None:
            choose(self.overrule, overrule.verdict)
            self.overrule_reason.setText(overrule.reason)
            self.overrule_until.setText(overrule.until.isoformat())
        self._show_overrule()

    def _show_overrule(self) -> None:
        is_overruled = self.overrule.currentData() is not None
        self.overrule_reason.setEnabled(is_overruled)
        self.overrule_until.setEnabled(is_overruled)

    def _overrule(self) -> Overrule | None:
        verdict = self.overrule.currentData()
        if verdict is None:
            return None
        reason = self.overrule_reason.text().strip()
        if not reason:
            raise InputError(
                "reason", "", "is empty", "Say why, so that you know it next month."
            )
        until = typed.needed_day(self.overrule_until.text(), "until")
        before = self._start.draft.overrule
        since = before.since if before is not None else None
        water = USUAL_WATER[Verdict(verdict)]
        if before is not None and before.verdict is Verdict(verdict):
            water = before.water or water
        return Overrule(Verdict(verdict), reason, until, water, since)

    def _kind_by_hand(self) -> None:
        self._kind_chosen = True

    def _guess_kind(self) -> None:
        if not self._kind_chosen:
            choose(self.kind, self._guess(self.name.text()))


def _optional(kinds: type[Medium | Size]) -> list[tuple[object, str]]:
    return [(None, words.NOT_RECORDED), *words.choices(tuple(kinds))]


def _litres(volume_l: float | None) -> str:
    return "" if volume_l is None else f"{words.number(volume_l, 3)} L"


def _iso(on: object) -> str:
    return "" if on is None else str(on)


def _right(widget: QWidget) -> QWidget:
    holder = QWidget()
    row = QHBoxLayout(holder)
    row.setContentsMargins(0, 0, 0, 0)
    row.addStretch(1)
    row.addWidget(widget)
    return holder
