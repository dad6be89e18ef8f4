"""Give what is mixed in words, the same on the screen and on the sheet.

A jug is told by all that goes into it, its spare included, since that is what its
grams are for. The ladder is told as another way to mix the same jugs, never as a
second dose. Knows no widget, no paper and no arithmetic beyond a sum.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain import measure_words
from growdesk.domain.measuring import GRAMS, SPOONS
from growdesk.domain.volume_words import volume_text

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from growdesk.domain.measuring import Measured
    from growdesk.services.values import Jug, MixPlan

_WATERS: Mapping[str, str] = {
    "rain": "rain water",
    "tap": "tap water",
    "ro": "RO water",
}
NO_FEED = "No feed to mix this round."
CLEAR_SPARE = "and a little to spare"
_LADDER = "Or mix once and dilute down, jug by jug"
_ONE_STEP = "Step by step"
_INSTEAD = "This is instead of the weights above, never on top of them."


def grams(mass_g: float) -> str:
    """Give a mass as a kitchen or pocket scale shows it."""
    return f"{mass_g:.2f} g" if mass_g < 10 else f"{mass_g:.1f} g"


def mixed_l(jug: Jug) -> float:
    """Give the litres that are mixed in a jug: what is poured, and its spare."""
    return jug.volume_l + jug.spare_l


def volume(jug: Jug) -> str:
    """Say how much is mixed in a jug, or that nobody knows."""
    return volume_text(mixed_l(jug)) if mixed_l(jug) > 0 else "litres not known"


def spare(jug: Jug) -> str:
    """Say how much of a jug is to spare, or nothing."""
    return f"{volume_text(jug.spare_l)} of it to spare" if jug.spare_l else ""


def water_name(mix: MixPlan) -> str:
    """Give the water in use as it is spoken of, or that it is whatever is at hand."""
    if mix.water is None:
        return "your water"
    return _WATERS.get(mix.water.strip().casefold(), mix.water)


def amount(dose: Measured) -> str:
    """Give a dose as its tool shows it: "1.88 g", "3.5 mL", "2 level spoons (6 g)"."""
    if dose.tool is None:
        return grams(dose.amount) if dose.unit == GRAMS else f"{dose.amount:.1f} mL"
    told = measure_words.amount_text(dose)
    return f"{told} ({grams(dose.given_g)})" if dose.unit == SPOONS else told


def dose(given: Measured) -> str:
    """Give a dose with its product."""
    return f"{amount(given)} ({given.taken_from})"


def missing(jug: Jug, mix: MixPlan) -> str:
    """Say why nothing can be weighed for a jug; nothing where it can."""
    if mixed_l(jug) <= 0:
        return "No plant of this jug has its volume on record, so no weight."
    if jug.doses:
        return ""
    into = into_words(jug, mix)
    name = jug.recipe or mix.tin
    if name is None:
        return f"Into {into}: no tin is in use, so no weight."
    return f"Into {into}: {name} gives no weight."


def weigh(jug: Jug, mix: MixPlan) -> str:
    """Say what goes into a jug, or what is missing to say it."""
    doses = ", ".join(dose(each) for each in jug.doses)
    return missing(jug, mix) or f"{verb(jug.doses)} {doses} into {into_words(jug, mix)}"


def verb(doses: Sequence[Measured]) -> str:
    """Give the word for how these are measured."""
    units = {each.unit for each in doses}
    if units == {GRAMS}:
        return "Weigh"
    return "Take" if GRAMS in units else "Measure"


def has_weight(jug: Jug) -> bool:
    """Tell whether a jug's doses are known."""
    return bool(jug.doses)


def into_words(jug: Jug, mix: MixPlan) -> str:
    """Say into how much of which water the dose of a jug goes."""
    return f"{volume_text(mixed_l(jug))} of {water_name(mix)}"


def gives(jug: Jug) -> str:
    """Say which strength comes out, where that is another than is wanted."""
    given, wanted = jug.gives_ppm_n, jug.strength_ppm_n
    if given is None or round(given) == wanted:
        return ""
    told = measure_words.gives(given, wanted)
    return f"{told[0].upper()}{told[1:]}."


def expected(jug: Jug) -> str:
    """Give the EC to expect: one figure where it is known, and the range around it."""
    return ec_text(jug.ec_ms_per_cm, jug.ec_low_ms_per_cm, jug.ec_high_ms_per_cm)


def ec_text(known: float | None, low: float | None, high: float | None) -> str:
    """Give an EC in mS/cm: a figure, a figure with its range, or a range."""
    if low is None or high is None:
        return "" if known is None else f"{known:.2f}"
    if f"{low:.2f}" == f"{high:.2f}":
        return f"{low:.2f}"
    ends = f"{low:.2f} to {high:.2f}"
    return ends if known is None else f"{known:.2f} ({ends})"


def meter(jug: Jug) -> str:
    """Say what a meter should read, or nothing where nobody knows."""
    told = expected(jug)
    return f"A meter should read {told} mS/cm." if told else ""


def spoken(jug: Jug, mix: MixPlan) -> str:
    """Give a jug as a screen reader should say it, a sentence for each thing."""
    parts = [
        f"Jug {jug.letter}, {jug.strength_ppm_n} ppm N, {volume(jug)}",
        weigh(jug, mix),
        gives(jug),
        spare(jug),
        meter(jug),
        *jug.warnings,
        served(jug),
    ]
    return " ".join(f"{part.rstrip('.')}." for part in parts if part)


def served(jug: Jug) -> str:
    """Name the plants of a jug."""
    return f"For {', '.join(jug.tags)}."


def ladder_heading(mix: MixPlan) -> str:
    """Say what the steps of the ladder are: another way to mix the same jugs."""
    return _LADDER if len(mix.jugs) > 1 else _ONE_STEP


def ladder_caution(mix: MixPlan) -> str:
    """Say that the steps take the place of the weights, where there are weights."""
    weighed = any(has_weight(jug) for jug in mix.jugs)
    return _INSTEAD if weighed and len(mix.jugs) > 1 else ""


def clear_total_l(mix: MixPlan) -> float:
    """Give the litres of clear water to have ready, without the spare."""
    return mix.clear_l + mix.flush_l


def clear_shares(mix: MixPlan) -> str:
    """Say what the clear water is for."""
    shares = []
    if mix.clear_l:
        shares.append(f"{volume_text(mix.clear_l)} for clear water")
    if mix.flush_l:
        shares.append(f"{volume_text(mix.flush_l)} for flushing")
    return ", ".join(shares) + "." if shares else ""


def outside_band(mix: MixPlan) -> str:
    """Name the plants whose jug is further from their strength than the band."""
    if not mix.outside_band:
        return ""
    tags = ", ".join(mix.outside_band)
    return f"Weaker or stronger than the band allows: {tags}."


def one_more(mix: MixPlan) -> str:
    """Say what one jug more would do for the plants outside their band."""
    more = mix.one_more
    if more is None:
        return ""
    count, strengths = len(more.strengths_ppm_n), _listed(more.strengths_ppm_n)
    would = f"One jug more, {count} in all, of {strengths} ppm N"
    left = len(more.outside_band)
    if not left:
        return f"{would}, would serve every plant within its band."
    now = len(mix.outside_band)
    all_of = f"within its band every plant is served by {more.fewest} jugs"
    if left >= now:
        return f"{would}, would leave as many outside; {all_of}."
    return f"{would}, would leave {left} of these {now} outside; {all_of}."


def _listed(strengths_ppm_n: Sequence[int]) -> str:
    parts = [str(each) for each in strengths_ppm_n]
    return f"{', '.join(parts[:-1])} and {parts[-1]}" if len(parts) > 1 else parts[0]


def volume_unknown(mix: MixPlan) -> str:
    """Name the plants that are not in the litres."""
    if not mix.volume_unknown:
        return ""
    return f"Not in the litres above, no volume known: {', '.join(mix.volume_unknown)}."
