"""What people type is read, asked back, or refused in one plain line."""

from __future__ import annotations

import subprocess
import sys
import time
from contextlib import suppress

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from growdesk.domain import units
from growdesk.domain.errors import InputError
from growdesk.domain.units import Target


@pytest.mark.parametrize(
    ("typed", "litres"),
    [
        ("5 L", 5),
        ("5L", 5),
        ("5 l", 5),
        ("5 litres", 5),
        ("5 Liters", 5),
        ("750 mL", 0.75),
        ("750 cc", 0.75),
        ("1 dm3", 1),
        ("1 cm³", 0.001),
        ("1 cm^3", 0.001),
        ("2 cubic feet", 2 * 28.316846592),
        ("0,5 L", 0.5),
        (",5 L", 0.5),
        ("0.500 L", 0.5),
        ("0,500 L", 0.5),
        ("1500 mL", 1.5),
        ("1 500 mL", 1.5),
        ("1'500 mL", 1.5),
        ("1’500 mL", 1.5),
        ("1'234'567.5 mL", 1234.5675),
        ("1 234 567,5 mL", 1234.5675),
        ("1,234,567.5 mL", 1234.5675),
        ("1.234.567,5 mL", 1234.5675),
        ("1.234.567 mL", 1234.567),
        ("1500.250 mL", 1.50025),
        ("1.5e-1 L", 0.15),
        ("3 / 4 tsp", 0.004928921595 * 0.75),
        ("10⁄4 tsp", 0.004928921595 * 2.5),
        ("1,234.5 mL", 1.2345),
        ("1.234,5 mL", 1.2345),
        ("1e3 mL", 1),
        ("+5 L", 5),
        ("５ Ｌ", 5),
        # The US measures, in mL as a conversion sheet that agrees with NIST prints
        # them; read at jesusnjim.com/conversions/kitchen-conversions.html.
        ("1 tsp", 0.004928921595),
        ("1/2 tsp", 0.004928921595 / 2),
        ("½ tsp", 0.004928921595 / 2),
        ("1½ tsp", 0.004928921595 * 1.5),
        ("1 ½ TSP", 0.004928921595 * 1.5),
        ("1 1/2 tsp", 0.004928921595 * 1.5),
        ("1 tbsp", 0.01478676478),
        ("1 fl oz", 0.0295735295625),
        ("1 fl. oz.", 0.0295735295625),
        ("1 cup", 0.2365882365),
        ("1 pint", 0.473176473),
        ("1 qt", 0.946352946),
        ("1 gal", 3.785411784),
        ("1 US gal", 3.785411784),
        # The imperial gallon: by definition, from memory.
        ("1 imp gal", 4.54609),
        ("1 imperial_gallon", 4.54609),
        ("1 UK gallon", 4.54609),
        # Known to pint's whole registry only.
        ("1 hogshead", 238.48094),
    ],
)
def test_volumes(typed: str, litres: float) -> None:
    assert units.parse_volume_l(typed) == pytest.approx(litres, rel=1e-7)


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("5", "has no unit"),
        ("1,500", "has no unit"),
        ("1,500 L", "could mean 1500 or 1.5"),
        ("1.500 L", "could mean 1500 or 1.5"),
        ("12.345 mL", "could mean 12345 or 12.3450"),
        ("500 ML", "millilitres or megalitres"),
        ("5 oz", "fl oz"),
        ("5 kg", "is not a volume"),
        ("-5 L", "more than nothing"),
        ("−5 L", "more than nothing"),
        ("0 L", "more than nothing"),
        ("0/3 L", "more than nothing"),
        ("1/0 tsp", "divides by zero"),
        ("nan L", "is not a volume"),
        ("inf L", "is not a volume"),
        ("1e999 L", "far too large"),
        ("1e-300 L", "is less than"),
        ("10001 L", "more than 10 000 L"),
        ("", "is empty"),
        ("   ", "is empty"),
        ("five litres", "is not a volume"),
        ("5 bananas", "not known here"),
        ("5 degC", "not known here"),
        ("5 L**9999", "is not a volume"),
        ("5 L^9", "is not a volume"),
        ("5 L/L", "is not a volume"),
        ("__import__('os')", "is not a volume"),
        ("5 L if 1 else 2", "is not a volume"),
        ("5 __class__", "is not a volume"),
        ("5..5 L", "not a number"),
        ("1,5,5 L", "not a number"),
        ("1 5 L", "not a number"),
        ("٥ L", "is not a volume"),
        ("5\x00L", "is not a volume"),
        ("9" * 10_000, "too long"),
        ("5 L" + " " * 10_000, "too long"),
        ("9" * 50 + " L", "more than 10 000 L"),
    ],
)
def test_volumes_refused(typed: str, says: str) -> None:
    with pytest.raises(InputError) as refused:
        units.parse_volume_l(typed, "water")
    assert refused.value.field == "water"
    line = refused.value.line()
    assert says in line
    assert refused.value.hint
    assert len(line) < 250


def test_what_is_suggested_is_accepted() -> None:
    """The way out of "1,500" does not lead back to the same question."""
    for typed, readings in (("1,500 L", ("1500", "1.5")), ("12.345 mL", ("12.3450",))):
        with pytest.raises(InputError) as asked:
            units.parse_volume_l(typed)
        for reading in readings:
            assert f'"{reading}"' in asked.value.hint
            assert units.parse_volume_l(f"{reading} mL") > 0


@settings(deadline=None)
@given(st.text(max_size=80))
def test_no_text_gets_past_as_another_error(typed: str) -> None:
    for parse in (units.parse_volume_l, units.parse_density_g_per_ml):
        try:
            value = parse(typed)
        except InputError:
            continue
        assert 0 < value <= 10_000
    with suppress(InputError):
        assert units.parse_target(typed).strength_mg_per_l > 0


_PIECES = st.sampled_from(
    (
        *("5", "1,5", "1.500", "-3", "0", "1/2", "½", "e9", ".", ",", "9e99", "'"),
        *("L", "mL", "gal", "per", "/", "^3", "**", "(", ")", "%", "_"),
        *("ppm", "mg", "N", "K"),
    )
)


@settings(deadline=None)
@given(st.lists(_PIECES, min_size=1, max_size=8), st.sampled_from(["", " "]))
def test_no_mixture_of_pieces_gets_past(pieces: list[str], glue: str) -> None:
    typed = glue.join(pieces)
    with suppress(InputError):
        assert 0 < units.parse_volume_l(typed) <= 10_000
    with suppress(InputError):
        assert units.parse_target(typed).strength_mg_per_l > 0


def test_hostile_texts_are_answered_at_once() -> None:
    units.parse_volume_l("1 hogshead")
    started = time.process_time()
    for piece in ("9 ", "a ", "1,", "a.", "1/", " per", "a/", "1 1/", "_", "² "):
        for text in (piece * 30, "5 " + piece * 29, piece * 29 + "L"):
            with pytest.raises(InputError):
                units.parse_volume_l(text)
            with pytest.raises(InputError):
                units.parse_target(text)
    assert time.process_time() - started < 2


@pytest.mark.parametrize(
    ("typed", "nutrient", "mg_per_l"),
    [
        ("150 ppm N", "N", 150),
        ("150ppm N", "N", 150),
        ("150 PPM n", "N", 150),
        ("N 150 ppm", "N", 150),
        ("N: 150 ppm", "N", 150),
        ("40 mg/L Mg", "Mg", 40),
        ("40 mg / L Mg", "Mg", 40),
        ("40 mg/litre magnesium", "Mg", 40),
        ("100 ppm P2O5", "P2O5", 100),
        ("100 ppm p2o5", "P2O5", 100),
        ("0.1 g/L N", "N", 100),
        ("0,1 g/l N", "N", 100),
        ("1500 ppm N", "N", 1500),
        # Read in an abstract of the ASHS conference 2017 (Paper27115): 14.3 mM N is
        # given as 200 mg/L.
        ("14.3 mM N", "N", 200.3),
        ("14.3 mmol/L N", "N", 200.3),
        ("1 oz/gal N", "N", 7489.15),
    ],
)
def test_targets(typed: str, nutrient: str, mg_per_l: float) -> None:
    wanted = units.parse_target(typed)
    assert wanted.nutrient == nutrient
    assert wanted.strength_mg_per_l == pytest.approx(mg_per_l, rel=1e-5)


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("150", "how much of which nutrient"),
        ("150 ppm", "how much of which nutrient"),
        ("150 N", "has no unit"),
        ("150 ppm X", "how much of which nutrient"),
        ("1,500 ppm N", "could mean 1500 or 1.5"),
        ("-5 ppm N", "more than nothing"),
        ("0 ppm N", "more than nothing"),
        ("nan ppm N", "how much of which nutrient"),
        ("1e9 ppm N", "more than 1 000 000 mg/L"),
        ("5 L N", "is not a strength"),
        ("", "how much of which nutrient"),
        ("N" * 10_000, "too long"),
    ],
)
def test_targets_refused(typed: str, says: str) -> None:
    with pytest.raises(InputError) as refused:
        units.parse_target(typed)
    assert refused.value.field == "target"
    assert says in refused.value.line()


def test_ppm_is_milligrams_per_litre_and_says_so() -> None:
    assert units.parse_target("150 ppm N") == Target("N", 150)
    assert "milligrams per litre" in units.PPM_MEANS


@pytest.mark.parametrize(
    ("typed", "g_per_ml"),
    [
        ("1.2 g/mL", 1.2),
        ("1,2 g/ml", 1.2),
        ("1.234 g/mL", 1.234),
        ("1,234 g/mL", 1.234),
        ("1.2 kg/L", 1.2),
        ("1200 g/L", 1.2),
        ("1.2 g/cm³", 1.2),
        ("10 lb/gal", 1.19826427),
    ],
)
def test_densities(typed: str, g_per_ml: float) -> None:
    assert units.parse_density_g_per_ml(typed) == pytest.approx(g_per_ml)


@pytest.mark.parametrize("typed", ["1.2", "12 g/mL", "0.1 g/mL", "1.2 L", "heavy"])
def test_densities_refused(typed: str) -> None:
    with pytest.raises(InputError) as refused:
        units.parse_density_g_per_ml(typed)
    assert refused.value.field == "density"
    assert "g/mL" in refused.value.line()


def test_the_other_measures() -> None:
    assert units.parse_mass_g("1 oz") == pytest.approx(28.349523125)
    assert units.parse_mass_g("1 lb") == pytest.approx(453.59237)
    assert units.parse_mass_g("500 mg") == pytest.approx(0.5)
    assert units.parse_temperature_c("70 °F") == pytest.approx(21.1111, abs=1e-3)
    assert units.parse_temperature_c("21 C") == pytest.approx(21)
    assert units.parse_temperature_c("-5 °C") == pytest.approx(-5)
    # 1 mS/cm = 1 dS/m = 1000 µS/cm: read in K. Nemali, Purdue HO-286-W, at
    # online.documentine.com/water-conductivity-range.
    for typed in ("1 mS/cm", "1 dS/m", "1000 µS/cm", "1000 uS/cm"):
        assert units.parse_ec_ms_per_cm(typed) == pytest.approx(1)
    assert units.parse_ec_ms_per_cm("0 mS/cm") == 0
    for typed in ("620 uS", "620µS", "0,62 mS"):
        assert units.parse_ec_ms_per_cm(typed) == pytest.approx(0.62)
    with pytest.raises(InputError, match="is not a conductivity"):
        units.parse_ec_ms_per_cm("620 S")


@pytest.mark.parametrize("typed", ["500 mL", "2 fl oz", "1 L", "1 tsp"])
def test_a_volume_in_the_place_of_a_weight_asks_for_the_density(typed: str) -> None:
    with pytest.raises(InputError, match="not a mass") as refused:
        units.parse_mass_g(typed)
    assert "whose density is given" in refused.value.hint


def test_a_tds_reading_is_asked_back() -> None:
    """Five TDS scales are in print; a ppm reading alone cannot be taken."""
    with pytest.raises(InputError, match="not a conductivity") as refused:
        units.parse_ec_ms_per_cm("600 ppm")
    assert "scale" in refused.value.hint


def test_pint_is_not_loaded_before_something_is_read() -> None:
    code = "import sys, growdesk.domain.units; sys.exit('pint' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


def test_whatever_the_library_of_units_raises_is_a_line(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def fail(*_given: object) -> float:
        raise AssertionError  # met by fuzzing, deep in pint

    for registry in (units._own_registry(), units._whole_registry()):
        monkeypatch.setattr(registry.Quantity, "to", fail)
    with pytest.raises(InputError, match="unit that is not known here"):
        units.parse_ec_ms_per_cm("1.5 mS/cm")
