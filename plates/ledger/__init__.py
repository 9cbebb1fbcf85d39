"""What happened to each plate: presses, undo, notes, pictures, search, why plates were spoilt.

Words: a press brings a plate to its next stage; to undo it adds another event. Entry points: `services.events`
(pour, record_stage, spoil), `services.undo`, `services.facts`, `selectors`, `pictures`.

Rules
- Each service appends one event and tells the plate its stage. A press carries a key, so twice is once.
- The newest press can be undone for a few seconds; nothing is erased.

Decisions
- 2026-11-25: a picture is decoded and written anew (Pillow, three formats, bounds before decoding), in a folder
  without an address. Not cutting EXIF out of the bytes: that leaves XMP and what hides behind the end.
"""

__all__ = ["selectors", "services"]
