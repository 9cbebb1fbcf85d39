import pytest

from plates.chemistry.hazards.cyanide import FORBIDDEN, Cyanide, CyanideRefused, names_cyanide, refuse_cyanide

MIXED = ["silver_nitrate", "potassium_cyanide"]


def test_cyanide_is_refused_unless_somebody_has_switched_it_on():
    with pytest.raises(CyanideRefused, match=r"Cyanide is switched off: .* Fix with sodium thiosulfate"):
        refuse_cyanide(MIXED, FORBIDDEN)


def test_nobody_has_to_say_anything_for_it_to_be_off():
    assert Cyanide() == FORBIDDEN == Cyanide(switched_on=False, away=False)


def test_it_is_refused_away_from_the_studio_even_when_switched_on():
    with pytest.raises(
        CyanideRefused, match=r"never worked with away from the studio: fix with sodium thiosulfate"
    ):
        refuse_cyanide(MIXED, Cyanide(switched_on=True, away=True))


@pytest.mark.parametrize("word", ["yes", "True", 1], ids=repr)
def test_only_true_switches_it_on(word):
    with pytest.raises(CyanideRefused):
        refuse_cyanide(MIXED, Cyanide(switched_on=word))


def test_switched_on_it_is_let_through():
    assert refuse_cyanide(MIXED, Cyanide(switched_on=True)) is None


def test_what_is_no_cyanide_is_never_refused():
    assert refuse_cyanide(["silver_nitrate", "sodium_thiosulfate"], Cyanide(away=True)) is None


@pytest.mark.parametrize(
    ("name", "is_one"),
    [
        ("Potassium cyanide", True),
        ("KCN, 10 per cent", True),
        ("cyanid of potassium", True),
        ("potassium ferricyanide", False),
        ("ammonium thiocyanate", False),
        ("hypo", False),
    ],
    ids=str,
)
def test_cyanide_is_known_by_its_name_too(name, is_one):
    assert names_cyanide(name) is is_one
