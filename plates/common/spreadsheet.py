"""Rows as a file that spreadsheets open: comma-separated by RFC 4180, in UTF-8, and no cell is taken for a formula."""

import csv
from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal

# What a spreadsheet takes for the beginning of a formula, full-width forms included (OWASP, CSV injection).
FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n", "\uff1d", "\uff0b", "\uff0d", "\uff20")


class _Line:
    """A file that hands each line back instead of keeping it."""

    def write(self, text: str) -> str:
        return text


def lines(rows: Iterable[Sequence[object]]) -> Iterator[bytes]:
    """Each row as one line of bytes; None is an empty cell, and a number stays one, below zero too."""
    writer = csv.writer(_Line())  # its own manner: commas, quotes doubled, CRLF at the end of each line
    for row in rows:
        line: str = writer.writerow([_written(cell) for cell in row])
        yield line.encode()


def _written(cell: object) -> str:
    if cell is None:
        return ""
    return (
        f"{cell:f}" if isinstance(cell, Decimal) else str(cell) if isinstance(cell, int) else plain(str(cell))
    )


def plain(cell: str) -> str:
    """The cell with an apostrophe before it if it would otherwise be worked out."""
    return f"'{cell}" if cell.startswith(FORMULA) else cell
