"""The shelf in words: what is on hand, what a week takes, until when, what runs short.

Whole sentences by key; the numbers come in with their units.
"""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from growdesk.domain.day_words import day_text
from growdesk.domain.phrases import listed
from growdesk.domain.speech import Phrases, manner, mark, tr, trn
from growdesk.domain.stocktaking import Basis, What
from growdesk.domain.volume_words import volume_text
from growdesk.domain.wording import days_text, number_text

if TYPE_CHECKING:
    from datetime import date

    from growdesk.domain.shortage import Short
    from growdesk.domain.stocktaking import OnHand, Rate

BEGAN: Phrases[tuple[str, bool, bool]] = Phrases(
    {
        ("counted", True, True): "Counted today: {amount}, after the round.",
        ("counted", True, False): "Counted today: {amount}, before the round.",
        ("counted", False, True): "Counted on {day}: {amount}, after the round.",
        ("counted", False, False): "Counted on {day}: {amount}, before the round.",
        ("added", True, True): "Never counted; {amount} came in today.",
        ("added", True, False): "Never counted; {amount} came in today.",
        ("added", False, True): "Never counted; {amount} came in on {day}.",
        ("added", False, False): "Never counted; {amount} came in on {day}.",
    }
)
"""By what began the record, whether that was today, and whether after the round."""

ON_HAND = mark("{amount} on hand.")
SPOON = mark("A level {name} holds {grams} of it.")
NEVER_COUNTED = mark("Not counted yet.")
OVERDRAWN = mark("More was used than was counted; count it again.")

RATES: Phrases[Basis] = Phrases(
    {
        Basis.LAST_YEAR: "{amount} a week, as in these weeks last year.",
        Basis.RECENT: "{amount} a week, as in the last eight weeks.",
        Basis.PLAN: "{amount} a week, as planned now.",
    }
)
NOT_USED = mark("Not used now.")

LASTS: Phrases[str] = Phrases(
    {
        "none": "Nothing is left.",
        "today": "Does not last beyond today.",
        "until": "Lasts until about {day}, {days} from now.",
        "long": "Lasts more than two years.",
    }
)

SHORT: Phrases[tuple[bool, bool]] = Phrases(
    {
        (
            False,
            True,
        ): "{name} runs short: the round needs {needed}, {there} is on hand.",
        (
            True,
            True,
        ): "{name} runs short: the rest of the round needs {needed}, {there} is "
        "on hand.",
        (False, False): "{name} is used up: the round needs {needed}.",
        (True, False): "{name} is used up: the rest of the round needs {needed}.",
    }
)
"""By whether part of the round is done, and whether anything is left."""

SHORT_OVERDRAWN: Phrases[bool] = Phrases(
    {
        False: "{name} is used up by the record, and more was used than "
        "was counted; count it again. The round needs {needed}.",
        True: "{name} is used up by the record, and more was used than "
        "was counted; count it again. The rest of the round "
        "needs {needed}.",
    }
)
"""By whether part of the round is done."""

MAKES: Phrases[tuple[bool, bool]] = Phrases(
    {
        (True, True): "That makes {whole} and {part} of jug {letter}.",
        (True, False): "That makes {whole}.",
        (False, True): "That makes {part} of jug {letter}.",
    }
)
STAND_IN = mark("{name} could take its place: about {needed}, and {there} is on hand.")

_KILO = 1000
_LARGE_L = 10


def amount_text(amount: float, unit: str, digits: int | None = None) -> str:
    """Give an amount of a good as it is told: g or kg, mL, or litres."""
    if unit == "L" and digits is None and (amount < _LARGE_L or manner().customary):
        return volume_text(amount)
    if unit == "g" and amount >= _KILO and digits is None:
        return f"{number_text(amount / _KILO, 2)} kg"
    coarse = 20 if unit == "L" else 10
    fine = 1 if amount >= 1 else 2
    shown = digits if digits is not None else 0 if amount >= coarse else fine
    return f"{number_text(amount, shown)} {unit}"


def began(hand: OnHand | None, unit: str, on: date) -> str:
    """Say what the record of a good begins with."""
    if hand is None:
        return tr(NEVER_COUNTED)
    since = hand.since
    is_after = since.after_round or since.what is What.ADDED
    template = BEGAN[since.what.value, since.on == on, is_after]
    amount = amount_text(since.amount, unit)
    return template.format(amount=amount, day=day_text(since.on, on))


def hand_text(hand: OnHand | None, unit: str, on: date) -> str:
    """Say what is on hand of a good and what that goes by."""
    if hand is None:
        return tr(NEVER_COUNTED)
    if hand.is_overdrawn:
        return f"{began(hand, unit, on)} {tr(OVERDRAWN)}"
    amount = amount_text(hand.there, unit)
    return f"{tr(ON_HAND).format(amount=amount)} {began(hand, unit, on)}"


def spoon_text(name: str, g_per_level: float) -> str:
    """Say what a level spoon of a product weighs."""
    return tr(SPOON).format(name=name, grams=amount_text(g_per_level, "g"))


def rate_text(used: Rate, unit: str) -> str:
    """Say what a week takes and what that goes by."""
    if used.per_week <= 0:
        return tr(NOT_USED)
    amount = amount_text(used.per_week, unit)
    return RATES[used.basis].format(amount=amount)


def lasts_text(days: int | None, on: date, there: float) -> str:
    """Say until when what is there of a good lasts."""
    if there <= 0:
        return LASTS["none"]
    if days is None:
        return LASTS["long"]
    if days <= 0:
        return LASTS["today"]
    until = on + timedelta(days=days)
    return LASTS["until"].format(day=day_text(until, on), days=days_text(days))


def short_text(short: Short) -> str:
    """Say what runs short, what it still makes, and what could take its place."""
    needed, there = told_apart(short.needed, short.there, short.unit)
    template = SHORT[short.is_rest, short.there > 0]
    if short.is_overdrawn:
        template = SHORT_OVERDRAWN[short.is_rest]
    told = [template.format(name=short.name, needed=needed, there=there)]
    if short.whole or short.part:
        letter, litres = short.part or ("", 0.0)
        told.append(
            MAKES[bool(short.whole), short.part is not None].format(
                whole=_jugs(short.whole), part=volume_text(litres), letter=letter
            )
        )
    other = short.stand_in
    if other is not None:
        amounts = told_apart(other.needed, other.there, other.unit)
        told.append(
            tr(STAND_IN).format(name=other.name, needed=amounts[0], there=amounts[1])
        )
    return " ".join(told)


def told_apart(one: float, other: float, unit: str) -> tuple[str, str]:
    """Give two amounts that differ with as many digits as tell them apart."""
    said = amount_text(one, unit), amount_text(other, unit)
    for digits in range(4):
        if said[0] != said[1]:
            return said
        said = amount_text(one, unit, digits), amount_text(other, unit, digits)
    return said


def _jugs(letters: tuple[str, ...]) -> str:
    form = trn("jug {letters}", "jugs {letters}", max(len(letters), 1))
    return form.format(letters=listed(letters))
