"""Every scene by its name."""

from tests.race import bottles, meetings, numbering, selling, step_up, vouchers, waiting, working

SCENES = selling.SCENES | working.SCENES | meetings.SCENES | vouchers.SCENES | numbering.SCENES
SCENES |= bottles.SCENES | waiting.SCENES | step_up.SCENES
