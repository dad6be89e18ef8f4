"""The leafless and dry rest. Its page is in ``PAGES``, below."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from growdesk.domain import bare_by_now, seasons, signs
from growdesk.domain.explain import Finding, Reason, Role
from growdesk.domain.facts import RootTips, Verdict, Water
from growdesk.domain.kinds import GENERAL_KEY, Rest, Resume
from growdesk.domain.once import once, once_for
from growdesk.domain.rule_pages import Pages, RulePage
from growdesk.domain.speech import mark

if TYPE_CHECKING:
    from datetime import date

    from growdesk.domain.case import Case
    from growdesk.domain.facts import Look

RULE = "leafless-rest"
MEASURED_KEYS = ("roots-short", "roots-short-leaves-not-recorded")


@dataclass(frozen=True)
class GrowingSeason:
    """What the looks of this growing season show, since the plant was last at rest.

    Roots measured before ``began`` are of another season, even if a leaf has stayed.
    """

    looks: tuple[Look, ...]
    began: date | None = None

    @once
    def leaf_out(self) -> bool:
        """Tell whether a leaf is out, or unfolded this season."""
        return any(signs.leaf_out(look) for look in self.looks)

    @once
    def measured(self) -> Look | None:
        """Give the look with the longest new root on record."""
        known = [
            look
            for look in self.looks
            if look.longest_new_root_mm is not None
            and (self.began is None or look.on >= self.began)
        ]
        return max(known, key=lambda k: k.longest_new_root_mm or 0.0, default=None)

    @property
    def root_mm(self) -> float | None:
        """Give the longest new root on record in mm."""
        return None if self.measured is None else self.measured.longest_new_root_mm

    @property
    def awake(self) -> bool:
        """Tell whether anything new was seen."""
        return any(signs.shows_growth(look) for look in self.looks)

    @property
    def begun(self) -> bool:
        """Tell whether more was seen than a growth that matures."""
        return any(signs.shows_beginning(look) for look in self.looks)


def rests_bare(case: Case) -> bool:
    """Tell whether a plant rests bare: by its kind, or bare and of no known kind."""
    if case.kind.rest is Rest.LEAFLESS:
        return True
    unknown = case.kind.key == GENERAL_KEY
    return unknown and case.look is not None and signs.leafless(case.look)


@once_for
def growing_season(case: Case) -> GrowingSeason:
    """Give the looks since the plant last stood bare at rest.

    A season begins with the first look that shows something new after leaflessness and
    ends when the plant is bare again. Unless the newest look itself shows a leaf, what
    was seen before the last midwinter belongs to another season, and so does what was
    seen before its rest if it is not of the same days.
    """
    season: list[Look] = []
    for look in _looks_of_this_year(case):
        if signs.leafless(look):
            was_in_leaf = any(signs.leaf_out(earlier) for earlier in season)
            if was_in_leaf or signs.shows_rest(look):
                season = []
            if not season and not signs.shows_growth(look):
                continue
        season.append(look)
    began = bare_by_now.season_began(case, case.look.on) if case.look else None
    return GrowingSeason(tuple(season), began)


def _looks_of_this_year(case: Case) -> tuple[Look, ...]:
    if case.look is None or signs.leaf_out(case.look):
        return case.looks
    since = bare_by_now.since_rest(case, case.look.on)
    return tuple(look for look in case.looks if look.on >= since)


def check(case: Case) -> Finding | None:
    """Keep a bare plant dry until its sign is seen."""
    if case.look is None or not rests_bare(case):
        return None
    season = growing_season(case)
    if case.kind.resume is Resume.ROOT_LENGTH:
        return _by_root_length(case, season)
    return _by_growth_or_roots(case, season)


def resume_mm(case: Case) -> float:
    """Give the root length in mm at which water returns."""
    return case.house.resume_root_mm or case.kind.resume_root_mm


def before_midsummer(case: Case) -> bool:
    """Tell whether the days still lengthen, midsummer's day included."""
    latitude = case.house.latitude
    start, end = seasons.midwinter(latitude), seasons.midsummer(latitude)
    return seasons.within(case.on, start, end)


def _by_root_length(case: Case, season: GrowingSeason) -> Finding | None:
    root_mm = season.root_mm
    if root_mm is not None and root_mm >= resume_mm(case):
        return None
    if season.leaf_out:
        return _in_leaf(case, season)
    bare = _leaves_recorded(case)
    if root_mm is not None:
        key = "bare-roots-short" if bare else "roots-short-leaves-not-recorded"
        return _hold(case, key, season.measured, root_mm)
    if season.begun:
        key = "bare-not-measured" if bare else "not-measured-leaves-not-recorded"
        return _hold(case, key, case.look)
    if not bare:
        return _hold(case, "leaves-not-recorded", case.look)
    known = case.signs.tips is RootTips.NONE
    return _hold(case, "bare" if known else "bare-roots-unknown", case.look)


def _in_leaf(case: Case, season: GrowingSeason) -> Finding | None:
    if not before_midsummer(case):
        return None
    if season.root_mm is not None:
        return _hold(case, "leaf-roots-short", season.measured, season.root_mm)
    waking = case.signs.new_growth is True
    if waking and case.signs.tips in (RootTips.NONE, RootTips.STARTING):
        return _hold(case, "leaf-no-roots", case.look)
    return None


def _by_growth_or_roots(case: Case, season: GrowingSeason) -> Finding | None:
    rooted = (season.root_mm or 0.0) >= case.house.rooted_mm
    if season.leaf_out or rooted:
        return None
    if season.awake:
        return _waking(case, season)
    bare = _leaves_recorded(case)
    key = "bare-until-growth" if bare else "leaves-not-recorded-until-growth"
    return _hold(case, key, case.look)


def _waking(case: Case, season: GrowingSeason) -> Finding:
    measured = season.measured
    values = {
        "seen": (measured or season.looks[-1]).on,
        "root_mm": season.root_mm,
        "rooted_mm": case.house.rooted_mm,
    }
    key = "waking-not-measured" if measured is None else "waking-not-rooted"
    if not season.begun:
        key = "waking-maturing"
    return Finding(
        RULE,
        Verdict.CLEAR_WATER,
        Water.SPARING,
        Reason(RULE, Role.DECIDES, key, values),
        _look_again(case, "waking-look-old"),
    )


def _leaves_recorded(case: Case) -> bool:
    return case.look is not None and case.look.leaves is not None


def _hold(
    case: Case, key: str, look: Look | None, root_mm: float | None = None
) -> Finding:
    values = {
        "seen": None if look is None else look.on,
        "root_mm": root_mm,
        "resume_mm": resume_mm(case),
    }
    return Finding(
        RULE,
        Verdict.KEEP_DRY,
        Water.NONE,
        Reason(RULE, Role.DECIDES, key, values),
        (*_measure_again(case, key, look), *_look_again(case, "dry-hold-look-old")),
    )


def _look_again(case: Case, key: str) -> tuple[Reason, ...]:
    age = case.look_age_days
    if age is None or age <= case.house.look_limit_days:
        return ()
    return (Reason(RULE, Role.UNKNOWN, key, {"days": age}),)


def _measure_again(case: Case, key: str, look: Look | None) -> tuple[Reason, ...]:
    """Ask for a new measure where the roots were measured well before the last look."""
    if look is None or case.look is None or not key.endswith(MEASURED_KEYS):
        return ()
    days = (case.on - look.on).days
    if look is case.look or days <= case.house.measure_again_days:
        return ()
    return (Reason(RULE, Role.UNKNOWN, "measure-again", {"days": days}),)


PAGES: Pages = {
    check: RulePage(
        rule=RULE,
        title=mark("Leafless rest"),
        asks=mark(
            "Does this kind rest bare and dry, and is the sign that ends its rest "
            "still to come?"
        ),
        why=mark(
            "Water on a bare bulb, or on roots still too short, rots "
            "it within days. The bulb feeds the new growth until its "
            "own roots are long enough to drink."
        ),
        silent=mark(
            "For kinds that keep their leaves. For catasetums and "
            "their relatives once a new root measured since "
            "midwinter has reached {resume_root_mm}, or with a leaf "
            "out and no word of short roots; after {midsummer} a "
            "leaf out is enough. Lycastes, pleiones and the like, "
            "and a bare plant of no known kind, get a little clear "
            "water once something new shows, and the rule lets go of "
            "them at {rooted_mm} of root or an open leaf. A length "
            "more than {measure_again_days} old still counts, but is "
            "asked for anew."
        ),
        example=mark(
            "A catasetum was bare on 3 {march}, its new growth up, with roots half "
            "as long as they must be. Keep dry."
        ),
        source=mark(
            '"Catasetums, Cycnoches and Clowesias: Understanding the '
            'Growth Cycle", Orchids (AOS), March 2012, '
            "https://docslib.org/doc/163498/ (new roots 3-5 in long "
            "before water); Lycaste sheet, AOS text, "
            "https://docslib.org/doc/676714/ (water back with new "
            "growth). The length at which other deciduous kinds "
            "count as rooted is a house rule."
        ),
    )
}
