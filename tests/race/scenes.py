"""Every scene by its name."""

from tests.race import meetings, numbering, selling, vouchers, waiting, working

SCENES = (
    selling.SCENES | working.SCENES | meetings.SCENES | vouchers.SCENES | numbering.SCENES | waiting.SCENES
)
