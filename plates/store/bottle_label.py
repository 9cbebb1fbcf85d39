"""What a label on a bottle says: name, contents, dates, and the hazards of what went in.

A mixture is labelled here as if each substance in it were undiluted: that is mostly stronger than the mixture is.
Whoever passes a bottle on must classify it properly. The suppliers' sheets override all of it.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from django.utils.translation import gettext as _

from plates.chemistry.hazards.classification import NO_ROW, SHEET_FIRST, Label, Signal
from plates.chemistry.hazards.substances import SUBSTANCES, labels_of
from plates.chemistry.recipes.measures import amount_of
from plates.chemistry.recipes.scaling import Ingredient
from plates.chemistry.recipes.serialization import load
from plates.chemistry.sentences import Sentence
from plates.common import printing
from plates.store.amounts import format_amount
from plates.store.models import Batch, Solution

# Of Regulation (EC) 1272/2008: article 26, 1(b), a skull makes the exclamation mark superfluous; annex I, 4.1.4, and
# the guidance to it, H400 need not stand beside H410. Both from memory (E).
SUPERFLUOUS_MARK = ("GHS06", "GHS07")
SUPERFLUOUS_STATEMENT = ("H410", "H400")


@dataclass(frozen=True, slots=True)
class Substance:
    """One substance on the label: its statements in words, and where they are from."""

    name: str
    statements: tuple[tuple[str, Sentence], ...]
    suppliers_add: tuple[tuple[str, Sentence], ...]
    source: str
    note: str


@dataclass(frozen=True, slots=True)
class BottleLabel:
    """All that is printed. `unlisted` are ingredients of which no row is known; `lines` are contents and dates."""

    title: str
    mark: str
    lines: tuple[str, ...]
    signal: Signal
    pictograms: tuple[str, ...]
    substances: tuple[Substance, ...]
    unlisted: tuple[str, ...]
    no_row: str = NO_ROW
    sheet_first: str = SHEET_FIRST


def of_batch(batch: Batch) -> BottleLabel:
    """The label of a batch as it was mixed."""
    went_in = load(batch.contents)
    keys = {line.substance for line in went_in} | _in_any_case(batch)
    return _label(
        title=str(Solution(batch.kind).label),
        mark=batch.label,
        lines=(*_dates(batch), *(_content(line) for line in went_in)),
        keys=keys,
        unlisted=tuple(line.name for line in went_in if not line.substance),
    )


def of_substance(key: str) -> BottleLabel:
    """The label of a chemical as it is bought, undiluted. Raises KeyError for a key without a row."""
    name = _(SUBSTANCES[key].name)
    lines = (_("Received:"), _("Opened:"), _("Supplier:"))
    return _label(title=name, mark="", lines=lines, keys={key}, unlisted=())


def _label(
    *, title: str, mark: str, lines: tuple[str, ...], keys: Iterable[str], unlisted: tuple[str, ...]
) -> BottleLabel:
    found = labels_of(keys)
    signals = [each.signal for each in found]
    return BottleLabel(
        title=title,
        mark=mark,
        lines=lines,
        signal="Danger" if "Danger" in signals else "Warning" if "Warning" in signals else "",
        pictograms=_without(SUPERFLUOUS_MARK, sorted({code for each in found for code in each.pictograms})),
        substances=tuple(_substance(each) for each in found),
        unlisted=unlisted,
    )


def _substance(found: Label) -> Substance:
    codes = _without(SUPERFLUOUS_STATEMENT, [code for code, _words in found.statements])
    source = f"{found.source.text} ({found.source.confidence})"
    statements = tuple(each for each in found.statements if each[0] in codes)
    return Substance(found.name, statements, found.suppliers_add, source, found.note)


def _without(rule: tuple[str, str], codes: Sequence[str]) -> tuple[str, ...]:
    stronger, superfluous = rule
    return tuple(code for code in codes if not (code == superfluous and stronger in codes))


def _dates(batch: Batch) -> tuple[str, ...]:
    said = [
        _("Made: %(day)s, %(amount)s")
        % {"day": batch.mixed_on.isoformat(), "amount": format_amount(batch.made_ul, "ul")}
    ]
    said.append(_("Ripe from: %(day)s") % {"day": batch.ripe_from.isoformat()})
    if batch.best_before:
        said.append(_("Past its best from: %(day)s") % {"day": batch.best_before.isoformat()})
    said.append(_("Opened: %(day)s") % {"day": batch.opened_on.isoformat() if batch.opened_on else "…"})
    return tuple(said)


def _content(line: Ingredient) -> str:
    return f"{line.name}: {amount_of(line, 'metric')}"


def _in_any_case(batch: Batch) -> set[str]:
    """What is in a batch whatever was written down of it."""
    if batch.kind == Solution.COLLODION:
        return {"collodion"}
    return {"silver_nitrate"} if batch.kind == Solution.BATH else set()


def label_pdf(label: BottleLabel) -> bytes:
    """One label of 148 mm by 105 mm (A6, ISO 216), tagged for screen readers. Equal labels give equal bytes."""
    return printing.printed("plates/store/bottle_label.html", {"label": label}, style="store-papers.css")
