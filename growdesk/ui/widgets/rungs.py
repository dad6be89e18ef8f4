"""The steps of a plant's strength as lines, each figure to the right."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt

from growdesk.domain.speech import fixed, tr
from growdesk.ui import words
from growdesk.ui.widgets.parts import label

if TYPE_CHECKING:
    from PySide6.QtWidgets import QLabel

    from growdesk.services.values import PlantDetail

_FIGURE_PX = 92


def rungs(detail: PlantDetail) -> QLabel:
    """Give the steps, and what the jug pours where that differs from the plant's own.

    A screen reader is given the sentences that say the same.
    """
    steps = [(rung.text, rung.ppm_n) for rung in detail.strength_rungs]
    spoken = detail.strength_sentence
    poured = _poured(detail)
    if poured is not None:
        steps.append((_from_jug(detail), poured))
        spoken = f"{spoken} {_from_jug(detail)}: {words.strength(float(poured))}."
    *upper, last = [
        (escape(text), f"{escape(ppm)}&nbsp;ppm&nbsp;N") for text, ppm in steps
    ]
    rows = [*upper, tuple(f"<b>{cell}</b>" for cell in last)]
    cells = "".join(
        f'<tr><td>{text}</td><td width="{_FIGURE_PX}" align="right" valign="bottom">'
        f"{ppm}</td></tr>"
        for text, ppm in rows
    )
    made = label()
    made.setObjectName("strength-rungs")
    made.setTextFormat(Qt.TextFormat.RichText)
    made.setText(f'<table width="100%" cellspacing="0" cellpadding="2">{cells}</table>')
    made.setAccessibleName(spoken)
    return made


def _poured(detail: PlantDetail) -> str | None:
    """Give what its jug pours, where that is not the plant's own strength."""
    if detail.strength is None or detail.jug_ppm_n is None:
        return None
    if round(detail.jug_ppm_n) == round(detail.strength.ppm_n):
        return None
    return fixed(detail.jug_ppm_n, 0)


def _from_jug(detail: PlantDetail) -> str:
    if not detail.letter:
        return tr("Poured")
    return tr("Poured from jug {letter}").format(letter=detail.letter)
