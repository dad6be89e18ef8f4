"""The house rules that make the strength, declared: shares, season, measured growth."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.speech import mark
from growdesk.services.rule_declaring import CURVE, OURS, PRACTICE, Group

if TYPE_CHECKING:
    from growdesk.services.values import Setting

_STRENGTH = Group(mark("Strength"))
_SHARES = Group(mark("Shares of full strength"))
_SEASON = Group(mark("Light and warmth"))
_MEASURED = Group(mark("Measured growth"))

DECLARED: tuple[Setting, ...] = (
    _STRENGTH.number(
        "full_strength_ppm_n",
        (mark("Full strength"), mark("ppm N")),
        mark("What a medium feeder in full growth and full light is given."),
        mark(
            "A Michigan State University talk: 125, and 100 to 200 will do; growers who"
            " give 300 in summer exist."
        ),
    ),
    _STRENGTH.number(
        "strength_floor_ppm_n",
        (mark("Weakest feed"), mark("ppm N")),
        mark(
            "A feed is not mixed weaker than this, unless a plant's ceiling is lower."
        ),
        mark("A house rule, ours; the weakest constant feed in print is 30 to 50."),
    ),
    _STRENGTH.number(
        "strength_ceiling_ppm_n",
        (mark("Strongest feed"), mark("ppm N")),
        mark("No feed is mixed stronger than this."),
        mark(
            "A house rule, ours; HortScience 43(2), 2008, tried up to 400 on "
            "dendrobiums."
        ),
    ),
    _STRENGTH.number(
        "strength_step_ppm_n",
        (mark("Rounded to"), mark("ppm N")),
        mark("A plant's strength is rounded to this step."),
    ),
    _SHARES.share(
        "feeder_light_share",
        (mark("A light feeder"), mark("% of full strength")),
        mark("What kinds that take little are given."),
        mark(
            "A house rule, ours, read across sources: 80 to 100 ppm "
            "N for odontoglossums, up to 200 for moth orchids."
        ),
    ),
    _SHARES.share(
        "feeder_heavy_share",
        (mark("A heavy feeder"), mark("% of full strength")),
        mark("What kinds that take much are given."),
        mark("A house rule, ours, read across sources, as for light feeders."),
    ),
    _SHARES.share(
        "seedling_share",
        (mark("A seedling"), mark("% of full strength")),
        mark("What a seedling is given."),
        mark(
            "American Orchid Society, Fertilizer Burn: weaker for seedlings; how much"
            " weaker is ours."
        ),
    ),
    _SHARES.share(
        "no_tips_share",
        (mark("A growth without root tips"), mark("% of full strength")),
        mark(
            "For a plant whose one new growth has just come up, with no root "
            "tips found."
        ),
        PRACTICE,
    ),
    _SHARES.share(
        "fresh_repot_share",
        (mark("Fresh from a repot"), mark("% of full strength")),
        mark("Once it has settled, until root tips are seen."),
        mark(
            "American Orchid Society, Fertilizer Burn: restart with dilute feed; how"
            " dilute is ours."
        ),
    ),
    _SHARES.number(
        "fresh_repot_most_days",
        (mark("Fresh from a repot for"), mark("days at most")),
        mark("In an opaque pot root tips may never be seen; then it ends by itself."),
    ),
    _SHARES.share(
        "slow_release_share",
        (mark("Slow release in the pot"), mark("% of full strength")),
        mark("While feed grains in the pot still give."),
        PRACTICE,
    ),
    _SHARES.share(
        "sphagnum_share",
        (mark("In sphagnum"), mark("% of full strength")),
        mark("Sphagnum holds salts, so its feed is weaker."),
        mark(
            "American Orchid Society, July 2023: a weaker feed in "
            "sphagnum; the share is ours."
        ),
    ),
    _SHARES.share(
        "idle_share",
        (mark("Idle, but never resting"), mark("% of full strength")),
        mark("For an evergreen plant without a rest that shows nothing on the move."),
        PRACTICE,
    ),
    _SEASON.number(
        "full_radiation_mj_per_m2_d",
        (mark("Full light"), mark("MJ/m² a day")),
        mark("The sun above the air at which the light takes nothing off."),
        mark(
            "A house curve, ours; by FAO Irrigation and Drainage Paper 56 a June day"
            " brings about 42 at 40° to 50°."
        ),
    ),
    _SEASON.number(
        "half_light_bright",
        (mark("Bend for bright light"), ""),
        mark(
            "The lower the number, the less a dim season takes off. This is the bend"
            " for plants that want bright light."
        ),
        mark(
            "A house curve, ours. About half is left in a temperate winter, as is"
            " common practice."
        ),
    ),
    _SEASON.number(
        "half_light_medium",
        (mark("Bend for medium light"), ""),
        mark(
            "The lower the number, the less a dim season takes off. This is the bend"
            " for plants that want medium light."
        ),
        CURVE,
    ),
    _SEASON.number(
        "half_light_low",
        (mark("Bend for low light"), ""),
        mark(
            "The lower the number, the less a dim season takes off. This is the bend"
            " for plants that want little light."
        ),
        CURVE,
    ),
    _SEASON.number(
        "bright_from_fc",
        (mark("Bright light from"), mark("foot-candles")),
        mark("A kind wants bright light from this middle of its range on."),
        OURS,
    ),
    _SEASON.number(
        "low_light_under_fc",
        (mark("Little light under"), mark("foot-candles")),
        mark("A kind wants little light below this middle of its range."),
        OURS,
    ),
    _SEASON.share(
        "clear_sky_share",
        (mark("Clear sky"), mark("% of the day")),
        mark(
            "How much of the possible sunshine your sky gives at "
            "midsummer; the light of windows, roofs and open places "
            "is reckoned from it."
        ),
        mark(
            "A house rule, ours; with half of it, FAO Irrigation & Drainage Paper 56,"
            " eq. 35, brings half of the sun to the ground."
        ),
    ),
    _SEASON.share(
        "clear_sky_share_winter",
        (mark("Clear sky in winter"), mark("% of the day")),
        mark(
            "The same at midwinter, from which it goes over to "
            "summer's with the sun. Near the equator summer's holds "
            "all year."
        ),
        mark(
            "A house rule, ours; about what a cloudy temperate winter gives, from"
            " memory."
        ),
    ),
    _SEASON.number(
        "light_window_days",
        (mark("Light read over"), mark("days")),
        mark("Readings of light count for so many days."),
    ),
    _SEASON.number(
        "light_least_days",
        (mark("Light read on"), mark("days at least")),
        mark("With fewer readings than this, lamps, window or season stand in."),
    ),
    _SEASON.number(
        "temperature_window_days",
        (mark("Warmth over"), mark("days")),
        mark("The season's warmth is the mean of a place's last so many days."),
    ),
    _MEASURED.number(
        "performance_window_days",
        (mark("Measures count for"), mark("days")),
        mark(
            "Two lengths within so many days give a rate, which takes the "
            "season's place."
        ),
    ),
    _MEASURED.number(
        "earlier_season_days",
        (mark("An earlier season is"), mark("days back")),
        mark("A plant's best rate is looked for among looks at least so old."),
    ),
    _MEASURED.share(
        "performance_least",
        (mark("Slow growth leaves at least"), "%"),
        mark("However slow a measured growth is, it leaves this share."),
    ),
    _MEASURED.number(
        "performance_most_raise",
        (mark("Fast growth may raise by"), mark("times")),
        mark(
            "How far above its season a measured growth counts where "
            "no lamps hang; long soft shoots in gloom are no vigour."
        ),
    ),
)
