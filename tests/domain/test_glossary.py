"""Words of the trade in a text: whole, the longest first, never in a name."""

from __future__ import annotations

import pytest

from growdesk.domain.glossary import Entry, Glossary, read_entries

WORDS = Glossary(
    (
        Entry("growth", "new growth", ("new growths",), "The next shoot."),
        Entry("bulb", "bulb", ("bulbs",), "A thick stem."),
        Entry("back-bulb", "back bulb", ("back bulbs",), "An old one."),
        Entry("ec", "EC", (), "How salty."),
        Entry("look", "look", (), "An inspection.", is_marked=False),
        Entry("spike", "Blütentrieb", ("Blütentriebe", "Blütentriebs"), "Auf Deutsch."),
    )
)


def keys(text: str, **limits: object) -> list[str]:
    return [each.entry.key for each in WORDS.found(text, **limits)]  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("A new growth was extending.", ["growth"]),
        ("New growths were not recorded.", ["growth"]),
        ("Cut off the back bulb, keep the bulbs.", ["back-bulb", "bulb"]),
        ("A bulbous stem, a back-bulb-like one.", []),
        ("EC is high.", ["ec"]),
        ("ec, Ecuador and decay", []),
        ("The look of 3 May.", []),
        ("Zwei Blütentriebe stehen.", ["spike"]),
        ("a new\ngrowth", ["growth"]),
    ],
)
def test_words_are_found_whole_and_the_longest_first(
    text: str, found: list[str]
) -> None:
    assert keys(text) == found


def test_a_word_is_found_where_it_stands_and_once() -> None:
    text = "The bulb, the bulbs."
    (only,) = WORDS.found(text)
    assert text[only.start : only.end] == "bulb"


def test_no_word_is_looked_for_in_a_name() -> None:
    assert keys("Bulb 'New Growth' has a bulb.", names=("Bulb 'New Growth'",)) == [
        "bulb"
    ]
    assert keys("'New Growth' only", names=("'New Growth'",)) == []


def test_what_was_told_above_is_left_and_no_more_than_asked_are_given() -> None:
    text = "A new growth, a bulb and its EC."
    assert keys(text) == ["growth", "bulb"]
    assert keys(text, told=("growth",)) == ["bulb", "ec"]
    assert keys(text, most=1) == ["growth"]


def test_a_find_goes_through_every_form() -> None:
    assert [each.key for each in WORDS.matching("BACK")] == ["back-bulb"]
    assert [each.key for each in WORDS.matching("triebs")] == ["spike"]
    assert len(WORDS.matching("")) == len(WORDS.entries)
    assert WORDS.matching("zebra") == ()


def test_a_table_is_read_with_its_forms() -> None:
    row = {"key": "a", "word": "b", "forms": "c|d e", "marked": "no", "text": "f"}
    assert read_entries([row]) == (Entry("a", "b", ("c", "d e"), "f", is_marked=False),)


def test_without_words_nothing_is_found() -> None:
    assert Glossary(()).found("A new growth.") == ()


def test_words_stand_in_the_order_of_their_letters_with_umlauts_among_them() -> None:
    words = [Entry(w, w, (), "W.") for w in ("Ruhe", "Stärke", "Rückbulbe", "Stamm")]
    ordered = [each.word for each in Glossary(words).entries]
    assert ordered == ["Rückbulbe", "Ruhe", "Stamm", "Stärke"]
