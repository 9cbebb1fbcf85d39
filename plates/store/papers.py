"""Papers of the store room."""

from plates.common import printing
from plates.store.bottle_label import BottleLabel


def label_pdf(label: BottleLabel) -> bytes:
    """One label of 148 mm by 105 mm (A6, ISO 216), tagged for screen readers. Equal labels give equal bytes."""
    return printing.printed("plates/store/bottle_label.html", {"label": label}, style="store-papers.css")
