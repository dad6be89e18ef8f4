"""Frozen values that services hand out and take in. No session lives in any of them.

Volumes in litres, masses in grams, strengths in mg N per litre (``ppm_n``), lengths in
mm, temperatures in °C.
"""

from __future__ import annotations

from enum import Flag, StrEnum, auto
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.holding import Status
from growdesk.domain.water_analysis import KINDS
from growdesk.services.bloom_values import NO_BLOOMS

if TYPE_CHECKING:
    from datetime import date
    from pathlib import Path

    from growdesk.domain.explain import Strength, Told
    from growdesk.domain.facts import (
        CareKind,
        Facing,
        Glass,
        Look,
        Medium,
        Overrule,
        Reading,
        Size,
        Verdict,
        Water,
    )
    from growdesk.domain.holding import Descent, HeldAs
    from growdesk.domain.measuring import Measured
    from growdesk.domain.rungs import Rung
    from growdesk.domain.vessels import Vessel
    from growdesk.domain.water_blend import Blend
    from growdesk.domain.water_ready import WaterNeed
    from growdesk.services.bloom_values import PlantBlooms
    from growdesk.services.jug_values import (
        BottleToMake,
        JugFill,
        LadderJug,
        LadderShare,
    )
    from growdesk.services.look_values import Bench
    from growdesk.services.plant_values import Kin


class Changed(Flag):
    """Which facets of the collection a write touched."""

    NOTHING = 0
    PLANTS = auto()
    PLACES = auto()
    LOOKS = auto()
    CARE = auto()
    PHOTOS = auto()
    SHELF = auto()
    HOUSE = auto()
    KINDS = auto()
    MARKS = auto()
    JOBS = auto()
    VIEWS = auto()


class DoneKind(StrEnum):
    """What a tick on a watering day stands for."""

    CARED = "cared"
    PASSED_BY = "passed-by"


class Done(Struct, frozen=True):
    """A tick: what was really given, or that the plant was passed by, still damp."""

    kind: DoneKind
    what: CareKind | None
    strength_ppm_n: float | None
    volume_l: float | None


class Line(Struct, frozen=True):
    """One plant in the watering day's list.

    ``strength_ppm_n`` is its own; ``jug_ppm_n`` is what stands in the jug for it, and
    ``outside_band`` tells that this is further from its own than the band.
    ``together`` is there where several plants share the tag, as ``tray ×6``.
    """

    plant_id: int
    tag: str
    name: str
    place: str
    bench: int
    verdict: Verdict
    water: Water
    strength_ppm_n: float | None
    volume_l: float | None
    letter: str | None
    short_reason: str
    looked_on: date | None
    suspect: bool
    done: Done | None
    jug_ppm_n: int | None = None
    outside_band: bool = False
    bench_name: str = ""
    together: str = ""
    newcomer: bool = False


class Unjudged(Struct, frozen=True):
    """A plant in the list of a day that has not been judged yet."""

    plant_id: int
    tag: str
    name: str
    place: str
    bench: int
    bench_name: str = ""
    together: str = ""


class Jug(Struct, frozen=True):
    """One batch to mix.

    ``doses`` are its products as they are measured; it is empty where none is set.
    ``gives_ppm_n`` is the strength that what is measured really gives.
    ``ec_ms_per_cm`` is the single figure to expect, where one is known.
    ``fills`` are the mixes that fit the grower's jugs, empty where none is recorded;
    ``doses`` are then of all of them. ``over_l`` is what is mixed beyond what was
    planned, so that a jug can show it; it is in ``spare_l``. ``mixing`` tells in
    sentences how it is mixed: its parts, the order, cans, what stays over. ``notes``
    are worth knowing and change nothing at the bench, as ``warnings`` may. ``of_two``
    are those of ``mixing`` that say what a blend is poured from. ``of_ladder`` is there
    where the ladder goes first: the jug's share of the doses that this begins with.
    """

    letter: str
    strength_ppm_n: int
    volume_l: float
    spare_l: float
    tags: tuple[str, ...]
    elements_mg_per_l: tuple[tuple[str, float], ...]
    ec_low_ms_per_cm: float | None
    ec_high_ms_per_cm: float | None
    warnings: tuple[str, ...]
    recipe: str = ""
    recipe_id: int | None = None
    doses: tuple[Measured, ...] = ()
    gives_ppm_n: float | None = None
    ec_ms_per_cm: float | None = None
    ec_why: str = ""
    ec_water_ms_per_cm: float | None = None
    fills: tuple[JugFill, ...] = ()
    over_l: float = 0.0
    mixing: tuple[str, ...] = ()
    water_id: int | None = None
    water: str = ""
    notes: tuple[str, ...] = ()
    of_two: tuple[str, ...] = ()
    of_ladder: LadderShare | None = None


class OneMore(Struct, frozen=True):
    """The best that one jug more would do: its strengths, and who is still outside.

    ``fewest`` is how many jugs serve everybody within the band.
    """

    strengths_ppm_n: tuple[int, ...]
    outside_band: tuple[str, ...]
    fewest: int


class MixPlan(Struct, frozen=True):
    """What to have ready at the bench: jugs, ladder, clear water.

    ``one_more`` is there where plants are served outside their band. ``short`` says
    what on the shelf does not reach for the round. ``waters`` are the litres of each
    water that it all takes; ``poured_from`` gives the water, by tag, of plants whose
    clear water is not the one in use. ``mug`` is the grower's own measure;
    ``stands`` the litres that stand of a water before the round, by its number.
    The ladder goes before the jugs' own doses where ``ladder_first``; ``ladder_why`` is
    a sentence on that, or empty, and ``ladder_jugs`` are what its jugs then come to.
    ``remarks`` are sentences on the jugs there are.
    ``bottles`` are worth making for doses too small to be measured well.
    ``clear_blend`` gives the two waters that the clear water is blended of, with their
    litres.
    """

    jugs: tuple[Jug, ...]
    ladder: tuple[str, ...]
    outside_band: tuple[str, ...]
    volume_unknown: tuple[str, ...]
    clear_l: float
    flush_l: float
    water: str | None
    tin: str | None
    one_more: OneMore | None = None
    short: tuple[str, ...] = ()
    waters: tuple[WaterNeed, ...] = ()
    poured_from: tuple[tuple[str, int], ...] = ()
    ladder_first: bool = False
    ladder_why: str = ""
    remarks: tuple[str, ...] = ()
    clear_blend: str = ""
    mug: Vessel | None = None
    stands: tuple[tuple[int, float], ...] = ()
    ladder_jugs: tuple[LadderJug, ...] = ()
    bottles: tuple[BottleToMake, ...] = ()


class DayView(Struct, frozen=True):
    """A whole watering day: the list, the jugs, and what is left of it.

    ``missed`` is the watering day before today where nothing of it is on record, as
    long as nothing of today is either; ``missed_told`` says so. ``bench`` is what the
    day was judged from, for whoever reckons on. ``taken_as_done`` are the days before a
    day to come whose round is taken as done as planned.
    """

    on: date
    is_today: bool
    next_day: date
    lines: tuple[Line, ...]
    mix: MixPlan
    setup: tuple[SetupStep, ...]
    missed: date | None = None
    missed_told: str = ""
    bench: Bench | None = None
    taken_as_done: tuple[date, ...] = ()


class DayBegun(Struct, frozen=True):
    """A watering day of many plants, of which not all are judged yet.

    ``lines`` has every plant as the round is walked; none says its jug, since jugs are
    made for all of them. ``judged`` counts those that have their verdict.
    """

    on: date
    is_today: bool
    next_day: date
    lines: tuple[Line | Unjudged, ...]
    judged: int


class SetupStep(Struct, frozen=True):
    """One thing to say first: ``plant``, ``water``, ``tin`` or ``latitude``.

    ``until`` says what stands in its place as long as it is not said.
    """

    key: str
    done: bool
    text: str
    until: str = ""


class PhotoView(Struct, frozen=True):
    """A photo: its file, its thumbnail, and what is wrong where it is missing.

    ``has_location`` tells whether its file says where it was taken, ``None`` where
    nobody has looked; ``look_on`` is the day of the look it hangs on.
    Width and height are pixels, upright.
    """

    photo_id: int
    look_id: int | None
    taken_on: date | None
    path: Path
    thumbnail: Path | None
    problem: str | None
    note: str = ""
    has_location: bool | None = None
    look_on: date | None = None
    width: int = 0
    height: int = 0

    @property
    def shown_on(self) -> date | None:
        """Give the photo's day; where it has none, that of its look."""
        return self.taken_on or self.look_on


class LookView(Struct, frozen=True):
    """A look as recorded, with its note, photos, and its signs in one plain line."""

    look_id: int
    look: Look
    note: str
    signs: str
    photos: tuple[PhotoView, ...]


class CareView(Struct, frozen=True):
    """A piece of care as recorded, with the columns of ``CareRow`` that fit it."""

    care_id: int
    on: date
    what: CareKind
    strength_ppm_n: float | None
    volume_l: float | None
    note: str
    ec_ms_per_cm: float | None = None
    product: str = ""
    repeat_on: date | None = None
    rain_mm: float | None = None
    medium: Medium | None = None
    pot_volume_l: float | None = None
    from_place: str | None = None
    to_place: str | None = None


class PlantDraft(Struct, frozen=True):
    """A plant as a form holds it, new or to be changed. ``place_id`` may be None.

    ``bench`` is its number along its bench, or along the place. ``left_on`` and
    ``left_why`` are of a plant that is not growing here any more; ``parent_id`` is the
    plant it was taken from. ``held_as`` is set where ``how_many`` plants share the tag.
    """

    tag: str
    name: str
    kind: str
    place_id: int | None = None
    bench: int | None = None
    hybrid: bool = False
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
    acquired_on: date | None = None
    source: str = ""
    note: str = ""
    status: Status = Status.GROWING
    left_on: date | None = None
    left_why: str = ""
    bench_id: int | None = None
    parent_id: int | None = None
    parent_how: Descent | None = None
    parentage: str = ""
    papers: str = ""
    held_as: HeldAs | None = None
    how_many: int | None = None
    quarantine_until: date | None = None


class PlantDetail(Struct, frozen=True):
    """All the detail pane shows of one plant on one day.

    ``volume_l`` is a plain round of the plant; ``pour_l`` is what its verdict pours:
    half of it where water is sparing, the pot's volume or more for a flush.
    ``kind_corrected`` says what the grower corrected of its kind. ``old_sign`` is
    one sentence on a sign that has probably moved on since it was seen, or empty.
    ``salts`` says where its pot may stand, ``salts_assume`` what that goes by.
    ``letter``, ``jug_ppm_n`` and ``outside_band`` are of its jug, as in ``Line``; it is
    not known yet where ``jug_waits`` for the other plants to be judged. ``left`` is the
    last word on a plant that is not here any more, and stands in place of the verdict,
    which is then idle. ``ancestors`` begin with its parent.
    """

    plant_id: int
    draft: PlantDraft
    kind_title: str
    kind_known: bool
    place: str
    on: date
    verdict: Verdict
    water: Water
    strength: Strength | None
    volume_l: float | None
    told: tuple[Told, ...]
    strength_sentence: str
    would_change: tuple[str, ...]
    advice: str
    looks: tuple[LookView, ...]
    care: tuple[CareView, ...]
    photos: tuple[PhotoView, ...]
    done: Done | None
    pour_l: float | None = None
    kind_key: str = ""
    monopodial: bool = False
    kind_corrected: tuple[str, ...] = ()
    old_sign: str = ""
    salts: tuple[str, ...] = ()
    salts_assume: str = ""
    letter: str | None = None
    jug_ppm_n: int | None = None
    outside_band: bool = False
    strength_rungs: tuple[Rung, ...] = ()
    left: str = ""
    bench_name: str = ""
    ancestors: tuple[Kin, ...] = ()
    descendants: tuple[Kin, ...] = ()
    blooms: PlantBlooms = NO_BLOOMS
    jug_waits: bool = False


class PlaceDraft(Struct, frozen=True):
    """A place as a form holds it. ``lamps_hours`` and ``lamps_ppfd`` go together.

    ``position`` is its turn on the round; places without one come after, by name.
    """

    name: str
    kind: str = "windowsill"
    controlled: bool = False
    outdoors: bool = False
    lamps_hours: float | None = None
    lamps_ppfd: float | None = None
    facing: Facing | None = None
    glass: Glass | None = None
    shaded: float | None = None
    note: str = ""
    position: int | None = None


class PlaceView(Struct, frozen=True):
    """A place with its plants counted, its last seven days, and today's light told."""

    place_id: int
    draft: PlaceDraft
    plants: int
    mean_7_days_c: float | None
    humidity_7_days_percent: float | None = None
    light: str = ""


class ReadingView(Struct, frozen=True):
    """One day's readings of a place."""

    reading_id: int
    reading: Reading


class TinDraft(Struct, frozen=True):
    """A tin on the shelf: a fertilizer by its analysis, dry or liquid.

    ``formula`` is of a single salt. ``price`` is paid for ``pack_amount``, in grams, of
    a liquid in mL.
    """

    name: str
    analysis: str
    density_g_per_ml: float | None = None
    in_use: bool = True
    note: str = ""
    formula: str | None = None
    ec_per_100_ppm_n_ms_per_cm: float | None = None
    price: float | None = None
    pack_amount: float | None = None


class TinView(Struct, frozen=True):
    """A tin with its number."""

    tin_id: int
    draft: TinDraft


class WaterDraft(Struct, frozen=True):
    """The water at hand: tap, rain, RO or a blend of two, with what is known of it.

    EC in mS/cm at 25 °C, alkalinity and hardness as mg/L CaCO3, ions as mg/L of the
    ion; ``capacity_l`` of its barrel or can. A blend names its two waters and the share
    of the first, reckoned from ``aim`` (share, alkalinity or ec) and ``aim_value``.
    """

    kind: str
    ec_ms_per_cm: float | None = None
    in_use: bool = True
    note: str = ""
    name: str | None = None
    alkalinity_mg_per_l: float | None = None
    hardness_mg_per_l: float | None = None
    ca_mg_per_l: float | None = None
    mg_mg_per_l: float | None = None
    k_mg_per_l: float | None = None
    na_mg_per_l: float | None = None
    cl_mg_per_l: float | None = None
    so4_mg_per_l: float | None = None
    no3_mg_per_l: float | None = None
    capacity_l: float | None = None
    first_id: int | None = None
    second_id: int | None = None
    first_share: float | None = None
    aim: str | None = None
    aim_value: float | None = None

    @property
    def called(self) -> str:
        """Give what it is called: its name, else its kind."""
        return self.name or KINDS.get(self.kind.casefold(), self.kind)


class WaterView(Struct, frozen=True):
    """A water with its number; ``blend`` is there where it is made of two others."""

    water_id: int
    draft: WaterDraft
    blend: Blend | None = None


class Written(Struct, frozen=True):
    """What a write did: the facets it touched, its title in the history, new ids.

    ``problems`` are plain lines on what was kept out (an unreadable photo, say) while
    the rest was written. Where no row was touched there is nothing to undo.
    """

    changed: Changed
    title: str
    ids: tuple[int, ...] = ()
    problems: tuple[str, ...] = ()
    undoable: bool = True


class HistoryView(Struct, frozen=True):
    """What undo and redo would do now, in words; None where there is nothing.

    ``undo_by`` names whose action undo would take back where it is not this account's;
    ``undo_id`` and on a server ``undo_digest`` tell which one it is.
    """

    undo: str | None
    redo: str | None
    undo_id: int | None = None
    undo_by: str = ""
    undo_digest: bytes | None = None


class SettingKind(StrEnum):
    """What sort of value a house rule takes."""

    INT = "int"
    FLOAT = "float"
    SHARE = "share"
    BOOL = "bool"
    WEEKDAYS = "weekdays"
    DAY = "day"


class Setting(Struct, frozen=True):
    """A house rule as a settings page shows it; ``key`` is its field in ``House``.

    ``optional`` rules may be left empty: the kind's own number then holds. A ``DAY`` is
    a ``(month, day)`` pair, ``WEEKDAYS`` a tuple with 0 for Monday. A ``SHARE`` is a
    part of one, which people see and write in per cent. ``above`` leaves the least
    number out of the range. ``source`` says where the default is from; ``short_unit``
    is the unit without what it is of, where it says that.
    """

    key: str
    title: str
    unit: str
    kind: SettingKind
    minimum: float | None
    maximum: float | None
    text: str
    group: str
    source: str
    default: object
    optional: bool = False
    above: bool = False
    short_unit: str = ""
