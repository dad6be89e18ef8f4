"""Every line in which typed amounts, labels, salts and doses are refused."""

from __future__ import annotations

import math
from datetime import date
from typing import TYPE_CHECKING

import pytest

from growdesk.domain import sun
from growdesk.domain.analysis import Analysis
from growdesk.domain.analysis import parse_analysis as label
from growdesk.domain.batches import plan_batches
from growdesk.domain.chemistry import as_oxide, counts
from growdesk.domain.conductivity import at_25
from growdesk.domain.dose import dose, elements_from_mass
from growdesk.domain.errors import InputError
from growdesk.domain.salts import parse_salts as salts
from growdesk.domain.servings import Band, Serving
from growdesk.domain.units import Target
from growdesk.domain.units import parse_density_g_per_ml as density
from growdesk.domain.units import parse_ec_ms_per_cm as ec
from growdesk.domain.units import parse_mass_g as mass
from growdesk.domain.units import parse_target as target
from growdesk.domain.units import parse_temperature_c as temperature
from growdesk.domain.units import parse_volume_l as volume

if TYPE_CHECKING:
    from collections.abc import Callable

CASES: list[tuple[Callable[[], object], str]] = [
    (
        lambda: volume(""),
        (
            "volume: '' is empty; a volume is asked for. Write a number and a "
            'unit, for instance "5 L" or "1.5 gal".'
        ),
    ),
    (
        lambda: volume("5"),
        (
            "volume: '5' has no unit. Write a number and a unit, for instance "
            '"5 L" or "1.5 gal".'
        ),
    ),
    (
        lambda: volume("five litres"),
        (
            "volume: 'five litres' is not a volume. Write a number and a unit, "
            'for instance "5 L" or "1.5 gal".'
        ),
    ),
    (
        lambda: volume("5 ML"),
        ('volume: \'5 ML\' could mean millilitres or megalitres. Write "mL" or "L".'),
    ),
    (
        lambda: volume("5 florps"),
        (
            "volume: '5 florps' has a unit that is not known here (florps). "
            'Write for instance "5 L" or "1.5 gal".'
        ),
    ),
    (
        lambda: volume("5 oz"),
        (
            'volume: \'5 oz\' is not a volume. Write for instance "5 L" or "1.5 '
            'gal". An ounce is a weight; the volume is written fl oz.'
        ),
    ),
    (
        lambda: volume("5 g"),
        'volume: \'5 g\' is not a volume. Write for instance "5 L" or "1.5 gal".',
    ),
    (
        lambda: volume("0 L"),
        (
            "volume: '0 L' must be more than nothing. Write for instance \"5 L\" "
            'or "1.5 gal".'
        ),
    ),
    (
        lambda: volume("-1 L"),
        (
            "volume: '-1 L' must be more than nothing. Write for instance \"5 L\""
            ' or "1.5 gal".'
        ),
    ),
    (
        lambda: volume("1e-7 L"),
        (
            "volume: '1e-7 L' is less than 1e-06 L. Write for instance \"5 L\" or"
            ' "1.5 gal".'
        ),
    ),
    (
        lambda: volume("10001 L"),
        (
            "volume: '10001 L' is more than 10 000 L. Write for instance \"5 L\" "
            'or "1.5 gal".'
        ),
    ),
    (
        lambda: volume("1,500 L"),
        (
            'volume: \'1,500 L\' could mean 1500 or 1.5. Write "1500" or "1.5" '
            "with its unit."
        ),
    ),
    (
        lambda: volume("12.250 L"),
        (
            "volume: '12.250 L' could mean 12250 or 12.25. Write \"12250\" or "
            '"12.25" with its unit.'
        ),
    ),
    (
        lambda: volume("1.000 L"),
        (
            'volume: \'1.000 L\' could mean 1000 or 1.0. Write "1000" or "1.0" '
            "with its unit."
        ),
    ),
    (
        lambda: volume("1,5,0 L"),
        (
            "volume: '1,5,0 L' is not a number that can be read. Write plain "
            'digits, for instance "1500" or "1.5".'
        ),
    ),
    (
        lambda: volume("1 23 L"),
        (
            "volume: '1 23 L' is not a number that can be read. Write plain "
            'digits, for instance "1500" or "1.5".'
        ),
    ),
    (
        lambda: volume("1/0 L"),
        "volume: '1/0 L' divides by zero. Write for instance \"1/2 tsp\".",
    ),
    (
        lambda: volume("9" * 61),
        (
            "volume: '9999999999999999999999999999999999999999…' is too long to"
            ' be an amount. Write a number and a unit, for instance "5 L".'
        ),
    ),
    (
        lambda: volume("1e999 L", "jug"),
        "jug: '1e999 L' is far too large. Write fewer digits.",
    ),
    (
        lambda: mass("0 g", "jug A"),
        (
            "jug A: '0 g' must be more than nothing. Write for instance \"12 g\" "
            'or "0.5 oz".'
        ),
    ),
    (
        lambda: mass("5 L"),
        (
            'mass: \'5 L\' is not a mass. Write for instance "12 g" or "0.5 oz". Only '
            "a product whose density is given is measured by volume."
        ),
    ),
    (
        lambda: mass("2000000 g"),
        (
            "mass: '2000000 g' is more than 1 000 000 g. Write for instance \"12"
            ' g" or "0.5 oz".'
        ),
    ),
    (
        lambda: target("150"),
        (
            "target: '150' does not say how much of which nutrient. Write for "
            'instance "150 ppm N", "40 mg/L Mg" or "100 ppm P2O5".'
        ),
    ),
    (
        lambda: target(""),
        (
            "target: '' does not say how much of which nutrient. Write for "
            'instance "150 ppm N", "40 mg/L Mg" or "100 ppm P2O5".'
        ),
    ),
    (
        lambda: target("150 ppm Xx"),
        (
            "target: '150 ppm Xx' does not say how much of which nutrient. "
            'Write for instance "150 ppm N", "40 mg/L Mg" or "100 ppm P2O5".'
        ),
    ),
    (
        lambda: target("150 L N"),
        "target: '150 L' is not a strength. Write for instance \"150 ppm N\".",
    ),
    (
        lambda: target("0 ppm N"),
        (
            "target: '0 ppm' must be more than nothing. Write for instance \"150"
            ' ppm N".'
        ),
    ),
    (
        lambda: target("2000000 ppm N"),
        (
            "target: '2000000 ppm' is more than 1 000 000 mg/L. Write for "
            'instance "150 ppm N".'
        ),
    ),
    (
        lambda: target("1,500 ppm N"),
        (
            'target: \'1,500 ppm\' could mean 1500 or 1.5. Write "1500" or "1.5" '
            "with its unit."
        ),
    ),
    (
        lambda: target("200 mol/L N"),
        (
            "target: '200 mol/L' is more than 100 mol/L. Write for instance \"10"
            ' mmol/L N".'
        ),
    ),
    (
        lambda: ec("500 ppm"),
        (
            "conductivity: '500 ppm' is not a conductivity. Write for instance "
            '"1.2 mS/cm". A ppm reading hides its scale; read the meter in '
            "mS/cm."
        ),
    ),
    (
        lambda: ec("-1 mS/cm"),
        (
            "conductivity: '-1 mS/cm' must be more than nothing. Write for "
            'instance "1.2 mS/cm".'
        ),
    ),
    (
        lambda: ec("201 mS/cm"),
        (
            "conductivity: '201 mS/cm' is more than 200 mS/cm. Write for "
            'instance "1.2 mS/cm".'
        ),
    ),
    (
        lambda: ec("5 L"),
        (
            "conductivity: '5 L' is not a conductivity. Write for instance \"1.2"
            ' mS/cm".'
        ),
    ),
    (
        lambda: temperature("61 °C"),
        (
            "temperature: '61 °C' is more than 60 °C. Write for instance \"21 "
            '°C" or "70 °F".'
        ),
    ),
    (
        lambda: temperature("-41 °C"),
        (
            "temperature: '-41 °C' is less than -40 °C. Write for instance \"21 "
            '°C" or "70 °F".'
        ),
    ),
    (
        lambda: temperature("hot"),
        (
            "temperature: 'hot' is not a temperature. Write a number and a "
            'unit, for instance "21 °C" or "70 °F".'
        ),
    ),
    (
        lambda: temperature("21"),
        (
            "temperature: '21' has no unit. Write a number and a unit, for "
            'instance "21 °C" or "70 °F".'
        ),
    ),
    (
        lambda: density("0.4 g/mL"),
        ("density: '0.4 g/mL' is less than 0.5 g/mL. Write for instance \"1.2 g/mL\"."),
    ),
    (
        lambda: density("3.1 g/mL"),
        ("density: '3.1 g/mL' is more than 3 g/mL. Write for instance \"1.2 g/mL\"."),
    ),
    (
        lambda: density("heavy"),
        (
            "density: 'heavy' is not a density. Write a number and a unit, for "
            'instance "1.2 g/mL".'
        ),
    ),
    (
        lambda: label(""),
        (
            "analysis: '' cannot be read as an analysis. Write it as the label "
            'does, for instance "20-20-20" or "15-5-15 + 7 CaO + 3 MgO".'
        ),
    ),
    (
        lambda: label("x" * 161),
        (
            "analysis: 'xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx…' cannot be "
            "read as an analysis. Write it as the label does, for instance "
            '"20-20-20" or "15-5-15 + 7 CaO + 3 MgO".'
        ),
    ),
    (
        lambda: label("20-20-20-20"),
        (
            "analysis: '20-20-20-20' has a fourth number without a name. Name "
            'it, for instance "15-5-15 + 2 MgO".'
        ),
    ),
    (
        lambda: label("20-20-20 -3 Ca"),
        (
            "analysis: '20-20-20 -3 Ca' has a fourth number without a name. "
            'Name it, for instance "15-5-15 + 2 MgO".'
        ),
    ),
    (
        lambda: label("20-20-20 ?"),
        (
            "analysis: '20-20-20 ?' cannot be read as an analysis. Write it as "
            'the label does, for instance "20-20-20" or "15-5-15 + 7 CaO + 3 '
            'MgO".'
        ),
    ),
    (
        lambda: label("20-20-20 Ca"),
        (
            "analysis: '20-20-20 Ca' cannot be read as an analysis. Write it as"
            ' the label does, for instance "20-20-20" or "15-5-15 + 7 CaO + 3 '
            'MgO".'
        ),
    ),
    (
        lambda: label("20-20-20 Ca Mg"),
        (
            "analysis: '20-20-20 Ca Mg' does not give each name one number. "
            'Write it as the label does, for instance "20-20-20" or "15-5-15 + '
            '7 CaO + 3 MgO".'
        ),
    ),
    (
        lambda: label("20-20-20 1 Xx"),
        (
            "analysis: '20-20-20 1 Xx' names Xx, which is no nutrient known "
            'here. Write it as the label does, for instance "20-20-20" or '
            '"15-5-15 + 7 CaO + 3 MgO".'
        ),
    ),
    (
        lambda: label("te"),
        (
            "analysis: 'te' names no nutrient. Write it as the label does, for "
            'instance "20-20-20" or "15-5-15 + 7 CaO + 3 MgO".'
        ),
    ),
    (
        lambda: label("20-20-20 1 Ca 2 CaO"),
        (
            "analysis: '20-20-20 1 Ca 2 CaO' gives Ca twice: 2 % CaO is 1.43 % Ca, "
            'not 1 %. Write it as the label does, for instance "20-20-20" or '
            '"15-5-15 + 7 CaO + 3 MgO".'
        ),
    ),
    (
        lambda: label("20-20-20 + 3 P"),
        (
            "analysis: '20-20-20 + 3 P' gives P twice: 20 % P2O5 is 8.73 % P, not "
            '3 %. Write it as the label does, for instance "20-20-20" or "15-5-15 + '
            '7 CaO + 3 MgO".'
        ),
    ),
    (
        lambda: label("50-40-20"),
        (
            "analysis: '50-40-20' adds up to 110 %, more than the whole. Write "
            'it as the label does, for instance "20-20-20" or "15-5-15 + 7 CaO '
            '+ 3 MgO".'
        ),
    ),
    (
        lambda: label("0-0-0"),
        (
            "analysis: '0-0-0' holds nothing. Write it as the label does, for "
            'instance "20-20-20" or "15-5-15 + 7 CaO + 3 MgO".'
        ),
    ),
    (
        lambda: label("0-0-150"),
        (
            "analysis: '0-0-150' puts K2O at 150 %, which is not from 0 to 100."
            ' Write it as the label does, for instance "20-20-20" or "15-5-15 +'
            ' 7 CaO + 3 MgO".'
        ),
    ),
    (
        lambda: label("10-5-5 nitrate-N 12"),
        (
            "analysis: '10-5-5 nitrate-N 12' tells 12 % nitrogen in its forms "
            "and only 10 % in all. Write it as the label does, for instance "
            '"20-20-20" or "15-5-15 + 7 CaO + 3 MgO".'
        ),
    ),
    (
        lambda: label("5-5-5 Ca 200"),
        (
            "analysis: '5-5-5 Ca 200' puts Ca at 200 %, which is not from 0 to "
            '100. Write it as the label does, for instance "20-20-20" or '
            '"15-5-15 + 7 CaO + 3 MgO".'
        ),
    ),
    (
        lambda: label("20-20-20", 0.4),
        (
            "density: 0.4 is not a density of a liquid feed in g/mL (0.5 to 3)."
            ' Weigh 100 mL of it and write for instance "1.2 g/mL".'
        ),
    ),
    (
        lambda: label("20-20-20", 3.5, "product"),
        (
            "density: 3.5 is not a density of a liquid feed in g/mL (0.5 to 3)."
            ' Weigh 100 mL of it and write for instance "1.2 g/mL".'
        ),
    ),
    (
        lambda: label("5-5", field="product"),
        (
            "product: '5-5' tells two of the three numbers of a label. Labels print "
            'N, P2O5 and K2O, 0 for none, for instance "13-0-46".'
        ),
    ),
    (
        lambda: Analysis(math.nan, 5, 5),
        (
            "analysis: 'nan-5-5' puts N at nan %, which is not from 0 to 100. "
            'Write it as the label does, for instance "20-20-20" or "15-5-15 + '
            '7 CaO + 3 MgO".'
        ),
    ),
    (
        lambda: Analysis(0, 0, 0),
        (
            "analysis: '0-0-0' holds nothing. Write it as the label does, for "
            'instance "20-20-20" or "15-5-15 + 7 CaO + 3 MgO".'
        ),
    ),
    (
        lambda: Analysis(50, 40, 20),
        (
            "analysis: '50-40-20' adds up to 110 %, more than the whole. Write it "
            'as the label does, for instance "20-20-20" or "15-5-15 + 7 CaO + 3 MgO".'
        ),
    ),
    (
        lambda: Analysis(-1, 5, 5),
        (
            "analysis: '-1-5-5' puts N at -1 %, which is not from 0 to 100. "
            'Write it as the label does, for instance "20-20-20" or "15-5-15 + '
            '7 CaO + 3 MgO".'
        ),
    ),
    (
        lambda: Analysis(5, 5, 5, (("calcium", 2),)),
        (
            "analysis: '5-5-5 + 2 calcium' names calcium, which is no nutrient "
            'known here. Write it as the label does, for instance "20-20-20" or'
            ' "15-5-15 + 7 CaO + 3 MgO".'
        ),
    ),
    (
        lambda: Analysis(5, 5, 5, (("Ca", 2), ("CaO", 3))),
        (
            "analysis: '5-5-5 + 2 Ca + 3 CaO' gives Ca twice. Write it as the "
            'label does, for instance "20-20-20" or "15-5-15 + 7 CaO + 3 MgO".'
        ),
    ),
    (
        lambda: Analysis(5, 5, 5, nitrate_n_percent=3, urea_n_percent=2.2),
        (
            "analysis: '5-5-5' tells 5.2 % nitrogen in its forms and only 5 % "
            'in all. Write it as the label does, for instance "20-20-20" or '
            '"15-5-15 + 7 CaO + 3 MgO".'
        ),
    ),
    (
        lambda: Analysis(5, 5, 5, density_g_per_ml=0.49),
        (
            "density: 0.49 is not a density of a liquid feed in g/mL (0.5 to "
            '3). Weigh 100 mL of it and write for instance "1.2 g/mL".'
        ),
    ),
    (
        lambda: counts("K2."),
        (
            "formula: 'K2.' is not a formula that can be read. Write it as in "
            "KNO3 or Ca(NO3)2.4H2O."
        ),
    ),
    (
        lambda: counts("Xx", "salt"),
        (
            "salt: 'Xx' names Xx, which is no element known here. Elements are "
            "written as in K, Ca, NO3."
        ),
    ),
    (
        lambda: counts("K" * 61),
        (
            "formula: "
            "'KKKKKKKKKKKKKKKKKKKKKKKKKKKKKKKKKKKKKKKKKKKKKKKKKKKKKKKKKKKK' is "
            "not a formula that can be read. Write it as in KNO3 or "
            "Ca(NO3)2.4H2O."
        ),
    ),
    (lambda: as_oxide("P", 1, "K2O"), "oxide: 'K2O' does not hold P."),
    (
        lambda: at_25(1.0, -0.1),
        (
            "temperature_c: -0.1 is not a temperature of a solution. Write a "
            "number from 0 to 60."
        ),
    ),
    (
        lambda: at_25(1.0, 60.1),
        (
            "temperature_c: 60.1 is not a temperature of a solution. Write a "
            "number from 0 to 60."
        ),
    ),
    (
        lambda: sun.sun(91, date(2026, 5, 20)),
        (
            "latitude: 91 is no latitude. A latitude lies between -90 (south) "
            "and 90 (north)."
        ),
    ),
    (
        lambda: sun.dli_mol_per_m2(math.nan, 12),
        "ppfd: nan is no light in µmol m-2 s-1.",
    ),
    (lambda: sun.dli_mol_per_m2(-1, 12), "ppfd: -1 is no light in µmol m-2 s-1."),
    (
        lambda: sun.dli_mol_per_m2(10, 24.1),
        "hours: 24.1 is no number of hours in a day.",
    ),
    (lambda: sun.dli_mol_per_m2(10, -1), "hours: -1 is no number of hours in a day."),
    (
        lambda: salts([]),
        (
            'salts: a list is not a table of salts. Write {"temperature_c": 25,'
            ' "salts_g_per_l": {"KNO3": 0.5}}.'
        ),
    ),
    (
        lambda: salts({"salts": 1}),
        (
            "salts: 1 is under a key that is not known here. Known are "
            "water_ec_ms_per_cm, temperature_c, salts_g_per_l, water."
        ),
    ),
    (
        lambda: salts({}),
        (
            "salts_g_per_l: null is not a table of grams per litre. Write "
            '{"temperature_c": 25, "salts_g_per_l": {"KNO3": 0.5}}.'
        ),
    ),
    (
        lambda: salts({"salts_g_per_l": [1]}),
        (
            "salts_g_per_l: a list is not a table of grams per litre. Write "
            '{"temperature_c": 25, "salts_g_per_l": {"KNO3": 0.5}}.'
        ),
    ),
    (
        lambda: salts({"salts_g_per_l": {"KNO3": 1, "kno3": 2}}),
        "salts_g_per_l: 'KNO3' is named twice. Add the two up.",
    ),
    (
        lambda: salts({"salts_g_per_l": {"KNO3": "1"}}),
        "KNO3: '1' is not a number. Write a number from 0 to 500.",
    ),
    (
        lambda: salts({"salts_g_per_l": {"KNO3": True}}),
        "KNO3: true is not a number. Write a number from 0 to 500.",
    ),
    (
        lambda: salts({"salts_g_per_l": {"KNO3": -1}}),
        "KNO3: -1 is outside what is taken here. Write a number from 0 to 500.",
    ),
    (
        lambda: salts({"salts_g_per_l": {"KNO3": 501}}),
        "KNO3: 501 is outside what is taken here. Write a number from 0 to 500.",
    ),
    (
        lambda: salts({"salts_g_per_l": {"KNO3": 10**20}}),
        (
            "KNO3: 'a huge number' is outside what is taken here. Write a "
            "number from 0 to 500."
        ),
    ),
    (
        lambda: salts({"salts_g_per_l": {"KNO3": "x" * 61}}),
        (
            "KNO3: 'xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx…' is not a number."
            " Write a number from 0 to 500."
        ),
    ),
    (
        lambda: salts({"salts_g_per_l": {}, "temperature_c": 61}),
        (
            "temperature_c: 61 is outside what is taken here. Write a number "
            "from 0 to 60."
        ),
    ),
    (
        lambda: salts({"salts_g_per_l": {}, "water_ec_ms_per_cm": 21}),
        (
            "water_ec_ms_per_cm: 21 is outside what is taken here. Write a "
            "number from 0 to 20."
        ),
    ),
    (
        lambda: Band(-1, 0.1),
        (
            "band: '-1 to 0.1' is not a band around a strength. Give a share "
            "from -0.99 to 0 and one from 0 to 1."
        ),
    ),
    (
        lambda: Band(0.1, 0.1),
        (
            "band: '0.1 to 0.1' is not a band around a strength. Give a share "
            "from -0.99 to 0 and one from 0 to 1."
        ),
    ),
    (
        lambda: Band(-0.2, 1.1),
        (
            "band: '-0.2 to 1.1' is not a band around a strength. Give a share "
            "from -0.99 to 0 and one from 0 to 1."
        ),
    ),
    (
        lambda: elements_from_mass(label("20-20-20"), -1, 5),
        "mass: -1 is not a mass. Give it in grams, from 0.",
    ),
    (
        lambda: elements_from_mass(label("20-20-20"), 1, 0),
        (
            "volume: 0 is not a volume of solution in litres. Give more than 0 "
            "and at most 10 000 L."
        ),
    ),
    (
        lambda: elements_from_mass(label("20-20-20"), 1, 10001),
        (
            "volume: 10001 is not a volume of solution in litres. Give more "
            "than 0 and at most 10 000 L."
        ),
    ),
    (
        lambda: sun.sun(-90.5, date(2026, 5, 20)),
        (
            "latitude: -90.5 is no latitude. A latitude lies between -90 "
            "(south) and 90 (north)."
        ),
    ),
    (
        lambda: dose(label("20-20-20"), Target("Mg", 100), 5),
        ("target: 'Mg' is asked for, and 20-20-20 holds none of it. It holds N, P, K."),
    ),
    (
        lambda: dose(label("20-20-20"), Target("NO3", 100), 5),
        (
            "target: 'NO3' is asked for, and 20-20-20 does not tell that form "
            'of N. Add it to the analysis, for instance "nitrate-N 11.8", or '
            "ask for N."
        ),
    ),
    (
        lambda: dose(label("0-20-20"), Target("NO3", 100), 5),
        "target: 'NO3' is asked for, and 0-20-20 holds none of it. It holds P, K.",
    ),
    (
        lambda: dose(label("20-20-20"), Target("N", 0), 5),
        (
            "target: 0 is not a strength in mg per litre. Write for instance "
            '"150 ppm N".'
        ),
    ),
    (
        lambda: dose(label("20-20-20"), Target("N", 1_000_001), 5, "jug A"),
        (
            "jug A: 1000001 is not a strength in mg per litre. Write for "
            'instance "150 ppm N".'
        ),
    ),
    (
        lambda: dose(label("20-20-20"), Target("N", 100), math.inf),
        (
            "volume: inf is not a volume of solution in litres. Give more than "
            "0 and at most 10 000 L."
        ),
    ),
    (
        lambda: Serving("A1", 0, 400, 1),
        (
            "plant A1, strength_ppm_n: 0 is not a strength in ppm N. Correct "
            "it, or give the plant clear water."
        ),
    ),
    (
        lambda: Serving("A1", 100, 10_001, 1),
        (
            "plant A1, ceiling_ppm_n: 10001 is not a strength in ppm N. Correct"
            " it, or give the plant clear water."
        ),
    ),
    (
        lambda: Serving("A1", 100, 0.9, 1),
        (
            "plant A1, ceiling_ppm_n: 0.9 is below 1 ppm N, the weakest jug "
            "there is. Correct it, or give the plant clear water."
        ),
    ),
    (
        lambda: Serving("A1", 100, 400, -1),
        (
            "plant A1, volume_l: -1 is not a volume in litres. Correct it, or "
            "give the plant clear water."
        ),
    ),
    (
        lambda: Serving("A1", 100, 400, 10_001),
        (
            "plant A1, volume_l: 10001 is not a volume in litres. Correct it, "
            "or give the plant clear water."
        ),
    ),
    (lambda: plan_batches([], jugs=0), "jugs: 0 is too few. One jug is the least."),
]


@pytest.mark.parametrize(("ask", "line"), CASES, ids=[line[:60] for _, line in CASES])
def test_what_is_typed_is_refused_in_these_words(
    ask: Callable[[], object], line: str
) -> None:
    with pytest.raises(InputError) as refused:
        ask()
    assert refused.value.line() == line
