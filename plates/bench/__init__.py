"""The rows of the bench: sizes, benches, their days, jobs, slots, plates, events, notes; and plain reading of them.

Words: a job is work promised on a bench day; a slot is one plate of it; an event is one thing that happened to a
plate. Entry points: `models` (BenchJob.objects.promised, PlateEvent.objects.valid), `selectors.slots_of`,
`selectors.live_plate`.

Rules
- A hold counts by its date: `promised(now)` is the only place that says which jobs take room.
- Events are append-only; an undone press is another event that names the one it undoes.

Decisions
- 2026-11-25: begun is firm: from the first pour a job counts whether paid or not, cannot be given back, and is not
  moved.
- 2026-11-25: a retake is a job of its own, so that every reader of the plan sees it without knowing of retakes.
- 2026-11-25: notes of a plate are a row beside it that may be corrected; what happened never is.
"""

__all__ = ["models", "selectors", "stages"]
