"""Show what is on record of one plant: looks, photos, care, and its own data.

Cards and rows over frozen values; what a person wants done goes out as signals of
the pane that holds them.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QGridLayout,
    QHBoxLayout,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from growdesk.ui import words
from growdesk.ui.widgets import focus
from growdesk.ui.widgets.parts import button, column, frame, label, link, short_label
from growdesk.ui.widgets.thumbs import strip, tile

_TAB = Qt.FocusPolicy.TabFocus
LOOKS_AT_ONCE = 6
CARE_AT_ONCE = 25

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from growdesk.services.values import CareView, LookView, PhotoView, PlantDetail
    from growdesk.ui.widgets.thumbs import Thumbs


def looks_page(
    detail: PlantDetail,
    thumbs: Thumbs,
    opened: Callable[[PhotoView], object],
    change: Callable[[LookView], object],
    record: Callable[[], object],
) -> QWidget:
    """Give the looks, newest first, each with its signs, note and photos."""
    page, inner = _page()
    if not detail.looks:
        _nothing(
            inner,
            "Nobody has looked at this plant yet. A look says what is growing, and "
            "that decides whether it is fed.",
            "Record a look…",
            record,
        )
        return page
    newest = sorted(detail.looks, key=lambda each: each.look.on, reverse=True)
    cards = [partial(_look_card, look, thumbs, opened, change) for look in newest]
    _in_batches(inner, cards, "looks", LOOKS_AT_ONCE)
    return page


def _look_card(
    look: LookView,
    thumbs: Thumbs,
    opened: Callable[[PhotoView], object],
    change: Callable[[LookView], object],
) -> QWidget:
    card = frame("card")
    rows = QVBoxLayout(card)
    rows.setContentsMargins(12, 8, 12, 8)
    top = QHBoxLayout()
    top.addWidget(label(words.short_day(look.look.on), tone="head"), 1)
    edit = link("Change…", partial(change, look))
    edit.setObjectName(f"change-look-{look.look_id}")
    edit.setAccessibleName(f"Change the look of {words.short_day(look.look.on)}")
    top.addWidget(edit)
    rows.addLayout(top)
    rows.addWidget(label(look.signs))
    if look.note:
        rows.addWidget(label(f"“{look.note}”", tone="muted"))
    if look.photos:
        rows.addWidget(strip(look.photos, thumbs, opened, 3))
    return card


def _in_batches(
    inner: QVBoxLayout,
    makers: Sequence[Callable[[], QWidget]],
    things: str,
    at_once: int,
) -> None:
    """Add what is newest, and a button that adds as much again of what is older."""
    first = inner.count()
    for make in makers[:at_once]:
        inner.addWidget(make())
    rest = makers[at_once:]
    if not rest:
        inner.addStretch(1)
        return

    def more() -> None:
        inner.removeWidget(older)
        _in_batches(inner, rest, things, at_once)
        _go_on(inner, first + at_once, older)
        older.deleteLater()

    older = button(f"{len(rest)} older {things}", more)
    older.setObjectName(f"older-{things}")
    inner.addWidget(older)


def _go_on(inner: QVBoxLayout, first: int, pressed: QPushButton) -> None:
    """Let Tab and focus go on at the first row added in place of a pressed button."""
    items = [inner.itemAt(number) for number in range(first, inner.count())]
    rows = [None if item is None else item.widget() for item in items]
    added = [each for each in rows if each is not None]
    reached = [stop for each in added for stop in (*focus.stops(each), each)]
    found = [stop for stop in reached if stop.focusPolicy() & _TAB]
    focus.chain([pressed, *found])
    if found and pressed.hasFocus():
        found[0].setFocus(Qt.FocusReason.OtherFocusReason)


def photos_page(
    detail: PlantDetail,
    thumbs: Thumbs,
    opened: Callable[[PhotoView], object],
    add: Callable[[], object],
) -> QWidget:
    """Give all photos of the plant."""
    page, inner = _page()
    if not detail.photos:
        _nothing(
            inner,
            "No photos yet. One of the base of the plant shows a year later what a "
            "note forgets.",
            "Add photos…",
            add,
        )
        return page
    grid = QGridLayout()
    grid.setSpacing(6)
    for number, photo in enumerate(detail.photos):
        grid.addWidget(tile(photo, thumbs, opened), number // 3, number % 3)
    grid.setColumnStretch(3, 1)
    inner.addLayout(grid)
    inner.addWidget(_named("Add photos…", add))
    inner.addStretch(1)
    return page


def care_page(detail: PlantDetail, give: Callable[[], object]) -> QWidget:
    """Give the care on record, newest first."""
    page, inner = _page()
    if not detail.care:
        _nothing(
            inner,
            "No care is on record. Tick the plant in the list, or say what was given.",
            "Give something else…",
            give,
        )
        return page
    newest = sorted(detail.care, key=lambda each: (each.on, each.care_id), reverse=True)
    rows = [partial(_care_row, care) for care in newest]
    _in_batches(inner, rows, "entries", CARE_AT_ONCE)
    return page


def _care_row(care: CareView) -> QWidget:
    row = QWidget()
    layout = QHBoxLayout(row)
    layout.setContentsMargins(0, 0, 0, 0)
    day = short_label(words.short_day(care.on), tone="muted")
    day.setFixedWidth(day.fontMetrics().horizontalAdvance("00 Mmm 0000") + 12)
    layout.addWidget(day)
    layout.addWidget(label(care_words(care)), 1)
    return row


def care_words(care: CareView) -> str:
    """Give one piece of care in words."""
    parts = [words.CARE[care.what]]
    if care.strength_ppm_n is not None:
        parts.append(words.strength(care.strength_ppm_n))
    if care.volume_l is not None:
        parts.append(words.volume(care.volume_l))
    if care.note:
        parts.append(f"“{care.note}”")
    return ", ".join(parts)


def _page() -> tuple[QWidget, QVBoxLayout]:
    page = QWidget()
    inner = column(margins=14)
    page.setLayout(inner)
    return page, inner


def _nothing(
    inner: QVBoxLayout, text: str, action: str, pressed: Callable[[], object]
) -> None:
    inner.addWidget(label(text, tone="muted"))
    row = QHBoxLayout()
    row.addWidget(_named(action, pressed))
    row.addStretch(1)
    inner.addLayout(row)
    inner.addStretch(1)


def _named(text: str, pressed: Callable[[], object]) -> QPushButton:
    """Give a button that its name finds again when the page is rebuilt."""
    made = button(text, pressed)
    made.setObjectName(text)
    return made
