"""Choose which plants are walked to, or printed as a list to take along."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QCheckBox, QDialogButtonBox
from typing_extensions import override

from growdesk.domain.day_words import figures
from growdesk.domain.errors import InputError
from growdesk.domain.speech import mark, tr, trn
from growdesk.services.walk_values import WalkChoice
from growdesk.ui import sizes, typed, words
from growdesk.ui.dialogs.base import FormDialog
from growdesk.ui.widgets.parts import button, label

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import date

    from PySide6.QtWidgets import QWidget

    from growdesk.services.walk_values import Walkable
    from growdesk.ui.dialogs.held import Held

EVERYWHERE = "all"
_NO_PLACE = mark("No place recorded")
_FIELD_PX = 340


class WalkChoiceDialog(FormDialog):
    """A place or all of them, those due or all plants, and the day of the looks."""

    def __init__(
        self, parent: QWidget | None, walk: Walkable, today: date, title: str, go: str
    ) -> None:
        super().__init__(parent, title, go)
        self._walk = walk
        self._today = today
        self.place = self.form.combo("place", tr("&Place"), self._places(), signs=32)
        self.due = QCheckBox(
            tr("only those whose look is over {limit_days} days old").format(
                limit_days=walk.limit_days
            )
        )
        self.form.add("due", tr("Which pl&ants"), self.due)
        self.day = self.form.line("on", tr("Da&y of the looks"), figures(walk.on))
        self.form.end()
        self.form.keep_narrow(_FIELD_PX)
        self.day.setText(figures(walk.on))
        self.count = label("", tone="muted")
        self.body.addWidget(self.form)
        self.body.addWidget(self.count)
        self.body.addStretch(1)
        self.place.currentIndexChanged.connect(self._count)
        self.due.toggled.connect(self._count)
        self._count()
        sizes.least_wide(self, 520)
        self.place.setFocus()
        self.begin()

    @override
    def draft(self) -> tuple[WalkChoice, date]:
        """Give the choice and the day; raises ``InputError`` on a slip."""
        choice = self.choice()
        if not self._walk.chosen(choice):
            hint = tr("Choose another place, or all plants.")
            raise InputError("place", self.place.currentText(), tr("has none"), hint)
        on = typed.needed_day(self.day.text(), "on")
        if on > self._today:
            today = figures(self._today)
            hint = tr("Give a day up to today, {today}.").format(today=today)
            raise InputError("on", self.day.text(), tr("is still to come"), hint)
        return choice, on

    @override
    def kept(self) -> Held:
        """Keep nothing: a choice is made anew in a moment."""
        return {}

    def choice(self) -> WalkChoice:
        """Give which plants are chosen."""
        place = self.place.currentData()
        everywhere = place == EVERYWHERE
        return WalkChoice(
            everywhere, None if everywhere else place, self.due.isChecked()
        )

    def place_name(self) -> str:
        """Give the name of the place chosen, empty for plants without one."""
        return dict(self._walk.places).get(self.place.currentData(), "")

    def add_way(self, text: str, pressed: Callable[[], object]) -> None:
        """Add another button at the foot."""
        role = QDialogButtonBox.ButtonRole.ActionRole
        self.buttons.addButton(button(text, pressed), role)

    def _places(self) -> list[tuple[object, str]]:
        places = [(key, name or tr(_NO_PLACE)) for key, name in self._walk.places]
        return [(EVERYWHERE, tr("All places")), *places]

    def _count(self) -> None:
        chosen = self._walk.chosen(self.choice())
        due = sum(stop.is_due for stop in chosen)
        said = tr("{plants}, in the order of the benches.").format(
            plants=words.plants(len(chosen))
        )
        if due:
            looks = trn("{due} due for a look.", "{due} due for a look.", due)
            said = f"{said} {looks.format(due=due)}"
        self.count.setText(said if chosen else tr("No plant is due there."))
