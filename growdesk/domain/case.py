"""One plant on one day as the rules see it: only what was seen and done by then."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from dataclasses import dataclass, field
from operator import attrgetter
from typing import TYPE_CHECKING

from growdesk.domain import rain, seasons, signs
from growdesk.domain.facts import CareKind, Health, Look, Medium
from growdesk.domain.once import once
from growdesk.domain.place_day import place_day
from growdesk.domain.remembered import forget_care, forget_looks
from growdesk.domain.salt_course import Known, salts_of

if TYPE_CHECKING:
    from datetime import date

    from growdesk.domain.facts import Care, House, Plant
    from growdesk.domain.kinds import Kind
    from growdesk.domain.place_day import PlaceDay
    from growdesk.domain.salt_course import Salts
    from growdesk.domain.signs import Signs

REPOTTING = (CareKind.REPOT, CareKind.DIVIDE)
SUSPECT = (Health.ROT, Health.PESTS, Health.VIRUS_SUSPECT)
EVERY_WATERING = (Medium.NONE, Medium.SEMI_HYDRO)
_DAY = attrgetter("on")


@dataclass(frozen=True)
class Case:
    """A plant, its kind and the house rules on one day.

    Looks and care dated after the day are left out, and what is too old to be
    remembered. Of the day's own care only a repot counts: feed and water given today
    are what was done, not what decides.

    ``looks`` are those up to the day, oldest first, ``look`` is the newest, ``signs``
    what it shows, ``health_look`` the newest that recorded health at all. ``growing``
    tells of a sign of growth that counts for this kind, ``spike_draws_feed`` whether a
    spike or buds on the way would, ``spike_grows`` whether they do.
    """

    plant: Plant
    kind: Kind
    house: House
    on: date
    kind_known: bool = True

    looks: tuple[Look, ...] = field(init=False, repr=False, compare=False)
    look: Look | None = field(init=False, repr=False, compare=False)
    look_age_days: int | None = field(init=False, repr=False, compare=False)
    signs: Signs = field(init=False, repr=False, compare=False)
    spike_draws_feed: bool = field(init=False, repr=False, compare=False)
    spike_grows: bool = field(init=False, repr=False, compare=False)
    growing: bool = field(init=False, repr=False, compare=False)
    health_look: Look | None = field(init=False, repr=False, compare=False)
    place_day: PlaceDay = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Reckon at once what every judging asks."""
        house, on, kept = self.house, self.on, self.__dict__
        looks = sorted(self.plant.looks, key=_DAY)
        if looks and looks[-1].on > on:
            del looks[bisect_right(looks, on, key=_DAY) :]
        forget_looks(looks, on)
        look = looks[-1] if looks else None
        seen = signs.seen_in(looks, house.stall_days)
        draws = self.kind.spike_draws_feed or house.spike_draws_feed_always
        spike = draws and bool(seen.spike_coming)
        kept["looks"] = tuple(looks)
        kept["look"] = look
        kept["look_age_days"] = None if look is None else (on - look.on).days
        kept["signs"] = seen
        kept["spike_draws_feed"] = draws
        kept["spike_grows"] = spike
        kept["growing"] = seen.moving or spike
        kept["health_look"] = _newest_health(looks)
        kept["place_day"] = place_day(self.plant.place, house, on)

    @once
    def care(self) -> tuple[Care, ...]:
        """Give the care that counts on the day, oldest first."""
        care = sorted(self.plant.care, key=_DAY)
        forget_care(care, self.on)
        if care and care[-1].on >= self.on:
            first = bisect_left(care, self.on, key=_DAY)
            care[first:] = [
                each
                for each in care[first:]
                if each.on == self.on and each.what in REPOTTING
            ]
        return tuple(care)

    @once
    def _latest(self) -> dict[CareKind, Care]:
        """Give the latest care of each kind there is."""
        return {care.what: care for care in self.care}

    @once
    def last_feed(self) -> Care | None:
        """Give the latest feed."""
        return self._latest.get(CareKind.FEED)

    @once
    def repotted_on(self) -> date | None:
        """Give the latest day of a repot, from the plant or its care."""
        latest = self.plant.repotted_on
        if latest is not None and latest > self.on:
            latest = None
        for what in REPOTTING:
            care = self._latest.get(what)
            if care is not None and (latest is None or care.on > latest):
                latest = care.on
        return latest

    @once
    def flushed_on(self) -> date | None:
        """Give the latest day of a flush, poured or rained."""
        flush = self._latest.get(CareKind.FLUSH)
        if CareKind.RAIN in self._latest:
            rained = (c for c in reversed(self.care) if rain.washes(c, self.house))
            flush = next(rained, None)
        return None if flush is None else flush.on

    @once
    def washed_on(self) -> date | None:
        """Give the latest day salts were carried out, by a flush or a repot."""
        flushed, repotted = self.flushed_on, self.repotted_on
        if flushed is None or repotted is None:
            return flushed or repotted
        return max(flushed, repotted)

    @once
    def feeds_since_washed(self) -> int:
        """Count the feeds since the last flush or repot."""
        since, count = self.washed_on, 0
        for care in reversed(self.care):
            if since is not None and care.on <= since:
                break
            if care.what is CareKind.FEED:
                count += 1
        return count

    @once
    def reading(self) -> Look | None:
        """Give the newest look at which the runoff was read."""
        for look in reversed(self.looks):
            if look.runoff_ec_ms_per_cm is not None:
                return look
        return None

    @once
    def salts(self) -> Salts | None:
        """Give the course of the pot's salts, where there is anything to go by."""
        return salts_of(
            Known(
                plant=self.plant,
                kind=self.kind,
                house=self.house,
                on=self.on,
                care=self.care,
                reading=self.reading,
                flushed_on=self.flushed_on,
                repotted_on=self.repotted_on,
            )
        )

    @once
    def tips_seen_since_repot(self) -> bool:
        """Tell whether root tips were seen on the move after the last repot."""
        since = self.repotted_on
        return any(
            look.root_tips in signs.TIPS_MOVING
            for look in self.looks
            if since is None or look.on > since
        )

    def trouble(self, health: Health) -> Look | None:
        """Give the look that a trouble stands on, until a look without it.

        Root tips seen on the move later end *no live roots* too.
        """
        look = self.health_look
        if look is None or not look.health or health not in look.health:
            return None
        if health is Health.NO_ROOTS and self._tips_moved_after(look):
            return None
        return look

    def health_without(self, trouble: Health) -> frozenset[Health]:
        """Give the health last recorded, but for one trouble."""
        look = self.health_look
        return ((look and look.health) or frozenset()) - {trouble}

    @once
    def roots_alive(self) -> bool:
        """Tell whether a look that counts shows that roots live, and none that not.

        The newest look counts, and each within the look limit.
        """
        if self.trouble(Health.NO_ROOTS) is not None:
            return False
        return any(
            look.root_tips in signs.TIPS_MOVING
            or (look.health is not None and Health.NO_ROOTS not in look.health)
            for look in self.looks
            if look is self.look
            or (self.on - look.on).days <= self.house.look_limit_days
        )

    def _tips_moved_after(self, look: Look) -> bool:
        later = (each for each in self.looks if each.on > look.on)
        return any(each.root_tips in signs.TIPS_MOVING for each in later)

    @once
    def suspect(self) -> bool:
        """Tell whether the plant stands apart and is handled last."""
        return any(self.trouble(health) is not None for health in SUSPECT)

    @property
    def newcomer_until(self) -> date | None:
        """Give the last day a newcomer stands apart, or nothing once it is over."""
        until = self.plant.quarantine_until
        return until if until is not None and self.on <= until else None

    @once
    def feeds_every_watering(self) -> bool:
        """Tell whether the potting holds no feed between waterings."""
        return self.plant.mounted or self.plant.medium in EVERY_WATERING

    @once
    def feed_interval_days(self) -> int:
        """Give the least days between feeds: plant's, potting's or house's."""
        if self.plant.feed_interval_days is not None:
            return self.plant.feed_interval_days
        return 0 if self.feeds_every_watering else self.house.least_interval_days

    @once
    def days_since_feed(self) -> int | None:
        """Give the days since the latest feed."""
        feed = self.last_feed
        return None if feed is None else (self.on - feed.on).days

    def mean_c(self, days: int) -> float | None:
        """Give the mean of the place's readings over some days, in °C.

        A reading as old as the window still counts. The place's own undated mean stands
        in where nothing was read.
        """
        return self.place_day.over(days).mean_c

    def mean_is_dated(self, days: int) -> bool:
        """Tell whether the mean stands on readings of the last days."""
        return bool(self.days_read(days))

    def days_read(self, days: int) -> tuple[date, ...]:
        """Give each of the last days that was read, the newest first."""
        return self.place_day.over(days).read

    @property
    def near_equator(self) -> bool:
        """Tell whether months mean no season where the house stands."""
        return seasons.equatorial(self.house.latitude, self.house.equatorial_band_deg)


def _newest_health(looks: list[Look]) -> Look | None:
    """Give the newest look that recorded health at all."""
    for look in reversed(looks):
        if look.health is not None:
            return look
    return None
