"""Cautions of trade-facts s.9, each with how sure it is there."""

import pytest

from plates.chemistry.hazards.cautions import CAUTIONS, Caution, cautions_for
from plates.chemistry.hazards.substances import SUBSTANCES
from plates.chemistry.values import ChemistryValueError

ALWAYS = ["always"]


def keys(*present):
    return [each.key for each in cautions_for(present)]


@pytest.mark.parametrize(
    ("present", "wanted"),
    [
        ((), []),
        (("potassium_cyanide",), ["cyanide", "waste"]),
        (("potassium_cyanide", "iron_sulfate"), ["cyanide_acid", "cyanide", "waste"]),
        (("potassium_cyanide", "acetic_acid"), ["cyanide_acid", "cyanide", "acid", "waste"]),
        (("ether",), ["ether", "flame"]),
        (("ethanol", "nitric_acid"), ["flame", "acid", "nitric_spirit"]),
        (("silver_nitrate",), ["silver", "waste"]),
        (("silver_nitrate", "ammonia"), ["silver", "silver_ammonia", "waste"]),
        (("sodium_thiosulfate",), ["waste"]),
        (("sodium_thiosulfate", "acetic_acid"), ["acid", "hypo_acid", "waste"]),
        (("cadmium_iodide",), ["cadmium", "waste"]),
        (("ammonium_bromide",), ["ammonium_bromide"]),
        (("nitrocellulose",), ["flame", "guncotton"]),
    ],
    ids=lambda value: "+".join(value) if isinstance(value, tuple) else "",
)
def test_what_is_at_hand_decides_the_cautions(present, wanted):
    assert keys(*present) == wanted + ALWAYS


def test_cyanide_by_the_iron_developer_comes_first_and_names_the_gas():
    first = cautions_for(["iron_sulfate", "potassium_cyanide", "ether"])[0]

    assert "hydrogen cyanide, which kills" in first.sentence
    assert first.confidence == "A"


def test_every_caution_can_be_shown_for_something_that_is_known():
    known = {*SUBSTANCES, "ammonia"}

    assert [each.key for each in CAUTIONS if not all(group & known == group for group in each.groups)] == []


def test_a_caution_is_a_sentence():
    with pytest.raises(ChemistryValueError, match=r"The caution fire must be a sentence."):
        Caution("fire", "no fire", "D")
