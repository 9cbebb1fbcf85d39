"""The numbers of a year, proved from the rows themselves: which are there, which are not."""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from django.utils.translation import gettext as _

from bookings.common.formats import major
from bookings.invoices.models import DocumentKind, Invoice, InvoiceSeries
from bookings.money import Money, missing

Runs = tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class RateSum:
    """What the papers of one currency and tax rate come to, in minor units, credit notes taken off."""

    currency: str
    category: str
    rate_bp: int
    taxable: Money
    tax: Money


@dataclass(frozen=True, slots=True)
class SeriesOfYear:
    """One series of the year. `last` is the highest number that a row or the counter knows."""

    series: InvoiceSeries
    papers: list[Invoice]
    last: int
    missing: Runs
    dated_back: list[Invoice]
    sums: list[RateSum]

    @property
    def credit_notes(self) -> int:
        return sum(paper.kind == DocumentKind.CREDIT_NOTE for paper in self.papers)

    @property
    def miscounted(self) -> bool:
        """Whether the counter stands at another number than the last paper."""
        return self.series.last != (self.papers[-1].number if self.papers else 0)

    @property
    def without_a_gap(self) -> bool:
        return not self.missing and not self.miscounted

    @property
    def missing_words(self) -> str:
        return ", ".join(run_words(run) for run in self.missing)


def numbers_of(*, year: int) -> list[SeriesOfYear]:
    """Every series of a year with its papers in number order; two queries for any number of them."""
    papers: dict[int, list[Invoice]] = defaultdict(list)
    found = Invoice.objects.filter(series__year=year).select_related("series").order_by("number")
    for paper in found:
        papers[paper.series_id].append(paper)
    series = InvoiceSeries.objects.filter(year=year).order_by("prefix")
    return [_series(each, papers[each.pk]) for each in series]


def years() -> list[int]:
    """The years that have a series, newest first."""
    return list(InvoiceSeries.objects.order_by("-year").values_list("year", flat=True).distinct())


def sums(papers: Sequence[Invoice]) -> list[RateSum]:
    """What these papers come to by currency and tax rate, credit notes taken off."""
    found: dict[tuple[str, str, int], list[Money]] = defaultdict(lambda: [0, 0])
    for paper in papers:
        sign = sign_of(paper)
        for group in paper.breakdown:
            both = found[paper.currency, group["category"], group["rate_bp"]]
            both[0] += sign * group["taxable"]
            both[1] += sign * group["tax"]
    return [RateSum(*key, *both) for key, both in sorted(found.items())]


def table(*, year: int) -> Iterator[list[object]]:
    """Every number of a year as a row, also those that are missing."""
    yield ["Series", "Number", "Paper", "Kind", "Issued on", "Total with tax", "Rounding", "Currency"]
    for each in numbers_of(year=year):
        rows: list[tuple[int, list[object]]] = [(paper.number, _row(paper)) for paper in each.papers]
        rows += [(run[0], [str(each.series), run_words(run), "MISSING"]) for run in each.missing]
        yield from (row for _, row in sorted(rows, key=lambda pair: pair[0]))


def sign_of(paper: Invoice) -> int:
    """-1 for a credit note, whose sums are written positive and take away."""
    return -1 if paper.kind == DocumentKind.CREDIT_NOTE else 1


def run_words(run: tuple[int, int]) -> str:
    """A run of numbers in words: 3, or 3 to 5."""
    first, last = run
    return str(first) if first == last else _("{first} to {last}").format(first=first, last=last)


def _series(series: InvoiceSeries, papers: list[Invoice]) -> SeriesOfYear:
    last = max([series.last, *(paper.number for paper in papers)])
    return SeriesOfYear(
        series=series,
        papers=papers,
        last=last,
        missing=missing((paper.number for paper in papers), last),
        dated_back=[paper for before, paper in pairwise(papers) if paper.issued_on < before.issued_on],
        sums=sums(papers),
    )


def _row(paper: Invoice) -> list[object]:
    sign = sign_of(paper)
    return [
        str(paper.series),
        paper.number,
        paper.label,
        paper.get_kind_display(),
        paper.issued_on,
        major(sign * paper.total, paper.currency),
        major(sign * paper.rounding, paper.currency),
        paper.currency,
    ]
