"""What holds of any name that a grower may type."""

import string

from hypothesis import example, given
from hypothesis import strategies as st

from growdesk.domain.name_runs import Form, runs, shown
from growdesk.domain.name_sort import sort_key
from growdesk.domain.name_tokens import plain
from tests.domain.name_builders import GENERA, read

FULL = sorted(genus.name for genus in GENERA.by_name.values())
SHORT = sorted(
    short
    for genus in GENERA.by_name.values()
    for short in genus.short
    if len(short) > 2
)
EPITHETS = ["amabilis", "walkeriana", "lobbii", "x-y", "purpurata", "nobile"]
GREXES = ["Mini Purple", "Straße", "Memoria Anna de la Cruz", "Super 5", "Étoile"]
CLONES = ["Buttercup", "No 2", "Queen's Delight", "Kings' Road", "Été", "HOF"]
QUOTES = ["''", "‘’", "`´"]
AWARDS = ["AM/AOS", "HCC/AOS, CCM/AOS", "FCC/RHS"]
TAILS = ["", " 4N", " #3", ", seedling", " seedling"]


@st.composite
def bodies(draw: st.DrawFn) -> str:
    """Give a species or grex, with clone and awards as a grower writes them."""
    genus = draw(st.sampled_from(FULL + SHORT))
    sign = draw(st.sampled_from(["", "", "× ", "×", "x "]))
    is_species = draw(st.booleans())
    epithet = draw(st.sampled_from(EPITHETS if is_species else GREXES))
    mark = sign if is_species else ""
    rank = draw(st.sampled_from(["", " var. alba", " f. coerulea subf. x"[:12]]))
    said = f"{genus} {mark}{epithet}{rank if is_species else ''}"
    if draw(st.booleans()):
        quotes = draw(st.sampled_from(QUOTES))
        said += f" {quotes[0]}{draw(st.sampled_from(CLONES))}{quotes[1]}"
        if draw(st.booleans()):
            said += f" {draw(st.sampled_from(AWARDS))}"
    return said


@st.composite
def sure_names(draw: st.DrawFn) -> str:
    """Give a name without a doubt, with parents now and then."""
    name = draw(bodies())
    if draw(st.booleans()):
        cross = draw(st.sampled_from([" × ", " x ", " X "]))
        name += f" ({draw(bodies())}{cross}{draw(bodies())})"
    return name + draw(st.sampled_from(TAILS))


PIECES = st.sampled_from(
    [
        *SHORT[:40],
        *"()[]'\"×x=,?;",
        "‘",
        "’",
        "var.",
        "AM/AOS",
        "Foo",
        "bar",
        "cf.",
        " ",
    ]
)
ANYTHING = st.one_of(
    st.text(max_size=60),
    st.text(alphabet="()[]×x'\"‘’ ABab.=,?", max_size=60),
    st.lists(PIECES, max_size=25).map(" ".join),
    st.lists(PIECES, max_size=25).map("".join),
    sure_names(),
)


def letters(text: str) -> str:
    """Give a text without what setting it may change: quotes, hybrid signs, spaces."""
    gone = "'‘’‚‛`´′×✕⨯ "
    text = " ".join("" if word in {"x", "X"} else word for word in text.split())
    return "".join(sign for sign in text if sign not in gone)


@example("A0A0A0A0A")
@given(ANYTHING)
def test_any_text_is_read(text: str) -> None:
    name = read(text)
    for form in Form:
        shown(name, form)
    assert sort_key(name) == sort_key(read(text))
    for doubt in name.doubts:
        assert doubt.about or not plain(text)
        for proposal in doubt.proposals:
            assert proposal != plain(text)
            read(proposal)


@given(ANYTHING)
def test_a_doubtful_name_stands_as_typed(text: str) -> None:
    name = read(text)
    if name.is_plain:
        assert [(run.text, run.italic) for run in runs(name)] == [(plain(text), False)]
    else:
        assert letters(shown(name)) == letters(plain(text))


@given(sure_names())
def test_a_sure_name_is_read_from_how_it_is_shown(text: str) -> None:
    name = read(text)
    assert not name.doubts, text
    for form in Form:
        assert read(shown(name, form)) == name


@given(sure_names())
def test_nothing_but_quotes_and_signs_is_set_anew(text: str) -> None:
    assert letters(shown(read(text))) == letters(text)


@given(st.lists(ANYTHING, max_size=12))
def test_sorting_does_not_hang_on_the_order_typed(texts: list[str]) -> None:
    there = sorted(texts, key=lambda text: (sort_key(read(text)), text))
    back = list(reversed(texts))
    back.sort(key=lambda text: (sort_key(read(text)), text))
    assert there == back
    for text in texts:
        if plain(text):
            assert (sort_key(read(text)) == sort_key(read("Zz"))) is (
                plain(text) == "Zz"
            )


@given(st.text(alphabet=string.printable, min_size=401, max_size=500))
def test_a_whole_page_is_kept_and_not_read(text: str) -> None:
    name = read(text)
    if len(plain(text)) > 400:
        assert [doubt.sort.value for doubt in name.doubts] == ["tangled"]
        assert shown(name) == plain(text)
