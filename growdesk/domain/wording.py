"""Words for judgements: reasons and steps become plain sentences only here."""

from __future__ import annotations

from datetime import date
from itertools import pairwise
from typing import TYPE_CHECKING

from growdesk.domain import templates
from growdesk.domain.day_words import day_text
from growdesk.domain.explain import Role, Told, ToldLine
from growdesk.domain.facts import Facing
from growdesk.domain.quantity_words import length_text, small_text, temperature_text
from growdesk.domain.speech import Phrases, fixed, tr, trimmed, trn

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from growdesk.domain.explain import Judgement, Reason, Step
    from growdesk.domain.leaf_light import Light

LEAST_TOLD = 0.005
WHOLE_MOL_FROM = 9.95
DAY_FIELDS = frozenset({"days", "interval", "settle_days", "read"})
SMALL_FIELDS = frozenset({"rate", "best", "before", "after"})
"""Lengths, and lengths a week, that are told in mm however long they are."""

MEASURED_AGAINST = (
    ("mean_c", "limit_c"),
    ("root_mm", "resume_mm"),
    ("root_mm", "rooted_mm"),
    ("ec", "limit"),
)
"""Measures told beside their limits, never as equal to one that they are not."""

MOST_DIGITS = 6

FACINGS: Phrases[Facing] = Phrases(
    {
        Facing.NORTH: "north",
        Facing.NORTH_EAST: "north-east",
        Facing.EAST: "east",
        Facing.SOUTH_EAST: "south-east",
        Facing.SOUTH: "south",
        Facing.SOUTH_WEST: "south-west",
        Facing.WEST: "west",
        Facing.NORTH_WEST: "north-west",
    },
    "window",
)
"""The way a window looks, as sentences name it."""


def number_text(value: float, digits: int = 1) -> str:
    """Give a number without needless zeros."""
    return trimmed(value, digits)


def ec_text(ec_ms_per_cm: float) -> str:
    """Give an estimated EC no finer than it is known; weak water needs two places."""
    return number_text(ec_ms_per_cm, 2 if ec_ms_per_cm < 0.1 else 1)


def days_text(days: int) -> str:
    """Give a number of days."""
    return trn("{days} day", "{days} days", days).format(days=days)


def share_text(share: float) -> str:
    """Give a share of full strength as a grower says it."""
    return templates.SHARES.get(round(share, 4)) or f"{fixed(share * 100, 0)} %"


def tell(judgement: Judgement) -> tuple[Told, ...]:
    """Give the reasons in words: the deciding one first, then the others."""
    told = []
    for reason in judgement.reasons:
        lines = reason_lines(reason, judgement.on)
        sentence = " ".join(line.text for line in lines)
        if reason.role is Role.DECIDES:
            sentence = f"{verdict_text(judgement)} {sentence}"
        told.append(Told(reason.rule, reason.role, sentence, lines))
    return tuple(dict.fromkeys(told))


def verdict_text(judgement: Judgement) -> str:
    """Give the verdict and how to water as a sentence."""
    return templates.VERDICTS[judgement.verdict.value, judgement.water.value]


def reason_text(reason: Reason, on: date) -> str:
    """Give one reason as a sentence or two."""
    return " ".join(line.text for line in reason_lines(reason, on))


def reason_lines(reason: Reason, on: date) -> tuple[ToldLine, ...]:
    """Give one reason an idea a line, each marked where it was not recorded."""
    shown = _shown(reason.values, on)
    is_open = reason.role is Role.UNKNOWN
    open_line = templates.NOT_RECORDED.get(reason.key)
    return tuple(
        ToldLine(line.format(**shown), is_open or number == open_line)
        for number, line in enumerate(templates.REASONS[reason.key].split("\n"))
    )


def short(judgement: Judgement) -> str:
    """Give the deciding reason in six words at most."""
    return templates.SHORT[judgement.reasons[0].key]


def strength_sentence(judgement: Judgement) -> str:
    """Give the strength with every step in one line, or nothing for a plant not fed."""
    if judgement.strength is None:
        return ""
    steps = "; ".join(
        templates.STEPS[step.key].format(**shown)
        for step, shown in steps_shown(judgement)
    )
    amount = number_text(judgement.strength.ppm_n)
    return tr(templates.STRENGTH).format(strength=amount, steps=steps)


def steps_shown(judgement: Judgement) -> Iterator[tuple[Step, dict[str, str]]]:
    """Give each step of the strength worth telling, with its values as texts."""
    if judgement.strength is None:
        return
    for before, step in pairwise((None, *judgement.strength.steps)):
        if step is not None and _worth_telling(before, step):
            yield step, _step_shown(step, judgement.on)


def light_sentence(light: Light | None, on: date, *, controlled: bool) -> str:
    """Give the light of a place in one sentence; without any, what stands in."""
    if controlled:
        return templates.LIGHT["season-controlled"]
    if light is None:
        return templates.LIGHT["season-light"]
    values = {"dli": light.mol_per_m2_d, **light.values}
    return templates.LIGHT[light.key].format(**_shown(values, on))


def _worth_telling(before: Step | None, step: Step) -> bool:
    """Tell whether a step moved the strength, or says why the season does not."""
    if step.key == "season-controlled" or before is None:
        return True
    if step.key.startswith("performance"):
        return True
    if step.key == "rounded":
        return round(before.strength_ppm_n) != round(step.strength_ppm_n)
    return step.factor is None or abs(step.factor - 1.0) >= LEAST_TOLD


def _step_shown(step: Step, on: date) -> dict[str, str]:
    shown = _shown(step.values, on)
    shown["strength"] = number_text(step.strength_ppm_n, 0)
    if step.factor is not None:
        shown["share"] = f"{fixed(step.factor * 100, 0)} %"
        shown["taken"] = share_text(step.factor)
    return shown


def _shown(values: Mapping[str, object], on: date) -> dict[str, str]:
    texts = {name: _value_text(name, value, on) for name, value in values.items()}
    for measure, limit in MEASURED_AGAINST:
        if measure in texts and texts[measure] == texts.get(limit):
            pair = {name: values[name] for name in (measure, limit)}
            texts.update(_told_apart(pair))
    return texts


def _told_apart(pair: Mapping[str, object]) -> Mapping[str, str]:
    """Give two measures in as many digits as tell them from each other."""
    numbers = {n: float(v) for n, v in pair.items() if isinstance(v, (int, float))}
    for digits in range(1, MOST_DIGITS):
        texts = {n: _measure_text(n, value, digits) for n, value in numbers.items()}
        if len(set(texts.values())) > 1:
            return texts
    return {}


def _value_text(name: str, value: object, on: date) -> str:
    if isinstance(value, date):
        return day_text(value, on)
    if name in DAY_FIELDS and isinstance(value, int):
        return days_text(value)
    if name == "share" and isinstance(value, float):
        return share_text(value)
    if name == "count" and isinstance(value, int):
        return trn("{count} feed", "{count} feeds", value).format(count=value)
    if isinstance(value, (int, float)):
        return _measure_text(name, float(value))
    return tr("a day not recorded") if value is None else _word(name, value)


def _word(name: str, value: object) -> str:
    if isinstance(value, Facing):
        return FACINGS[value]
    return tr(str(value)) if name == "kind" else str(value)


def _measure_text(name: str, value: float, digits: int = 1) -> str:
    if name in SMALL_FIELDS:
        return small_text(value, digits)
    if name.endswith("_mm"):
        return length_text(value, digits)
    if name.endswith("_c"):
        return temperature_text(value, digits)
    if name.endswith("dli"):
        return number_text(value, 1 if value < WHOLE_MOL_FROM else 0)
    if name.endswith("_ec"):
        return ec_text(value)
    fine = name in ("ec", "limit", "poured", "water")
    return number_text(value, digits + 1 if fine else digits)
