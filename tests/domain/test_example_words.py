"""All that is said of the examples of the rules' pages, whole, as a grower reads it."""

from __future__ import annotations

import pytest

from growdesk.domain import wording
from tests.domain.builders import HOUSE, judged
from tests.domain.rule_examples import OF_RULE, OF_STEP

TOLD: dict[str, tuple[str, ...]] = {
    "order": (
        "rot: handle last",
        "decides: Keep dry. Rot was seen on 31 May.",
        (
            "supports: Cut back to clean tissue; keep it dry, warm and in moving air. "
            "Stand it apart and handle it last."
        ),
        (
            "not-a-reason: It has had 3 feeds since it was last washed through on 14 "
            "April. Its potting takes 3 before a flush."
        ),
        "not-a-reason: A new growth was extending on 31 May, but it has to wait.",
    ),
    "overruled": (
        "overruled by you",
        ("decides: Feed. You overruled this, until 20 April: it is on trial."),
        (
            "not-a-reason: Without the overrule it would get clear water, only if "
            "the pot is light."
        ),
        "not-a-reason: On 9 April no new growth and no root tips showed.",
    ),
    "leafless-rest": (
        "bare, roots too short",
        (
            "decides: Keep dry. It was bare on 3 March, with roots of 4 cm. It is "
            "watered when they reach 8 cm."
        ),
        (
            "unknown: That look is 25 days old, so look at the roots today. "
            "Until then no water."
        ),
        "not-a-reason: A new growth had emerged on 3 March, but it has to wait.",
    ),
    "look-out-of-date": (
        "look too old",
        "decides: Look at it first. It was last looked at on 10 May, 22 days ago.",
        "supports: By the look of 10 May it would be fed.",
        ("supports: Until it is looked at, clear water, and only if the pot is light."),
    ),
    "rot": (
        "rot: handle last",
        "decides: Keep dry. Rot was seen on 29 May.",
        (
            "supports: Cut back to clean tissue; keep it dry, warm and in moving air. "
            "Stand it apart and handle it last."
        ),
        "not-a-reason: A new growth was extending on 29 May, but it has to wait.",
    ),
    "going-down": (
        "going down, leaves yellowing",
        (
            "decides: Clear water, sparingly. Its growth is finishing and the "
            "leaves were yellowing on 10 November; it is going down to its "
            "rest."
        ),
        (
            "not-a-reason: On 10 November no new growth showed. Root tips were not "
            "recorded."
        ),
    ),
    "still-green": (
        "green past its time",
        (
            "decides: Keep dry. It is past 20 December and the look of 21 December "
            "shows nothing new on the move. It is time it rested."
        ),
    ),
    "cannot-drink": (
        "no live roots",
        (
            "decides: Clear water, sparingly. It had no live roots on 29 May. Feed "
            "cannot help a plant that cannot drink."
        ),
        "not-a-reason: A new growth was extending on 29 May, but it has to wait.",
    ),
    "too-cold": (
        "place too cold",
        (
            "decides: Clear water, if the pot is light. Its place has averaged 12 °C "
            "over the last 7 days. At 13 °C or less its roots leave the feed in the "
            "pot."
        ),
        ("not-a-reason: A new growth was extending on 7 November, but it has to wait."),
    ),
    "too-hot": (
        "place too hot",
        (
            "decides: Clear water, if the pot is light. Its place has averaged 29 °C "
            "over the last 7 days. Above 27 °C this kind is not fed."
        ),
        "not-a-reason: A new growth was extending on 7 July, but it has to wait.",
    ),
    "unfed-rest": (
        "in bud, no nitrogen yet",
        (
            "decides: Clear water, if the pot is light. Its flower buds showed "
            "on 12 February, so normal watering is back; nitrogen is not. Feed "
            "waits until 28 February, and then for new shoots with roots of "
            "their own."
        ),
        ("not-a-reason: Its buds bring the water back, not the feed."),
    ),
    "just-repotted": (
        "just repotted",
        (
            "decides: Clear water, if the pot is light. It was repotted on 26 April, "
            "and no root tips have been seen since. Feed waits until they show, or "
            "until 10 May is past; it then comes at half."
        ),
        "not-a-reason: A new growth was extending on 9 May, but it has to wait.",
    ),
    "salts": (
        "due after its feeds",
        (
            "decides: Flush: clear water in quantity. It has had 3 feeds since it was "
            "last washed through on 14 April. Its potting takes 3 before a flush."
        ),
        "supports: A new growth was extending on 31 May.",
    ),
    "too-soon": (
        "fed lately",
        (
            "decides: Clear water, if the pot is light. It was fed on 27 May, 5 days "
            "ago. Its feeds lie 6 days apart."
        ),
    ),
    "idle-never-resting": (
        "never rests, roots hidden",
        (
            "decides: Feed. This kind never rests: every 30 days it is fed at half. "
            "Its root tips are hidden, and the look of 19 January shows nothing else "
            "on the move."
        ),
    ),
    "not-growing": (
        "nothing moves",
        (
            "decides: Clear water, if the pot is light. On 19 January no new "
            "growth and no root tips showed."
        ),
        "not-a-reason: It was in flower on 19 January, but that isn't the reason.",
    ),
    "growing": (
        "new growth extending",
        "decides: Feed. A new growth was extending on 19 January.",
        (
            "not-a-reason: It was in flower on 19 January, which neither asks "
            "for feed nor forbids it."
        ),
    ),
    "suspect": (
        "new growth extending",
        "decides: Feed. A new growth was extending on 29 May.",
        "supports: Pests were seen on 29 May. It stands apart and is handled last.",
    ),
    "kind": (
        "new growth extending",
        "decides: Feed. A new growth was extending on 31 May.",
        (
            "unknown: No kind called Unheardofia is known. It is judged as a careful "
            "general one."
        ),
    ),
    "dates": (
        "nothing moves",
        (
            "decides: Clear water, if the pot is light. On 31 May no new growth"
            " and no root tips showed."
        ),
        "unknown: A look dated 2 June lies after this day and was not used.",
    ),
}

STRENGTHS: dict[str, str] = {
    "strength": (
        "It wants 70 ppm N: the house's full strength is 150 ppm N; a light "
        "feeder takes half, 75 ppm N; the place is controlled, so the "
        "season takes nothing off; in steps of 10 ppm N that is 70 ppm N."
    ),
    "full-strength": (
        "It wants 120 ppm N: its own full strength is 120 ppm N; the place "
        "is controlled, so the season takes nothing off."
    ),
    "feeder": (
        "It wants 70 ppm N: the house's full strength is 150 ppm N; a light "
        "feeder takes half, 75 ppm N; the place is controlled, so the "
        "season takes nothing off; in steps of 10 ppm N that is 70 ppm N."
    ),
    "controlled-place": (
        "It wants 150 ppm N: the house's full strength is 150 ppm N; the "
        "place is controlled, so the season takes nothing off."
    ),
    "season-light": (
        "It wants 70 ppm N: the house's full strength is 150 ppm N; the "
        "light of the season leaves 49 %, 74 ppm N; in steps of 10 ppm N "
        "that is 70 ppm N."
    ),
    "light-read": (
        "It wants 70 ppm N: the house's full strength is 150 ppm N; its "
        "light was read at 4 mol a day of the 22 this kind wants, which "
        "leaves 44 %, 66 ppm N; in steps of 10 ppm N that is 70 ppm N."
    ),
    "daylight": (
        "It wants 140 ppm N: the house's full strength is 150 ppm N; a heavy"
        " feeder takes a quarter more, 188 ppm N; its east window gives "
        "about 2.5 mol of light a day of the 6.9 this kind wants, which "
        "leaves 74 %, 139 ppm N; in steps of 10 ppm N that is 140 ppm N."
    ),
    "season-lamps": (
        "It wants 140 ppm N: the house's full strength is 150 ppm N; a heavy"
        " feeder takes a quarter more, 188 ppm N; its lamps give 2.6 mol of"
        " light a day of the 6.9 this kind wants, which leaves 75 %, 141 "
        "ppm N; in steps of 10 ppm N that is 140 ppm N."
    ),
    "season-temperature": (
        "It wants 50 ppm N: the house's full strength is 150 ppm N; the "
        "light of the season leaves 49 %, 74 ppm N; a mean of 14 °C over 21"
        " days leaves 67 %, 49 ppm N; in steps of 10 ppm N that is 50 ppm "
        "N."
    ),
    "performance": (
        "It wants 80 ppm N: the house's full strength is 150 ppm N; its lead"
        " makes 10 mm a week against 20 mm in its best season, which leaves"
        " 50 %, 75 ppm N; in steps of 10 ppm N that is 80 ppm N."
    ),
    "seedling": (
        "It wants 80 ppm N: the house's full strength is 150 ppm N; the "
        "place is controlled, so the season takes nothing off; a seedling "
        "takes half, 75 ppm N; in steps of 10 ppm N that is 80 ppm N."
    ),
    "no-tips-yet": (
        "It wants 80 ppm N: the house's full strength is 150 ppm N; a growth"
        " without root tips takes half, 75 ppm N; in steps of 10 ppm N that"
        " is 80 ppm N."
    ),
    "fresh-repot": (
        "It wants 80 ppm N: the house's full strength is 150 ppm N; "
        "repotted on 16 April and without a root tip seen since, it takes "
        "half, 75 ppm N; in steps of 10 ppm N that is 80 ppm N."
    ),
    "slow-release": (
        "It wants 80 ppm N: the house's full strength is 150 ppm N; the "
        "place is controlled, so the season takes nothing off; slow release"
        " in the pot leaves half, 75 ppm N; in steps of 10 ppm N that is 80"
        " ppm N."
    ),
    "sphagnum": (
        "It wants 110 ppm N: the house's full strength is 150 ppm N; the "
        "place is controlled, so the season takes nothing off; in sphagnum,"
        " which holds salts, it takes three quarters, 112 ppm N; in steps "
        "of 10 ppm N that is 110 ppm N."
    ),
    "fed-oftener": (
        "It wants 80 ppm N: the house's full strength is 150 ppm N; the "
        "place is controlled, so the season takes nothing off; with feeds "
        "3 days apart, where the house keeps 6 days, it takes 50 %, 75 ppm N; "
        "in steps of 10 ppm N that is 80 ppm N."
    ),
    "floor": (
        "It wants 30 ppm N: the house's full strength is 150 ppm N; a light "
        "feeder takes half, 75 ppm N; the light of the season leaves 58 %, "
        "44 ppm N; a seedling takes half, 22 ppm N; repotted on 16 October "
        "and without a root tip seen since, it takes half, 11 ppm N; "
        "the house's floor lifts it to 30 ppm N."
    ),
    "ceiling": (
        "It wants 20 ppm N: the house's full strength is 150 ppm N; the "
        "place is controlled, so the season takes nothing off; its own "
        "ceiling holds it at 20 ppm N."
    ),
    "rounded": (
        "It wants 50 ppm N: its own full strength is 45 ppm N; the place is "
        "controlled, so the season takes nothing off; in steps of 10 ppm N "
        "that is 50 ppm N."
    ),
}


@pytest.mark.parametrize("page", OF_RULE)
def test_a_rules_example_is_told_in_these_words(page: str) -> None:
    make, _ = OF_RULE[page]
    one, on = make(HOUSE)
    judgement = judged(one, on)
    told = wording.tell(judgement)
    lines = [f"{each.role.value}: {each.sentence}" for each in told]
    assert (wording.short(judgement), *lines) == TOLD[page]


@pytest.mark.parametrize("page", OF_STEP)
def test_a_steps_example_is_told_in_these_words(page: str) -> None:
    make, _, _ = OF_STEP[page]
    one, on, house = make(HOUSE)
    assert wording.strength_sentence(judged(one, on, house)) == STRENGTHS[page]
