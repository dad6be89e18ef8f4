"""Words for what a look is worth: a sign, its age, how long it holds, what it may turn.

Whole sentences by key, as in ``growdesk.domain.templates``.
"""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from growdesk.domain.day_words import day_text
from growdesk.domain.quantity_words import length_text
from growdesk.domain.speech import Phrases, tr, trn
from growdesk.domain.wording import days_text

if TYPE_CHECKING:
    from collections.abc import Mapping

    from growdesk.domain.fading import Fade
    from growdesk.domain.worth_looking import Worth

DAYS_SHOWN_BELOW = 14
WEEKS_SHOWN_BELOW = 91

SIGNS: Phrases[str] = Phrases(
    {
        "growth-emerging": "A new growth had just emerged on {seen}, {ago}. In this "
        "kind that holds for about {holds}, and it may be "
        "extending by now.",
        "growth-extending": "A new growth was extending on {seen}, {ago}. In this kind "
        "that holds for about {holds}, and it may be maturing by now.",
        "growth-maturing": "A new growth was maturing on {seen}, {ago}. In this "
        "kind that holds for about {holds}, and it may be "
        "finished by now.",
        "growth-stalled": "Its new growth stood still on {seen}, {ago}; it may "
        "have gone on since.",
        "growth-none": "No new growth showed on {seen}, {ago}. That holds for about "
        "{holds}, and one may have broken since.",
        "growth-none-waking": "No new growth showed on {seen}, {ago}. This is the "
        "season in which its kind wakes, and one may have broken "
        "since.",
        "growth-not-recorded": "New growths were not recorded on {seen}, {ago}; one "
        "may be on the move.",
        "growth-not-recorded-waking": "New growths were not recorded on {seen}, {ago}. "
        "This is the season in which its kind wakes, and one may be on the move.",
        "leaf-starting": "A new leaf was starting on {seen}, {ago}. In this kind that "
        "holds for about {holds}, and it may be extending by now.",
        "leaf-extending": "A new leaf was extending on {seen}, {ago}. In this kind "
        "that holds for about {holds}, and it may be full by now.",
        "leaf-none": "No new leaf was moving on {seen}, {ago}. That holds for about "
        "{holds}, and one may have started since.",
        "leaf-none-waking": "No new leaf was moving on {seen}, {ago}. This is the "
        "season in which its kind wakes, and one may have "
        "started since.",
        "leaf-not-recorded": "A new leaf was not recorded on {seen}, {ago}; one may "
        "be on the move.",
        "leaf-not-recorded-waking": "A new leaf was not recorded on {seen}, {ago}. "
        "This is the season in which its kind wakes, and "
        "one may be on the move.",
        "tips-since-repot": "It was repotted on {seen}, {ago}; its root tips may "
        "show by now.",
        "tips-running": "Root tips were running on {seen}, {ago}. At this time of year "
        "that holds for about {holds}, and they may have closed since.",
        "tips-starting": "Root tips were just starting on {seen}, {ago}. That "
        "holds for about {holds}, and they may be running by now.",
        "tips-closed": "Root tips were just starting on {seen}, {ago}. That holds for "
        "about {holds}, and they may have closed again.",
        "tips-none": "No root tips showed on {seen}, {ago}. That holds for "
        "about {holds}, and they may have started since.",
        "tips-none-waking": "No root tips showed on {seen}, {ago}. This is the "
        "season in which its kind wakes, and they may have "
        "started since.",
        "growth-and-tips-none": "No new growth and no root tips showed on {seen}, "
        "{ago}. That holds for about {holds}, and something "
        "may have begun since.",
        "growth-and-tips-none-waking": "No new growth and no root tips showed on "
        "{seen}, {ago}. This is the season in which "
        "its kind wakes, and something may have begun.",
        "leaf-and-tips-none": "No new leaf and no root tips were moving on {seen}, "
        "{ago}. That holds for about {holds}, and something may "
        "have begun since.",
        "leaf-and-tips-none-waking": "No new leaf and no root tips were moving on "
        "{seen}, {ago}. This is the season in which its "
        "kind wakes, and something may have begun.",
        "tips-not-recorded": "Root tips were not recorded on {seen}, {ago}; they may "
        "be on the move.",
        "tips-not-recorded-waking": "Root tips were not recorded on {seen}, {ago}. "
        "This is the season in which its kind wakes, and "
        "they may be on the move.",
        "flowering-sheath": "It was in sheath on {seen}, {ago}. In this kind that "
        "holds for about {holds}, and a spike may show by now.",
        "flowering-spike": "Its spike was seen on {seen}, {ago}. In this kind that "
        "holds for about {holds}, and it may be in bud by now.",
        "flowering-buds": "Its buds were closed on {seen}, {ago}. In this kind "
        "that holds for about {holds}, and they may be open by "
        "now.",
        "flowering-open": "It was in flower on {seen}, {ago}. In this kind that "
        "holds for about {holds}, and the flowers may be fading "
        "by now.",
        "flowering-fading": "Its flowers were fading on {seen}, {ago}. In this kind "
        "that holds for about {holds}, and they may be over by "
        "now.",
        "flowering-none": "It had no spike on {seen}, {ago}; one may show by now.",
        "flowering-none-buds": "It had no buds on {seen}, {ago}; they may have broken "
        "since.",
        "roots-short": "Its longest new root was {root_mm} on {seen}, {ago}. At about "
        "{rate_mm} a week it may have reached {resume_mm}.",
        "roots-not-measured": "It had begun to move on {seen}, {ago}, and its new "
        "roots were not measured; the longest may have reached "
        "{resume_mm}.",
        "roots-bare": "It stood bare on {seen}, {ago}; new roots may have reached "
        "{resume_mm} since.",
        "roots-bare-waking": "It stood bare on {seen}, {ago}. This is the season in "
        "which its kind wakes, and new roots may have reached "
        "{resume_mm}.",
        "leaf-unfolds": "A new growth was up on {seen}, {ago}; a leaf may have "
        "unfolded since.",
        "leaves-firm": "Its leaves were firm on {seen}, {ago}; so late in its "
        "season they may be yellowing.",
        "leaves-yellowing": "Its leaves were yellowing on {seen}, {ago}. That holds "
        "for about {holds}, and it may stand bare by now.",
        "leaves-dropping": "Its leaves were dropping on {seen}, {ago}. That holds for "
        "about {holds}, and it may stand bare by now.",
        "rot": "Rot was seen on {seen}, {ago}; it may be clean by now.",
        "no-roots": "It had no live roots on {seen}, {ago}; it may have new ones by "
        "now.",
        "shrivelled": "It was badly shrivelled on {seen}, {ago}; it may be plump "
        "again.",
        "pot": "Its pot was damp on {seen}, {ago}; it may be dry by now.",
        "all-come-to-rest": "What was on the move on {seen}, {ago}, may all have "
        "come to rest.",
        "both-begin": "A growth and root tips may both be on the move since "
        "the look of {seen}, {ago}.",
        "looked-long-ago": "It was last looked at on {seen}, {ago}, and may still show "
        "what it did.",
        "never-looked": "No look is on record for it; something may be on the move.",
        "may-be-bare": "It was last looked at on {seen}, {ago}; it may stand "
        "bare by now, or be in leaf or well rooted.",
        "never-looked-leafless": "No look is on record for it; it may be in leaf and "
        "rooted.",
    }
)

TURNS: Phrases[tuple[str, str]] = Phrases(
    {
        ("feed", "through"): "Then it would be fed.",
        ("flush", "through"): "Then it would be flushed.",
        ("clear-water", "through"): "Then it would get clear water, right through.",
        (
            "clear-water",
            "if-dry",
        ): "Then it would get clear water, if the pot is light.",
        ("clear-water", "sparing"): "Then it would get clear water, sparingly.",
        ("keep-dry", "none"): "Then it would be kept dry.",
    }
)


def why(worth: Worth, on: date) -> str:
    """Give why a plant is worth a look, and what would turn; empty where it is not."""
    if worth.turns_to is None:
        return ""
    verdict, water = worth.turns_to
    turn = TURNS[verdict.value, water.value]
    holds = worth.holds_days
    return f"{_sign(worth.key, worth.values, holds, on)} {turn}"


def faded(fade: Fade, on: date) -> str:
    """Give one sentence on a sign: how old it is, how long it holds, what it may be."""
    values = {"seen": fade.seen, **fade.values}
    return _sign(fade.key, values, fade.holds_days, on)


def about(days: float) -> str:
    """Give a length of time as people say it: days, weeks, then months."""
    if days < DAYS_SHOWN_BELOW:
        return days_text(max(round(days), 1))
    if days < WEEKS_SHOWN_BELOW:
        weeks = round(days / 7)
        return trn("{weeks} week", "{weeks} weeks", weeks).format(weeks=weeks)
    months = round(days / 30.4)
    return trn("{months} month", "{months} months", months).format(months=months)


def _sign(
    key: str, values: Mapping[str, object], holds_days: float | None, on: date
) -> str:
    shown = {name: _shown(value, on) for name, value in values.items()}
    seen = values.get("seen")
    if isinstance(seen, date):
        shown["ago"] = _ago((on - seen).days)
    if holds_days is not None:
        shown["holds"] = about(holds_days)
    return SIGNS[key].format(**shown)


def _shown(value: object, on: date) -> str:
    if isinstance(value, date):
        return day_text(value, on)
    return length_text(value) if isinstance(value, float) else str(value)


def _ago(days: int) -> str:
    if days <= 0:
        return tr("today")
    return trn("{days} day ago", "{days} days ago", days).format(days=days)
