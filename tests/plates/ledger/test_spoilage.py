"""Why plates were given up, drawn. The numbers of the examples are counted by hand."""

from hypothesis import given
from hypothesis import strategies as st

from plates.ledger import spoilage


def test_the_most_frequent_reason_is_on_top_and_as_long_as_the_picture_is_wide():
    drawn = spoilage.lay_out({"Fogged": 2, "Moved": 4, "Lifted": 1, "Dried": 0}, poured=50)

    assert [(bar.reason, bar.count, bar.share, bar.width) for bar in drawn.bars] == [
        ("Moved", 4, "8 %", drawn.width),
        ("Fogged", 2, "4 %", drawn.width // 2),
        ("Lifted", 1, "2 %", drawn.width // 4),
    ]
    assert drawn.summary == "7 of 50 plates were given up: 14 %."


def test_it_says_so_when_nothing_was_given_up_or_nothing_poured():
    assert spoilage.lay_out({}, poured=3).summary == "None of 3 plates was given up."
    assert spoilage.lay_out({"Fogged": 1}, poured=1).summary == "1 of the one plate was given up: 100 %."
    assert spoilage.lay_out({}, poured=0).summary == "No plate was poured."


def test_something_is_never_nothing_in_a_hundred():
    assert spoilage.share(1, 1000) == "under 1 %"
    assert spoilage.share(0, 1000) == "0 %"


@given(st.dictionaries(st.text(max_size=5), st.integers(0, 10_000), max_size=9), st.integers(0, 10_000))
def test_no_bar_leaves_the_picture_or_touches_another(given_up, fine):
    drawn = spoilage.lay_out(given_up, poured=sum(given_up.values()) + fine)

    lows = [0, *(bar.y + bar.height for bar in drawn.bars)]
    assert all(low < bar.words_y < bar.y for low, bar in zip(lows, drawn.bars, strict=False))
    assert all(1 <= bar.width <= drawn.width for bar in drawn.bars)
    assert lows[-1] <= drawn.height
    assert sum(bar.count for bar in drawn.bars) == sum(given_up.values())
