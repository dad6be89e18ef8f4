"""The collection's plan as JSON: the fixed keys of ``plan``, and the shelf's own."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

    from growdesk.domain.measuring import Measured
    from growdesk.domain.water_ready import WaterNeed
    from growdesk.services.jug_values import JugFill, LadderJug
    from growdesk.services.values import Jug, MixPlan


def mix_report(mix: MixPlan) -> dict[str, object]:
    """Give the collection's plan under the same keys as that of a facts file."""
    return {
        "batches": [_batch(jug) for jug in mix.jugs],
        "ladder": [{"sentence": sentence} for sentence in mix.ladder],
        "outside_band": list(mix.outside_band),
        "volume_unknown": list(mix.volume_unknown),
        "clear_l": mix.clear_l,
        "flush_l": mix.flush_l,
        "tin": mix.tin,
        "water": mix.water,
        "waters": [_need(each) for each in mix.waters],
        "ladder_first": mix.ladder_first,
        "ladder_why": mix.ladder_why,
        "ladder_jugs": [_thinned(jug) for jug in mix.ladder_jugs],
        "remarks": list(mix.remarks),
        "short": list(mix.short),
    }


def _batch(jug: Jug) -> dict[str, object]:
    alone = jug.doses[0] if len(jug.doses) == 1 else None
    return {
        "letter": jug.letter,
        "strength_ppm_n": jug.strength_ppm_n,
        "volume_l": round(jug.volume_l, 6),
        "tags": list(jug.tags),
        "spare_l": jug.spare_l,
        "grams": None if alone is None else _rounded(alone.given_g),
        "millilitres": None if alone is None else _millilitres(alone),
        "recipe": jug.recipe or None,
        "water": jug.water or None,
        "gives_ppm_n": _rounded(jug.gives_ppm_n),
        "ec_ms_per_cm": _rounded(jug.ec_ms_per_cm),
        "ec_range_ms_per_cm": _range(jug),
        "warnings": list(jug.warnings),
        "doses": _doses(jug.doses),
        "fills": [_fill(each) for each in jug.fills],
        "over_l": jug.over_l,
        "mixing": list(jug.mixing),
    }


def _thinned(jug: LadderJug) -> dict[str, object]:
    ec = jug.ec
    ends = None if ec is None else (ec.low_ms_per_cm, ec.high_ms_per_cm)
    return {
        "letter": jug.letter,
        "gives_ppm_n": _rounded(jug.gives_ppm_n),
        "ec_range_ms_per_cm": None if ends is None else [round(e, 6) for e in ends],
    }


def _range(jug: Jug) -> list[float] | None:
    low, high = jug.ec_low_ms_per_cm, jug.ec_high_ms_per_cm
    return None if low is None or high is None else [round(low, 6), round(high, 6)]


def _need(need: WaterNeed) -> dict[str, object]:
    return {
        "kind": need.kind,
        "name": need.name or None,
        "jugs_l": round(need.jugs_l, 3),
        "clear_l": round(need.clear_l, 3),
        "flush_l": round(need.flush_l, 3),
        "spare_l": round(need.spare_l, 3),
    }


def _fill(fill: JugFill) -> dict[str, object]:
    return {
        "how_many": fill.how_many,
        "volume_l": fill.volume_l,
        "vessel": fill.vessel,
        "cans": fill.cans,
        "gives_ppm_n": _rounded(fill.gives_ppm_n),
        "doses": _doses(fill.doses),
    }


def _doses(doses: Iterable[Measured]) -> list[dict[str, object]]:
    return [
        {
            "product": dose.product.name,
            "grams": _rounded(dose.given_g),
            "amount": _rounded(dose.amount),
            "unit": dose.unit,
            "tool": None if dose.tool is None else dose.tool.name,
            "bottle": dose.bottle or None,
        }
        for dose in doses
    ]


def _millilitres(dose: Measured) -> float | None:
    return _rounded(dose.product.volume_ml(dose.given_g))


def _rounded(value: float | None) -> float | None:
    return None if value is None else round(value, 6)
