"""Views of the collection: kept and read back alike, undone, told where damaged."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from growdesk.domain.errors import InputError
from growdesk.domain.facts import Verdict
from growdesk.services.roster_values import Only, SavedView, ViewDraft, Whose
from growdesk.services.values import PlaceDraft
from growdesk.services.view_form import text_of, view_of
from growdesk.services.view_starts import STARTS
from growdesk.store.schema import SavedViewRow

if TYPE_CHECKING:
    from growdesk.services.collection import Collection

WARM = ViewDraft(
    "Warm bench",
    find="phal süd",
    columns=("tag", "name", "verdict"),
    order="looked",
    downwards=True,
    whose=Whose.ALL,
    place=3,
    kind="phalaenopsis",
    verdict=Verdict.KEEP_DRY,
    only=frozenset({Only.UNSEEN, Only.FLOWERING}),
)


def own(collection: Collection) -> list[SavedView]:
    return [each for each in collection.views.all() if each.view_id is not None]


@given(
    st.fixed_dictionaries(
        {
            "find": st.text(),
            "columns": st.lists(st.text()).map(tuple),
            "order": st.text(),
            "downwards": st.booleans(),
            "whose": st.sampled_from(Whose),
            "place": st.none() | st.integers(),
            "kind": st.none() | st.text(),
            "verdict": st.none() | st.sampled_from(Verdict),
            "only": st.frozensets(st.sampled_from(Only)),
        }
    ).map(lambda fields: ViewDraft("x", **fields))
)
def test_any_view_comes_back_as_it_was_kept(view: ViewDraft) -> None:
    assert view_of("x", text_of(view)) == view


def test_a_view_is_kept_changed_renamed_and_removed_each_with_undo(
    collection: Collection,
) -> None:
    assert collection.views.all() == STARTS
    view_id = collection.views.add(WARM).ids[0]
    assert own(collection) == [SavedView(view_id, WARM)]
    other = replace(WARM, find="", place=None)
    collection.views.change(view_id, replace(other, name="ignored"))
    assert own(collection) == [SavedView(view_id, other)]
    collection.views.rename(view_id, " Cool   bench ")
    assert own(collection)[0].draft.name == "Cool bench"
    collection.views.remove(view_id)
    assert own(collection) == []
    names = []
    for _ in range(4):
        collection.history.undo()
        names.append([each.draft for each in own(collection)])
    assert names == [[replace(other, name="Cool bench")], [other], [WARM], []]


@pytest.mark.parametrize(
    ("name", "problem"),
    [
        ("  ", "is empty"),
        ("all PLANTS", "is a view of growdesk's own"),
        ("warm BENCH", "is a view already"),
        ("x" * 61, "is over 60 letters long"),
    ],
)
def test_a_name_that_cannot_be_is_refused(
    collection: Collection, name: str, problem: str
) -> None:
    collection.views.add(WARM)
    with pytest.raises(InputError, match=problem):
        collection.views.add(replace(WARM, name=name))
    second = collection.views.add(replace(WARM, name="Other")).ids[0]
    with pytest.raises(InputError, match=problem):
        collection.views.rename(second, name)


def test_a_view_may_change_the_case_of_its_own_name(collection: Collection) -> None:
    view_id = collection.views.add(WARM).ids[0]
    collection.views.rename(view_id, "WARM BENCH")
    assert own(collection)[0].draft.name == "WARM BENCH"


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("", "cannot be read any more"),
        ("[1, 2", "cannot be read any more"),
        ("[]", "cannot be read any more"),
        ('{"version": 1}', "cannot be read any more"),
        ('{"version": 2}', "was kept by a newer growdesk"),
        (text_of(WARM).replace("keep-dry", "drown"), "cannot be read any more"),
        (text_of(WARM).replace('"place": 3', '"place": true'), "cannot be read"),
        (text_of(WARM).replace('["tag"', '[7, "tag"'), "cannot be read any more"),
        (text_of(WARM).replace('"unseen"', '"lost"'), "cannot be read any more"),
    ],
)
def test_a_damaged_view_is_told_and_the_others_are_there(
    collection: Collection, text: str, problem: str
) -> None:
    fine = collection.views.add(WARM).ids[0]
    with collection.ledger.writing("damage") as writing:
        broken = writing.insert(SavedViewRow, {"name": "Broken", "what": text})
    first, second = own(collection)
    assert (first.view_id, first.draft) == (broken, ViewDraft("Broken"))
    assert first.problem.startswith(f"The view Broken {problem}")
    assert second == SavedView(fine, WARM)
    collection.views.change(broken, WARM)
    assert own(collection)[0].problem == ""


def test_a_view_that_is_gone_is_told(collection: Collection) -> None:
    with pytest.raises(InputError, match="is not there any more"):
        collection.views.remove(9)


def test_a_view_never_shows_another_place_under_an_old_number(
    collection: Collection,
) -> None:
    """The number of a place that was removed is given out again."""
    kept = collection.places.add(PlaceDraft("Attic")).ids[0]
    gone = collection.places.add(PlaceDraft("Cellar")).ids[0]
    collection.views.add(replace(WARM, name="Below", place=gone))
    collection.views.add(replace(WARM, name="Above", place=kept))
    done = collection.places.remove(gone)
    assert done.problems == ("The view Below asks for no place now.",)
    assert collection.places.add(PlaceDraft("Shed")).ids[0] == gone
    assert [each.draft.place for each in own(collection)] == [kept, None]
    collection.history.undo()
    collection.history.undo()
    assert [each.draft.place for each in own(collection)] == [kept, gone]
