"""An invented day played through the real services, from the first booking to the last plate handed over."""

from bookings.practice.rehearsal.day import Rehearsal, play

__all__ = ["Rehearsal", "play"]
