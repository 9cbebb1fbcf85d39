"""Made-up price lists and wishes for Hypothesis: rows that are never saved, so that no database is asked."""

from datetime import date

from hypothesis import strategies as st

from bookings.orders.wishes import MOST_PLATES, MOST_SITTERS, Wish
from bookings.pricing.models import Discount, Extra, SizePrice, Surcharge, TaxClass, Terms
from bookings.pricing.selectors import PriceBook
from plates.bench.models import PlateSize
from tests.bookings.money.invoice_strategies import KINDS

SINCE = date(2026, 1, 1)
CLASSES = [
    TaxClass(pk=place, name=str(kind), category=kind[0], rate_bp=kind[1])
    for place, kind in enumerate(KINDS, start=1)
]
SIZES = [PlateSize(pk=place, name=name) for place, name in enumerate(("sixth", "quarter", "half"), start=1)]

amounts = st.integers(1, 500_000)
classes = st.sampled_from(CLASSES)


def priced(size):
    further = st.none() | amounts
    kinds = {"amount": amounts, "further_amount": further, "tax_class": classes}
    return st.builds(SizePrice, size=st.just(size), holds_from=st.just(SINCE), **kinds)


def surcharge(kind):
    facts = {"amount": st.integers(0, 50_000), "tax_class": classes}
    return st.builds(Surcharge, kind=st.just(kind), holds_from=st.just(SINCE), **facts)


books = st.builds(
    PriceBook,
    sizes=st.tuples(*(priced(size) for size in SIZES)),
    surcharges=st.tuples(surcharge("sitter"), surcharge("travel")) | st.just(()),
)
extras = st.builds(Extra, name=st.just("case"), amount=st.integers(0, 50_000), tax_class=classes)


def numbered(found):
    """Rows tell themselves apart by their ids."""
    for place, (extra, _) in enumerate(found, start=1):
        extra.pk = place
    return dict(found)


wishes = st.builds(
    Wish,
    sizes=st.lists(st.sampled_from(SIZES), min_size=1, max_size=MOST_PLATES),
    extras=st.lists(st.tuples(extras, st.integers(1, 6)), max_size=3).map(numbered),
    sitters=st.integers(1, MOST_SITTERS),
)
discounts = st.none() | st.one_of(
    st.builds(Discount, pk=st.just(1), text=st.just("off"), share_bp=st.integers(1, 10_000)),
    st.builds(Discount, pk=st.just(1), text=st.just("off"), amount=st.integers(1, 1_000_000)),
)
terms = st.one_of(
    st.builds(Terms, deposit_share_bp=st.integers(0, 10_000)),
    st.builds(Terms, deposit_fixed=st.integers(0, 1_000_000)),
)
