"""Why plates were given up, as a picture. Pure layout: numbers become lengths, nothing is looked up."""

from collections.abc import Mapping
from dataclasses import dataclass

WIDTH = 264  # fits beside the margins of a telephone without being made smaller
LINE = 18
BAR = 14
STEP = 44


@dataclass(frozen=True, slots=True)
class ReasonBar:
    """One reason: how often, in words how much of all that is, and where its words and its bar lie."""

    reason: str
    count: int
    share: str
    words_y: int
    y: int
    width: int
    height: int = BAR


@dataclass(frozen=True, slots=True)
class Spoilage:
    """All of it; `bars` have the most frequent reason on top, which is as long as the picture is wide."""

    width: int
    height: int
    bars: tuple[ReasonBar, ...]
    summary: str


def lay_out(given_up: Mapping[str, int], *, poured: int) -> Spoilage:
    """Draw how many of `poured` plates were given up for each reason, which is named as it is to be shown."""
    found = sorted(((-count, reason) for reason, count in given_up.items() if count > 0))
    most = max((-count for count, _ in found), default=1)
    bars = tuple(
        _bar(place, reason, -count, most=most, poured=poured) for place, (count, reason) in enumerate(found)
    )
    spoilt = sum(bar.count for bar in bars)
    return Spoilage(WIDTH, STEP * len(bars), bars, _summary(spoilt, poured))


def _bar(place: int, reason: str, count: int, *, most: int, poured: int) -> ReasonBar:
    top = STEP * place
    return ReasonBar(
        reason=reason,
        count=count,
        share=share(count, poured),
        words_y=top + LINE - 4,
        y=top + LINE + 2,
        width=max(1, round(WIDTH * count / most)),
    )


def share(count: int, whole: int) -> str:
    """How much of the whole, for example 8 %; never 0 % for something."""
    hundredths = round(100 * count / whole) if whole else 0
    return "under 1 %" if count and hundredths < 1 else f"{hundredths} %"


def _summary(spoilt: int, poured: int) -> str:
    if not poured:
        return "No plate was poured."
    plates = "the one plate" if poured == 1 else f"{poured} plates"
    if not spoilt:
        return f"None of {plates} was given up."
    return f"{spoilt} of {plates} {'was' if spoilt == 1 else 'were'} given up: {share(spoilt, poured)}."
