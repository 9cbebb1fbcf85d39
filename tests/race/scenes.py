"""Every scene by its name."""

from tests.race import meetings, numbering, selling, step_up, vouchers, waiting, working

SCENES = selling.SCENES | working.SCENES | meetings.SCENES | vouchers.SCENES | numbering.SCENES
SCENES |= waiting.SCENES | step_up.SCENES
