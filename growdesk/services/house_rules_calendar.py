"""The house rules that date the year's jobs, declared: media, stems, out and in."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.speech import mark
from growdesk.services.rule_declaring import PRACTICE, Group

if TYPE_CHECKING:
    from growdesk.services.values import Setting

_REPOTS = Group(mark("Repots"))
_STEMS = Group(mark("Keikis and spikes"))
_MOVES = Group(mark("Out and in"))
_GLASS = Group(mark("The glass, and newcomers"))

DECLARED: tuple[Setting, ...] = (
    _REPOTS.number(
        "bark_years",
        (mark("Bark lasts"), mark("years")),
        mark("After so many years it is due, if its kind does not ask for it sooner."),
        PRACTICE,
    ),
    _REPOTS.number(
        "sphagnum_years",
        (mark("Sphagnum lasts"), mark("years")),
        mark("After so many years it is due, if its kind does not ask for it sooner."),
        PRACTICE,
    ),
    _REPOTS.number(
        "mineral_years",
        (mark("A mineral medium lasts"), mark("years")),
        mark("It does not rot; its salts and crowded roots make it due."),
        PRACTICE,
    ),
    _REPOTS.number(
        "semi_hydro_years",
        (mark("Semi-hydro lasts"), mark("years")),
        mark("It does not rot; its salts and crowded roots make it due."),
        PRACTICE,
    ),
    _REPOTS.number(
        "soil_years",
        (mark("A soil mix lasts"), mark("years")),
        mark("After so many years it is due, if its kind does not ask for it sooner."),
        PRACTICE,
    ),
    _STEMS.number(
        "keiki_root_mm",
        (mark("A keiki is potted at roots of"), "mm"),
        mark("With a root this long it can stand on its own."),
        mark("Common practice, 5 to 8 cm, no source."),
    ),
    _STEMS.number(
        "stake_spike_mm",
        (mark("A spike is staked from"), "mm"),
        mark("A shorter one, where it was measured, is left alone yet."),
        PRACTICE,
    ),
    _MOVES.number(
        "nights_warm_c",
        (mark("Nights for warm growers"), "°C"),
        mark("Out once nights hold at this, in once they fall below it."),
        mark(
            "University of Minnesota Extension, Dakota County, on orchids back indoors,"
            " https://dakotamastergardeners.org/indoorplants/the-vacation-is-over, read"
            " as a copy: in below 60 °F, out from 55 to 60 °F."
        ),
    ),
    _MOVES.number(
        "nights_intermediate_c",
        (mark("Nights for intermediate growers"), "°C"),
        mark("Out once nights hold at this, in once they fall below it."),
        mark(
            "University of Minnesota Extension, Dakota County, on orchids back indoors,"
            " https://dakotamastergardeners.org/indoorplants/the-vacation-is-over, read"
            " as a copy: cattleyas and oncidiums in below 55 °F, out from 55 to"
            " 60 °F."
        ),
    ),
    _MOVES.number(
        "nights_cool_c",
        (mark("Nights for cool growers"), "°C"),
        mark(
            "They stay out until nights fall below this; it sets the buds of "
            "cymbidiums."
        ),
        mark(
            "University of Minnesota Extension, Dakota County, on orchids back indoors,"
            " https://dakotamastergardeners.org/indoorplants/the-vacation-is-over, read"
            " as a copy: cymbidiums stay out to the upper 30s °F."
        ),
    ),
    _MOVES.number(
        "nights_cool_out_c",
        (mark("Cool growers go out at nights of"), "°C"),
        mark("Out once nights hold at this, when frost is well past."),
        PRACTICE,
    ),
    _MOVES.number(
        "nights_hold",
        (mark("Out after nights in a row"), mark("nights")),
        mark("So many nights in a row must hold, each of them read at the place."),
        PRACTICE,
    ),
    _MOVES.number(
        "nights_below",
        (mark("In after nights in a row"), mark("nights")),
        mark("So many nights in a row fall below, each of them read at the place."),
        PRACTICE,
    ),
    _GLASS.number(
        "glass_colder_c",
        (mark("At the glass a night is colder by"), "°C"),
        mark("Than the room behind it; benches say whether they stand at the glass."),
    ),
    _GLASS.number(
        "glass_hotter_c",
        (mark("At the glass a noon is hotter by"), "°C"),
        mark("Than the room behind it, where the sun stands in."),
    ),
    _GLASS.number(
        "quarantine_days",
        (mark("A newcomer stands apart for"), mark("days")),
        mark("Proposed with each new plant; the plant itself says until when."),
        PRACTICE,
    ),
)
