"""Which numbers of a series are there, and which are not."""

from collections.abc import Iterable


def missing(numbers: Iterable[int], last: int) -> tuple[tuple[int, int], ...]:
    """Return the numbers from 1 to `last` that are not among `numbers`, each run as its first and its last one."""
    runs: list[tuple[int, int]] = []
    expected = 1
    for number in [*sorted({number for number in numbers if 1 <= number <= last}), last + 1]:
        if number > expected:
            runs.append((expected, number - 1))
        expected = number + 1
    return tuple(runs)
