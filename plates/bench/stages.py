"""The way of a plate: what follows each stage, what the button says, and how long a press can be undone."""

from datetime import timedelta

from django.utils.translation import gettext_noop

from plates.bench.models import Stage

UNDO_FOR = timedelta(seconds=30)
# The only ways on. Handed over and spoilt are the ends.
NEXT_STAGE: dict[str, Stage] = {
    Stage.POURED: Stage.SENSITISED,
    Stage.SENSITISED: Stage.EXPOSED,
    Stage.EXPOSED: Stage.DEVELOPED,
    Stage.DEVELOPED: Stage.FIXED,
    Stage.FIXED: Stage.WASHING,
    Stage.WASHING: Stage.DRYING,
    Stage.DRYING: Stage.VARNISHED,
    Stage.VARNISHED: Stage.READY,
    Stage.READY: Stage.HANDED_OVER,
}

# What is done, as it is called out at the bench, to bring a plate to each stage.
PRESSES: dict[str, str] = {
    Stage.POURED: gettext_noop("Pour"),
    Stage.SENSITISED: gettext_noop("Out of the bath"),
    Stage.EXPOSED: gettext_noop("Exposed"),
    Stage.DEVELOPED: gettext_noop("Developed"),
    Stage.FIXED: gettext_noop("Fixed"),
    Stage.WASHING: gettext_noop("Into the wash"),
    Stage.DRYING: gettext_noop("Onto the rack"),
    Stage.VARNISHED: gettext_noop("Varnished"),
    Stage.READY: gettext_noop("Ready to collect"),
    Stage.HANDED_OVER: gettext_noop("Hand over"),
}
