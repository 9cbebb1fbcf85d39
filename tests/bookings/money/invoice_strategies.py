"""Made-up lines for Hypothesis: every category, several rates, credits, prices of 0."""

from hypothesis import strategies as st

from bookings.money import PricedLine

KINDS = (("S", 2300), ("S", 1900), ("S", 600), ("S", 550), ("S", 1), ("Z", 0), ("E", 0))


def priced_line(quantity, unit_gross, kind):
    return PricedLine("plate", quantity, unit_gross, *kind)


def lines(quantities):
    return st.lists(
        st.builds(priced_line, quantities, st.integers(0, 500_000), st.sampled_from(KINDS)),
        min_size=1,
        max_size=12,
    )


sold_lines = lines(st.integers(1, 40))
mixed_lines = lines(st.integers(-40, 40).filter(bool))
