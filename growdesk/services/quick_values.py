"""What the quick mix takes in and hands out: the texts as typed, and the answer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from growdesk.domain.measuring import Measured
    from growdesk.domain.units import Target


class QuickLine(Struct, frozen=True):
    """One product as asked for.

    ``pick`` names one of the shelf (``tin:3``) or a single salt (``salt:KNO3``); where
    it is empty ``analysis`` and ``density`` are read from its label. ``amount`` is a
    strength, grams in a litre, or parts.
    """

    analysis: str = ""
    density: str = ""
    amount: str = ""
    pick: str = ""


class QuickAsk(Struct, frozen=True):
    """A question to the quick mix, as typed.

    ``volume`` is of finished feed. ``water_id`` is a water of the shelf; without one
    ``water_ec`` is all that is known of it. ``step`` is what the scale shows; without
    it the grower's own tools are taken. ``ratio`` asks for a concentrate too.
    """

    lines: tuple[QuickLine, ...]
    target: str
    volume: str
    water_id: int | None = None
    water_ec: str = ""
    step: str = ""
    ratio: str = ""


class Concentrate(Struct, frozen=True):
    """The same products made up to ``volume_l``; ``ml_per_l`` go into finished feed.

    ``refused`` says what would fall out of it and ``way_out`` what to do instead; it is
    to be made only where both are empty. ``notes`` are sentences to mind.
    """

    volume_l: float
    ml_per_l: float
    means: str
    refused: tuple[str, ...] = ()
    way_out: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()


class QuickMix(Struct, frozen=True):
    """The answer: what is measured, and what the finished feed then holds.

    ``gives_mg_per_l`` is what comes out of ``target``'s nutrient as measured.
    """

    doses: tuple[Measured, ...]
    volume_l: float
    target: Target | None
    gives_mg_per_l: float | None
    elements_mg_per_l: tuple[tuple[str, float], ...]
    oxides_mg_per_l: tuple[tuple[str, float], ...]
    nitrogen_forms_mg_per_l: tuple[tuple[str, float], ...]
    ec_ms_per_cm: float | None
    ec_low_ms_per_cm: float | None
    ec_high_ms_per_cm: float | None
    ec_why: str
    warnings: tuple[str, ...]
    understood: str
    notes: tuple[str, ...] = ()
    concentrate: Concentrate | None = None
