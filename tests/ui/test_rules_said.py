"""Rules and house rules are said in the language chosen, where they are shown."""

from __future__ import annotations

from gettext import NullTranslations
from typing import TYPE_CHECKING

import pytest
from typing_extensions import override

from growdesk.domain.facts import House
from growdesk.domain.rule_book import title_of
from growdesk.domain.speech import Manner, speak
from growdesk.services.house_rules import DECLARED
from growdesk.services.rule_declaring import said
from growdesk.services.rule_views import rule_views
from growdesk.ui import rule_words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from growdesk.services.values import Setting


class Turned(NullTranslations):
    """Says each text behind a mark, months and all."""

    @override
    def gettext(self, message: str) -> str:
        return f"~{message}"

    @override
    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return self.gettext(msgid1 if n == 1 else msgid2)

    @override
    def pgettext(self, context: str, message: str) -> str:
        return self.gettext(message)


@pytest.fixture(autouse=True)
def turned() -> Iterator[None]:
    speak(Manner(Turned(), decimal=","))
    yield
    speak()


def test_every_part_of_a_page_is_said_with_its_numbers() -> None:
    views = rule_views(House())
    for view in views:
        texts = [
            view.title,
            *view.stands,
            *(each for part in view.parts() for each in part),
        ]
        texts += [each.title for each in view.numbers]
        assert [text for text in texts if not text.startswith("~")] == []
        assert "{" not in "".join(texts)
    by_rule = {view.rule: view for view in views}
    assert "in ~December as in ~June" in by_rule["controlled-place"].example
    assert "~50° north" in by_rule["season-light"].asks
    assert title_of("rot") == by_rule["rot"].title
    numbers = {each.key: each.value for each in by_rule["salts"].numbers}
    assert numbers["feeds_before_flush"] == "~3 feeds"
    assert numbers["runoff_ratio"] == "~1,5 times"
    assert numbers["flush_by_estimate"] == "~no"


@pytest.mark.parametrize("setting", DECLARED, ids=lambda setting: setting.key)
def test_every_text_of_a_house_rule_is_said(setting: Setting) -> None:
    told = said(setting)
    for text in (told.title, told.text, told.group, told.source):
        assert text.startswith("~")
        assert not text.startswith("~~")


def test_the_way_back_leaves_out_what_a_unit_is_of() -> None:
    by_key = {each.key: said(each) for each in DECLARED}
    longest = by_key["fresh_repot_most_days"]
    assert rule_words.value(longest, 365) == "365 ~days at most"
    assert rule_words.back(longest) == "~Back to default, 365 ~days"
    assert rule_words.back(by_key["band_low"]) == "~Back to default, 25 ~%"
