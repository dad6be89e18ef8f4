"""Let a place be chosen in a form, and a bench of it where it has any."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from growdesk.domain.speech import mark, tr
from growdesk.ui.widgets.form import Form, choose

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.services.bench_values import BenchChoice
    from growdesk.services.values import PlaceView

_SIGNS = 28
NOWHERE = mark("no place yet")


class PlaceChoice(QObject):
    """The two choices ``place_id`` and ``bench_id`` of a form.

    ``turned`` tells that another place or bench is chosen.
    """

    turned = Signal()

    def __init__(self, form: Form, benches: Sequence[BenchChoice]) -> None:
        super().__init__(form)
        self._form = form
        self._benches = benches
        self.place = form.combo("place_id", tr("&Place"), (), signs=_SIGNS)
        self.bench = form.combo("bench_id", tr("&Bench"), (), signs=_SIGNS)
        self.place.currentIndexChanged.connect(lambda _row: self._offer_benches())
        self.bench.currentIndexChanged.connect(lambda _row: self.turned.emit())
        self._offer_benches()

    @property
    def place_id(self) -> int | None:
        """Give the place chosen."""
        found = self.place.currentData()
        return found if isinstance(found, int) else None

    @property
    def bench_id(self) -> int | None:
        """Give the bench chosen, or none."""
        found = self.bench.currentData()
        return found if isinstance(found, int) else None

    def offer(
        self, places: Sequence[PlaceView], place_id: int | None, bench_id: int | None
    ) -> None:
        """Take a list of places, and choose one of them and a bench."""
        self.place.clear()
        self.place.addItem(tr(NOWHERE), None)
        for view in places:
            self.place.addItem(view.draft.name, view.place_id)
        choose(self.place, place_id)
        choose(self.bench, bench_id)

    def know(self, benches: Sequence[BenchChoice]) -> None:
        """Take the benches as they are now; the one chosen stays where it is there."""
        chosen = self.bench_id
        self._benches = benches
        self._offer_benches()
        choose(self.bench, chosen)

    def _offer_benches(self) -> None:
        there = [each for each in self._benches if each.place_id == self.place_id]
        self.bench.clear()
        self.bench.addItem(tr("on none of its benches"), None)
        for each in there:
            self.bench.addItem(each.name, each.bench_id)
        self._form.show_field("bench_id", shown=bool(there))
        self.turned.emit()
