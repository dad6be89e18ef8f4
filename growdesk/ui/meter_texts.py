"""Say jugs and meter readings in short texts for choices and tables."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.meter import TDS_SCALES, Standing
from growdesk.domain.meter_words import tds_text
from growdesk.domain.quantity_words import temperature_text
from growdesk.domain.speech import Lines, Phrases, fixed, tr
from growdesk.ui import dose_words, words

if TYPE_CHECKING:
    from growdesk.services.meter_values import (
        JugToRead,
        MeterAnswer,
        MeterDraft,
        MeterView,
    )

COLUMNS = Lines("Day", "Jug", "Read", "At 25 °C", "Should read", "Result", "Note")
_WAYS = Phrases({None: "", True: "diluted down", False: "dosed alone"})
_STANDINGS = Phrases(
    {
        Standing.IN_BAND: "right",
        Standing.BELOW: "{off} too low",
        Standing.ABOVE: "{off} too high",
    }
)


def jug_text(jug: JugToRead) -> str:
    """Give a jug by its letter, strength and what it is made of."""
    litres = words.volume(jug.volume_l) if jug.volume_l > 0 else ""
    strength = words.strength(jug.strength_ppm_n)
    parts = (strength, litres, jug.recipe, _WAYS[jug.is_diluted])
    return f"{jug.letter}: {', '.join(filter(None, parts))}"


def expected_text(jug: JugToRead) -> str:
    """Say what a jug should read, and from what that is known."""
    expected = jug.expected
    if expected is None:
        return tr("What this jug should read is not known.")
    told = dose_words.ec_text(
        expected.ec_ms_per_cm, expected.low_ms_per_cm, expected.high_ms_per_cm
    )
    return (
        tr("It should read {told} mS/cm. {why}")
        .format(told=told, why=expected.why)
        .rstrip()
    )


def checks_text(answer: MeterAnswer) -> str:
    """Give what to check, one under the other in its order."""
    if not answer.checks:
        return ""
    each = [f"{number}. {text}" for number, text in enumerate(answer.checks, 1)]
    return "\n".join([tr("Check in this order:"), *each])


def scales_text(answer: MeterAnswer) -> str:
    """Say what a meter would show that tells ppm instead of EC."""
    if answer.compared is None or answer.compared.ec_ms_per_cm <= 0:
        return ""
    shown = tds_text(answer.compared.ec_ms_per_cm, TDS_SCALES)
    return tr("On a meter's ppm scales: {shown}.").format(shown=shown)


def reading_texts(view: MeterView) -> tuple[str, ...]:
    """Give one reading as the cells of the table."""
    draft = view.draft
    read = fixed(draft.read_ms_per_cm, 2)
    if draft.temperature_c is not None:
        warm = temperature_text(draft.temperature_c)
        read = tr("{read} at {warm}").format(read=read, warm=warm)
    return (
        words.short_day(draft.on),
        f"{draft.letter}, {words.strength(draft.strength_ppm_n)}",
        read,
        f"{fixed(view.ec_ms_per_cm, 2)}",
        _band(draft),
        standing_text(view),
        draft.note,
    )


def standing_text(view: MeterView) -> str:
    """Say whether a kept reading was right; nothing where nothing was expected."""
    if view.standing is None:
        return ""
    return _STANDINGS[view.standing].format(off=f"{fixed(view.off_ms_per_cm, 2)}")


def _band(draft: MeterDraft) -> str:
    low, high = draft.expected_low_ms_per_cm, draft.expected_high_ms_per_cm
    return (
        ""
        if low is None or high is None
        else tr("{low} to {high}").format(low=fixed(low, 2), high=fixed(high, 2))
    )
