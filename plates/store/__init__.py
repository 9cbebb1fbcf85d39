"""The store room: recipes, batches, silver baths, supplies, safety, waste, what a plate costs.

Words: a batch was mixed or bought; a bath is a batch in a tank with readings and care; a supply is bought and kept.
Entry points: `services.mixing`, `.batches`, `.baths`, `.supplies`, `.waste`, `.recipes`; `selectors` of the same
names.

Rules
- Whole microlitres, milligrams and pieces. What is left follows from counts; nothing is stored as a level.
- Readings, care and waste are only added to; a batch stays as it was mixed (guards).
- Cautions and hazards are shown where the work is done, and defer to suppliers' sheets and local codes.

Decisions
- 2026-11-26: more gone than was there shows as nothing left and asks for a count; it has happened, so it is not
  refused.
- 2026-11-26: a plate went through the bath noted for it, else the one in use at its bench when it came out.
- 2026-11-26: plates do not say from which bottle they were poured; those since a count are laid to the ripe one
  that keeps least.
- 2026-11-26: the shopping list reckons with the average, budgets with a quantile: a wrong guess there turns a
  sitter away.
"""

__all__ = ["amounts", "guards", "models", "pictograms", "practice", "selectors"]
