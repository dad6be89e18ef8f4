"""The week's jugs: one letter is one strength of one recipe all week.

The first round keeps the letters of the watering day's own plan. A strength that was
not mixed before takes the next free letter, in the ladder's sentences too.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, TypeAlias

from msgspec.structs import replace

from growdesk.domain.batches import letter
from growdesk.domain.speech import tr

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from growdesk.domain.explain import Strength
    from growdesk.domain.facts import House
    from growdesk.services.values import Jug, MixPlan

Content: TypeAlias = "tuple[int | None, int]"

_DUST = 1e-9


def with_week_letters(mixes: Iterable[MixPlan]) -> tuple[MixPlan, ...]:
    """Give the rounds' plans in order, lettered by recipe and strength over all."""
    letters: dict[Content, str] = {}
    lettered = []
    for mix in mixes:
        for jug in mix.jugs:
            letters.setdefault(_content(jug), letter(len(letters)))
        lettered.append(_lettered(mix, letters))
    return tuple(lettered)


def named_in_sentence() -> re.Pattern[str]:
    """Give how a jug and its letter stand in a sentence of the language spoken."""
    word = tr("jug", "the word right before a jug's letter in a sentence")
    first = f"[{word[0].upper()}{word[0].lower()}]"
    return re.compile(rf"\b({first}{re.escape(word[1:])}) ([A-Z]+)\b")


def _content(jug: Jug) -> Content:
    return jug.recipe_id, jug.strength_ppm_n


def _lettered(mix: MixPlan, letters: Mapping[Content, str]) -> MixPlan:
    renamed = {jug.letter: letters[_content(jug)] for jug in mix.jugs}
    in_sentence = named_in_sentence()

    def named(sentence: str) -> str:
        return in_sentence.sub(
            lambda found: f"{found[1]} {renamed.get(found[2], found[2])}", sentence
        )

    return replace(
        mix,
        jugs=tuple(replace(jug, letter=renamed[jug.letter]) for jug in mix.jugs),
        ladder=tuple(named(step) for step in mix.ladder),
        ladder_why=named(mix.ladder_why),
        ladder_jugs=tuple(
            replace(jug, letter=renamed[jug.letter]) for jug in mix.ladder_jugs
        ),
    )


def jug_for(
    strength: Strength, jugs: Iterable[Jug], house: House, recipe_id: int | None = None
) -> Jug | None:
    """Give the jug of its recipe for a plant not counted in.

    It is in the plant's band, else the next weaker.
    """
    wish = strength.ppm_n
    most = min(wish * (1 + house.band_high), strength.ceiling_ppm_n) + _DUST
    allowed = [
        jug for jug in jugs if jug.recipe_id == recipe_id and jug.strength_ppm_n <= most
    ]
    least = wish * (1 - house.band_low) - _DUST
    inside = [jug for jug in allowed if jug.strength_ppm_n >= least]
    if inside:
        return min(inside, key=lambda jug: abs(jug.strength_ppm_n - wish))
    return max(allowed, key=lambda jug: jug.strength_ppm_n, default=None)
