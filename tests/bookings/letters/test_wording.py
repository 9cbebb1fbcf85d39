"""Filling letters in: one pass over a closed list, and nothing else. No outside standard; each expectation by hand."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bookings.letters.wording import Block, blocks, fill, missing, unknown

VALUES = {"client": "Ines", "day": "Saturday", "link": "https://rooms.example.org/x/", "door": ""}


@pytest.mark.parametrize(
    ("text", "filled"),
    [
        ("Dear {client}, see you on {day}.", "Dear Ines, see you on Saturday."),
        ("{client}{client}", "InesInes"),
        ("The door: {door}\nCome in.", "Come in."),
        ("{client} and {door}", "Ines and "),
        ("{client.__class__} {0} {} {client!r}", "{client.__class__} {0} {} {client!r}"),
        ("%(client)s {{client}} {% now %} ${client}", "%(client)s {Ines} {% now %} $Ines"),
        ("no names", "no names"),
    ],
    ids=[
        "names",
        "twice",
        "empty line left out",
        "empty beside another",
        "no looking in",
        "no engine",
        "none",
    ],
)
def test_names_are_replaced_and_nothing_else_is_done(text, filled):
    assert fill(text, VALUES) == filled


def test_what_a_value_holds_is_not_filled_in_again():
    assert fill("Dear {client}", VALUES | {"client": "{link} {day}"}) == "Dear {link} {day}"


@settings(max_examples=20)
@given(st.text(), st.dictionaries(st.sampled_from(["client", "day"]), st.text()))
def test_any_text_and_any_value_can_be_filled_in(text, values):
    fill(text, values)

    assert unknown(text, values) == [name for name in unknown(text, ()) if name not in values]


def test_names_that_are_not_known_are_told_once_each():
    assert unknown("{colour} {client} {colour} {}", VALUES) == ["colour", ""]


def test_names_that_have_to_stay_are_missed():
    assert missing("On {day}", ["link", "day"]) == ["link"]


def test_paragraphs_lists_and_the_link_become_blocks():
    text = "Come.\nRing twice.\n\n- one\n- https://rooms.example.org/x/\nBye"

    assert blocks(text, VALUES["link"]) == [
        Block((((("Come.", False)),), (("Ring twice.", False),)), is_list=False),
        Block(((("one", False),), ((VALUES["link"], True),)), is_list=True),
        Block(((("Bye", False),),), is_list=False),
    ]


def test_only_the_letter_s_own_link_is_one():
    [block] = blocks("https://elsewhere.example.org/ and https://rooms.example.org/x/.", VALUES["link"])

    assert block.lines == (
        (("https://elsewhere.example.org/ and ", False), (VALUES["link"], True), (".", False)),
    )
