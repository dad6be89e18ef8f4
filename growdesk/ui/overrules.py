"""Open the overrule of the plants selected, and write it."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from growdesk.domain.speech import tr, trn
from growdesk.services.unruled import unruled
from growdesk.ui import words
from growdesk.ui.dialogs.overrule import OverruleDialog, OverruleStart
from growdesk.ui.picking import whom
from growdesk.ui.thing_forms import ThingForms

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from growdesk.domain.facts import Overrule
    from growdesk.services.unruled import Unruled
    from growdesk.services.values import Line


class Overrules(ThingForms):
    """Overrules over one window's collection."""

    def open(self, lines: Sequence[Line]) -> None:
        """Open the form for the plants of some lines."""
        if not lines:
            self._desk.told.emit(tr("No plant is selected."))
            return
        ids = tuple(line.plant_id for line in lines)
        on = max(self._desk.on, self._desk.today)
        work = partial(unruled, self._now.ledger, ids, on)
        self._desk.read(work, partial(self._open, tuple(lines), on))

    def _open(
        self, lines: tuple[Line, ...], on: date, found: tuple[Unruled, ...]
    ) -> None:
        ids = tuple(line.plant_id for line in lines)
        by_id = {each.plant_id: each for each in found}
        pairs = [
            (line, by_id[line.plant_id]) for line in lines if line.plant_id in by_id
        ]
        if not pairs:
            self._desk.told.emit(tr("That plant is not there any more."))
            return
        held = [each.held for _line, each in pairs]
        several = len(pairs) > 1
        dialog = OverruleDialog(
            self._window,
            OverruleStart(
                whom=whom(lines),
                now=_count(held) if several else _now(*pairs[0]),
                verdict=lines[0].verdict,
                on=on,
                held=None if several else held[0],
                ends=sum(1 for each in held if each is not None),
                each=tuple(_line(*pair) for pair in pairs) if several else (),
            ),
        )
        self._attend(dialog, "overrule", ids)
        dialog.saved.connect(partial(self._write, dialog, ids))
        dialog.end_wanted.connect(partial(self._write, dialog, ids, None))
        dialog.open()

    def _write(
        self, dialog: OverruleDialog, ids: tuple[int, ...], said: Overrule | None
    ) -> None:
        self._desk.write(
            partial(self._now.plants.overrule, ids, said),
            lambda _done: dialog.close_saved(),
            dialog.refused,
        )


def _count(held: Sequence[Overrule | None]) -> str:
    count = sum(1 for each in held if each is not None)
    if not count:
        return tr("None of them is overruled now.")
    return trn(
        "{count} of these {among} plants is overruled now.",
        "{count} of these {among} plants are overruled now.",
        count,
    ).format(count=count, among=len(held))


def _now(line: Line, judged: Unruled) -> str:
    """Say what a plant gets as it stands, and without an overrule."""
    without = tr("Without the overrule: {judged}.").format(judged=_judged(line, judged))
    said = judged.held
    if said is None:
        return without
    why = said.reason.strip().rstrip(".")
    until = words.short_day(said.until)
    verdict = words.VERDICT_INSIDE[said.verdict]
    return tr(
        "Overruled until {until}: {verdict}. Your reason: {why}.\n{without}"
    ).format(until=until, verdict=verdict, why=why, without=without)


def _line(line: Line, judged: Unruled) -> str:
    """Say of one of several plants what it gets now."""
    said = judged.held
    if said is None:
        return f"{line.tag}: {_judged(line, judged)}"
    verdict, until = words.VERDICT_INSIDE[said.verdict], words.short_day(said.until)
    return tr(
        "{tag}: {verdict}, overruled until {until}; without that {judged}"
    ).format(tag=line.tag, verdict=verdict, until=until, judged=_judged(line, judged))


def _judged(line: Line, judged: Unruled) -> str:
    """Give a verdict, how much of what, and its reason in few words."""
    same = judged.held is None and line.verdict is judged.verdict
    how = words.strength(words.in_jug(line)) if same else ""
    verdict = words.VERDICT_INSIDE[judged.verdict]
    given = how or words.WATER[judged.water]
    return f"{verdict}, {given}; {judged.short_reason}"
