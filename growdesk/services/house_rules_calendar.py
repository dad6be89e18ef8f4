"""The house rules that date the year's jobs, declared: media, stems, out and in."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.services.rule_declaring import PRACTICE, Group

if TYPE_CHECKING:
    from growdesk.services.values import Setting

_REPOTS = Group("Repots")
_STEMS = Group("Keikis and spikes")
_MOVES = Group("Out and in")
_GLASS = Group("The glass, and newcomers")

_NIGHTS = (
    "University of Minnesota Extension, Dakota County, on orchids back indoors,"
    " https://dakotamastergardeners.org/indoorplants/the-vacation-is-over, read as a"
    " copy: {}."
)

DECLARED: tuple[Setting, ...] = (
    _REPOTS.number(
        "bark_years",
        ("Bark lasts", "years"),
        "After so many years it is due, if its kind does not ask for it sooner.",
        PRACTICE,
    ),
    _REPOTS.number(
        "sphagnum_years",
        ("Sphagnum lasts", "years"),
        "After so many years it is due, if its kind does not ask for it sooner.",
        PRACTICE,
    ),
    _REPOTS.number(
        "mineral_years",
        ("A mineral medium lasts", "years"),
        "It does not rot; its salts and crowded roots make it due.",
        PRACTICE,
    ),
    _REPOTS.number(
        "semi_hydro_years",
        ("Semi-hydro lasts", "years"),
        "It does not rot; its salts and crowded roots make it due.",
        PRACTICE,
    ),
    _REPOTS.number(
        "soil_years",
        ("A soil mix lasts", "years"),
        "After so many years it is due, if its kind does not ask for it sooner.",
        PRACTICE,
    ),
    _STEMS.number(
        "keiki_root_mm",
        ("A keiki is potted at roots of", "mm"),
        "With a root this long it can stand on its own.",
        "Common practice, 5 to 8 cm, no source.",
    ),
    _STEMS.number(
        "stake_spike_mm",
        ("A spike is staked from", "mm"),
        "A shorter one, where it was measured, is left alone yet.",
        PRACTICE,
    ),
    _MOVES.number(
        "nights_warm_c",
        ("Nights for warm growers", "°C"),
        "Out once nights hold at this, in once they fall below it.",
        _NIGHTS.format("in below 60 °F, out from 55 to 60 °F"),
    ),
    _MOVES.number(
        "nights_intermediate_c",
        ("Nights for intermediate growers", "°C"),
        "Out once nights hold at this, in once they fall below it.",
        _NIGHTS.format("cattleyas and oncidiums in below 55 °F, out from 55 to 60 °F"),
    ),
    _MOVES.number(
        "nights_cool_c",
        ("Nights for cool growers", "°C"),
        "They stay out until nights fall below this; it sets the buds of cymbidiums.",
        _NIGHTS.format("cymbidiums stay out to the upper 30s °F"),
    ),
    _MOVES.number(
        "nights_cool_out_c",
        ("Cool growers go out at nights of", "°C"),
        "Out once nights hold at this, when frost is well past.",
        PRACTICE,
    ),
    _MOVES.number(
        "nights_hold",
        ("Out after nights in a row", "nights"),
        "So many nights in a row must hold, each of them read at the place.",
        PRACTICE,
    ),
    _MOVES.number(
        "nights_below",
        ("In after nights in a row", "nights"),
        "So many nights in a row fall below, each of them read at the place.",
        PRACTICE,
    ),
    _GLASS.number(
        "glass_colder_c",
        ("At the glass a night is colder by", "°C"),
        "Than the room behind it; benches say whether they stand at the glass.",
    ),
    _GLASS.number(
        "glass_hotter_c",
        ("At the glass a noon is hotter by", "°C"),
        "Than the room behind it, where the sun stands in.",
    ),
    _GLASS.number(
        "quarantine_days",
        ("A newcomer stands apart for", "days"),
        "Proposed with each new plant; the plant itself says until when.",
        PRACTICE,
    ),
)
