"""The decision in German: whole, with its lines, and in the right case."""

from __future__ import annotations

import re
from datetime import date
from gettext import GNUTranslations
from io import BytesIO
from string import Formatter
from typing import TYPE_CHECKING

import pytest

from growdesk.domain import job_words, speech, templates, week_wording, wording
from growdesk.domain import worth_words as worth
from growdesk.domain.day_words import month_day_text
from growdesk.domain.explain import Reason, Role
from growdesk.domain.facts import CareKind, Facing, Verdict, Water
from growdesk.domain.fading import Fade
from growdesk.domain.job_templates import TEMPLATES
from growdesk.domain.jobs.job import Job, Sort
from growdesk.domain.leaf_light import Light
from growdesk.domain.week_because import Because, How
from growdesk.domain.week_wording import PlantDay
from tests.domain.test_job_words import VALUES
from tests.languages import catalogue

if TYPE_CHECKING:
    from collections.abc import Iterator

ON = date(2026, 11, 26)
YESTERDAY = date(2026, 11, 25)
SEEN = date(2026, 11, 20)
COUNTED = r"\b(vor|nach|in|von|seit|mit|binnen|zu) \{(days|interval|holds|read|of)\}"
"""A count of days stands as "7 Tage", never after a word that asks for "Tagen"."""


@pytest.fixture(scope="module")
def german() -> Iterator[None]:
    table = GNUTranslations(BytesIO(catalogue.compiled("de")))
    speech.speak(speech.Manner(table, ","))
    yield
    speech.speak()


@pytest.mark.usefixtures("german")
@pytest.mark.parametrize("key", templates.REASONS)
def test_a_reason_says_as_many_lines_as_in_english(key: str) -> None:
    said = templates.REASONS[key]
    speech_now = speech.manner()
    speech.speak()
    english = templates.REASONS[key]
    speech.speak(speech_now)
    assert said != english
    assert said.count("\n") == english.count("\n")


def test_no_count_of_days_stands_after_a_word_that_asks_for_another_case() -> None:
    area = catalogue.read("de", "decision")
    ours = [m.string for m in area if m.id and isinstance(m.string, str)]
    assert len(ours) > 500
    assert [text for text in ours if re.search(COUNTED, text)] == []


@pytest.mark.usefixtures("german")
def test_days_are_counted_in_the_case_of_their_sentence() -> None:
    assert [wording.days_text(n) for n in (1, 7)] == ["1 Tag", "7 Tage"]
    fades = [Fade("rot", day, (21.0,), lambda look: look) for day in (YESTERDAY, SEEN)]
    assert [worth.faded(fade, ON).split(", ")[1] for fade in fades] == [
        "vor 1 Tag",
        "vor 6 Tagen",
    ]
    assert worth.about(49) == "7 Wochen"


@pytest.mark.usefixtures("german")
@pytest.mark.parametrize("key", TEMPLATES)
def test_each_job_is_said_in_german(key: str) -> None:
    job = Job(key, Sort.REST, ON, "A1", values={**VALUES, "said": key})
    said = job_words.sentence(job, ON)
    assert said.endswith(".")
    assert not [name for _, name, _, _ in Formatter().parse(said) if name]
    english = TEMPLATES[key]
    assert not said.startswith(english.text[:12])
    if english.title in {message.id for message in catalogue.read("de", "decision")}:
        assert job_words.title(job) != english.title


@pytest.mark.usefixtures("german")
@pytest.mark.parametrize(
    ("tags", "said"),
    [
        (("A1",), "Die Pflanze A1 (warm) steht dort draußen."),
        (
            tuple(f"A{number}" for number in range(1, 9)),
            "Die 8 Pflanzen von A1 bis A8 (warm) stehen dort draußen.",
        ),
    ],
)
def test_plants_and_their_verb_agree(tags: tuple[str, ...], said: str) -> None:
    (key,) = [k for k, v in TEMPLATES.items() if "{plants_stand}" in v.text]
    job = Job(key, Sort.MOVE, ON, values={**VALUES, "tags": tags, "said": key})
    assert job_words.sentence(job, ON).endswith(said)


@pytest.mark.usefixtures("german")
def test_a_day_of_the_week_is_one_sentence() -> None:
    cause = Because(ON, How.GIVEN, CareKind.FEED, feeds=3, since="washed")
    day = PlantDay(ON, Verdict.FLUSH, Water.THROUGH, None, cause)
    assert week_wording.sentence(day, ON) == (
        "Heute wird sie mit reichlich klarem Wasser durchgespült, weil heute die "
        "dritte Düngung seit dem Durchspülen ist."
    )
    assert week_wording.ordinal_text(11) == "11."


@pytest.mark.usefixtures("german")
def test_the_light_of_a_window_names_where_it_looks() -> None:
    light = Light("season-window", 2.5, {"facing": Facing.SOUTH_EAST})
    assert wording.light_sentence(light, ON, controlled=False) == (
        "Am Fenster nach Südosten hat er heute etwa 2,5 mol Licht."
    )


@pytest.mark.usefixtures("german")
def test_a_day_stands_in_the_sentence_as_it_is_said() -> None:
    day = month_day_text(11, 20)
    reason = Reason("rot", Role.DECIDES, "rot", {"seen": SEEN})
    assert wording.reason_text(reason, ON) == f"Am {day} war Fäule zu sehen."
