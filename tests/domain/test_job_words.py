"""Every dated job is told in whole sentences."""

from __future__ import annotations

from datetime import date

import pytest

from growdesk.domain import job_words
from growdesk.domain.job_templates import SORTS, TEMPLATES
from growdesk.domain.jobs.job import Job, Sort

ON = date(2026, 11, 26)
VALUES: dict[str, object] = {
    "kind": "Cattleya",
    "first": date(2026, 11, 1),
    "last": date(2027, 2, 28),
    "start": date(2026, 12, 1),
    "since": date(2024, 3, 1),
    "due": date(2026, 3, 1),
    "came": date(2026, 11, 20),
    "seen": date(2026, 11, 20),
    "treated": date(2026, 11, 12),
    "opens": date(2027, 1, 5),
    "day": date(2027, 1, 5),
    "resume_mm": 80.0,
    "root_mm": 62.0,
    "least_mm": 50.0,
    "limit_c": 13.0,
    "expected_c": 3.0,
    "years": 2.5,
    "spread": 9,
    "apart": "9 days apart",
    "days": 21,
    "weeks": 13.0,
    "count": 2,
    "low_months": 4,
    "high_months": 8,
    "medium": "bark",
    "moment": "new roots about 2.5 cm long",
    "product": "Soap & water",
    "place": "Balcony",
    "nights": 3,
    "warmth": "warm",
    "tags": ("A1", "A2"),
}


@pytest.mark.parametrize("key", TEMPLATES)
def test_each_is_a_title_and_whole_sentences(key: str) -> None:
    told = dict(VALUES, years=3) if key == "bloom-expected" else VALUES
    job = Job(key, Sort.REST, ON, "A1", values=told)
    title, sentence = job_words.title(job), job_words.sentence(job, ON)
    assert 1 <= len(title.split()) <= 6
    assert title[0].isupper()
    assert not title.endswith(".")
    assert sentence[0].isupper() or sentence[0].isdigit()
    assert sentence.endswith(".")
    assert not set("{}") & set(sentence)
    for slip in ("None", "not recorded", "..", "  ", " ,"):
        assert slip not in sentence


def test_a_value_that_is_missing_is_said_so_and_breaks_nothing() -> None:
    job = Job("repot-now", Sort.REPOT, ON, "A1")
    assert "a day not recorded" in job_words.sentence(job, ON)


def test_what_is_said_may_change_while_the_job_stays() -> None:
    job = Job("repot", Sort.REPOT, ON, values={**VALUES, "said": "repot-now"})
    assert job_words.title(job) == "Repot now"
    assert job_words.sentence(job, ON) == (
        "Its bark has been due since 1 March 2026, and the moment is here: new roots "
        "about 2.5 cm long. It was repotted last on 1 March 2024."
    )


@pytest.mark.parametrize(
    ("name", "value", "text"),
    [
        ("years", 1.0, "1 year"),
        ("years", 1.5, "1.5 years"),
        ("medium", None, "medium"),
        ("medium", "soil", "soil mix"),
    ],
)
def test_measures_are_said_as_growers_do(name: str, value: object, text: str) -> None:
    job = Job("repot-due-plain", Sort.REPOT, ON, values={**VALUES, name: value})
    assert text in job_words.sentence(job, ON)


@pytest.mark.parametrize(
    ("days", "text"),
    [
        (0, "first today"),
        (1, "first 1 day ago"),
        (60, "first 60 days ago"),
        (61, "first 2 months ago"),
        (400, "first 13 months ago"),
    ],
)
def test_the_age_of_a_pod_is_said_in_days_then_in_months(days: int, text: str) -> None:
    job = Job("pods", Sort.STEM, ON, values={"count": 1, "days": days})
    assert job_words.sentence(job, ON).startswith(f"It carries a pod, seen {text}.")


def test_every_sort_has_a_word() -> None:
    assert set(SORTS) == set(Sort)
    assert len(set(SORTS.values())) == len(Sort)
