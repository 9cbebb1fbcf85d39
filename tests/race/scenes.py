"""Every scene by its name."""

from tests.race import bottles, meetings, numbering, selling, vouchers, working

SCENES = (
    selling.SCENES | working.SCENES | meetings.SCENES | vouchers.SCENES | numbering.SCENES | bottles.SCENES
)
