"""Waste, a fixer that is spent and a varnish, for the pages that show them; words as long as they can be."""

from datetime import timedelta

from plates.store.services.waste import Disposal, mark_container, note_clearing, set_fire_limit, write_down
from tests.builders import NOW
from tests.builders.store import a_batch


def some_waste() -> None:
    """Two containers with something in them, one of it collected, and a figure for fire that is passed."""
    a_batch("varnish", "V" * 40)
    fixer = a_batch("fixer", "F" * 40)
    for seconds, minutes in ((30, 0), (75, 1)):
        note_clearing(batch_id=fixer.pk, seconds=seconds, operator=None, now=NOW + timedelta(minutes=minutes))
    for label, kind in (("W" * 40, "silver"), ("W 2", "cyanide")):
        container = mark_container(label=label, kind=kind)
        for told in (
            Disposal("kept", 1_500_000, NOW.date(), what="w" * 80, note="n" * 200),
            Disposal("collected", 1_000_000, NOW.date(), service="s" * 120),
        ):
            write_down(container_id=container.pk, disposal=told, operator=None, now=NOW)
    set_fire_limit(millilitres=500)
