"""Open the grower's own word for the plants selected, and write it."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from growdesk.ui import words
from growdesk.ui.dialogs.overrule import OverruleDialog, OverruleStart
from growdesk.ui.thing_forms import ThingForms

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from growdesk.domain.facts import Overrule
    from growdesk.services.values import Line, PlantDraft

_NAMED = 4


class Overrules(ThingForms):
    """The grower's own word over one window's collection."""

    def open(self, lines: Sequence[Line]) -> None:
        """Open the form for the plants of some lines."""
        if not lines:
            self._desk.told.emit("No plant is selected.")
            return
        ids = tuple(line.plant_id for line in lines)
        work = partial(self._now.plants.some, ids)
        self._desk.read(work, partial(self._open, tuple(lines)))

    def _open(self, lines: tuple[Line, ...], drafts: tuple[PlantDraft, ...]) -> None:
        ids = tuple(line.plant_id for line in lines)
        held = [_holding(draft, self._desk.today) for draft in drafts]
        dialog = OverruleDialog(
            self._window,
            OverruleStart(
                whom=_whom(lines),
                now=_now(lines, held),
                verdict=lines[0].verdict,
                on=max(self._desk.on, self._desk.today),
                held=held[0] if len(held) == 1 else None,
                lifts=sum(1 for each in held if each is not None),
            ),
        )
        self._attend(dialog, "overrule", ids)
        dialog.saved.connect(partial(self._write, dialog, ids))
        dialog.lift_wanted.connect(partial(self._write, dialog, ids, None))
        dialog.open()

    def _write(
        self, dialog: OverruleDialog, ids: tuple[int, ...], word: Overrule | None
    ) -> None:
        self._desk.write(
            partial(self._now.plants.overrule, ids, word),
            lambda _done: dialog.close_saved(),
            dialog.refused,
        )


def _holding(draft: PlantDraft, today: date) -> Overrule | None:
    said = draft.overrule
    return None if said is None or said.until < today else said


def _whom(lines: Sequence[Line]) -> str:
    named = ", ".join(f"{line.tag} {line.name}".strip() for line in lines[:_NAMED])
    more = len(lines) - _NAMED
    return f"{named} and {more} more" if more > 0 else named


def _now(lines: Sequence[Line], held: Sequence[Overrule | None]) -> str:
    """Say what the plants get as it stands."""
    count = sum(1 for each in held if each is not None)
    if len(lines) > 1:
        some = f"{count} of these {len(lines)} plants" if count else "None of them"
        verb = "is" if count <= 1 else "are"
        return f"{some} {verb} overruled now."
    line, said = lines[0], held[0]
    if said is not None:
        until = words.short_day(said.until)
        verdict = words.VERDICT[said.verdict].lower()
        why = said.reason.strip().rstrip(".")
        return f"Your own word until {until}: {verdict}. Your reason: {why}."
    given = words.strength(words.in_jug(line))
    how = given or words.WATER[line.water]
    return f"Without your word it gets: {words.VERDICT[line.verdict].lower()}, {how}."
