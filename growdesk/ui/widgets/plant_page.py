"""Show what is on record of the plant itself: the tab of its own data, with its kin.

Rows over a frozen ``PlantDetail``; where a person wants to go goes out as a call.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFormLayout, QVBoxLayout, QWidget

from growdesk.domain.case import REPOTTING
from growdesk.domain.speech import tr
from growdesk.ui import words
from growdesk.ui.looking import writes
from growdesk.ui.widgets.parts import button, column, label
from growdesk.ui.widgets.text_link import TextLink

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import date

    from growdesk.services.plant_values import Kin
    from growdesk.services.values import PlantDetail


def plant_page(
    detail: PlantDetail, change: Callable[[], object], go: Callable[[int], object]
) -> QWidget:
    """Give the plant's own data, with what is not recorded said so, and its kin."""
    page = QWidget()
    inner = column(margins=14)
    page.setLayout(inner)
    form = QFormLayout()
    form.setHorizontalSpacing(16)
    form.setVerticalSpacing(4)
    form.setLabelAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
    for name, text in plant_facts(detail):
        form.addRow(label(name, tone="muted"), label(text))
    inner.addLayout(form)
    _add_kin(inner, tr("It was taken from"), detail.ancestors, go)
    _add_kin(inner, tr("What came of it"), detail.descendants, go)
    changing = writes(button(tr("Change the plant…"), change))
    changing.setObjectName(changing.text())
    inner.addWidget(changing)
    inner.addStretch(1)
    return page


def shown(detail: PlantDetail) -> object:
    """Give all that the page shows, so that it is built anew only where that is new."""
    return (
        detail.draft,
        detail.kind_title,
        detail.place,
        detail.bench_name,
        detail.left,
        detail.ancestors,
        detail.descendants,
        last_repot(detail),
    )


def plant_facts(detail: PlantDetail) -> tuple[tuple[str, str], ...]:
    """Give names and words of all that is on record of the plant itself."""
    draft = detail.draft
    none = tr(words.NOT_RECORDED)
    own = draft.full_strength_ppm_n
    top = draft.feed_ceiling_ppm_n
    every = draft.feed_interval_days
    rows = [
        (tr("Left"), detail.left),
        (tr("Together"), together(detail)),
        (tr("Kind"), detail.kind_title),
        (tr("Hybrid"), tr("yes") if draft.hybrid else ""),
        (tr("Place"), _where(detail)),
        (tr("In quarantine"), _until(draft.quarantine_until)),
        (tr("Pot"), words.volume(draft.pot_volume_l) if draft.pot_volume_l else none),
        (tr("Medium"), words.sign(draft.medium) if draft.medium else none),
        (tr("Mounted"), tr("yes") if draft.mounted else tr("no")),
        (tr("Size"), words.sign(draft.size) if draft.size else none),
        (tr("Repotted"), words.short_day(last_repot(detail))),
        (tr("Slow release"), _until(draft.slow_release_until)),
        (tr("Water a round"), words.volume(draft.volume_l) if draft.volume_l else ""),
        (tr("Cover"), tr("under a cover from rain") if draft.under_cover else ""),
        (tr("Own full strength"), words.strength(own) or tr("as the house")),
        (tr("Own ceiling"), words.strength(top) or tr("as its kind")),
        (
            tr("Fed every"),
            words.counted(every, "day", "days") if every else tr("as the house"),
        ),
        (
            tr("Rest"),
            tr("ignored for this plant") if draft.ignores_rest else tr("as its kind"),
        ),
        (tr("Acquired"), words.short_day(draft.acquired_on)),
        (tr("Overruled"), _overruled(detail)),
        (tr("Source"), draft.source),
        (tr("Parentage"), draft.parentage),
        (tr("Papers"), draft.papers),
        (tr("Note"), draft.note),
    ]
    return tuple((name, text) for name, text in rows if text)


def last_repot(detail: PlantDetail) -> date | None:
    """Give the last repot or division, by the care on record and the plant itself."""
    days = [care.on for care in detail.care if care.what in REPOTTING]
    own = detail.draft.repotted_on
    return max([*days, *([] if own is None else [own])], default=None)


def together(detail: PlantDetail) -> str:
    """Say how several plants share the tag, as ``compot of 30 plants``, or nothing."""
    draft = detail.draft
    if draft.held_as is None:
        return ""
    held = words.sign(draft.held_as)
    if draft.how_many is None:
        return tr("{held} of plants not counted").format(held=held)
    return tr("{held} of {plants}").format(
        held=held, plants=words.plants(draft.how_many)
    )


def _where(detail: PlantDetail) -> str:
    if not detail.place:
        return tr(words.NOT_RECORDED)
    number = detail.draft.bench
    along = "" if number is None else tr("number {number}").format(number=number)
    return ", ".join(filter(None, (detail.place, detail.bench_name, along)))


def _until(day: date | None) -> str:
    return (
        ""
        if day is None
        else tr("until {short_day}").format(short_day=words.short_day(day))
    )


def _overruled(detail: PlantDetail) -> str:
    said = detail.draft.overrule
    if said is None:
        return ""
    word = words.VERDICT_INSIDE[said.verdict]
    return tr("{word} until {short_day}: {reason}").format(
        word=word, short_day=words.short_day(said.until), reason=said.reason
    )


def _add_kin(
    inner: QVBoxLayout, head: str, kin: tuple[Kin, ...], go: Callable[[int], object]
) -> None:
    if not kin:
        return
    inner.addSpacing(4)
    inner.addWidget(label(head, tone="head"))
    for each in kin:
        named = f"{each.tag} {each.name}".strip()
        line = TextLink(named, _kin_words(each), partial(go, each.plant_id))
        line.setObjectName(f"kin-{each.plant_id}")
        inner.addWidget(line)


def _kin_words(kin: Kin) -> str:
    how = "" if kin.how is None else words.sign(kin.how)
    far = (
        ""
        if kin.steps == 1
        else tr("{steps} generations apart").format(steps=kin.steps)
    )
    return "".join(f", {part}" for part in (how, far, kin.left) if part)
