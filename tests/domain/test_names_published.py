"""Names are read and set as published examples of the conventions set them.

Sources, each read in part:
N  "Orchid names explained", after the RHS handbook on orchid nomenclature
   (orchid-talk.co.uk/docs/orchid_names.html).
I  Intergeneric hybrids, American Orchid Society (aos.org).
L  Orchid names, library guide of the New York Botanical Garden.
H  ICNCP guidelines for orchid hybrids 2017, after the code's 9th edition (2016).
G  "Grex (horticulture)", encyclopedia article, after ICNCP article 4.
Q  Labels explained, questions and answers of a garden forum (faq.gardenweb.com).
R  Orchid names and naming, a nursery's page (rv-orchidworks.com).
D  The term cultivarEpithet of Darwin Core (rs.tdwg.org), after the code.
C  Rules of nomenclature, Cymbidium Society of America (cymbidium.org).
B  ICN, recommendation H.3A: the sign stands by its name, with no space or one.
"""

import pytest

from growdesk.domain.plant_name import Award
from tests.domain.name_builders import read, set_as

LABEL = (
    "Paph. Hsinying Macasar ‘Divinity’ "
    "(Macabre ‘HOF’ HCC/AOS X Paph. Pulsar ‘Fang Pacific’)"
)
SET_LABEL = (
    "_Paph._ Hsinying Macasar ‘Divinity’ "
    "(Macabre ‘HOF’ HCC/AOS × _Paph._ Pulsar ‘Fang Pacific’)"
)


@pytest.mark.parametrize(
    ("typed", "wanted"),
    [
        ("Pleione forrestii 'Buttercup'", "_Pleione forrestii_ ‘Buttercup’"),  # N
        ("Pleione Fujiyama 'Teal'", "_Pleione_ Fujiyama ‘Teal’"),  # N
        (  # N
            "Pleione Fujiyama 'Teal' (P. El Pico x P. Shantung)",
            "_Pleione_ Fujiyama ‘Teal’ (_P._ El Pico × _P._ Shantung)",
        ),
        (  # N
            "Pleione Fujiyama = P. El Pico x P. Shantung",
            "_Pleione_ Fujiyama = _P._ El Pico × _P._ Shantung",
        ),
        ("Masdevallia x measuresiana", "_Masdevallia_ ×_measuresiana_"),  # B
        ("Masdevallia × measuresiana", "_Masdevallia_ ×_measuresiana_"),  # B
        ("×Brassocattleya", "×_Brassocattleya_"),  # G
        ("Brassocattleya × arauji", "_Brassocattleya_ ×_arauji_"),  # G
        ("C. X hardyana", "_C._ ×_hardyana_"),  # Q
        ("Lycamerlycaste Hera gx", "_Lycamerlycaste_ Hera gx"),  # G
        (  # I
            "Vandachostylis Prapawan 'Tanzanite' AM/AOS",
            "_Vandachostylis_ Prapawan ‘Tanzanite’ AM/AOS",
        ),
        (  # L
            "Dendrobium bigibbum var. compactum",
            "_Dendrobium bigibbum_ var. _compactum_",
        ),
        ("Cattleya intermedia var. alba", "_Cattleya intermedia_ var. _alba_"),  # Q
        (  # Q
            "Cattleya loddigesii var. coerulea 'Blue Sky'",
            "_Cattleya loddigesii_ var. _coerulea_ ‘Blue Sky’",
        ),
        (  # Q
            "Blc. Memoria Crispin Rosales 'No 2' AM/AOS",
            "_Blc._ Memoria Crispin Rosales ‘No 2’ AM/AOS",
        ),
        (LABEL, SET_LABEL),  # R
        ("Paphiopedilum Atlantis grex", "_Paphiopedilum_ Atlantis grex"),  # D
        ("Disa Penelope D. Krige", "_Disa_ Penelope D. Krige"),  # H
        ("Phal. 100th Battalion", "_Phal._ 100th Battalion"),  # H, the grex
        ("Phal. Super 5", "_Phal._ Super 5"),  # H, the grex
        ("Phal. H.P. Norton", "_Phal._ H.P. Norton"),  # H, the grex
        ("Phal. T. Rex", "_Phal._ T. Rex"),  # H, the grex
        ("Phal. Lignum Vitae", "_Phal._ Lignum Vitae"),  # H, the grex
    ],
)
def test_a_published_name(typed: str, wanted: str) -> None:
    assert set_as(typed) == wanted


def test_the_complete_example() -> None:
    """Genus, grex, 'Clone', award and society, in this order (I)."""
    name = read("Vandachostylis Prapawan 'Tanzanite' AM/AOS")
    assert (name.genus, name.is_nothogenus) == ("Vandachostylis", True)
    assert (name.species, name.grex, name.clone) == ("", "Prapawan", "Tanzanite")
    assert name.awards == (Award("AM", "AOS"),)
    assert not name.doubts


def test_the_pod_parent_stands_first() -> None:
    """The name of the parent bearing the pod precedes the pollen parent's (C)."""
    name = read("Pleione Fujiyama = P. El Pico x P. Shantung")
    assert name.pod
    assert name.pollen
    assert (name.pod.genus, name.pod.grex) == ("Pleione", "El Pico")
    assert (name.pollen.genus, name.pollen.grex) == ("Pleione", "Shantung")


def test_parents_carry_clone_and_award() -> None:
    """A label's parents are named with clone and award (R)."""
    name = read(LABEL)
    assert name.pod
    assert name.pollen
    assert (name.pod.grex, name.pod.clone) == ("Macabre", "HOF")
    assert name.pod.awards == (Award("HCC", "AOS"),)
    assert name.pod.genus == name.pollen.genus == "Paphiopedilum"
    assert (name.pollen.grex, name.pollen.clone) == ("Pulsar", "Fang Pacific")
    assert not name.awards


def test_a_natural_hybrid_is_no_cross() -> None:
    """C. X hardyana is a natural hybrid, named as a species is (Q, G)."""
    name = read("C. X hardyana")
    assert name.is_natural_hybrid
    assert (name.genus, name.species) == ("Cattleya", "hardyana")
    assert name.pod is None
