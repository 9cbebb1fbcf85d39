"""Venues, the days on which clients may sit, their hours and daylight.

Words: a venue is a place with a clock of its own; a sitting day is a bench day opened for sale at a venue. Entry
points: `selectors.open_days`, `selectors.openings`, `services.open_day`, `clock.studio_day`, `daylight` (pure).

Rules
- Instants are UTC; `SittingDay.local` puts them on the venue's clock. The studio's date is that of its first venue.

Decisions
- 2026-11-25: the height of the sun is that of its centre, without refraction, over a level horizon (astral, held
  against almanac tables). A start needs light until start + tolerance + the shortest sitting.
- 2026-11-25: hours stay on the sitting day and physical limits on the bench, so that one bench can stand at two
  venues.
"""

__all__ = ["clock", "daylight", "models", "selectors", "services"]
