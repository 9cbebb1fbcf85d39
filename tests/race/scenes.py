"""Every scene by its name."""

from tests.race import meetings, numbering, selling, working

SCENES = selling.SCENES | working.SCENES | meetings.SCENES | numbering.SCENES
