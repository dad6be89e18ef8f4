"""Sentences on what a recipe makes: what is missed and why, and forms of nitrogen."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from growdesk.domain.phrases import listed, one_of
from growdesk.domain.recipe_misses import Cause
from growdesk.domain.speech import Phrases, fixed, mark, tr, trn

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from growdesk.domain.recipe_misses import Miss

ELEMENT_WORDS: Final = Phrases(
    {
        "N": "nitrogen",
        "P": "phosphorus",
        "K": "potassium",
        "Ca": "calcium",
        "Mg": "magnesium",
    }
)
MUCH_AMMONIUM_SHARE: Final = 0.5
"""Above half as ammonium and urea, Phalaenopsis in bark or moss flowered less (Y.-T.
Wang, HortScience 43, 2008); Phalaenopsis grew best with 40 % as ammonium, Dendrobium
with 50 %, and more than 75 % for a year harmed both (trial in Brazil, 2018)."""

LEAST_SHOWN_MG_PER_L: Final = 0.05

_OFF: Final = Phrases(
    {
        True: "{element} comes to {got} mg/L, {off} mg/L more than the {wanted} "
        "wanted.",
        False: "{element} comes to {got} mg/L, {off} mg/L less than the {wanted} "
        "wanted.",
    }
)
"""By whether it is too much."""
_OFF_OF_NONE: Final = mark("{element} comes to {got} mg/L where none is wanted.")
_WHY: Final = Phrases(
    {
        Cause.NOT_BROUGHT: "No product of the recipe brings any.",
        Cause.HELD_BACK: "More of the product that brings it would bring too much "
        "else.",
        Cause.TIED: "Most of it comes with {product}.",
        Cause.WATER: "The water alone brings {water} mg/L; mix with a purer water.",
    }
)
_CURED: Final = mark("With {cure} as well, {elements} would come out as wanted.")
_NEARER: Final = mark("With {cure} as well, {elements}.")
_NEARER_EACH: Final = mark("{element} would be {left} mg/L off")
_LEFT_OUT: Final = mark("Nothing is taken of {names}.")
_MUCH_AMMONIUM: Final = mark(
    "{percent} % of the nitrogen is ammonium and urea. In trials moth orchids wanted at"
    " least half of it as nitrate, better three quarters; this is advice and holds"
    " nothing back."
)


def miss_sentences(found: Iterable[Miss]) -> tuple[str, ...]:
    """Say each miss with its reason, then what would help, salt by salt."""
    told = tuple(found)
    cures = dict.fromkeys(miss.cure for miss in told if miss.cure)
    return (
        *map(_miss, told),
        *(line for cure in cures for line in _cure(cure, told)),
    )


def left_out_sentence(names: Sequence[str]) -> tuple[str, ...]:
    """Say of which products nothing is taken."""
    return (tr(_LEFT_OUT).format(names=listed(names)),) if names else ()


def hardness_sentence(
    hardness_mg_per_l: float, most_mg_per_l: Mapping[str, float]
) -> str:
    """Say what a water known by its hardness may bring uncounted, by element."""
    metals = [ELEMENT_WORDS[element] for element in most_mg_per_l]
    most = [
        tr("up to {amount} mg/L {name}").format(amount=amount(mg), name=name)
        for name, mg in most_mg_per_l.items()
    ]
    form = trn(
        "The water's {metals} is not known, only its hardness of {hardness} mg/L, "
        "and not counted here: it may bring {most}. Look in its analysis.",
        "The water's {metals} are not known, only its hardness of {hardness} mg/L, "
        "and not counted here: it may bring {most}. Look in its analysis.",
        len(metals),
    )
    return form.format(
        metals=listed(metals),
        hardness=amount(hardness_mg_per_l),
        most=one_of(most),
    )


def nitrogen_advice(
    forms_mg_per_l: Mapping[str, float], nitrogen_mg_per_l: float
) -> str | None:
    """Say where trials with orchids speak against so much ammonium and urea.

    Advice alone: nothing is held back by it. None where the forms are not known.
    """
    share = reduced_share(forms_mg_per_l, nitrogen_mg_per_l)
    if share is None or share <= MUCH_AMMONIUM_SHARE:
        return None
    return tr(_MUCH_AMMONIUM).format(percent=round(100 * share))


def reduced_share(
    forms_mg_per_l: Mapping[str, float], nitrogen_mg_per_l: float
) -> float | None:
    """Give the share of ammonium and urea in the nitrogen, 0 to 1.

    None where the labels leave more than a twentieth of it untold.
    """
    told = sum(forms_mg_per_l.values())
    if nitrogen_mg_per_l <= 0 or told < 0.95 * nitrogen_mg_per_l:
        return None
    return (told - forms_mg_per_l.get("nitrate", 0.0)) / told


def amount(mg_per_l: float) -> str:
    """Give mg/L without sign: whole from ten on, else to a tenth."""
    size = abs(mg_per_l)
    if size < LEAST_SHOWN_MG_PER_L:
        return "0"
    return fixed(size, 0) if size >= 9.95 else fixed(size, 1)


def _miss(miss: Miss) -> str:
    form = _OFF[miss.off_mg_per_l > 0]
    if miss.wanted_mg_per_l <= 0:
        form = tr(_OFF_OF_NONE)
    return f"{form} {_WHY[miss.cause]}".format(
        element=ELEMENT_WORDS[miss.element].capitalize(),
        got=amount(miss.got_mg_per_l),
        off=amount(miss.off_mg_per_l),
        wanted=amount(miss.wanted_mg_per_l),
        product=miss.product,
        water=amount(miss.from_water_mg_per_l),
    )


def _cure(cure: str, told: Iterable[Miss]) -> Iterator[str]:
    """Say what a salt would bring as wanted, and what only nearer."""
    cured = [miss for miss in told if miss.cure == cure]
    met = [m for m in cured if m.cured_mg_per_l < LEAST_SHOWN_MG_PER_L]
    if met:
        names = [ELEMENT_WORDS[miss.element] for miss in met]
        yield tr(_CURED).format(cure=cure, elements=listed(names))
    nearer = [
        tr(_NEARER_EACH).format(
            element=ELEMENT_WORDS[miss.element], left=amount(miss.cured_mg_per_l)
        )
        for miss in cured
        if miss not in met
    ]
    if nearer:
        yield tr(_NEARER).format(cure=cure, elements=listed(nearer))
