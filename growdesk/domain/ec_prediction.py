"""The EC of single salts in a litre of water, as ``growdesk ec`` tells it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct, field

from growdesk.domain.conductivity import (
    STRONGEST_MOL_PER_L,
    at_temperature,
    conductivity_ms_per_cm,
    ionic_strength_mol_per_l,
)
from growdesk.domain.speech import tr
from growdesk.domain.water_ions import water_ions

if TYPE_CHECKING:
    from collections.abc import Mapping

    from growdesk.domain.salts import SaltsInWater


class Prediction(Struct, frozen=True):
    """The EC to expect at 25 °C and at the solution's own temperature.

    ``ions_mmol_per_l`` is what the salts bring, pairs counted as their ions, and
    ``water_ions_mmol_per_l`` what stands for the water where any of its ions are told.
    ``notes`` are whole sentences.
    """

    ec_ms_per_cm: float
    ec_at_temperature_ms_per_cm: float
    temperature_c: float
    ions_mmol_per_l: Mapping[str, float]
    notes: tuple[str, ...] = ()
    water_ions_mmol_per_l: Mapping[str, float] = field(default_factory=dict)


def predict(mix: SaltsInWater) -> Prediction:
    """Give the EC of the salts in their water.

    Ions told of the water are reckoned together with the salts'; an EC alone is added.
    """
    ions = mix.ions_mol_per_l()
    of_water = {} if mix.water is None else dict(water_ions(mix.water).mol_per_l)
    together = {
        ion: ions.get(ion, 0.0) + of_water.get(ion, 0.0) for ion in {**ions, **of_water}
    }
    ec = conductivity_ms_per_cm(together)
    if mix.water is None:
        ec += mix.water_ec_ms_per_cm
    notes: list[str] = []
    if ionic_strength_mol_per_l(together) > STRONGEST_MOL_PER_L:
        notes.append(
            tr(
                "This is stronger than the method is meant for; the true EC may differ "
                "by more than a tenth."
            )
        )
    return Prediction(
        ec_ms_per_cm=ec,
        ec_at_temperature_ms_per_cm=at_temperature(ec, mix.temperature_c),
        temperature_c=mix.temperature_c,
        ions_mmol_per_l={ion: 1000 * moles for ion, moles in ions.items()},
        notes=tuple(notes),
        water_ions_mmol_per_l={ion: 1000 * moles for ion, moles in of_water.items()},
    )


def ec_report(predicted: Prediction) -> dict[str, object]:
    """Give the prediction under the fixed keys of ``growdesk ec --json``.

    The water's ions are a key of their own, there where they were told.
    """
    report: dict[str, object] = {
        "ec_ms_per_cm": round(predicted.ec_ms_per_cm, 4),
        "ec_at_temperature_ms_per_cm": round(predicted.ec_at_temperature_ms_per_cm, 4),
        "temperature_c": predicted.temperature_c,
        "ions_mmol_per_l": _rounded(predicted.ions_mmol_per_l),
        "notes": list(predicted.notes),
    }
    if predicted.water_ions_mmol_per_l:
        report["water_ions_mmol_per_l"] = _rounded(predicted.water_ions_mmol_per_l)
    return report


def _rounded(ions_mmol_per_l: Mapping[str, float]) -> dict[str, float]:
    return {ion: round(amount, 6) for ion, amount in ions_mmol_per_l.items()}
