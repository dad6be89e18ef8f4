"""The salts of a pot in words: where it may stand, by what, and what washes it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain import salt_standing, templates
from growdesk.domain.day_words import day_text
from growdesk.domain.facts import Medium, Verdict
from growdesk.domain.rules import potting
from growdesk.domain.salt_course import GENTLE, HARSH, Start, mixing_range, usual_ppm_n
from growdesk.domain.speech import fixed
from growdesk.domain.volume_words import volume_text
from growdesk.domain.wording import ec_text, number_text

if TYPE_CHECKING:
    from collections.abc import Iterator

    from growdesk.domain.case import Case
    from growdesk.domain.explain import Judgement
    from growdesk.domain.salt_standing import Standing

BUILDING_UP = 0.75
"""From this share of the kind's limit on, the range is told without being asked for."""
_TOLD = frozenset({"salts-may-stand", "salts-stand-too", "salts-over-kind"})


def salt_lines(
    case: Case, judgement: Judgement, pour_l: float | None
) -> tuple[str, ...]:
    """Give a few sentences on a pot's salts; none where there is nothing to say.

    The range is left out where a reason of the judgement tells it. ``pour_l`` is what
    the verdict pours, in litres.
    """
    stands = salt_standing.standing(case)
    if stands is None or not _worth_telling(case, stands, judgement):
        return ()
    told = _lines(case, stands, judgement, pour_l)
    return tuple(line for some in told for line in some.split("\n"))


def assumed_line(case: Case, judgement: Judgement, lines: tuple[str, ...]) -> str:
    """Give what the estimate takes for granted, where lines or a reason tell it."""
    stands = salt_standing.standing(case)
    if stands is None or not (lines or _told(judgement)):
        return ""
    return "\n".join(_assumed(case, stands))


def _told(judgement: Judgement) -> bool:
    return any(reason.key in _TOLD for reason in judgement.reasons)


def _worth_telling(case: Case, stands: Standing, judgement: Judgement) -> bool:
    """Say whether the runoff was read, a flush is due or the salts are building up."""
    limit = case.kind.pot_ec_limit_ms_per_cm
    return (
        stands.read_ms_per_cm is not None
        or judgement.verdict is Verdict.FLUSH
        or stands.high >= limit * BUILDING_UP
        or case.house.water_ec_ms_per_cm >= limit
    )


def _lines(
    case: Case, stands: Standing, judgement: Judgement, pour_l: float | None
) -> Iterator[str]:
    limit = case.kind.pot_ec_limit_ms_per_cm
    water_ec = case.house.water_ec_ms_per_cm
    if not _told(judgement):
        just_read = stands.start is Start.READING and not stands.waterings
        key = "since-reading-dry" if just_read else f"since-{stands.start.value}"
        yield templates.SALTS[key].format(
            since=day_text(stands.since, case.on),
            ec=number_text(stands.read_ms_per_cm or 0.0, 2),
            low_ec=ec_text(stands.low),
            high_ec=ec_text(stands.high),
            limit=number_text(limit, 2),
        )
    if judgement.reasons[0].key == potting.WATER_TOO_SALTY:
        return
    if water_ec >= limit:
        yield templates.SALTS["water-too-salty"].format(
            water_ec=number_text(water_ec, 2), limit=number_text(limit, 2)
        )
    elif judgement.verdict is Verdict.FLUSH and pour_l is not None:
        after = salt_standing.after_flush(case, pour_l)
        if after is not None:
            yield templates.SALTS["flush-brings"].format(
                litres=volume_text(pour_l), after=ec_text(after)
            )


def _assumed(case: Case, stands: Standing) -> Iterator[str]:
    low, high = mixing_range(case.plant.medium or Medium.BARK)
    yield templates.SALTS["assumes"].format(
        held=volume_text(stands.held_l),
        dry_low=number_text(GENTLE["drying"] * 100),
        dry_high=number_text(HARSH["drying"] * 100),
        mix_low=f"{fixed(low * 100, 0)}",
        mix_high=f"{fixed(high * 100, 0)}",
        water_ec=number_text(case.house.water_ec_ms_per_cm, 2),
    )
    strength = usual_ppm_n(case.plant, case.house)
    for key in stands.assumptions:
        yield templates.SALTS[key].format(strength=number_text(strength, 0))
