"""Words on how jugs are mixed: in how many mixes, in which order, by which way."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain import speech
from growdesk.domain.measure_words import (
    amount_text,
    gives,
    named,
    percent,
    plain,
    unit_text,
)
from growdesk.domain.measuring import ToolKind
from growdesk.domain.mixing_order import steps
from growdesk.domain.phrases import listed, number_word
from growdesk.domain.speech import Phrases, mark, tr, trn
from growdesk.domain.volume_words import volume_text

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.domain.fills import Fill
    from growdesk.domain.ladder import LadderStep
    from growdesk.domain.measuring import Measured
    from growdesk.domain.mixing_ways import Loss, Ways

_SEVERAL = mark("Mix it in parts, each with its own dose: {parts}.")
_CANFULS = Phrases(
    {
        False: "Carry it out as {count} canfuls, with the {can}.",
        True: "Carry each part out as {count} canfuls at most, with the {can}.",
    }
)
_UNREAD = mark(
    "None of your jugs shows {volume}: measure it out, or weigh it, 1 L of water as "
    "1 kg."
)
_OVER = mark(
    "{over} stays over, spare included: use it today or pour it on the garden."
)
_ORDER_ONE = mark("Fill in most of the water first, stir in {only}, and {fill_up}.")
_ORDER = mark(
    "Fill in most of the water first, stir in {first} until all is dissolved, and "
    "{fill_up}."
)
_ORDER_CALCIUM = mark(
    "Fill in most of the water first and stir in {first} until all is dissolved, then "
    "what holds calcium: {last}. Then {fill_up}."
)
_FILL_TO, _FILL_UP = mark("fill up to {volume}"), mark("fill up")
_LADDER_READ = mark(
    "Mix once and dilute: the {amount} for jug {letter} is read to {step}, so that "
    "diluting is closer: at worst {diluted} off instead of {alone}."
)
_LADDER = mark(
    "Mix once and dilute: the {amount} for jug {letter} may be {alone} off, diluted no "
    "jug is more than {diluted} off."
)
_ALONE = mark(
    "Dose each jug on its own: at worst that is {alone} off, and diluting {diluted}."
)
_TOLD_FROM = 0.01
_TAKES = mark("That takes {doses}.")
_COMES_TO = mark("Jug {letter} then {gives}.")
_MEASURE = mark("Measure the {kept} with the {tool}.")
_NOT_THE_SAME = mark(
    "Dose the jugs of {recipe} each on its own: {water} brings nutrients of its own, "
    "so that its shares change with the strength and a thinned jug is another feed."
)
_NOT_IN_A_JUG = mark(
    "Dose the jugs of {recipe} each on its own: to dilute, jug {letter} would begin "
    "with {volume}, more than the {vessel} holds."
)
_MORE_RECIPES = mark(
    "{recipes} recipes need a jug each, and your house rules have {jugs}: rinse one "
    "and use it again."
)
_MORE_THAN_STAND = Phrases(
    {
        True: "This round takes {wanted} jugs, and one stands on your "
        "shelf: rinse it and use it again.",
        False: "This round takes {wanted} jugs, and {jugs} stand on "
        "your shelf: rinse one and use it again.",
    }
)


def several(fills: Sequence[Fill]) -> str:
    """Say into which mixes a jug is split; nothing where it is mixed at once."""
    return tr(_SEVERAL).format(parts=parts(fills)) if len(fills) > 1 else ""


def parts(fills: Sequence[Fill]) -> str:
    """Tell mixes: "two mixes of 4 L and one of 2.2 L"."""
    counts: dict[str, int] = {}
    for each in fills:
        told = volume_text(each.volume_l)
        counts[told] = counts.get(told, 0) + 1
    found: list[str] = []
    for told, count in counts.items():
        form = (
            trn("one of {volume}", "{count} of {volume}", count)
            if found
            else trn("one mix of {volume}", "{count} mixes of {volume}", count)
        )
        found.append(form.format(count=number_word(count), volume=told))
    return listed(found)


def remarks(fills: Sequence[Fill], over_l: float, can: str = "") -> tuple[str, ...]:
    """Say what a mix needs beside its dose: cans, a measure, and what stays over."""
    found: list[str] = []
    count = max((each.cans for each in fills), default=1)
    if count > 1:
        form = _CANFULS[len(fills) > 1]
        found.append(form.format(count=number_word(count), can=named(can)))
    found += [
        tr(_UNREAD).format(volume=volume_text(each.volume_l))
        for each in fills
        if not each.is_read
    ]
    if over_l > 0:
        found.append(tr(_OVER).format(over=volume_text(over_l)))
    return tuple(found)


def order(doses: Sequence[Measured], volume_l: float | None) -> str:
    """Say in which order a mix is made; nothing where there is nothing to put in.

    Without a volume the mixes are not all of one size.
    """
    if not doses:
        return ""
    first, last = steps(doses)
    fill_up = _FILL_UP if volume_l is None else _FILL_TO
    words = {"fill_up": tr(fill_up).format(volume=volume_text(volume_l or 0.0))}
    if len(doses) == 1:
        return tr(_ORDER_ONE).format(only=doses[0].taken_from, **words)
    names = listed([dose.taken_from for dose in first or last])
    if not first or not last:
        return tr(_ORDER).format(first=names, **words)
    calcium = listed([dose.taken_from for dose in last])
    return tr(_ORDER_CALCIUM).format(first=names, last=calcium, **words)


def which_way(ways: Ways) -> str:
    """Say which way of mixing is closer, and what makes it so."""
    alone, diluted = percent(ways.alone.share), percent(ways.diluted.share)
    if not ways.ladder_first:
        return tr(_ALONE).format(alone=alone, diluted=diluted)
    step = _step(ways.alone)
    form = tr(_LADDER_READ) if step else tr(_LADDER)
    return form.format(
        amount=_amount(ways.alone),
        letter=ways.alone.letter,
        step=step,
        alone=alone,
        diluted=diluted,
    )


def takes(doses: Sequence[Measured]) -> str:
    """Say what a step of the ladder takes; nothing where that is not known."""
    taken = [
        tr("{amount} of {taken_from}").format(
            amount=amount_text(dose), taken_from=dose.taken_from
        )
        for dose in doses
    ]
    return tr(_TAKES).format(doses=listed(taken)) if taken else ""


def comes_to(letter: str, gives_ppm_n: float, wanted_ppm_n: float) -> str:
    """Say what a jug of the ladder comes to, if a per cent or more is between."""
    if abs(gives_ppm_n - wanted_ppm_n) < _TOLD_FROM * wanted_ppm_n:
        return ""
    return tr(_COMES_TO).format(letter=letter, gives=gives(gives_ppm_n, wanted_ppm_n))


def measure_kept(kept: str, tool: str) -> str:
    """Say what a kept volume is measured with where the jug is too coarse."""
    return tr(_MEASURE).format(kept=kept, tool=named(tool))


def not_the_same(recipe: str, water: str) -> str:
    """Say why a recipe is not thinned with its water."""
    return tr(_NOT_THE_SAME).format(recipe=recipe, water=water or tr("the water"))


def not_in_a_jug(recipe: str, step: LadderStep, vessel: str) -> str:
    """Say that no jug holds what a recipe's ladder begins with."""
    return tr(_NOT_IN_A_JUG).format(
        recipe=recipe,
        letter=step.letter,
        volume=volume_text(step.told_mix_l),
        vessel=named(vessel),
    )


def more_recipes(recipes: int, jugs: int) -> str:
    """Say that there are more recipes than jugs."""
    told = number_word(recipes).capitalize()
    return tr(_MORE_RECIPES).format(recipes=told, jugs=_of_jugs(jugs))


def more_than_stand(wanted: int, jugs: int) -> str:
    """Say that more is mixed than there are jugs on the shelf."""
    return _MORE_THAN_STAND[jugs == 1].format(
        wanted=number_word(wanted), jugs=number_word(jugs)
    )


def _of_jugs(count: int) -> str:
    return trn("{count} jug", "{count} jugs", count).format(count=count)


def _amount(loss: Loss) -> str:
    dose = loss.dose
    if dose is None:
        return ""
    if dose.given_g > 0:
        return tr("{amount} of {taken_from}").format(
            amount=amount_text(dose), taken_from=dose.taken_from
        )
    return tr("{amount} {unit} of {taken_from}").format(
        amount=plain(dose.wanted_amount),
        unit=unit_text(dose.unit),
        taken_from=dose.taken_from,
    )


def _step(loss: Loss) -> str:
    """Give what the dose is read to; nothing of a spoon, which has no scale."""
    tool = None if loss.dose is None else loss.dose.tool
    if tool is None or tool.kind is ToolKind.SPOON:
        return ""
    return f"{speech.plain(tool.step)} {'g' if tool.kind is ToolKind.SCALE else 'mL'}"
