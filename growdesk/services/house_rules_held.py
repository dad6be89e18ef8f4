"""The house rules that hold feed back, end rests and call for a flush, declared."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.speech import mark
from growdesk.services.rule_declaring import PRACTICE, Group

if TYPE_CHECKING:
    from growdesk.services.values import Setting

_HELD = Group(mark("When feed is held"))
_RESTS = Group(mark("Rests"))
_SALTS = Group(mark("Salts and flushes"))

_NOBILE = mark(
    "HortScience 43(2), 2008 (stop by 1 September) and a Texas A&M thesis of 2008"
    " (1 October flowers better): disputed, so the middle."
)

DECLARED: tuple[Setting, ...] = (
    _HELD.number(
        "least_interval_days",
        (mark("Between two feeds"), mark("days")),
        mark("The fewest days from one feed to the next."),
        mark(
            "Common practice, weakly and weekly; six days, so that a weekly "
            "round counts."
        ),
    ),
    _HELD.number(
        "settle_days",
        (mark("Settling after a repot"), mark("days")),
        mark("So long a repotted plant without new root tips is not fed."),
        mark(
            "Common practice, no source: what is published waits for roots, "
            "not for days."
        ),
    ),
    _HELD.number(
        "idle_interval_days",
        (mark("Feeds of an idle plant"), mark("days")),
        mark("How often a plant that never rests is fed while nothing shows."),
        PRACTICE,
    ),
    _HELD.number(
        "cold_window_days",
        (mark("Too cold, too hot over"), mark("days")),
        mark(
            "A place counts as too cold or too hot by the mean of its last so "
            "many days."
        ),
    ),
    _HELD.number(
        "stall_days",
        (mark("A growth stands still after"), mark("days")),
        mark("A lead as long as so many days before is no sign of growth."),
    ),
    _HELD.flag(
        "spike_draws_feed_always",
        mark("Feed for every spike"),
        mark(
            "Feed any plant with a spike or buds on the way, not "
            "only the kinds known to draw on it."
        ),
        mark(
            "HortTechnology 27(2), 2017, for moth orchids only: 57 % "
            "of the nitrogen in a spike is taken up after cooling "
            "starts."
        ),
    ),
    _RESTS.number(
        "resume_root_mm",
        (mark("Roots that end a leafless rest"), "mm"),
        mark("Leave it empty to go by the kind (80 mm for catasetums)."),
        mark("Orchids, American Orchid Society, March 2012: new roots of 8 to 12 cm."),
    ),
    _RESTS.number(
        "rooted_mm",
        (mark("Rooted at"), "mm"),
        mark("Other deciduous kinds are fed from roots of this length on."),
        mark("Common practice, no source: an inch of new root."),
    ),
    _RESTS.number(
        "measure_again_days",
        (mark("Measure roots again after"), mark("days")),
        mark("A root measure older than this, under a newer look, is asked for again."),
    ),
    _RESTS.day(
        "still_green_after",
        mark("Still green after"),
        mark(
            "A catasetum still in leaf after this day is kept dry. "
            "South of the equator it is half a year later."
        ),
        mark("A specialist grower's December notes: late in December water stops."),
    ),
    _RESTS.day(
        "no_nitrogen_from",
        mark("No nitrogen from"),
        mark(
            "Soft-cane dendrobiums get no nitrogen from this day on; "
            "growers differ between 1 September and 1 October. South "
            "of the equator it is half a year later."
        ),
        _NOBILE,
    ),
    _RESTS.day(
        "nitrogen_back_from",
        mark("Nitrogen back from"),
        mark(
            "Up to this day they get none, whatever grows; from it "
            "on, once a new growth has roots of its own. A kind "
            "whose rest months end later waits for their end. South "
            "of the equator it is half a year later."
        ),
        mark(
            "Common practice, no source: the cool, dry rest lasts to the end "
            "of February."
        ),
    ),
    _RESTS.number(
        "hidden_roots_days",
        (mark("Hidden roots count after"), mark("days")),
        mark(
            "A soft-cane dendrobium whose root tips are hidden gets nitrogen again once"
            " its new growth has been on record for so long."
        ),
    ),
    _SALTS.number(
        "feeds_before_flush",
        (mark("Feeds before a flush"), ""),
        mark("After so many feeds the next one is a flush."),
        mark("Growers' pages: three feeds, then one of clear water."),
    ),
    _SALTS.number(
        "feeds_before_flush_sphagnum",
        (mark("Feeds before a flush in sphagnum"), ""),
        mark("Sphagnum holds salts, so it is flushed sooner."),
        mark(
            "American Orchid Society, July 2023: sphagnum holds salts; the "
            "number is ours."
        ),
    ),
    _SALTS.number(
        "flush_before_rest_days",
        (mark("Flush before a rest"), mark("days")),
        mark(
            "A fed plant is flushed once in so many days before its "
            "unfed rest; 0 leaves it out."
        ),
        mark(
            "A UK orchid association's paper on conductivity readings: plain water"
            " before a dry rest; the days are ours."
        ),
    ),
    _SALTS.number(
        "rain_waters_mm",
        (mark("Rain waters a pot from"), "mm"),
        mark(
            "Outdoors and uncovered; less than this in a day is not counted as "
            "a watering."
        ),
    ),
    _SALTS.number(
        "rain_flushes_mm",
        (mark("Rain flushes a pot from"), "mm"),
        mark("So much in a day carries the salts out, as a flush does."),
    ),
    _SALTS.number(
        "runoff_ratio",
        (mark("Runoff over the last feed"), mark("times")),
        mark("Runoff EC above so many times the last poured EC asks for a flush."),
        mark(
            "A UK orchid association's paper on conductivity readings: above the feed,"
            " flush; how far above is ours."
        ),
    ),
    _SALTS.number(
        "runoff_margin_ms_per_cm",
        (mark("Runoff above the last feed"), "mS/cm"),
        mark("And at least so far above the last poured EC."),
    ),
    _SALTS.flag(
        "flush_by_estimate",
        mark("Flush by the estimate"),
        mark(
            "A pot whose salts are above its kind's limit by the lowest estimate is"
            " flushed, without a reading of its runoff."
        ),
        mark(
            "A house rule, ours; the balance is that of FAO "
            "Irrigation and Drainage Paper 29, from memory."
        ),
    ),
    _SALTS.number(
        "ec_per_100_ppm_n_ms_per_cm",
        (mark("EC of 100 ppm N"), "mS/cm"),
        mark("What a feed of 100 ppm N measures, where the label says it."),
        mark(
            "Feeds differ: 0.41 to 0.46 for 20-20-20 (a University "
            "of Massachusetts sheet), 0.74 for 15-5-15 (a bag label)."
        ),
    ),
)
