"""Small builders of facts for the tests of the decision, and mixtures of them.

Every look, care and plant is made here from what a test wants to say; what a test does
not say stays not recorded.
"""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

from hypothesis import strategies as st
from msgspec.structs import replace

from growdesk.domain import wording
from growdesk.domain.facts import (
    Bulbs,
    Care,
    CareKind,
    Facing,
    Flowering,
    Glass,
    Health,
    House,
    Lamps,
    Leaves,
    Look,
    Medium,
    NewGrowths,
    NewLeaf,
    Overrule,
    Place,
    Plant,
    Reading,
    RootTips,
    Size,
    Verdict,
    Water,
)
from growdesk.domain.judging import judge
from growdesk.services import kinds

if TYPE_CHECKING:
    from growdesk.domain.explain import Judgement, Reason, Role
    from growdesk.domain.kinds import Kind

HOUSE = House(latitude=48.2)
SOUTH = House(latitude=-37.0)
EQUATOR = House(latitude=-1.3)

NOTHING = NewGrowths(0, 0, 0, 2)
EMERGING = NewGrowths(1, 0, 0, 2)
EXTENDING = NewGrowths(0, 1, 0, 2)
MATURING = NewGrowths(0, 0, 1, 2)


def day(text: str) -> date:
    """Give the day of ``2026-05-10``, or of ``05-10`` in 2026."""
    return date.fromisoformat(text if len(text) > 5 else f"2026-{text}")


def look(on: str | date, *flowering: Flowering, **signs: Any) -> Look:
    """Give a look; what is not named stays not recorded."""
    seen = day(on) if isinstance(on, str) else on
    if flowering:
        signs["flowering"] = frozenset(flowering)
    if "health" in signs:
        signs["health"] = frozenset(signs["health"])
    return Look(on=seen, **signs)


def still(on: str | date, *flowering: Flowering, **signs: Any) -> Look:
    """Give a look at which growth and root tips were looked for and not found."""
    shown = {"new_growths": NOTHING, "root_tips": RootTips.NONE, **signs}
    return look(on, *flowering, **shown)


def moving(on: str | date, *flowering: Flowering, **signs: Any) -> Look:
    """Give a look at a new growth extending with root tips running."""
    shown = {"new_growths": EXTENDING, "root_tips": RootTips.RUNNING, **signs}
    return look(on, *flowering, **shown)


def fed(on: str, ppm_n: float | None = None, ec: float | None = None) -> Care:
    """Give a feed."""
    return Care(day(on), CareKind.FEED, ppm_n, ec)


def did(on: str, what: CareKind) -> Care:
    """Give a care of any kind."""
    return Care(day(on), what)


def plant(kind: str, *looks: Look, care: tuple[Care, ...] = (), **more: Any) -> Plant:
    """Give a plant of a kind with its looks and care."""
    return Plant(tag="T1", name="Test plant", kind=kind, looks=looks, care=care, **more)


def kind_of(one: Plant) -> Kind:
    """Give the kind of a plant, the careful general one where it is not known."""
    table = kinds.table()
    return table.find(one.kind) or table.general


def kind_known(one: Plant) -> bool:
    """Tell whether the kind of a plant is in the table."""
    return kinds.table().find(one.kind) is not None


def judged(one: Plant, on: str | date, house: House = HOUSE) -> Judgement:
    """Give the verdict on a plant on a day, told whole."""
    when = day(on) if isinstance(on, str) else on
    kind, known = kind_of(one), kind_known(one)
    return judge(one, kind, house, when, kind_known=known, tells_salts=True)


def outcome(judgement: Judgement) -> tuple[str, str, str]:
    """Give rule, verdict and water, to be compared at once."""
    return judgement.rule, judgement.verdict.value, judgement.water.value


def deciding(judgement: Judgement) -> str:
    """Give the deciding sentence."""
    return wording.tell(judgement)[0].sentence


def said(judgement: Judgement) -> str:
    """Give all the sentences in one text."""
    return " ".join(sentences(judgement))


def sentences(judgement: Judgement) -> list[str]:
    """Give every sentence that is said, the strength's last where there is one."""
    strength = wording.strength_sentence(judgement)
    told = [one.sentence for one in wording.tell(judgement)]
    return [*told, strength] if strength else told


def of_rule(judgement: Judgement, rule: str) -> list[Reason]:
    """Give the reasons that come from a rule."""
    return [reason for reason in judgement.reasons if reason.rule == rule]


def bloom_told(judgement: Judgement) -> list[str]:
    """Give the sentences that say bloom did not decide."""
    told = wording.tell(judgement)
    return [one.sentence for one in told if one.rule == "bloom"]


def roles(judgement: Judgement) -> list[Role]:
    """Give the roles in their order."""
    return [reason.role for reason in judgement.reasons]


def warm_place(mean_c: float, on: str, **more: Any) -> Place:
    """Give a place with a reading of a mean on each of the three weeks before a day."""
    days = (day(on) - timedelta(days=n) for n in range(21))
    return Place(readings=tuple(Reading(one, mean_c) for one in days), **more)


# -- mixtures of facts, each of which may be missing --------

FIRST, LAST = date(2024, 1, 1), date(2026, 12, 31)
KIND_KEYS = (
    "phalaenopsis",
    "cattleya",
    "oncidium",
    "miltoniopsis",
    "laelia-rupicolous",
    "dendrobium-nobile",
    "catasetum",
    "lycaste",
    "masdevallia",
    "vanda",
    "Unheardofia",
)


def _or_none(strategy: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return st.none() | strategy


_count = _or_none(st.integers(0, 3))
_dates = st.dates(FIRST, LAST)
_growths = st.builds(NewGrowths, _count, _count, _count, _count, _count)
_mm = _or_none(st.sampled_from((0.0, 5.0, 24.0, 25.0, 40.0, 79.0, 80.0, 120.0)))


def _some_of(values: type[Flowering | Health]) -> st.SearchStrategy[Any]:
    return _or_none(st.frozensets(st.sampled_from(list(values)), max_size=2))


def looks_on(dates: st.SearchStrategy[date]) -> st.SearchStrategy[Look]:
    """Give looks with any signs recorded or not."""
    return st.builds(
        Look,
        on=dates,
        new_growths=_or_none(_growths),
        root_tips=_or_none(st.sampled_from(RootTips)),
        longest_new_root_mm=_mm,
        lead_length_mm=_mm,
        new_leaf=_or_none(st.sampled_from(NewLeaf)),
        flowering=_some_of(Flowering),
        leaves=_or_none(st.sampled_from(Leaves)),
        bulbs=_or_none(st.sampled_from(Bulbs)),
        health=_some_of(Health),
        runoff_ec_ms_per_cm=_or_none(st.floats(0, 4)),
    )


_cares = st.builds(
    Care,
    on=_dates,
    what=st.sampled_from(CareKind),
    strength_ppm_n=_or_none(st.floats(20, 300)),
    ec_ms_per_cm=_or_none(st.floats(0.1, 3)),
    volume_l=_or_none(st.floats(0, 5)),
)
_readings = st.builds(
    Reading,
    on=_dates,
    mean_c=_or_none(st.floats(-5, 45)),
    low_c=_or_none(st.floats(-5, 20)),
    high_c=_or_none(st.floats(20, 45)),
    light_mol_per_m2_d=_or_none(st.floats(0, 60)),
    humidity_percent=_or_none(st.floats(0, 100)),
)
_places = st.builds(
    Place,
    controlled=st.booleans(),
    outdoors=st.booleans(),
    mean_temperature_c=_or_none(st.floats(-5, 45)),
    lamps=_or_none(st.builds(Lamps, st.floats(0, 24), st.floats(0, 800))),
    facing=_or_none(st.sampled_from(Facing)),
    glass=_or_none(st.sampled_from(Glass)),
    shaded=_or_none(st.floats(0, 0.95)),
    readings=st.lists(_readings, max_size=3).map(tuple),
)
_overrules = st.builds(
    Overrule,
    verdict=st.sampled_from(Verdict),
    reason=st.sampled_from(("it stands in the bath", "On trial.")),
    until=_dates,
    water=_or_none(st.sampled_from(Water)),
    since=_or_none(_dates),
)


@st.composite
def cases(draw: st.DrawFn) -> tuple[Plant, House, date]:
    """Give any plant in any house on any day, most of it near the day."""
    on = draw(_dates)
    near = st.integers(-3, 60).map(lambda age: on - timedelta(days=age))
    dates = draw(st.lists(near | _dates, max_size=4, unique=True))
    looks = tuple(draw(looks_on(st.just(seen))) for seen in dates)
    cares = tuple(
        replace(care, on=draw(near | _dates))
        for care in draw(st.lists(_cares, max_size=4))
    )
    one = Plant(
        tag="H1",
        name="Any plant",
        kind=draw(st.sampled_from(KIND_KEYS)),
        place=draw(_places),
        pot_volume_l=draw(_or_none(st.floats(0.1, 10))),
        medium=draw(_or_none(st.sampled_from(Medium))),
        mounted=draw(st.booleans()),
        size=draw(_or_none(st.sampled_from(Size))),
        repotted_on=draw(_or_none(near)),
        slow_release_until=draw(_or_none(_dates)),
        full_strength_ppm_n=draw(_or_none(st.floats(1, 500))),
        feed_ceiling_ppm_n=draw(_or_none(st.floats(5, 500))),
        feed_interval_days=draw(_or_none(st.integers(0, 30))),
        ignores_rest=draw(st.booleans()),
        overrule=draw(st.none() | st.none() | _overrules),
        looks=looks,
        care=cares,
    )
    house = House(
        latitude=draw(st.sampled_from((-90.0, -37.0, -15.0, 0.0, 15.1, 48.2, 90.0))),
        full_strength_ppm_n=draw(st.sampled_from((50.0, 150.0, 300.0))),
        strength_step_ppm_n=draw(st.sampled_from((1.0, 10.0, 25.0))),
        spike_draws_feed_always=draw(st.booleans()),
        flush_by_estimate=draw(st.booleans()),
        water_ec_ms_per_cm=draw(st.sampled_from((0.0, 0.3, 1.6))),
    )
    return one, house, on
