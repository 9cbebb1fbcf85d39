"""Promises on a bench: reserved, extended, confirmed, moved, released, planned again, run late.

Words: a start is a time that can be promised; a fingerprint says whether a day has changed; to replan is gate 2.
Entry points: `services.jobs` (what the app above calls), `services.start_times`, `services.late`, `services.line`,
`selectors.openings`, `lanes`.

Rules
- Every promise is made under the lock on its day, and only with plans that the verifier has passed.
- What a page shows of starts is worked out beforehand and says for which fingerprint it holds; a sale decides anew.

Decisions
- 2026-11-25: one row is the lock of a day (BenchDay). Not advisory locks, not serialisable with retries.
- 2026-11-25: a day is planned anew outside its lock and the sale tried again; plans are carried by the day's
  version.
- 2026-11-25: a late day is planned by goals in order: plates under way, then least worst lateness, total, overtime,
  order. Only what is expected is stored; what was promised stays promised.
- 2026-11-25: bench settings that break promises are refused, not copied onto each day.
- 2026-11-26: fixed starts are keyed by what the bench can tell apart: wash places and the tank.
"""

__all__ = ["lanes", "next_steps", "selectors", "services"]
