"""What is known about a plant, its place and the house on one day.

Plain frozen values. ``None`` always means *not recorded*, which is never the same as
absent: ``RootTips.NONE`` says that somebody looked and saw none. What is held by the
hundred thousand takes no part in collecting: its fields hold nothing that leads back.
"""

from __future__ import annotations

from datetime import date  # noqa: TC003 -- dataclass fields are read at run time
from enum import StrEnum

from msgspec import Struct, field


class RootTips(StrEnum):
    """The growing points of the roots, as seen at a look."""

    NONE = "none"
    STARTING = "starting"
    RUNNING = "running"
    HIDDEN = "hidden"


class NewLeaf(StrEnum):
    """The crown leaf of a monopodial."""

    NONE = "none"
    STARTING = "starting"
    EXTENDING = "extending"
    FULL = "full"


class Flowering(StrEnum):
    """The flowering stages."""

    NONE = "none"
    SHEATH = "sheath"
    SPIKE = "spike"
    BUDS = "buds"
    OPEN = "open"
    FADING = "fading"
    SPENT = "spent"


class Leaves(StrEnum):
    """How the leaves stand."""

    FIRM = "firm"
    YELLOWING = "yellowing"
    DROPPING = "dropping"
    LEAFLESS = "leafless"
    SHRIVELLED = "shrivelled"


class Bulbs(StrEnum):
    """How the pseudobulbs stand; ``SHRIVELLED`` is badly shrivelled."""

    FIRM = "firm"
    WRINKLED = "wrinkled"
    SHRIVELLED = "shrivelled"


class Pot(StrEnum):
    """How wet the pot is."""

    WET = "wet"
    MOIST = "moist"
    NEARLY_DRY = "nearly-dry"
    DRY = "dry"


class Health(StrEnum):
    """Troubles a look can find."""

    ROT = "rot"
    NO_ROOTS = "no-roots"
    PESTS = "pests"
    SALT_BURN = "salt-burn"
    VIRUS_SUSPECT = "virus-suspect"


class CareKind(StrEnum):
    """What was done to a plant."""

    FEED = "feed"
    CLEAR_WATER = "clear-water"
    FLUSH = "flush"
    REPOT = "repot"
    DIVIDE = "divide"
    MOVE = "move"
    TREAT = "treat"
    RAIN = "rain"


class Medium(StrEnum):
    """What the plant is potted in."""

    BARK = "bark"
    SPHAGNUM = "sphagnum"
    MINERAL = "mineral"
    SEMI_HYDRO = "semi-hydro"
    SOIL = "soil"
    NONE = "none"


class Size(StrEnum):
    """How far the plant is from flowering."""

    SEEDLING = "seedling"
    NEAR_BLOOMING = "near-blooming"
    BLOOMING = "blooming"


class PlaceKind(StrEnum):
    """What sort of place a plant stands in."""

    WINDOWSILL = "windowsill"
    BALCONY = "balcony"
    SHELF = "shelf"
    GREENHOUSE = "greenhouse"
    ROOM = "room"
    GARDEN = "garden"


class Facing(StrEnum):
    """The way a place looks out; ``OVERHEAD`` is under open sky or a glass roof."""

    NORTH = "north"
    NORTH_EAST = "north-east"
    EAST = "east"
    SOUTH_EAST = "south-east"
    SOUTH = "south"
    SOUTH_WEST = "south-west"
    WEST = "west"
    NORTH_WEST = "north-west"
    OVERHEAD = "overhead"


class Glass(StrEnum):
    """What the light comes through."""

    NONE = "none"
    SINGLE = "single"
    DOUBLE = "double"
    TRIPLE = "triple"
    PLASTIC = "plastic"


class Verdict(StrEnum):
    """What is to be done with a plant this watering day."""

    FEED = "feed"
    CLEAR_WATER = "clear-water"
    FLUSH = "flush"
    KEEP_DRY = "keep-dry"
    LOOK_FIRST = "look-first"


class Water(StrEnum):
    """How to water."""

    NONE = "none"
    SPARING = "sparing"
    IF_DRY = "if-dry"
    THROUGH = "through"


class NewGrowths(Struct, frozen=True, gc=False):
    """Counts of new growths by stage; ``None`` where a stage was not recorded."""

    emerging: int | None = None
    extending: int | None = None
    maturing: int | None = None
    matured: int | None = None
    stalled: int | None = None


class Look(Struct, frozen=True, gc=False):
    """One dated inspection. Lengths in mm, ``runoff_ec_ms_per_cm`` at 25 °C.

    ``keikis`` and ``pods`` are counts, ``keiki_root_mm`` the longest root of a keiki.
    """

    on: date
    new_growths: NewGrowths | None = None
    root_tips: RootTips | None = None
    longest_new_root_mm: float | None = None
    lead_length_mm: float | None = None
    new_leaf: NewLeaf | None = None
    flowering: frozenset[Flowering] | None = None
    leaves: Leaves | None = None
    bulbs: Bulbs | None = None
    pot: Pot | None = None
    health: frozenset[Health] | None = None
    runoff_ec_ms_per_cm: float | None = None
    keikis: int | None = None
    keiki_root_mm: float | None = None
    pods: int | None = None
    spike_mm: float | None = None


class Care(Struct, frozen=True, gc=False):
    """One thing done to a plant. ``strength_ppm_n`` is mg of nitrogen per litre.

    ``rain_mm`` is how much fell, of rain.
    """

    on: date
    what: CareKind
    strength_ppm_n: float | None = None
    ec_ms_per_cm: float | None = None
    volume_l: float | None = None
    rain_mm: float | None = None


class Reading(Struct, frozen=True, gc=False):
    """One day of a place: temperatures in °C, light at the leaf, relative humidity."""

    on: date
    mean_c: float | None = None
    low_c: float | None = None
    high_c: float | None = None
    light_mol_per_m2_d: float | None = None
    humidity_percent: float | None = None

    @property
    def day_mean_c(self) -> float | None:
        """Give the day's mean, taken between low and high where none was read."""
        if self.mean_c is not None:
            return self.mean_c
        if self.low_c is None or self.high_c is None:
            return None
        return (self.low_c + self.high_c) / 2


class Lamps(Struct, frozen=True):
    """Lamps over a place: hours a day, and PPFD at the leaf in µmol m-2 s-1."""

    hours: float
    ppfd: float


class Place(Struct, frozen=True):
    """Where a plant stands. ``mean_temperature_c`` is an undated mean.

    ``shaded`` is the share of the light that curtain, blind or trees take away.
    """

    name: str = ""
    kind: str | None = None
    controlled: bool = False
    outdoors: bool = False
    mean_temperature_c: float | None = None
    lamps: Lamps | None = None
    facing: Facing | None = None
    glass: Glass | None = None
    shaded: float | None = None
    readings: tuple[Reading, ...] = ()


class Overrule(Struct, frozen=True):
    """The grower's own word for one plant, with a reason, until a date inclusive."""

    verdict: Verdict
    reason: str
    until: date
    water: Water | None = None
    since: date | None = None


class Plant(Struct, frozen=True):
    """All that is known of one plant, in litres and mg N per litre.

    ``kind_fields`` are the fields of its kind that hold otherwise for this plant, each
    with the cell that the table of kinds would have, in the order of their names.
    """

    tag: str
    name: str = ""
    kind: str = ""
    hybrid: bool = False
    place: Place = field(default_factory=Place)
    pot_volume_l: float | None = None
    volume_l: float | None = None
    medium: Medium | None = None
    mounted: bool = False
    size: Size | None = None
    under_cover: bool = False
    repotted_on: date | None = None
    slow_release_until: date | None = None
    full_strength_ppm_n: float | None = None
    feed_ceiling_ppm_n: float | None = None
    feed_interval_days: int | None = None
    ignores_rest: bool = False
    overrule: Overrule | None = None
    quarantine_until: date | None = None
    kind_fields: tuple[tuple[str, str], ...] = ()
    looks: tuple[Look, ...] = ()
    care: tuple[Care, ...] = ()


class House(Struct, frozen=True):
    """The house rules. Every number here may be changed by the grower.

    Latitude in degrees, south negative. Strengths in mg N per litre, lengths in mm,
    intervals and limits in days, bands and shares as fractions. ``(month, day)`` pairs
    are given for the northern hemisphere and turn with it.
    """

    latitude: float = 50.0
    full_strength_ppm_n: float = 150.0
    strength_floor_ppm_n: float = 30.0
    strength_step_ppm_n: float = 10.0
    strength_ceiling_ppm_n: float = 400.0
    look_limit_days: int = 21
    least_interval_days: int = 6
    feeds_before_flush: int = 3
    feeds_before_flush_sphagnum: int = 2
    settle_days: int = 14
    idle_interval_days: int = 30
    jugs: int = 3
    band_low: float = 0.25
    band_high: float = 0.10
    pot_share: float = 0.25
    resume_root_mm: float | None = None
    rooted_mm: float = 25.0
    still_green_after: tuple[int, int] = (12, 20)
    no_nitrogen_from: tuple[int, int] = (9, 15)
    flush_before_rest_days: int = 21
    glass_colder_c: float = 3.0
    glass_hotter_c: float = 4.0
    quarantine_days: int = 28
    rain_waters_mm: float = 4.0
    rain_flushes_mm: float = 25.0
    runoff_ratio: float = 1.5
    runoff_margin_ms_per_cm: float = 0.4
    ec_per_100_ppm_n_ms_per_cm: float = 0.7
    water_ec_ms_per_cm: float = 0.0
    spike_draws_feed_always: bool = False
    nitrogen_back_from: tuple[int, int] = (3, 1)
    hidden_roots_days: int = 42
    equatorial_band_deg: float = 15.0
    cold_window_days: int = 7
    stall_days: int = 21
    measure_again_days: int = 14
    feeder_light_share: float = 0.5
    feeder_heavy_share: float = 1.25
    seedling_share: float = 0.5
    no_tips_share: float = 0.5
    fresh_repot_share: float = 0.5
    fresh_repot_most_days: int = 365
    slow_release_share: float = 0.5
    sphagnum_share: float = 0.75
    idle_share: float = 0.5
    full_radiation_mj_per_m2_d: float = 40.0
    bright_from_fc: float = 2000.0
    low_light_under_fc: float = 1200.0
    half_light_bright: float = 0.4
    half_light_medium: float = 0.25
    half_light_low: float = 0.15
    clear_sky_share: float = 0.5
    clear_sky_share_winter: float = 0.3
    light_window_days: int = 21
    light_least_days: int = 3
    temperature_window_days: int = 21
    performance_window_days: int = 35
    earlier_season_days: int = 180
    performance_least: float = 0.2
    performance_most_raise: float = 1.25
    flush_by_estimate: bool = False
    measure_off_share: float = 0.05
    stock_share: float = 0.8
    stock_coolest_c: float = 15.0
    stock_keep_months: int = 3
    bark_years: float = 2.0
    sphagnum_years: float = 1.5
    mineral_years: float = 4.0
    semi_hydro_years: float = 3.0
    soil_years: float = 2.0
    keiki_root_mm: float = 50.0
    stake_spike_mm: float = 150.0
    nights_warm_c: float = 15.5
    nights_intermediate_c: float = 13.0
    nights_cool_c: float = 4.0
    nights_cool_out_c: float = 7.0
    nights_hold: int = 7
    nights_below: int = 3
    watering_weekdays: tuple[int, ...] = (2, 5)
