"""Say a tin's analysis and a salt in words, beside the fields of its form."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.analysis import FORM_WORDS, parse_analysis
from growdesk.domain.speech import mark, tr
from growdesk.ui import words

if TYPE_CHECKING:
    from growdesk.domain.salt_table import Salt

HELP = mark(
    "N-P2O5-K2O in per cent by weight; more may follow, as “15-5-15 + 5 Ca + 2 Mg”, "
    "and the forms of its nitrogen, as “+ 11.8 nitrate-N + 1.1 ammonium-N + 2 urea-N”: "
    "they are part of the first number. Without a density the tin is dry; with one it "
    "is measured in mL."
)


def salt_text(salt: Salt) -> str:
    """Give a salt as a choice: its usual name, another one, and its formula."""
    other = f" ({salt.called[1]})" if len(salt.called) > 1 else ""
    return f"{salt.name}{other}, {salt.formula}"


def salt_note(salt: Salt) -> str:
    """Say what a salt is for, what labels print, and what to mind."""
    parts = [
        tr("For {use}. Labels print about {label}.").format(
            use=tr(salt.use), label=salt.label
        ),
        tr(salt.caution),
    ]
    return " ".join(part for part in parts if part)


def read_as(text: str, density_g_per_ml: float | None) -> str:
    """Say what was understood of an analysis; raises ``InputError`` on a slip."""
    if not text.strip():
        return ""
    analysis = parse_analysis(text, density_g_per_ml)
    held = [
        f"{words.number(percent)} % {element}"
        for element, percent in analysis.elements_percent().items()
    ]
    forms = [
        f"{words.number(percent)} % {FORM_WORDS[form]}"
        for form, percent in analysis.nitrogen_forms_percent().items()
    ]
    said = tr("As elements: {list}.").format(list=", ".join(held))
    return (
        tr("{said} Of the nitrogen {list}.").format(said=said, list=", ".join(forms))
        if forms
        else said
    )
