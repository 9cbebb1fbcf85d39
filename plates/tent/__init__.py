"""The dark tent: one plate at a time in red on black, with and without network.

Words: a press made in the tent carries its key and the time it was made. Entry points: `services.record_press`,
`selectors.screen`, `clocks` (pure: how long a plate may be left at each stage).

Rules
- Pure red on black in every state, because collodion sees blue; a level is a frame and a word, never a filled
  field.
- In the tent nothing goes beyond the rack: whether a plate may leave hangs on money, which plates does not know.
- Numbers only: a telephone keeps a copy.

Decisions
- 2026-11-25: the tent keeps presses, not states: each is sent in order and entered once, so there is nothing to
  merge. Not states with versions, not the browser's background sync. The rows by which it counts are sent to it.
"""
