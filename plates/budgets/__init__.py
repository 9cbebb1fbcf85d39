"""How many plates the chemistry in stock allows on each day: bottles and baths against all that is promised.

Words: a budget is what one solution or bath still allows; a pool is all bottles of a kind over the days. Entry
points: `limits.limits` and `limits_of` (for a sale), `levels_of_day` (for the planner), `pools`.

Rules
- What is promised on a day always fits its budget: a stock-take that finds too little stops sales and breaks no
  promise.
- The row of the store room is locked after the day, for two days sell from one bottle.

Decisions
- 2026-11-26: days take from the ripe bottle that keeps least, and a day may take what leaves no other day shorter
  (held against a maximum flow). Not a share of each bottle for each day.
- 2026-11-26: spares by the negative binomial over all days together. Only collodion limits at first. A bath runs
  out of area; one that slows a day raises the shortest bath.
"""

__all__ = ["levels_of_day", "limits"]
