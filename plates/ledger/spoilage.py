"""Why plates were given up, as a picture. Pure layout: numbers become lengths, nothing is looked up."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

WIDTH = 264  # fits beside the margins of a telephone without being made smaller
LINE = 18
BAR = 14
STEP = 44
SENTENCES = {
    "nothing poured": "No plate was poured.",
    "none of one": "None of the one plate was given up.",
    "none": "None of {poured} plates was given up.",
    "one of one": "{spoilt} of the one plate was given up: {share}.",
    "one": "{spoilt} of {poured} plates was given up: {share}.",
    "some": "{spoilt} of {poured} plates were given up: {share}.",
    "little": "under 1 %",
}
Say = Callable[[str], str]


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


def lay_out(given_up: Mapping[str, int], *, poured: int, say: Say = str) -> Spoilage:
    """Draw how many of `poured` plates were given up for each reason, which is named as it is to be shown.

    `say` puts SENTENCES into another language, their {words} left as they are.
    """
    found = sorted(((-count, reason) for reason, count in given_up.items() if count > 0))
    most = max((-count for count, _ in found), default=1)
    bars = tuple(
        _bar(place, reason, -count, most=most, poured=poured, say=say)
        for place, (count, reason) in enumerate(found)
    )
    spoilt = sum(bar.count for bar in bars)
    return Spoilage(WIDTH, STEP * len(bars), bars, _summary(spoilt, poured, say))


def _bar(place: int, reason: str, count: int, *, most: int, poured: int, say: Say) -> ReasonBar:
    top = STEP * place
    return ReasonBar(
        reason=reason,
        count=count,
        share=share(count, poured, say),
        words_y=top + LINE - 4,
        y=top + LINE + 2,
        width=max(1, round(WIDTH * count / most)),
    )


def share(count: int, whole: int, say: Say = str) -> str:
    """How much of the whole, for example 8 %; never 0 % for something."""
    hundredths = round(100 * count / whole) if whole else 0
    return say(SENTENCES["little"]) if count and hundredths < 1 else f"{hundredths} %"


def _summary(spoilt: int, poured: int, say: Say) -> str:
    if not poured:
        return say(SENTENCES["nothing poured"])
    if not spoilt:
        return say(SENTENCES["none of one" if poured == 1 else "none"]).format(poured=poured)
    which = "some" if spoilt > 1 else "one of one" if poured == 1 else "one"
    return say(SENTENCES[which]).format(spoilt=spoilt, poured=poured, share=share(spoilt, poured, say))
