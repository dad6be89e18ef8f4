"""The pages of the season: light, warmth, and measured growth in their place."""

from __future__ import annotations

from growdesk.domain.rule_pages import RulePage
from growdesk.domain.speech import mark

SEASON = (
    RulePage(
        rule="controlled-place",
        title=mark("Controlled place"),
        asks=mark("Is the place controlled, in light and in warmth?"),
        why=mark(
            "Where lamps and heating make the same day all year, the season takes "
            "nothing off."
        ),
        silent=mark("For every place that is not marked as controlled."),
        example=mark(
            "A cattleya in a controlled place is fed in {december} as in {june}: "
            "100 % is left."
        ),
        source=mark("House rule."),
    ),
    RulePage(
        rule="light-read",
        title=mark("Light as read"),
        asks=mark(
            "Was light read at the leaf on {light_least_days} or more of the last "
            "{light_window_days}?"
        ),
        why=mark(
            "A reading knows of trees, curtains and dirty panes, of "
            "which no reckoning does. Its mean is held against the "
            "middle of what the kind wants, so it goes before lamps, "
            "windows and the season."
        ),
        silent=mark(
            "In a controlled place, with fewer readings, and where measured growth "
            "takes its place."
        ),
        example=mark(
            "A cattleya wants 22 mol a day and its light was read at 4 mol, with "
            "the curve as it comes: 44 % is left."
        ),
        source=mark(
            "One foot-candle of sunlight is 0.2 µmol/m²/s (Apogee Instruments, "
            "https://www.apogeeinstruments.com/conversion-ppfd-to-foot-candles/); a "
            "day shaped like half a sine wave, the number of readings and the curve "
            "are house rules."
        ),
    ),
    RulePage(
        rule="season-lamps",
        title=mark("Lamps"),
        asks=mark(
            "How much light do the lamps give in a day, with the daylight where the "
            "place's facing is known?"
        ),
        why=mark(
            "Under lamps the season outside says little. Hours and PPFD at the leaf "
            "make the day's light, which is held against the middle of what the kind "
            "wants."
        ),
        silent=mark(
            "Without lamps, where light was read at the leaf, in a controlled "
            "place, and where measured growth takes its place."
        ),
        example=mark(
            "A moth orchid under 12 hours of lamps at 60 µmol, with the curve "
            "as it comes: 75 % is left."
        ),
        source=mark(
            "One foot-candle of sunlight is 0.2 µmol/m²/s (Apogee Instruments, "
            "https://www.apogeeinstruments.com/conversion-ppfd-to-foot-candles/); a "
            "day shaped like half a sine wave and the curve are house rules."
        ),
    ),
    RulePage(
        rule="daylight",
        title=mark("Window, roof or open air"),
        asks=mark(
            "Which way does the place look out, through what glass, and how much of "
            "its light is taken away?"
        ),
        why=mark(
            "A shady window in {december} gives a leaf a small part of what a sunny "
            "one gives it in {june}. Sun and sky are reckoned for an average day at "
            "the pane, clear for {clear_sky_share} of its hours at midsummer and "
            "{clear_sky_share_winter} at midwinter."
        ),
        silent=mark(
            "Where no facing is recorded, under lamps, where light was read at the "
            "leaf, in a controlled place, and where measured growth takes its place."
        ),
        example=mark(
            "A moth orchid at an east window at 48° north on 15 December, with the "
            "curve as it comes: 74 % is left."
        ),
        source=mark(
            "A clear day by Appendix D of the ASCE-EWRI reference "
            "evapotranspiration equation, 2005, read in public code "
            "that quotes it; a dull one by FAO Irrigation & Drainage "
            "Paper 56, eq. 35; 2 mol of light per MJ after Faust & "
            "Logan, HortScience 53:1250, 2018. What glass lets "
            "through is from memory, the shares of clear hours are "
            "house rules."
        ),
    ),
    RulePage(
        rule="season-light",
        title=mark("Light of the season"),
        asks=mark(
            "How much sun does a latitude of {latitude} get at this time of the year?"
        ),
        why=mark(
            "In short, low light a plant builds less and so takes up "
            "less. The sun above the air is held against "
            "{full_radiation_mj_per_m2_d}. Bright growers "
            "({bright_from_fc} or more in the middle of their range) "
            "feel a dull month more than low-light ones (less than "
            "{low_light_under_fc}). The bend of their curves says "
            "how much: {half_light_bright} for bright, "
            "{half_light_medium} for medium, {half_light_low} for "
            "low light."
        ),
        silent=mark(
            "Where lamps or a facing are recorded or light was read, in a "
            "controlled place, and where measured growth takes its place."
        ),
        example=mark(
            "A cattleya at 48° north on 15 December, with the curve as it comes: "
            "49 % is left."
        ),
        source=mark(
            "Radiation by FAO Irrigation & Drainage Paper 56, eq. "
            "21-25; a society note feeds twice as much on 21 June as "
            "on 21 December, "
            "http://orchid-talk.co.uk/docs/Various/conduct.html. The "
            "curve from light to share is a house curve, not a law "
            "of nature."
        ),
    ),
    RulePage(
        rule="season-temperature",
        title=mark("Temperature"),
        asks=mark(
            "How warm has the place been over the last {temperature_window_days}?"
        ),
        why=mark(
            "Growth slows below the range a kind likes best and stops at its base; it "
            "slows again in heat. Inside its range nothing is taken off."
        ),
        silent=mark(
            "Without readings and without a mean for the place, in a controlled "
            "place, and where measured growth takes its place."
        ),
        example=mark("A cattleya in a place that averaged 14 °C: 67 % is left."),
        source=mark(
            "A house curve between each kind's own limits; base temperature of "
            "Zygopetalum leaf growth 6.2 °C, ASHS abstract (Zygopetalum Redvale 'Fire "
            "Kiss')."
        ),
    ),
    RulePage(
        rule="performance",
        title=mark("Measured growth"),
        asks=mark(
            "How fast do its lead or its roots grow, against its own best season or "
            "what is usual for its kind?"
        ),
        why=mark(
            "What a plant really does tells more than the calendar. "
            "From two lengths within {performance_window_days} on, "
            "its pace takes the place of light and temperature; one "
            "bad reading among four does no harm. Its own best is "
            "sought {earlier_season_days} back and further; "
            "{performance_least} is the least that is left."
        ),
        silent=mark(
            "With fewer than two lengths, while a growth matures and "
            "no longer lengthens, and without a yardstick. Without "
            "lamps it gives {performance_most_raise} what the season "
            "leaves at most: long soft shoots in gloom are no "
            "vigour. A pace of more than four times both its own "
            "best and its kind's is taken for a slip of the ruler; "
            "the measures are left out, and it is said."
        ),
        example=mark(
            "A cattleya under lamps made 20 mm a week in its best season and makes "
            "10 mm a week now: 50 % is left."
        ),
        source=mark(
            "House rule. The pace is a median of the slopes between "
            "the lengths: of all pairs up to three lengths "
            "(Theil-Sen), from four on for each length and then of "
            "those (Siegel's repeated median, 1982); both from "
            "memory."
        ),
    ),
)
