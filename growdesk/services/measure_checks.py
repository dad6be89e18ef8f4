"""What can be meant of a measure or a vessel; each slip names its field and way out."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final, TypeVar

from msgspec.structs import replace

from growdesk.domain.errors import InputError
from growdesk.domain.facts_fields import Range, words_joined
from growdesk.domain.measuring import ToolKind
from growdesk.domain.speech import Phrases, plain, tr
from growdesk.domain.vessels import VesselKind
from growdesk.services import checking

if TYPE_CHECKING:
    from collections.abc import Mapping

    from growdesk.domain.measuring import Tool
    from growdesk.domain.vessels import Vessel

_Kind = TypeVar("_Kind", ToolKind, VesselKind)

_STEPS: Final[Mapping[ToolKind, Range]] = {
    ToolKind.SCALE: Range(0.0001, 100),
    ToolKind.SPOON: Range(0.1, 1),
    ToolKind.SYRINGE: Range(0.001, 50),
    ToolKind.CYLINDER: Range(0.01, 1000),
}
_MOST: Final[Mapping[ToolKind, Range]] = {
    ToolKind.SCALE: Range(0.01, 200_000),
    ToolKind.SYRINGE: Range(0.01, 1000),
    ToolKind.CYLINDER: Range(0.1, 20_000),
}
_G_PER_LEVEL: Final = Range(0.05, 500)
_VOLUME_L: Final = Range(0.01, 1000)
_STEP_ML: Final = Range(0.1, 50_000)
_HOW_MANY: Final = Range(1, 99)
_STEP_WAY_OUT: Final = Phrases(
    {
        ToolKind.SCALE: "Write the least it shows, say 0.1 g.",
        ToolKind.SPOON: "Say whether it is filled whole, half or by quarters.",
        ToolKind.SYRINGE: "Write its finest mark, say 0.5 mL.",
        ToolKind.CYLINDER: "Write its finest mark, say 1 mL.",
    }
)


def checked_tool(tool: Tool) -> Tool:
    """Give a tool as it is kept."""
    kind = _word("kind", tool.kind, ToolKind)
    step = _needed("step", tool.step, _STEPS[kind], _STEP_WAY_OUT[kind])
    return replace(
        tool,
        kind=kind,
        name=_checked_name(tool.name),
        step=step,
        most=_checked_most(kind, step, tool.most),
        g_per_level=_checked_weights(kind, tool.g_per_level),
    )


def _checked_most(kind: ToolKind, step: float, most: float | None) -> float | None:
    if kind is ToolKind.SPOON:
        if most is not None:
            hint = tr("A spoon holds one level spoon; leave this empty.")
            raise InputError("most", most, tr("is not asked of a spoon"), hint)
        return None
    if most is None and kind is ToolKind.SCALE:
        return None
    kept = _needed("most", most, _MOST[kind], tr("Write what it holds, say 10 mL."))
    if kept < step:
        hint = tr("Give at least {step}, or a finer least it shows.").format(
            step=plain(step)
        )
        raise InputError("most", kept, tr("is less than the least it shows"), hint)
    return kept


def _checked_weights(
    kind: ToolKind, weights: tuple[tuple[int, float], ...]
) -> tuple[tuple[int, float], ...]:
    if weights and kind is not ToolKind.SPOON:
        hint = tr("Only a spoon is weighed with a product; leave this out.")
        raise InputError("g_per_level", len(weights), tr("weights are given"), hint)
    kept: dict[int, float] = {}
    for tin_id, grams in weights:
        hint = tr("Weigh ten level spoons and divide by ten.")
        kept[tin_id] = _needed("g_per_level", grams, _G_PER_LEVEL, hint)
    return tuple(kept.items())


def checked_vessel(vessel: Vessel) -> Vessel:
    """Give a vessel as it is kept."""
    kind = _word("kind", vessel.kind, VesselKind)
    hint = tr("Write what it holds, say 2 L.")
    volume_l = _needed("volume_l", vessel.volume_l, _VOLUME_L, hint)
    step_ml = checking.number("step_ml", vessel.step_ml, _STEP_ML)
    if step_ml is not None and step_ml > volume_l * 1000:
        hint = tr("Give its finest mark, or leave it empty where it has none.")
        raise InputError("step_ml", step_ml, tr("is more than it holds, in mL"), hint)
    return replace(
        vessel,
        kind=kind,
        name=_checked_name(vessel.name),
        volume_l=volume_l,
        how_many=checking.whole("how_many", vessel.how_many, _HOW_MANY) or 1,
        step_ml=step_ml,
    )


def _checked_name(name: str) -> str:
    hint = tr("Give it a name you tell it apart by, say pocket scale.")
    return checking.needed_text("name", name, hint, checking.NAME)


def _needed(field: str, value: float | None, allowed: Range, hint: str) -> float:
    kept = checking.number(field, value, allowed)
    if kept is None:
        raise InputError(field, "", tr("is empty"), hint)
    return kept


def _word(field: str, value: str, kinds: type[_Kind]) -> _Kind:
    try:
        return kinds(value)
    except ValueError:
        hint = tr("Say {words_joined}.").format(
            words_joined=words_joined([kind.value for kind in kinds])
        )
        raise InputError(field, value, tr("is no such thing"), hint) from None
