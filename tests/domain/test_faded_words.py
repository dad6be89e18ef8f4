"""What each sign of a look is said to have become after three weeks, and how likely."""

from __future__ import annotations

import pytest

from growdesk.domain.case import Case
from growdesk.domain.facts import (
    Bulbs,
    CareKind,
    Flowering,
    Health,
    Leaves,
    NewGrowths,
    NewLeaf,
    Place,
    Plant,
    Pot,
    RootTips,
)
from growdesk.domain.worth_looking import signs_of
from growdesk.domain.worth_words import faded
from tests.domain.builders import (
    EMERGING,
    EXTENDING,
    HOUSE,
    NOTHING,
    day,
    did,
    kind_of,
    look,
    moving,
    plant,
    still,
)

ON = day("2026-05-27")
CASES: list[tuple[Plant, tuple[tuple[float, str], ...]]] = [
    (
        plant(
            "cattleya",
            moving("05-06", Flowering.SHEATH, new_growths=NewGrowths(1, 1, 1, 2)),
        ),
        (
            (
                0.473,
                (
                    "A new growth had just emerged on 6 May, 21 days ago. In this kind "
                    "that holds for about 3 weeks, and it may be extending by now."
                ),
            ),
            (
                0.274,
                (
                    "A new growth was extending on 6 May, 21 days ago. In this kind "
                    "that holds for about 6 weeks, and it may be maturing by now."
                ),
            ),
            (
                0.473,
                (
                    "A new growth was maturing on 6 May, 21 days ago. In this kind "
                    "that holds for about 3 weeks, and it may be finished by now."
                ),
            ),
            (
                0.405,
                (
                    "Root tips were running on 6 May, 21 days ago. At this time of "
                    "year that holds for about 4 weeks, and they may have closed "
                    "since."
                ),
            ),
            (
                0.405,
                (
                    "It was in sheath on 6 May, 21 days ago. In this kind that holds "
                    "for about 4 weeks, and a spike may show by now."
                ),
            ),
        ),
    ),
    (
        plant("cattleya", still("05-06", Flowering.NONE)),
        (
            (
                0.405,
                (
                    "No new growth showed on 6 May, 21 days ago. That holds for about "
                    "4 weeks, and one may have broken since."
                ),
            ),
            (
                0.405,
                (
                    "No root tips showed on 6 May, 21 days ago. That holds for about 4 "
                    "weeks, and they may have started since."
                ),
            ),
            (0.149, "It had no spike on 6 May, 21 days ago; one may show by now."),
        ),
    ),
    (
        plant(
            "cattleya",
            look(
                "05-06",
                Flowering.SPIKE,
                new_growths=NewGrowths(0, 0, 0, 1, 1),
                root_tips=RootTips.STARTING,
            ),
        ),
        (
            (
                0.405,
                (
                    "Its new growth stood still on 6 May, 21 days ago; it may have gone"
                    " on since."
                ),
            ),
            (
                0.575,
                (
                    "Root tips were just starting on 6 May, 21 days ago. That holds "
                    "for about 10 days, and they may be running by now."
                ),
            ),
            (
                0.192,
                (
                    "Root tips were just starting on 6 May, 21 days ago. That holds "
                    "for about 10 days, and they may have closed again."
                ),
            ),
            (
                0.541,
                (
                    "Its spike was seen on 6 May, 21 days ago. In this kind that holds "
                    "for about 3 weeks, and it may be in bud by now."
                ),
            ),
        ),
    ),
    (
        plant("cattleya", look("05-06", Flowering.OPEN, root_tips=RootTips.HIDDEN)),
        (
            (
                0.405,
                (
                    "New growths were not recorded on 6 May, 21 days ago; one may be on"
                    " the move."
                ),
            ),
            (
                0.823,
                (
                    "It was in flower on 6 May, 21 days ago. In this kind that holds "
                    "for about 8 days, and the flowers may be fading by now."
                ),
            ),
        ),
    ),
    (
        plant(
            "cattleya",
            look(
                "05-06",
                Flowering.BUDS,
                Flowering.FADING,
                new_leaf=NewLeaf.EXTENDING,
                pot=Pot.MOIST,
            ),
        ),
        (
            (
                0.405,
                (
                    "New growths were not recorded on 6 May, 21 days ago; one may be on"
                    " the move."
                ),
            ),
            (
                0.192,
                (
                    "A new leaf was extending on 6 May, 21 days ago. In this kind that "
                    "holds for about 10 weeks, and it may be full by now."
                ),
            ),
            (
                0.405,
                (
                    "Root tips were not recorded on 6 May, 21 days ago; they may be on "
                    "the move."
                ),
            ),
            (
                0.79,
                (
                    "Its buds were closed on 6 May, 21 days ago. In this kind that "
                    "holds for about 9 days, and they may be open by now."
                ),
            ),
            (
                0.999,
                (
                    "Its flowers were fading on 6 May, 21 days ago. In this kind that "
                    "holds for about 2 days, and they may be over by now."
                ),
            ),
            (0.992, "Its pot was damp on 6 May, 21 days ago; it may be dry by now."),
        ),
    ),
    (
        plant(
            "cattleya",
            moving(
                "05-06", health=[Health.ROT, Health.NO_ROOTS], bulbs=Bulbs.SHRIVELLED
            ),
        ),
        (
            (
                0.274,
                (
                    "A new growth was extending on 6 May, 21 days ago. In this kind "
                    "that holds for about 6 weeks, and it may be maturing by now."
                ),
            ),
            (
                0.405,
                (
                    "Root tips were running on 6 May, 21 days ago. At this time of "
                    "year that holds for about 4 weeks, and they may have closed "
                    "since."
                ),
            ),
            (0.646, "Rot was seen on 6 May, 21 days ago; it may be clean by now."),
            (
                0.293,
                (
                    "It had no live roots on 6 May, 21 days ago; it may have "
                    "new ones by now."
                ),
            ),
            (
                0.5,
                "It was badly shrivelled on 6 May, 21 days ago; it may be plump again.",
            ),
        ),
    ),
    (
        plant(
            "cattleya",
            moving("05-06", leaves=Leaves.SHRIVELLED),
            care=(did("05-08", CareKind.REPOT),),
        ),
        (
            (
                0.274,
                (
                    "A new growth was extending on 6 May, 21 days ago. In this kind "
                    "that holds for about 6 weeks, and it may be maturing by now."
                ),
            ),
            (
                0.375,
                "It was repotted on 8 May, 19 days ago; its root tips may show by now.",
            ),
            (
                0.5,
                "It was badly shrivelled on 6 May, 21 days ago; it may be plump again.",
            ),
        ),
    ),
    (
        plant("cattleya", moving("05-06"), place=Place(controlled=True)),
        (
            (
                0.274,
                (
                    "A new growth was extending on 6 May, 21 days ago. In this kind "
                    "that holds for about 6 weeks, and it may be maturing by now."
                ),
            ),
            (
                0.405,
                (
                    "Root tips were running on 6 May, 21 days ago. At this time of "
                    "year that holds for about 4 weeks, and they may have closed "
                    "since."
                ),
            ),
        ),
    ),
    (
        plant(
            "vanda",
            look("05-06", new_leaf=NewLeaf.STARTING, root_tips=RootTips.RUNNING),
        ),
        (
            (
                0.695,
                (
                    "A new leaf was starting on 6 May, 21 days ago. In this kind that "
                    "holds for about 12 days, and it may be extending by now."
                ),
            ),
            (
                0.405,
                (
                    "Root tips were running on 6 May, 21 days ago. At this time of "
                    "year that holds for about 4 weeks, and they may have closed "
                    "since."
                ),
            ),
        ),
    ),
    (
        plant("vanda", look("05-06", new_leaf=NewLeaf.NONE, root_tips=RootTips.NONE)),
        (
            (
                0.405,
                (
                    "No new leaf was moving on 6 May, 21 days ago. That holds for "
                    "about 4 weeks, and one may have started since."
                ),
            ),
            (
                0.405,
                (
                    "No root tips showed on 6 May, 21 days ago. That holds for about 4 "
                    "weeks, and they may have started since."
                ),
            ),
        ),
    ),
    (
        plant("vanda", look("05-06")),
        (
            (
                0.405,
                (
                    "A new leaf was not recorded on 6 May, 21 days ago; one may be on "
                    "the move."
                ),
            ),
            (
                0.405,
                (
                    "Root tips were not recorded on 6 May, 21 days ago; they may be on "
                    "the move."
                ),
            ),
        ),
    ),
    (
        plant("vanda", look("05-06", new_leaf=NewLeaf.FULL)),
        (
            (
                0.405,
                (
                    "No new leaf was moving on 6 May, 21 days ago. That holds for "
                    "about 4 weeks, and one may have started since."
                ),
            ),
            (
                0.405,
                (
                    "Root tips were not recorded on 6 May, 21 days ago; they may be on "
                    "the move."
                ),
            ),
        ),
    ),
    (
        plant("dendrobium-nobile", still("05-06", Flowering.NONE)),
        (
            (
                0.405,
                (
                    "No new growth showed on 6 May, 21 days ago. That holds for about "
                    "4 weeks, and one may have broken since."
                ),
            ),
            (
                0.405,
                (
                    "No root tips showed on 6 May, 21 days ago. That holds for about 4 "
                    "weeks, and they may have started since."
                ),
            ),
            (
                0.149,
                "It had no buds on 6 May, 21 days ago; they may have broken since.",
            ),
        ),
    ),
    (
        plant("catasetum", still("05-06", leaves=Leaves.LEAFLESS)),
        (
            (
                0.646,
                (
                    "No new growth showed on 6 May, 21 days ago. This is the season in "
                    "which its kind wakes, and one may have broken since."
                ),
            ),
            (
                0.646,
                (
                    "No root tips showed on 6 May, 21 days ago. This is the season in "
                    "which its kind wakes, and they may have started since."
                ),
            ),
            (
                0.132,
                (
                    "It stood bare on 6 May, 21 days ago. This is the season in which "
                    "its kind wakes, and new roots may have reached 8 cm."
                ),
            ),
        ),
    ),
    (
        plant(
            "catasetum",
            look(
                "05-06",
                new_growths=EMERGING,
                leaves=Leaves.LEAFLESS,
                longest_new_root_mm=40.0,
            ),
        ),
        (
            (
                0.448,
                (
                    "A new growth had just emerged on 6 May, 21 days ago. In this kind "
                    "that holds for about 4 weeks, and it may be extending by now."
                ),
            ),
            (
                0.646,
                (
                    "Root tips were not recorded on 6 May, 21 days ago. This is the "
                    "season in which its kind wakes, and they may be on the move."
                ),
            ),
            (
                0.574,
                (
                    "Its longest new root was 4 cm on 6 May, 21 days ago. At about 1.5 "
                    "cm a week it may have reached 8 cm."
                ),
            ),
            (
                0.5,
                (
                    "A new growth was up on 6 May, 21 days ago; a leaf may have "
                    "unfolded since."
                ),
            ),
        ),
    ),
    (
        plant("catasetum", look("05-06", new_growths=EMERGING, leaves=Leaves.LEAFLESS)),
        (
            (
                0.448,
                (
                    "A new growth had just emerged on 6 May, 21 days ago. In this kind "
                    "that holds for about 4 weeks, and it may be extending by now."
                ),
            ),
            (
                0.646,
                (
                    "Root tips were not recorded on 6 May, 21 days ago. This is the "
                    "season in which its kind wakes, and they may be on the move."
                ),
            ),
            (
                0.541,
                (
                    "It had begun to move on 6 May, 21 days ago, and its new roots were"
                    " not measured; the longest may have reached 8 cm."
                ),
            ),
            (
                0.5,
                (
                    "A new growth was up on 6 May, 21 days ago; a leaf may have "
                    "unfolded since."
                ),
            ),
        ),
    ),
    (
        plant(
            "catasetum",
            look(
                "05-06",
                new_growths=EXTENDING,
                leaves=Leaves.FIRM,
                longest_new_root_mm=40.0,
            ),
        ),
        (
            (
                0.257,
                (
                    "A new growth was extending on 6 May, 21 days ago. In this kind "
                    "that holds for about 7 weeks, and it may be maturing by now."
                ),
            ),
            (
                0.646,
                (
                    "Root tips were not recorded on 6 May, 21 days ago. This is the "
                    "season in which its kind wakes, and they may be on the move."
                ),
            ),
            (
                0.574,
                (
                    "Its longest new root was 4 cm on 6 May, 21 days ago. At about 1.5 "
                    "cm a week it may have reached 8 cm."
                ),
            ),
        ),
    ),
    (
        plant("lycaste", still("05-06", leaves=Leaves.LEAFLESS)),
        (
            (
                0.405,
                (
                    "No new growth showed on 6 May, 21 days ago. That holds for about "
                    "4 weeks, and one may have broken since."
                ),
            ),
            (
                0.405,
                (
                    "No root tips showed on 6 May, 21 days ago. That holds for about 4 "
                    "weeks, and they may have started since."
                ),
            ),
            (
                0.339,
                (
                    "It stood bare on 6 May, 21 days ago; new roots may have reached "
                    "2.5 cm since."
                ),
            ),
        ),
    ),
    (
        plant("lycaste", look("05-06", new_growths=EMERGING, leaves=Leaves.LEAFLESS)),
        (
            (
                0.473,
                (
                    "A new growth had just emerged on 6 May, 21 days ago. In this kind "
                    "that holds for about 3 weeks, and it may be extending by now."
                ),
            ),
            (
                0.405,
                (
                    "Root tips were not recorded on 6 May, 21 days ago; they may be on "
                    "the move."
                ),
            ),
            (
                0.918,
                (
                    "It had begun to move on 6 May, 21 days ago, and its new roots were"
                    " not measured; the longest may have reached 2.5 cm."
                ),
            ),
            (
                0.5,
                (
                    "A new growth was up on 6 May, 21 days ago; a leaf may have "
                    "unfolded since."
                ),
            ),
        ),
    ),
    (
        plant("catasetum", look("05-06", new_growths=NOTHING, leaves=Leaves.YELLOWING)),
        (
            (
                0.646,
                (
                    "No new growth showed on 6 May, 21 days ago. This is the season in "
                    "which its kind wakes, and one may have broken since."
                ),
            ),
            (
                0.646,
                (
                    "Root tips were not recorded on 6 May, 21 days ago. This is the "
                    "season in which its kind wakes, and they may be on the move."
                ),
            ),
            (
                0.646,
                (
                    "Its leaves were yellowing on 6 May, 21 days ago. That holds for "
                    "about 2 weeks, and it may stand bare by now."
                ),
            ),
        ),
    ),
    (
        plant("catasetum", look("05-06", new_growths=NOTHING, leaves=Leaves.DROPPING)),
        (
            (
                0.646,
                (
                    "No new growth showed on 6 May, 21 days ago. This is the season in "
                    "which its kind wakes, and one may have broken since."
                ),
            ),
            (
                0.646,
                (
                    "Root tips were not recorded on 6 May, 21 days ago. This is the "
                    "season in which its kind wakes, and they may be on the move."
                ),
            ),
            (
                0.767,
                (
                    "Its leaves were dropping on 6 May, 21 days ago. That holds for "
                    "about 10 days, and it may stand bare by now."
                ),
            ),
        ),
    ),
    (
        plant("catasetum", look("05-06", new_growths=NOTHING, leaves=Leaves.FIRM)),
        (
            (
                0.646,
                (
                    "No new growth showed on 6 May, 21 days ago. This is the season in "
                    "which its kind wakes, and one may have broken since."
                ),
            ),
            (
                0.646,
                (
                    "Root tips were not recorded on 6 May, 21 days ago. This is the "
                    "season in which its kind wakes, and they may be on the move."
                ),
            ),
        ),
    ),
]


@pytest.mark.parametrize(("one", "told"), CASES)
def test_each_sign_is_told_with_its_chance(
    one: Plant, told: tuple[tuple[float, str], ...]
) -> None:
    fades = signs_of(Case(one, kind_of(one), HOUSE, ON))
    found = [(round(each.chance(ON), 3), faded(each, ON)) for each in fades]
    assert tuple(found) == told
