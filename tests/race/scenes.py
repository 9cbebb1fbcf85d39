"""Every scene by its name."""

from tests.race import meetings, selling, working

SCENES = selling.SCENES | working.SCENES | meetings.SCENES
