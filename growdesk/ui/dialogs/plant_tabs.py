"""Give the first tabs of a plant's form: what it is, and its own rules.

Each tab fills itself from a ``PlantDraft`` and gives the draft with what was entered.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import replace
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QPlainTextEdit, QWidget

from growdesk.domain.day_words import figures
from growdesk.domain.errors import InputError
from growdesk.domain.facts import Medium, Overrule, Size, Verdict
from growdesk.domain.rules.overruled import USUAL_WATER
from growdesk.domain.speech import mark, tr
from growdesk.ui import measured_lines, sizes, typed, words
from growdesk.ui.widgets.form import Form, choose
from growdesk.ui.widgets.name_field import NameUnder
from growdesk.ui.widgets.parts import button, label
from growdesk.ui.widgets.place_choice import PlaceChoice

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtWidgets import QLineEdit

    from growdesk.services.values import PlantDraft
    from growdesk.ui.dialogs.plant_start import PlantStart

MOVED = mark(
    "This puts the record right. A move of these days is better written with "
    "To another place (Ctrl+Alt+M): it is then kept with its day."
)
_GUESS_MS = 150
_NOTE_PX = 56


class PlantTab:
    """What a plant is and stands in. Tag and name are all that a new one needs.

    The kind is guessed from the name as it is typed, until the grower chooses one.
    """

    title = mark("Plant")

    def __init__(
        self,
        start: PlantStart,
        guess: Callable[[str], str],
        new_place: Callable[[], object],
    ) -> None:
        self._guess = guess
        self.kind_chosen = start.plant_id is not None
        self.form = form = Form()
        self.tag = form.line(
            "tag", tr("&Tag"), tr("the number on the label in the pot")
        )
        self.name = self._name_field()
        kinds = [("", tr("not known: judged with care")), *start.kinds]
        self.kind = form.combo("kind", tr("&Kind"), kinds)
        self.kind.activated.connect(lambda _row: self._kind_by_hand())
        self.where = PlaceChoice(form, start.benches)
        form.wide(_right(button(tr("New place…"), new_place)))
        self.moved = label(tr(MOVED), tone="muted")
        self.moved.hide()
        form.wide(self.moved)
        self.pot = form.line(
            "pot_volume_l", tr("P&ot volume"), tr("say 1.5 L or 0.4 gal")
        )
        self.medium = form.combo("medium", tr("&Medium"), optional(Medium))
        self.mounted = QCheckBox(tr("mounted, no pot"))
        form.add("mounted", tr("Mo&unted"), self.mounted)
        self.size = form.combo("size", tr("Si&ze"), optional(Size))
        self.note = note_box()
        form.add("note", tr("Not&e"), self.note)
        self.pause = QTimer(form)
        self.pause.setSingleShot(True)
        self.pause.setInterval(_GUESS_MS)
        self.pause.timeout.connect(self._guess_kind)
        self.name.textEdited.connect(lambda _text: self.pause.start())

    def _name_field(self) -> QLineEdit:
        made = self.form.line(
            "name", tr("&Name"), tr("genus, species or grex, 'Clone'")
        )
        self.form.under(NameUnder(made))
        return made

    def fill(self, draft: PlantDraft) -> None:
        """Show a plant."""
        self.tag.setText(draft.tag)
        self.name.setText(draft.name)
        choose(self.kind, draft.kind)
        measured_lines.show_volume(self.pot, draft.pot_volume_l)
        choose(self.medium, draft.medium)
        self.mounted.setChecked(draft.mounted)
        choose(self.size, draft.size)
        self.note.setPlainText(draft.note)

    def taken(self, draft: PlantDraft) -> PlantDraft:
        """Give a plant with what was entered here."""
        return replace(
            draft,
            tag=self.tag.text().strip(),
            name=self.name.text().strip(),
            kind=self.kind.currentData() or "",
            place_id=self.where.place_id,
            bench_id=self.where.bench_id,
            pot_volume_l=measured_lines.volume_l(self.pot, "pot_volume_l"),
            medium=self.medium.currentData(),
            mounted=self.mounted.isChecked(),
            size=self.size.currentData(),
            note=self.note.toPlainText().strip(),
        )

    def _kind_by_hand(self) -> None:
        self.kind_chosen = True

    def _guess_kind(self) -> None:
        if not self.kind_chosen:
            choose(self.kind, self._guess(self.name.text()))


class RulesTab:
    """What holds for this plant alone."""

    title = mark("Own rules")

    def __init__(self) -> None:
        self.form = form = Form()
        form.wide(
            label(
                tr("All empty: the plant goes by its kind and the house."), tone="muted"
            )
        )
        self.own_strength = form.line(
            "full_strength_ppm_n", tr("&Full strength"), tr("ppm N, say 120")
        )
        self.ceiling = form.line(
            "feed_ceiling_ppm_n", tr("&Ceiling"), tr("ppm N, say 200")
        )
        self.interval = form.line(
            "feed_interval_days", tr("Fed &every"), tr("days, say 7")
        )
        self.round = form.line("volume_l", tr("&Water a round"), tr("say 300 mL"))
        self.ignores_rest = QCheckBox(tr("ignores its kind's rest"))
        form.add("ignores_rest", tr("&Rest"), self.ignores_rest)
        self.cover = QCheckBox(tr("under a cover from rain"))
        form.add("under_cover", tr("Co&ver"), self.cover)
        verdicts: list[tuple[object, str]] = [(None, tr("no, judge it"))]
        verdicts += [
            (verdict, words.VERDICT[verdict]) for verdict in words.VERDICT_ORDER
        ]
        self.overrule = form.combo("overrule", tr("&Overrule"), verdicts)
        self.reason = form.line("reason", tr("Re&ason"), tr("why, in your own words"))
        self.until = form.line(
            "until",
            tr("U&ntil"),
            tr("{day}, inclusive").format(day=typed.day_example()),
        )
        self.overrule.currentIndexChanged.connect(lambda _row: self._show_overrule())

    def fill(self, draft: PlantDraft) -> None:
        """Show a plant."""
        self.own_strength.setText(words.number(draft.full_strength_ppm_n))
        self.ceiling.setText(words.number(draft.feed_ceiling_ppm_n))
        self.interval.setText(words.number(draft.feed_interval_days))
        measured_lines.show_volume(self.round, draft.volume_l)
        self.ignores_rest.setChecked(draft.ignores_rest)
        self.cover.setChecked(draft.under_cover)
        if draft.overrule is not None:
            choose(self.overrule, draft.overrule.verdict)
            self.reason.setText(draft.overrule.reason)
            self.until.setText(figures(draft.overrule.until))
        self._show_overrule()

    def taken(self, draft: PlantDraft) -> PlantDraft:
        """Give a plant with what was entered here."""
        own = typed.number(self.own_strength.text(), "full_strength_ppm_n", "120")
        top = typed.number(self.ceiling.text(), "feed_ceiling_ppm_n", "200")
        return replace(
            draft,
            volume_l=measured_lines.volume_l(self.round, "volume_l"),
            under_cover=self.cover.isChecked(),
            full_strength_ppm_n=own,
            feed_ceiling_ppm_n=top,
            feed_interval_days=typed.whole(
                self.interval.text(), "feed_interval_days", "7"
            ),
            ignores_rest=self.ignores_rest.isChecked(),
            overrule=self._overrule(draft.overrule),
        )

    def _show_overrule(self) -> None:
        is_overruled = self.overrule.currentData() is not None
        self.reason.setEnabled(is_overruled)
        self.until.setEnabled(is_overruled)

    def _overrule(self, before: Overrule | None) -> Overrule | None:
        verdict = self.overrule.currentData()
        if verdict is None:
            return None
        reason = self.reason.text().strip()
        if not reason:
            raise InputError(
                "reason",
                "",
                tr("is empty"),
                tr("Say why, so that you know it next month."),
            )
        until = typed.needed_day(self.until.text(), "until")
        since = before.since if before is not None else None
        water = USUAL_WATER[Verdict(verdict)]
        if before is not None and before.verdict is Verdict(verdict):
            water = before.water or water
        return Overrule(Verdict(verdict), reason, until, water, since)


def optional(kinds: type[Medium | Size]) -> list[tuple[object, str]]:
    """Give the choices of a sign that may be left open."""
    return [(None, tr(words.NOT_RECORDED)), *words.choices(tuple(kinds))]


def note_box() -> QPlainTextEdit:
    """Give a small box for a text of some lines; Tab leaves it."""
    made = QPlainTextEdit()
    made.setTabChangesFocus(True)
    sizes.high(made, _NOTE_PX)
    return made


def _right(widget: QWidget) -> QWidget:
    holder = QWidget()
    row = QHBoxLayout(holder)
    row.setContentsMargins(0, 0, 0, 0)
    row.addStretch(1)
    row.addWidget(widget)
    return holder
