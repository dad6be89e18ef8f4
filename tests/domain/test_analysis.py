"""Labels as people type them."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from growdesk.domain.analysis import Analysis, parse_analysis
from growdesk.domain.errors import InputError


@pytest.mark.parametrize(
    ("typed", "label"),
    [
        ("20-20-20", "20-20-20"),
        ("20 - 20 - 20", "20-20-20"),
        ("20–20–20", "20-20-20"),
        ("20—20—20", "20-20-20"),
        ("20:20:20", "20-20-20"),
        ("20/20/20", "20-20-20"),
        ("20+20+20", "20-20-20"),
        ("NPK 20-20-20 + TE", "20-20-20"),
        ("15-5-15 + .5 Fe", "15-5-15 + 0.5 Fe"),
        ("20-20-20 + 7 CaO,3 MgO", "20-20-20 + 7 CaO + 3 MgO"),
        # An oxide with its element behind it, as labels of many countries print.
        ("20-20-20 (8.7 P, 16.6 K)", "20-20-20"),
        ("20-20-20 8.6 P", "20-20-20"),
        ("12-12-17 + 2 MgO (1.2 Mg)", "12-12-17 + 2 MgO"),
        ("N-P-K: 20-20-20", "20-20-20"),
        ("15,5-0-0 Ca 19", "15.5-0-0 + 19 Ca"),
        ("15.5-0-0 Ca 19", "15.5-0-0 + 19 Ca"),
        ("13-3-15 + 8 Ca + 2 Mg", "13-3-15 + 8 Ca + 2 Mg"),
        ("13-3-15+8Ca+2Mg", "13-3-15 + 8 Ca + 2 Mg"),
        ("13-3-15, 8% Ca, 2% Mg", "13-3-15 + 8 Ca + 2 Mg"),
        ("15-5-15 CaO 7 MgO 3", "15-5-15 + 7 CaO + 3 MgO"),
        ("15-5-15 B 0,02 % Fe 0.1 %", "15-5-15 + 0.02 B + 0.1 Fe"),
        ("N 15.5 Ca 19", "15.5-0-0 + 19 Ca"),
        ("16 MgO 13 S", "0-0-0 + 16 MgO + 13 S"),
        ("0-0-54 SO3 46", "0-0-54 + 46 SO3"),
        ("nitrate-N 15.5, Ca 19", "15.5-0-0 + 19 Ca"),
    ],
)
def test_labels(typed: str, label: str) -> None:
    read = parse_analysis(typed)
    assert read.label() == label
    assert parse_analysis(label).elements_percent() == read.elements_percent()


def test_oxides_become_elements() -> None:
    held = parse_analysis("15-5-15 CaO 7 MgO 3").elements_percent()
    assert held == {
        "N": 15,
        "P": pytest.approx(2.182, abs=1e-3),
        "K": pytest.approx(12.452, abs=1e-3),
        "Ca": pytest.approx(5.003, abs=1e-3),
        "Mg": pytest.approx(1.809, abs=1e-3),
    }


def test_phosphate_of_twelve_per_cent() -> None:
    # Read in N. Mattson, e-GRO Edible Alert 3(5), 2018 (Cornell), partly in a copy, at
    # hortidaily.com/article/42044: 12 % P2O5 is 5.24 % P.
    assert parse_analysis("10-12-10").percent_of("P") == pytest.approx(5.24, abs=0.005)


def test_the_phosphorus_of_20_20_20() -> None:
    """Trial papers print 20N-8.6P-16.6K; the exact factor gives 8.73 % P.

    Read in Wang and Gregg, HortScience 29:269, 1994, journals.ashs.org.
    """
    held = parse_analysis("20-20-20").elements_percent()
    assert held["P"] == pytest.approx(8.73, abs=0.005)
    assert held["P"] != pytest.approx(8.6, abs=0.05)
    assert held["K"] == pytest.approx(16.6, abs=0.05)


def test_nitrogen_forms_are_told_only_where_the_label_tells() -> None:
    told = parse_analysis("15-5-15 nitrate-N 11.8 NH4-N 1.2 urea 2")
    assert told.nitrogen_forms_percent() == {
        "nitrate": 11.8,
        "ammonium": 1.2,
        "urea": 2.0,
    }
    assert told.n_percent == 15
    assert told.percent_of("NO3") == pytest.approx(52.24, abs=0.01)
    silent = parse_analysis("15-5-15")
    assert silent.nitrogen_forms_percent() == {}
    assert silent.nitrate_n_percent is None
    assert silent.percent_of("NO3") is None


@pytest.mark.parametrize("typed", ["N-NO3 11.8", "NO3-N 11.8", "11.8 nitrate"])
def test_nitrate_nitrogen_in_its_spellings(typed: str) -> None:
    read = parse_analysis(f"15-5-15 {typed}")
    assert read.nitrate_n_percent == pytest.approx(11.8)


def test_nitrate_as_the_ion_is_not_nitrate_nitrogen() -> None:
    read = parse_analysis("15-5-15 NO3 44.3")
    assert read.nitrate_n_percent == pytest.approx(10.0, abs=0.01)


def test_percent_of_asks_in_any_form() -> None:
    label = parse_analysis("20-20-20 Ca 0")
    assert label.percent_of("P2O5") == pytest.approx(20)
    assert label.percent_of("K2O") == pytest.approx(20)
    assert label.percent_of("Ca") is None
    assert label.percent_of("Mg") is None


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("50-40-20", "adds up to 110 %"),
        ("999-1-1", "not from 0 to 100"),
        ("-20-20-20", "below nothing"),
        ("20--5-20", "below nothing"),
        ("20-20-20 Ca -5", "below nothing"),
        ("20-20", "two of the three numbers"),
        ("NPK 5-10", "two of the three numbers"),
        ("20-10 + 2 Ca", "cannot be read"),
        ("20-20-20-2", "fourth number"),
        ("20+5+10+2", "fourth number"),
        ("20+5+10 (+2)", "fourth number"),
        ("60-0-0", "N at 60 %, more than any feed"),
        ("47.1-0-0", "more than any feed"),
        ("20 20 20", "cannot be read"),
        ("20,20,20", "one number"),
        ("20-10:20", "cannot be read"),
        ("0-0-0", "holds nothing"),
        ("", "cannot be read"),
        ("junk", "cannot be read"),
        ("nan-1-1", "cannot be read"),
        ("1e2-0-0", "cannot be read"),
        ("15-5-15 Ca", "cannot be read"),
        ("15-5-15 8", "cannot be read"),
        ("15-5-15 Ca Mg", "one number"),
        ("15-5-15 Xy 3", "names Xy"),
        ("15-5-15 Ca 7 CaO 3", "gives Ca twice: 3 % CaO is 2.14 % Ca, not 7 %"),
        ("20-20-20 P 15", "gives P twice: 20 % P2O5 is 8.73 % P, not 15 %"),
        ("20-20-20 P 8.4", "gives P twice"),
        ("15-5-15 Ca 7 Ca 6", "gives Ca twice."),
        ("15-5-15 CaO 7 CaCO3 3", "gives Ca twice."),
        ("15-5-15 nitrate-N 20", "in its forms"),
        ("20-20-20" * 5_000, "cannot be read"),
        ("__import__('os')", "cannot be read"),
    ],
)
def test_labels_refused(typed: str, says: str) -> None:
    with pytest.raises(InputError) as refused:
        parse_analysis(typed, field="tin")
    assert refused.value.field == "tin"
    assert says in refused.value.line()
    assert refused.value.hint
    assert len(refused.value.line()) < 300


@settings(deadline=None)
@given(st.text(alphabet="0123456789-–.,+% NPKCaMgO()/:", max_size=40))
def test_no_label_gets_past_as_another_error(typed: str) -> None:
    try:
        read = parse_analysis(typed)
    except InputError:
        return
    assert 0 < sum(percent for _, percent in read.printed()) <= 100 + 1e-6


@pytest.mark.parametrize("density", [float("nan"), float("inf"), 0, -1.2, 12])
def test_densities_refused(density: float) -> None:
    with pytest.raises(InputError) as refused:
        parse_analysis("8-4-6", density)
    assert refused.value.field == "density"


@pytest.mark.parametrize("percent", [float("nan"), float("inf"), -1, 101])
def test_numbers_refused_without_typing(percent: float) -> None:
    with pytest.raises(InputError):
        Analysis(percent, 0, 10)
    with pytest.raises(InputError):
        Analysis(10, 0, 10, (("Ca", percent),))
    with pytest.raises(InputError):
        Analysis(10, 0, 10, nitrate_n_percent=percent)


def test_names_refused_without_typing() -> None:
    with pytest.raises(InputError, match="names ca"):
        Analysis(10, 0, 10, (("ca", 1),))
    with pytest.raises(InputError, match="gives P twice"):
        Analysis(10, 0, 10, (("P", 1),))


def test_a_density_makes_it_a_liquid() -> None:
    assert parse_analysis("8-4-6", 1.2).is_liquid
    assert not parse_analysis("8-4-6").is_liquid
