"""The signs of a look in one plain line, for lists of looks. Nothing is judged here."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.facts import NewGrowths
from growdesk.domain.phrases import listed
from growdesk.domain.quantity_words import small_text
from growdesk.domain.speech import Phrases, mark, plain, tr, trn
from growdesk.store.mapping import STAGES

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

    from growdesk.domain.facts import Look

_GROWTHS: Mapping[str, Callable[[int], str]] = {
    "emerging": lambda count: trn("{count} emerging", "{count} emerging", count),
    "extending": lambda count: trn("{count} extending", "{count} extending", count),
    "maturing": lambda count: trn("{count} maturing", "{count} maturing", count),
    "matured": lambda count: trn("{count} matured", "{count} matured", count),
    "stalled": lambda count: trn("{count} stalled", "{count} stalled", count),
}
"""How many growths of a stage there are; some languages say one and two unlike."""
_NEW_LEAF = Phrases(
    {
        "none": "no new leaf",
        "starting": "new leaf starting",
        "extending": "new leaf extending",
        "full": "new leaf full",
    }
)
_ROOT_TIPS = Phrases(
    {
        "none": "no root tips seen",
        "starting": "root tips just starting",
        "running": "root tips running",
        "hidden": "roots hidden",
    }
)
_FLOWERING = Phrases(
    {
        "none": "no flowers",
        "sheath": "sheath",
        "spike": "spike",
        "buds": "buds",
        "open": "flowers open",
        "fading": "flowers fading",
        "spent": "flowers spent",
    }
)
_BULBS = Phrases(
    {"firm": "firm", "wrinkled": "wrinkled", "shrivelled": "badly shrivelled"}
)
_POT = Phrases(
    {"wet": "wet", "moist": "moist", "nearly-dry": "nearly dry", "dry": "dry"}
)
_LEAVES = Phrases(
    {
        "firm": "leaves firm",
        "yellowing": "leaves yellowing",
        "dropping": "leaves dropping",
        "leafless": "leafless",
        "shrivelled": "leaves shrivelled",
    }
)
_HEALTH = Phrases(
    {
        "rot": "rot",
        "no-roots": "no live roots",
        "pests": "pests",
        "salt-burn": "salt burn",
        "virus-suspect": "virus suspected",
    }
)
_NOTHING = mark("Nothing recorded.")


def signs_line(look: Look) -> str:
    """Give what a look recorded as one line; what it did not record is left out."""
    said = "; ".join(_parts(look))
    return f"{said[0].upper()}{said[1:]}." if said else tr(_NOTHING)


def _parts(look: Look) -> Iterator[str]:
    yield from _growth(look)
    if look.lead_length_mm is not None:
        yield tr("lead {length}").format(length=small_text(look.lead_length_mm))
    if look.root_tips is not None:
        yield _ROOT_TIPS[look.root_tips]
    if look.longest_new_root_mm is not None:
        yield tr("longest new root {length}").format(
            length=small_text(look.longest_new_root_mm)
        )
    yield from _bloom(look)
    yield from _offspring(look)
    yield from _body(look)
    yield from _trouble(look)


def _growth(look: Look) -> Iterator[str]:
    if look.new_growths is not None:
        counts = look.new_growths
        told = [
            _GROWTHS[stage](count).format(count=count)
            for stage in STAGES
            if (count := getattr(counts, stage)) is not None and count > 0
        ]
        if told:
            yield tr("new growths: {list}").format(list=", ".join(told))
        elif counts != NewGrowths():
            yield tr("no new growth")
    if look.new_leaf is not None:
        yield _NEW_LEAF[look.new_leaf]


def _bloom(look: Look) -> Iterator[str]:
    if look.flowering:
        stages = [stage for stage in _FLOWERING if stage in look.flowering]
        yield listed(
            [
                _spike(look.spike_mm)
                if stage == "spike" and look.spike_mm is not None
                else _FLOWERING[stage]
                for stage in stages
            ]
        )
    elif look.flowering is not None:
        yield _FLOWERING["none"]
    if look.spike_mm is not None and "spike" not in (look.flowering or ()):
        yield _spike(look.spike_mm)
    if look.pods is not None:
        yield (
            trn("{count} pod", "{count} pods", look.pods).format(count=look.pods)
            if look.pods
            else tr("no pods")
        )


def _spike(spike_mm: float) -> str:
    return tr("spike {length} long").format(length=small_text(spike_mm))


def _offspring(look: Look) -> Iterator[str]:
    root = look.keiki_root_mm
    if look.keikis is not None:
        keikis = (
            trn("{count} keiki", "{count} keikis", look.keikis).format(
                count=look.keikis
            )
            if look.keikis
            else tr("no keikis")
        )
        yield (
            keikis
            if root is None
            else tr("{keikis}, longest root {length}").format(
                keikis=keikis, length=small_text(root)
            )
        )
    elif root is not None:
        yield tr("longest root of a keiki {length}").format(length=small_text(root))


def _body(look: Look) -> Iterator[str]:
    if look.leaves is not None:
        yield _LEAVES[look.leaves]
    if look.bulbs is not None:
        yield tr("bulbs {bulbs}").format(bulbs=_BULBS[look.bulbs])
    if look.pot is not None:
        yield tr("pot {pot}").format(pot=_POT[look.pot])


def _trouble(look: Look) -> Iterator[str]:
    if look.health:
        found = [health for health in _HEALTH if health in look.health]
        yield ", ".join(_HEALTH[health] for health in found)
    elif look.health is not None:
        yield tr("no trouble")
    if look.runoff_ec_ms_per_cm is not None:
        yield tr("runoff EC {runoff_ec_ms_per_cm} mS/cm").format(
            runoff_ec_ms_per_cm=plain(look.runoff_ec_ms_per_cm)
        )
