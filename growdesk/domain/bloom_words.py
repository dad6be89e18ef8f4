"""Say in plain sentences when a plant is likely to open, and what that goes by."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.day_words import dated_text, month_day_text
from growdesk.domain.phrases import listed, number_word
from growdesk.domain.speech import Phrases, mark, tr, trn

if TYPE_CHECKING:
    from datetime import date

    from growdesk.domain.bloom_season import Coming, Expected, Season

NO_SEASON = mark(
    "It keeps to no season: it opened on {days}. "
    "A mean of such days would mean nothing."
)


_TIMES = Phrases({2: "twice", 3: "three times"})


def expected_words(found: Expected | None) -> str:
    """Give the sentences on when a plant opens; nothing below two years."""
    if found is None:
        return ""
    if not found.seasons:
        return tr(NO_SEASON).format(days=listed([dated(day) for day in found.strays]))
    if len(found.seasons) == 1:
        (season,) = found.seasons
        said = [tr("Opens {season}.").format(season=_told(season))]
    else:
        times = _TIMES.get(len(found.seasons)) or tr("several times")
        each = listed([_bracketed(season) for season in found.seasons])
        most = max(found.seasons, key=lambda season: season.years)
        said = [
            tr("Opens {times} a year, by its own {years}: {each}.").format(
                times=times, years=_years(most), each=each
            )
        ]
    if found.strays:
        days = listed([dated(day) for day in found.strays])
        said.append(tr("Outside that it opened on {days}.").format(days=days))
    return " ".join(said)


def _told(season: Season) -> str:
    apart = apart_words(season.apart_days)
    if apart:
        years = tr("its own last two years, {apart}, which is little to go by").format(
            apart=apart
        )
        return tr("{about}: {years}").format(about=_day(season), years=years)
    return tr("{about}: its own {years}").format(
        about=about(season), years=_years(season)
    )


def apart_words(days: int | None) -> str:
    """Give how far two years lie apart; nothing where there are more."""
    if days is None:
        return ""
    if days == 0:
        return tr("on the same day")
    return trn("a day apart", "{days} days apart", days).format(days=days)


def about(season: Season) -> str:
    """Give the mean day of a season with its spread."""
    return f"{_day(season)}, {_give(season)}"


def _bracketed(season: Season) -> str:
    apart = apart_words(season.apart_days)
    told = tr("two years, {apart}").format(apart=apart) if apart else _give(season)
    return f"{_day(season)} ({told})"


def _day(season: Season) -> str:
    day = season.day_in(season.openings[-1].year)
    return tr("about {month_day}").format(month_day=month_day_text(day.month, day.day))


def _give(season: Season) -> str:
    spread = max(1, round(season.spread_days))
    return trn("give or take a day", "give or take {spread} days", spread).format(
        spread=spread
    )


def _years(season: Season) -> str:
    if season.years == 2:
        return tr("last two years, which is little to go by")
    return tr("last {number_word} years").format(number_word=number_word(season.years))


def coming_words(coming: Coming | None, on: date) -> str:
    """Say when the next flowers are to be looked for; nothing without a season."""
    if coming is None:
        return ""
    first, last = coming.first_day, coming.last_day
    if on < first:
        if first == last:
            return tr("The next may open about {last}.").format(last=dated(last))
        return tr("The next may open between {first} and {last}.").format(
            first=dated(first), last=dated(last)
        )
    if on <= last:
        return tr("The next may open any day now, until about {last}.").format(
            last=dated(last)
        )
    return tr("The next is late: it was likely until about {last}.").format(
        last=dated(last)
    )


def dated(day: date) -> str:
    """Give a day with its year."""
    return dated_text(day)
