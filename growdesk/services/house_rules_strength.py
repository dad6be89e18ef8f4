"""The house rules that make the strength, declared: shares, season, measured growth."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.services.rule_declaring import CURVE, OURS, PRACTICE, Group

if TYPE_CHECKING:
    from growdesk.services.values import Setting

_STRENGTH = Group("Strength")
_SHARES = Group("Shares of full strength")
_SEASON = Group("Light and warmth")
_MEASURED = Group("Measured growth")

_BURN = "American Orchid Society, Fertilizer Burn"
_BEND = (
    "The lower the number, the less a dim season takes off. This is the bend for plants"
    " that want {}."
)

DECLARED: tuple[Setting, ...] = (
    _STRENGTH.number(
        "full_strength_ppm_n",
        ("Full strength", "ppm N"),
        "What a medium feeder in full growth and full light is given.",
        "A Michigan State University talk: 125, and 100 to 200 will do; growers who"
        " give 300 in summer exist.",
    ),
    _STRENGTH.number(
        "strength_floor_ppm_n",
        ("Weakest feed", "ppm N"),
        "A feed is not mixed weaker than this, unless a plant's ceiling is lower.",
        "A house rule, ours; the weakest constant feed in print is 30 to 50.",
    ),
    _STRENGTH.number(
        "strength_ceiling_ppm_n",
        ("Strongest feed", "ppm N"),
        "No feed is mixed stronger than this.",
        "A house rule, ours; HortScience 43(2), 2008, tried up to 400 on dendrobiums.",
    ),
    _STRENGTH.number(
        "strength_step_ppm_n",
        ("Rounded to", "ppm N"),
        "A plant's strength is rounded to this step.",
    ),
    _SHARES.share(
        "feeder_light_share",
        ("A light feeder", "% of full strength"),
        "What kinds that take little are given.",
        "A house rule, ours, read across sources: 80 to 100 ppm N for odontoglossums,"
        " up to 200 for moth orchids.",
    ),
    _SHARES.share(
        "feeder_heavy_share",
        ("A heavy feeder", "% of full strength"),
        "What kinds that take much are given.",
        "A house rule, ours, read across sources, as for light feeders.",
    ),
    _SHARES.share(
        "seedling_share",
        ("A seedling", "% of full strength"),
        "What a seedling is given.",
        f"{_BURN}: weaker for seedlings; how much weaker is ours.",
    ),
    _SHARES.share(
        "no_tips_share",
        ("A growth without root tips", "% of full strength"),
        "For a plant whose one new growth has just come up, with no root tips found.",
        PRACTICE,
    ),
    _SHARES.share(
        "fresh_repot_share",
        ("Fresh from a repot", "% of full strength"),
        "Once it has settled, until root tips are seen.",
        f"{_BURN}: restart with dilute feed; how dilute is ours.",
    ),
    _SHARES.number(
        "fresh_repot_most_days",
        ("Fresh from a repot for", "days at most"),
        "In an opaque pot root tips may never be seen; then it ends by itself.",
    ),
    _SHARES.share(
        "slow_release_share",
        ("Slow release in the pot", "% of full strength"),
        "While feed grains in the pot still give.",
        PRACTICE,
    ),
    _SHARES.share(
        "sphagnum_share",
        ("In sphagnum", "% of full strength"),
        "Sphagnum holds salts, so its feed is weaker.",
        "American Orchid Society, July 2023: a weaker feed in sphagnum; the share is"
        " ours.",
    ),
    _SHARES.share(
        "idle_share",
        ("Idle, but never resting", "% of full strength"),
        "For an evergreen plant without a rest that shows nothing on the move.",
        PRACTICE,
    ),
    _SEASON.number(
        "full_radiation_mj_per_m2_d",
        ("Full light", "MJ/m² a day"),
        "The sun above the air at which the light takes nothing off.",
        f"{CURVE[:-1]}; by FAO Irrigation and Drainage Paper 56 a June day brings about"
        " 42 at 40° to 50°.",
    ),
    _SEASON.number(
        "half_light_bright",
        ("Bend for bright light", ""),
        _BEND.format("bright light"),
        f"{CURVE} About half is left in a temperate winter, as is common practice.",
    ),
    _SEASON.number(
        "half_light_medium",
        ("Bend for medium light", ""),
        _BEND.format("medium light"),
        CURVE,
    ),
    _SEASON.number(
        "half_light_low",
        ("Bend for low light", ""),
        _BEND.format("little light"),
        CURVE,
    ),
    _SEASON.number(
        "bright_from_fc",
        ("Bright light from", "foot-candles"),
        "A kind wants bright light from this middle of its range on.",
        OURS,
    ),
    _SEASON.number(
        "low_light_under_fc",
        ("Little light under", "foot-candles"),
        "A kind wants little light below this middle of its range.",
        OURS,
    ),
    _SEASON.share(
        "clear_sky_share",
        ("Clear sky", "% of the day"),
        "How much of the possible sunshine your sky gives at midsummer; the light of"
        " windows, roofs and open places is reckoned from it.",
        f"{OURS[:-1]}; with half of it, FAO Irrigation & Drainage Paper 56, eq. 35,"
        " brings half of the sun to the ground.",
    ),
    _SEASON.share(
        "clear_sky_share_winter",
        ("Clear sky in winter", "% of the day"),
        "The same at midwinter, from which it goes over to summer's with the sun. Near"
        " the equator summer's holds all year.",
        f"{OURS[:-1]}; about what a cloudy temperate winter gives, from memory.",
    ),
    _SEASON.number(
        "light_window_days",
        ("Light read over", "days"),
        "Readings of light count for so many days.",
    ),
    _SEASON.number(
        "light_least_days",
        ("Light read on", "days at least"),
        "With fewer readings than this, lamps, window or season stand in.",
    ),
    _SEASON.number(
        "temperature_window_days",
        ("Warmth over", "days"),
        "The season's warmth is the mean of a place's last so many days.",
    ),
    _MEASURED.number(
        "performance_window_days",
        ("Measures count for", "days"),
        "Two lengths within so many days give a rate, which takes the season's place.",
    ),
    _MEASURED.number(
        "earlier_season_days",
        ("An earlier season is", "days back"),
        "A plant's best rate is looked for among looks at least so old.",
    ),
    _MEASURED.share(
        "performance_least",
        ("Slow growth leaves at least", "%"),
        "However slow a measured growth is, it leaves this share.",
    ),
    _MEASURED.number(
        "performance_most_raise",
        ("Fast growth may raise by", "times"),
        "How far above its season a measured growth counts where no lamps hang; long"
        " soft shoots in gloom are no vigour.",
    ),
)
