"""The run of a day: the queue plate by plate, attendance, a day that runs late, the run sheet.

Words: a mark says that a sitter arrived, sat or did not come; a press moves a plate on; alerts need the owner's
eye. Entry points: `selectors.queue.day_queue`, `services.attendance`, `services.lateness`, `run_sheet`,
`selectors.alerts`.

Rules
- One service does each act with all that follows from it: a mark or a spoilt plate works the day's times out at
  once.
- Nobody is written to about a later start unless the photographer presses for it.

Decisions
- 2026-11-25: screens ask every two seconds for a digest of the day, and read the page anew when it differs. Not
  server-sent events: a held-open connection takes a thread of the small server for each screen.
- 2026-11-25: the same later start is told once; it is news again only after another one was told.
- 2026-11-26: the drain expects a day anew when its fingerprint changes, or after five minutes, since a press that
  does not come tells too. A time within two minutes of the one shown stays, so that screens come to rest.
"""

__all__ = ["run_sheet", "services"]
