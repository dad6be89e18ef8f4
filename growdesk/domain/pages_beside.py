"""The pages of what stands beside the gates: their order, bloom, what is not known."""

from __future__ import annotations

from growdesk.domain.judging import BLOOM, DATES, KIND
from growdesk.domain.rule_pages import RulePage
from growdesk.domain.rules import harm
from growdesk.domain.speech import mark

ORDER_PAGE = RulePage(
    rule="order",
    title=mark("How the verdict is found"),
    asks=mark("Which of the rules has the last word on a plant?"),
    why=mark(
        "A refusal beats a permission, and the particular beats "
        "the general. So the rules are asked one after another, "
        "the strongest first, and the first that holds decides."
    ),
    silent=mark(
        "Never. What holds further down is told beside the "
        "verdict: it supports it, or it is named as what did not "
        "decide. A sign that was not recorded is not taken for "
        "absent, and an old look may withhold but never releases."
    ),
    example=mark(
        "A cattleya has root tips running and "
        "{feeds_before_flush} behind it, so it would be flushed; "
        "but rot was seen on its newest bulb, and rot is asked "
        "first. Keep dry."
    ),
    source=mark("House rule."),
)

WOULD_CHANGE = RulePage(
    rule="would-change",
    title=mark("What would change it"),
    asks=mark("Which sight, act or date would turn this verdict?"),
    why=mark(
        "A verdict that you can argue with says what would "
        "change its mind. Each thing is tried by judging the "
        "plant again with only that altered: one at a time, then "
        "two, a date being one of them, and three only where "
        "nothing smaller brings feed, a flush or more water. A "
        "flush that waits is not offered, but what it waits for."
    ),
    silent=mark(
        "Where nothing that can be seen, done or waited for "
        "turns it. A date more than two months off is named only "
        "where a rest, a hold, an interval, a settle time or "
        "your overrule ends, and never where leaves go or "
        "flowers alone decide: it could not look the same so "
        "long. Three sentences are told at most."
    ),
    example=mark(
        "A cattleya in flower showed no new growth and no root tips. If root tips "
        "are seen running, it would be fed."
    ),
    source=mark("House rule."),
)
OLD_SIGN = RulePage(
    rule="old-sign",
    title=mark("What may have moved on"),
    asks=mark("Is a sign of the last look older than such a sign holds?"),
    why=mark(
        "A bud opens in weeks, a new growth matures in months, "
        "root tips close within one. The look may still count, "
        "but a sign that is as likely gone as not is worth a "
        "glance before you go by it."
    ),
    silent=mark(
        "While every sign is younger than it holds, once the "
        "whole look is out of date, and beside your overrule. It "
        "decides nothing; it ranks the plants to look at first."
    ),
    example=mark(
        "A cattleya's root tips were running 15 days ago, in {december}. Root tips "
        "hold for 2 weeks in the cool half of the year, so they may have closed since."
    ),
    source=mark(
        "The lengths of growth, spike and flower stand with each kind and its "
        "source; all other times are from memory, no source."
    ),
)

BESIDE = (
    RulePage(
        rule=BLOOM,
        title=mark("Bloom is not a reason"),
        asks=mark("Is it in bud, in flower or fading, and did something else decide?"),
        why=mark(
            "Whether to feed in bloom is the wrong question: a plant "
            "in flower may be growing or standing still, and that is "
            "what counts. So its flowers are named, as what did not "
            "decide."
        ),
        silent=mark(
            "Where nothing is in bud or flower, and where a spike or buds on the "
            "way are themselves the sign that decides."
        ),
        example=mark(
            "Two cattleyas are in flower. One has a new growth extending: Feed. In "
            "the other nothing moves: Clear water, if the pot is light."
        ),
        source=mark(
            "Wang & Chang, HortTechnology 27(2):144-149, 2017 (moth orchids go on "
            "taking up nitrogen while they spike); for other kinds common practice, no "
            "source."
        ),
    ),
    RulePage(
        rule=harm.SUSPECT,
        title=mark("Stands apart"),
        asks=mark(
            "Did the last look at its health find pests, or make you suspect a virus? "
            "Is it a newcomer that still stands apart?"
        ),
        why=mark(
            "What it has goes on to its neighbours by hands, tools "
            "and splashing water. So it stands apart and is handled "
            "last, whatever it gets; newcomers, who may bring "
            "something unseen, just before."
        ),
        silent=mark(
            "Once a later look has recorded its health without them, and after the "
            "newcomer's last day apart. It decides nothing, and no product or dose is "
            "named: for those the label is the law."
        ),
        example=mark(
            "A cattleya has a new growth extending, and pests were seen on it "
            "three days ago. Feed. It stands apart and is handled last."
        ),
        source=mark("Common practice, no source."),
    ),
    RulePage(
        rule=KIND,
        title=mark("Kind not known"),
        asks=mark(
            "Is the plant's kind in the table of kinds, by itself or by its name?"
        ),
        why=mark(
            "Rest, hunger, light and warmth go by the kind. Where it "
            "is not known the plant is judged as a careful general "
            "one, fed lightly, and the sentence says so."
        ),
        silent=mark(
            "When the kind that was given, or the genus in the name, is found."
        ),
        example=mark(
            "A plant of the kind Unheardofia has a new growth extending. Feed. No "
            "kind of that name is known, so it gets what a light feeder gets."
        ),
        source=mark("House rule."),
    ),
    RulePage(
        rule=DATES,
        title=mark("Dated later"),
        asks=mark("Is a look or a piece of care dated after the day that is judged?"),
        why=mark(
            "What was not yet seen or done cannot have decided. Left out, it lets an "
            "earlier day be judged as it was then."
        ),
        silent=mark("When nothing is dated later."),
        example=mark(
            "A cattleya was still yesterday and has root tips running in a look "
            "dated tomorrow. Clear water, if the pot is light. That look is not used."
        ),
        source=mark("House rule."),
    ),
    WOULD_CHANGE,
    OLD_SIGN,
)
