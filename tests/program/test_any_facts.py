"""Whatever facts can be read are answered: no fact that is allowed is a fault."""

from __future__ import annotations

import json
from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from growdesk.commands import answer
from growdesk.commands.plan import batch_plan
from growdesk.domain.explain import Role
from growdesk.domain.facts import (
    Bulbs,
    CareKind,
    Flowering,
    Health,
    Leaves,
    Medium,
    NewLeaf,
    Pot,
    RootTips,
    Size,
    Verdict,
    Water,
)
from growdesk.domain.facts_file import read_facts
from growdesk.domain.facts_house import NUMBERS, WHOLE_NUMBERS
from growdesk.domain.facts_look import (
    COUNT,
    EC_MS_PER_CM,
    GIVEN_L,
    GIVEN_PPM_N,
    LEAD_MM,
    ROOT_MM,
)
from growdesk.domain.facts_plant import (
    INTERVAL_DAYS,
    LAMP_HOURS,
    LAMP_PPFD,
    POT_L,
    ROUND_L,
    STRENGTH_PPM_N,
    TEMPERATURE_C,
)
from growdesk.services import kinds

if TYPE_CHECKING:
    from growdesk.domain.facts_fields import Range

Strategy = st.SearchStrategy[Any]
ON = date(2026, 3, 28)
days = st.one_of(
    st.integers(-500, 60).map(lambda offset: (ON + timedelta(offset)).isoformat()),
    st.sampled_from(["1900-01-01", "2200-12-31", "2024-02-29", ON.isoformat()]),
)
flags = st.booleans()
kind_keys = st.sampled_from([*sorted(kinds.table().kinds), "no-such-kind", ""])


def numbers(allowed: Range) -> Strategy:
    """Give numbers of a range, its ends among them."""
    least = allowed.low + 1e-6 if allowed.above else allowed.low
    return st.floats(least, allowed.high) | st.sampled_from([least, allowed.high])


def whole(allowed: Range) -> Strategy:
    return st.integers(int(allowed.low), int(allowed.high))


def some(**fields: Strategy) -> Strategy:
    """Give objects with any of these fields, each of them perhaps null."""
    optional = {name: st.none() | values for name, values in fields.items()}
    return st.fixed_dictionaries({}, optional=optional)


def with_day(fields: Strategy) -> Strategy:
    return st.builds(lambda on, rest: {**rest, "on": on}, days, fields)


def listed(values: Strategy) -> Strategy:
    return st.lists(values, max_size=4)


stages = ("emerging", "extending", "maturing", "matured", "stalled")
looks = with_day(
    some(
        new_growths=some(**dict.fromkeys(stages, whole(COUNT))),
        root_tips=st.sampled_from(RootTips),
        longest_new_root_mm=numbers(ROOT_MM),
        lead_length_mm=numbers(LEAD_MM),
        new_leaf=st.sampled_from(NewLeaf),
        flowering=st.sampled_from(Flowering)
        | listed(st.sampled_from([stage for stage in Flowering if stage != "none"])),
        leaves=st.sampled_from(Leaves),
        bulbs=st.sampled_from(Bulbs),
        pot=st.sampled_from(Pot),
        health=listed(st.sampled_from(Health)),
        runoff_ec_ms_per_cm=numbers(EC_MS_PER_CM),
    )
)
care = st.builds(
    lambda what, rest: {**rest, "what": what},
    st.sampled_from(CareKind),
    with_day(
        some(
            strength_ppm_n=numbers(GIVEN_PPM_N),
            ec_ms_per_cm=numbers(EC_MS_PER_CM),
            volume_l=numbers(GIVEN_L),
        )
    ),
)
places = some(
    controlled=flags,
    outdoors=flags,
    mean_temperature_c=numbers(TEMPERATURE_C),
    lamps=st.fixed_dictionaries(
        {"hours": numbers(LAMP_HOURS), "ppfd": numbers(LAMP_PPFD)}
    ),
    readings=listed(with_day(some(mean_c=numbers(TEMPERATURE_C)))),
)
plants = some(
    name=st.text(
        st.characters(exclude_categories=("Cc", "Cs"), exclude_characters="{}"),
        max_size=20,
    ),
    kind=kind_keys,
    hybrid=flags,
    place=places,
    pot_volume_l=numbers(POT_L),
    volume_l=numbers(ROUND_L),
    medium=st.sampled_from(Medium),
    mounted=flags,
    size=st.sampled_from(Size),
    under_cover=flags,
    repotted_on=days,
    slow_release_until=days,
    full_strength_ppm_n=numbers(STRENGTH_PPM_N),
    feed_ceiling_ppm_n=numbers(STRENGTH_PPM_N),
    feed_interval_days=whole(INTERVAL_DAYS),
    ignores_rest=flags,
    overrule=st.fixed_dictionaries(
        {
            "verdict": st.sampled_from(Verdict),
            "reason": st.just("so it is"),
            "until": days,
        },
        optional={"water": st.sampled_from(Water), "since": days},
    ),
    looks=st.lists(looks, max_size=4, unique_by=lambda look: look["on"]),
    care=listed(care),
)
houses = some(
    **{name: numbers(allowed) for name, allowed in NUMBERS.items()},
    **{name: whole(allowed) for name, allowed in WHOLE_NUMBERS.items()},
)


@settings(
    max_examples=60,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)
@given(
    given_house=houses,
    given_plants=st.lists(plants, max_size=3),
    on=st.sampled_from([ON, date(1900, 1, 1), date(2200, 12, 31), date(2024, 2, 29)]),
)
def test_any_facts_that_can_be_read_are_answered(
    given_house: dict[str, Any], given_plants: list[dict[str, Any]], on: date
) -> None:
    tagged = [{**plant, "tag": f"T{at}"} for at, plant in enumerate(given_plants)]
    text = json.dumps({"house": given_house, "plants": tagged})
    house, read = read_facts(json.loads(text))
    reports = [answer.from_facts(house, plant, on).report() for plant in read]
    plan = batch_plan(house, read, on)
    json.dumps(reports, allow_nan=False)
    fed = {report["tag"] for report in reports if report["verdict"] == "feed"}
    assert {tag for batch in plan.batches for tag in batch.tags} <= fed
    for report in reports:
        assert (report["strength_ppm_n"] is not None) == (report["verdict"] == "feed")
        reasons: Any = report["reasons"]
        deciding = [reason for reason in reasons if reason["role"] == Role.DECIDES]
        assert len(deciding) == 1
        for reason in reasons:
            assert "{" not in reason["sentence"]
