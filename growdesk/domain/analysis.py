"""What a fertilizer's label guarantees, in per cent by weight.

Labels print N, then phosphorus as P2O5, then potassium as K2O, then the rest as they
please. The printed names are kept; the elements behind them come from the chemistry.
Water, doses and prices are not known here.
"""

from __future__ import annotations

import math
import re
from typing import Final

from msgspec import Struct

from growdesk.domain.chemistry import (
    as_element,
    canonical_nutrient,
    element_factor,
    mass_fraction,
)
from growdesk.domain.errors import InputError
from growdesk.domain.label_slips import (
    LABEL_NUMBER,
    begins_nameless,
    is_two_numbers,
    told_once,
)
from growdesk.domain.speech import Phrases, mark, plain, tr

_WAY_OUT: Final = mark(
    'Write it as the label does, for instance "20-20-20" or "15-5-15 + 7 CaO + 3 MgO".'
)
_LONGEST: Final = 160
MOST_N_PERCENT: Final = 47.0
"""Urea holds 46.6 %; no feed for plants in pots holds more."""
_HEAD: Final = re.compile(
    rf"(?:n-?p-?k\s*:?\s*)?({LABEL_NUMBER})\s*([-:/+])\s*({LABEL_NUMBER})\s*\2\s*({LABEL_NUMBER})"
    r"(?![0-9])(?P<rest>.*)",
    re.IGNORECASE,
)
_REST: Final = re.compile(
    rf"(?P<skip>[\s+;,%()&]+|(?:and|of|und|davon|TE|ME)\b)|(?P<num>{LABEL_NUMBER})(?![0-9])"
    r"|(?P<form>(?:NO3|NH4|NH2|urea|nitrate?|ammonium|ammoniacal|harnstoff|carbamid)[\s-]?N\b"
    r"|N[\s-](?:NO3|NH4|NH2)\b|nitrate?\b|ammonium\b|urea\b|harnstoff\b|carbamid\b)"
    r"|(?P<name>[A-Za-z][A-Za-z0-9]*)",
    re.IGNORECASE,
)
_DASHES: Final = str.maketrans(dict.fromkeys("‐‑‒–—−", "-"))
_OXYGEN_OF_CHLORIDE: Final = mass_fraction("OCl2", "O") / mass_fraction("OCl2", "Cl")
"""Oxygen counted in K2O and the like that a chloride does not hold: KCl tells 110 %."""

_FORM_FIELDS: Final = {
    **dict.fromkeys(("no3", "nit"), 0),
    **dict.fromkeys(("nh4", "amm"), 1),
    **dict.fromkeys(("nh2", "ure", "har", "car"), 2),
}

FORM_WORDS: Final = Phrases(
    {"nitrate": "nitrate", "ammonium": "ammonium", "urea": "urea"}
)
"""The forms of nitrogen as they are said."""


class Analysis(Struct, frozen=True):
    """A guaranteed analysis, % by weight; a density makes the product a liquid.

    ``others`` holds name and per cent as printed, element or oxide. A share of nitrogen
    that the label does not tell is None, which is not the same as none of it.
    """

    n_percent: float
    p2o5_percent: float
    k2o_percent: float
    others: tuple[tuple[str, float], ...] = ()
    nitrate_n_percent: float | None = None
    ammonium_n_percent: float | None = None
    urea_n_percent: float | None = None
    density_g_per_ml: float | None = None

    def __post_init__(self) -> None:
        _check_numbers(self)
        _check_names(self)
        _check_forms(self)

    @property
    def is_liquid(self) -> bool:
        """Tell whether the product is measured in millilitres."""
        return self.density_g_per_ml is not None

    def printed(self) -> tuple[tuple[str, float], ...]:
        """Give each guaranteed name with its per cent, N, P2O5 and K2O first."""
        first = (
            ("N", self.n_percent),
            ("P2O5", self.p2o5_percent),
            ("K2O", self.k2o_percent),
        )
        return (*first, *self.others)

    def elements_percent(self) -> dict[str, float]:
        """Give the per cent by weight of each element the product holds."""
        found: dict[str, float] = {}
        for name, percent in self.printed():
            element, amount = as_element(name, percent)
            if amount > 0:
                found[element] = amount
        return found

    def nitrogen_forms_percent(self) -> dict[str, float]:
        """Give the shares of nitrogen the label tells: nitrate, ammonium, urea."""
        forms = {
            "nitrate": self.nitrate_n_percent,
            "ammonium": self.ammonium_n_percent,
            "urea": self.urea_n_percent,
        }
        return {form: percent for form, percent in forms.items() if percent is not None}

    def percent_of(self, nutrient: str) -> float | None:
        """Give the per cent told as this element or oxide; None if not on the label.

        ``NO3`` and ``NH4`` ask for that form of the nitrogen, as the ion.
        """
        element, factor = element_factor(nutrient)
        if nutrient == "NO3":
            amount = self.nitrate_n_percent
        elif nutrient == "NH4":
            amount = self.ammonium_n_percent
        else:
            amount = self.elements_percent().get(element)
        return amount / factor if amount else None

    def label(self) -> str:
        """Give the analysis as one line, as a label would print it."""
        head = "-".join(f"{percent:g}" for _, percent in self.printed()[:3])
        rest = (f"{percent:g} {name}" for name, percent in self.others)
        return " + ".join((head, *rest))


def parse_analysis(
    text: str, density_g_per_ml: float | None = None, field: str = "analysis"
) -> Analysis:
    """Give the analysis that a person typed from a label.

    Understood: "20-20-20", "20+20+20", "13-3-15 + 8 Ca + 2 Mg", "15.5-0-0 Ca 19",
    "15-5-15 CaO 7 MgO 3", "N 15.5 Ca 19", an oxide with its element behind it,
    nitrogen as "nitrate-N 11.8"; decimal commas, long dashes.
    """
    clean = " ".join(text[: _LONGEST + 1].translate(_DASHES).split())
    if not clean or len(clean) > _LONGEST:
        raise _unread(text, field, tr("cannot be read as an analysis"))
    head = _HEAD.fullmatch(clean)
    if head is None and is_two_numbers(clean):
        problem = tr("tells two of the three numbers of a label")
        hint = tr('Labels print N, P2O5 and K2O, 0 for none, for instance "13-0-46".')
        raise InputError(field, _cut(text), problem, hint)
    rest = head["rest"] if head else clean
    _refuse_signs(rest, text, field, after_head=head is not None)
    named, forms = _pairs(rest, text, field)
    if head:
        named = [
            ("N", _percent(head[1])),
            ("P2O5", _percent(head[3])),
            ("K2O", _percent(head[4])),
            *named,
        ]
    if not named:
        raise _unread(text, field, tr("names no nutrient"))
    return _built(named, forms, density_g_per_ml, (text, field))


def _refuse_signs(rest: str, text: str, field: str, *, after_head: bool) -> None:
    if after_head and begins_nameless(rest):
        raise InputError(
            field,
            _cut(text),
            tr("has a fourth number without a name"),
            tr('Name it, for instance "15-5-15 + 2 MgO".'),
        )
    if re.search(r"(?:^|[\s(+-])-\s*[0-9]", rest):
        raise _unread(text, field, tr("has a number below nothing"))


def _pairs(
    rest: str, text: str, field: str
) -> tuple[list[tuple[str, float]], list[float | None]]:
    """Give name and per cent in turn, whichever of the two the label prints first."""
    tokens = _tokens(rest, text, field)
    if len(tokens) % 2:
        raise _unread(text, field, tr("cannot be read as an analysis"))
    named: list[tuple[str, float]] = []
    forms: list[float | None] = [None, None, None]
    for first, second in zip(tokens[::2], tokens[1::2], strict=True):
        number, name = (second, first) if second[0] == "num" else (first, second)
        if number[0] != "num" or name[0] == "num":
            raise _unread(text, field, tr("does not give each name one number"))
        percent = _percent(number[1])
        if name[0] == "form":
            forms[_form_index(name[1])] = percent
        else:
            named.append((_nutrient(name[1], text, field), percent))
    return named, forms


def _tokens(rest: str, text: str, field: str) -> list[tuple[str, str]]:
    tokens: list[tuple[str, str]] = []
    at = 0
    while at < len(rest):
        found = _REST.match(rest, at)
        if found is None:
            raise _unread(text, field, tr("cannot be read as an analysis"))
        at = found.end()
        if found.lastgroup and found.lastgroup != "skip":
            tokens.append((found.lastgroup, found[0]))
    return tokens


def _form_index(name: str) -> int:
    bare = name.lower().removeprefix("n").lstrip(" -") if name[1:2] in " -" else name
    return _FORM_FIELDS[bare.lower()[:3]]


def _nutrient(name: str, text: str, field: str) -> str:
    known = canonical_nutrient(name)
    if known is None:
        raise _unread(
            text,
            field,
            tr("names {name}, which is no nutrient known here").format(name=name),
        )
    return known


def _built(
    named: list[tuple[str, float]],
    forms: list[float | None],
    density_g_per_ml: float | None,
    source: tuple[str, str],
) -> Analysis:
    """Build the analysis, telling N, P and K in the way of labels."""
    main: dict[str, float] = {}
    others: list[tuple[str, float]] = []
    ions = {"NO3": 0, "NH4": 1}
    for name, percent in named:
        if name in ions:
            forms[ions[name]] = as_element(name, percent)[1]
    told, wrong = told_once(each for each in named if each[0] not in ions)
    if wrong:
        raise _unread(*source, wrong)
    for name, percent in told:
        element, amount = as_element(name, percent)
        if element in {"N", "P", "K"}:
            main[element] = amount
        else:
            others.append((name, percent))
    told_n = sum(form or 0.0 for form in forms)
    n, p, k = main.get("N", told_n), main.get("P", 0.0), main.get("K", 0.0)
    p2o5, k2o = p / element_factor("P2O5")[1], k / element_factor("K2O")[1]
    nitrate, ammonium, urea = forms
    try:
        return Analysis(
            n_percent=n,
            p2o5_percent=round(p2o5, 9),
            k2o_percent=round(k2o, 9),
            others=tuple(others),
            nitrate_n_percent=nitrate,
            ammonium_n_percent=ammonium,
            urea_n_percent=urea,
            density_g_per_ml=density_g_per_ml,
        )
    except InputError as problem:
        text, field = source
        if problem.field == "density":
            raise
        raise InputError(field, _cut(text), problem.problem, problem.hint) from None


def _check_numbers(analysis: Analysis) -> None:
    named = [*analysis.printed(), *analysis.nitrogen_forms_percent().items()]
    for name, percent in named:
        if not math.isfinite(percent) or not 0 <= percent <= 100:
            problem = tr(
                "puts {name} at {percent} %, which is not from 0 to 100"
            ).format(name=name, percent=plain(percent))
            raise InputError("analysis", _plain(analysis), problem, tr(_WAY_OUT))
    total = sum(percent for _, percent in analysis.printed())
    total -= _OXYGEN_OF_CHLORIDE * dict(analysis.others).get("Cl", 0.0)
    if total > 100.01:  # each number may be rounded to a hundredth
        problem = tr("adds up to {total} %, more than the whole").format(
            total=plain(total)
        )
        raise InputError("analysis", _plain(analysis), problem, tr(_WAY_OUT))
    if analysis.n_percent > MOST_N_PERCENT:
        problem = tr("puts N at {n_percent} %, more than any feed holds").format(
            n_percent=plain(analysis.n_percent)
        )
        hint = tr(
            "Urea, the richest, holds 46.6 %. Labels print N, then P2O5, then K2O."
        )
        raise InputError("analysis", _plain(analysis), problem, hint)
    if total <= 0:
        problem = tr("holds nothing")
        raise InputError("analysis", _plain(analysis), problem, tr(_WAY_OUT))
    density = analysis.density_g_per_ml
    if density is not None and not 0.5 <= density <= 3:
        hint = tr('Weigh 100 mL of it and write for instance "1.2 g/mL".')
        problem = tr("is not a density of a liquid feed in g/mL (0.5 to 3)")
        raise InputError("density", density, problem, hint)


def _check_names(analysis: Analysis) -> None:
    seen = {"N", "P", "K"}
    for name, _ in analysis.others:
        if canonical_nutrient(name) != name:
            problem = tr("names {name}, which is no nutrient known here").format(
                name=name
            )
            raise InputError("analysis", _plain(analysis), problem, tr(_WAY_OUT))
        element, _factor = element_factor(name)
        if element in seen:
            problem = tr("gives {element} twice").format(element=element)
            raise InputError("analysis", _plain(analysis), problem, tr(_WAY_OUT))
        seen.add(element)


def _check_forms(analysis: Analysis) -> None:
    told = sum(analysis.nitrogen_forms_percent().values())
    if told > analysis.n_percent + 0.15:  # labels round each share to a tenth
        problem = tr(
            "tells {told} % nitrogen in its forms and only {n_percent} % in all"
        ).format(told=plain(told), n_percent=plain(analysis.n_percent))
        raise InputError("analysis", _plain(analysis), problem, tr(_WAY_OUT))


def _plain(analysis: Analysis) -> str:
    return analysis.label()


def _percent(typed: str) -> float:
    return float(typed.replace(",", "."))


def _cut(text: str) -> str:
    return text if len(text) <= 60 else f"{text[:40]}…"


def _unread(text: str, field: str, problem: str) -> InputError:
    return InputError(field, _cut(text), problem, tr(_WAY_OUT))
