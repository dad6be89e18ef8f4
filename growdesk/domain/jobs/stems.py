"""What stems carry: keikis to pot, pods, spikes to stake, buds not to turn."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from growdesk.domain.facts import Flowering
from growdesk.domain.jobs.job import Job, Sort

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping
    from datetime import date

    from growdesk.domain.case import Case
    from growdesk.domain.facts import Look

_NEXT_SPIKE = timedelta(days=300)
"""An opening further off than this is of the next spike."""

KEIKI_DAYS = 30
"""So long there is no hurry with a keiki: common practice, no source."""

ON_THE_WAY = frozenset({Flowering.SPIKE, Flowering.BUDS})
STAKED = frozenset(
    {
        "phalaenopsis",
        "cymbidium",
        "oncidium",
        "odontoglossum",
        "miltoniopsis",
        "brassia",
        "zygopetalum",
        "dendrobium-biggibum",
        "paphiopedilum",
        "paphiopedilum-green",
    }
)
"""Kinds whose spikes are staked. Moth orchids and cymbidiums: American Orchid Society,
January-February checklist,
https://aos.org/orchids/seasonal-orchid-care/january-february-checklist.aspx; the
others from memory. Kinds with hanging spikes are left out on purpose."""

POD_MONTHS: Mapping[str, tuple[int, int]] = {
    "phalaenopsis": (4, 8),
    "cattleya": (5, 6),
    "cattleya-bifoliate": (4, 5),
    "encyclia": (4, 5),
    "epidendrum": (3, 3),
    "brassavola": (4, 5),
    "rhyncholaelia": (5, 6),
    "laelia": (4, 5),
    "tolumnia": (2, 2),
    "miltonia": (4, 4),
    "odontoglossum": (4, 4),
    "vanda": (5, 7),
    "dendrobium-biggibum": (4, 5),
    "dendrobium-nobile": (5, 5),
    "dendrobium-pendulous": (6, 7),
    "dendrobium-spatulata": (4, 5),
}
"""Months from pollination until a pod is harvested: "Harvesting Times for Seed
Capsules", http://rsauleda.tripod.com/harvestingtimes.html; both ranges of moth orchids
are joined. Kinds that it does not name are silent."""


def jobs(
    case: Case,
    until: date,
    own: date | None = None,
    opened: date | None = None,
) -> Iterator[Job]:
    """Give what the last looks found on stems and canes.

    ``own`` is when the plant opens by its own years, which goes before its kind's;
    ``opened`` is the last opening on record, which ends the wait of an earlier spike.
    """
    yield from _keikis(case)
    yield from _pods(case)
    yield from _spikes(case, until, own, opened)


def _run(case: Case, shows: Callable[[Look], bool | None]) -> tuple[Look, Look] | None:
    """Give the first and the newest of the last looks in a row that show a thing.

    Looks at which it was not recorded neither begin nor end the row.
    """
    found: list[Look] = []
    for look in reversed(case.looks):
        answer = shows(look)
        if answer is False:
            break
        if answer:
            found.append(look)
    return (found[-1], found[0]) if found else None


def _keikis(case: Case) -> Iterator[Job]:
    least = case.house.keiki_root_mm

    def rooted(look: Look) -> bool | None:
        if look.keikis is None:
            return None
        if not look.keikis:
            return False
        return None if look.keiki_root_mm is None else look.keiki_root_mm >= least

    run = _run(case, rooted)
    if run is None:
        return
    first, newest = run
    values = {
        "count": newest.keikis,
        "root_mm": newest.keiki_root_mm,
        "least_mm": least,
        "seen": first.on,
    }
    yield Job(
        "keiki-to-pot",
        Sort.STEM,
        first.on,
        case.plant.tag,
        until=first.on + timedelta(days=KEIKI_DAYS),
        values=values,
    )


def _pods(case: Case) -> Iterator[Job]:
    run = _run(case, lambda look: None if look.pods is None else look.pods > 0)
    if run is None:
        return
    first, newest = run
    ripe = POD_MONTHS.get(case.kind.key)
    values: dict[str, object] = {
        "count": newest.pods,
        "seen": first.on,
        "days": (case.on - first.on).days,
        "low_months": ripe and ripe[0],
        "high_months": ripe and ripe[1],
        "kind": case.kind.title,
    }
    key = "pods" if ripe is None else "pods-ripening"
    yield Job(key, Sort.STEM, first.on, case.plant.tag, forecast=True, values=values)


def _spikes(
    case: Case, until: date, own: date | None, opened: date | None
) -> Iterator[Job]:
    run = _run(case, _spike_comes)
    if run is None:
        return
    first, newest = run
    if opened is not None and opened >= newest.on:
        return
    opens = first.on + timedelta(days=round(case.kind.spike_weeks * 7))
    by_own = own is not None and first.on < own <= first.on + _NEXT_SPIKE
    if own is not None and by_own:
        opens = own
    values: dict[str, object] = {
        "seen": first.on,
        "opens": opens,
        "weeks": case.kind.spike_weeks,
        "spike_mm": newest.spike_mm,
        "kind": case.kind.title,
    }
    tag = case.plant.tag
    last = max(opens, newest.on)
    yield Job(
        "do-not-turn",
        Sort.STEM,
        first.on,
        tag,
        until=last,
        forecast=True,
        values=values,
    )
    if Flowering.OPEN in (newest.flowering or frozenset()):
        return
    if not by_own and case.on <= opens <= until:
        yield Job(
            "opens-from-spike", Sort.BLOOM, opens, tag, forecast=True, values=values
        )
    staked = case.kind.key in STAKED and case.on <= last
    if staked and _long_enough(case, newest):
        yield Job("stake-spike", Sort.STEM, first.on, tag, until=last, values=values)


def _spike_comes(look: Look) -> bool | None:
    return None if look.flowering is None else bool(look.flowering & ON_THE_WAY)


def _long_enough(case: Case, look: Look) -> bool:
    return look.spike_mm is None or look.spike_mm >= case.house.stake_spike_mm
