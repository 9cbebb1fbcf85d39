"""The studio's one row, printed at the head of every paper, and the language that it speaks.

Entry points: `selectors.the_studio`, `selectors.studio` (context of every page),
`language.speaking_for_the_studio`.

Rules
- One row. Without it a page says how to set the studio up.

Decisions
- 2026-11-26: one language a studio, that of its locale, for every visitor alike: terms, letters and papers are in
  one language too, and what was sold is named as the client was told it. Not the browser's choice.
- 2026-11-26: catalogues lie in the apps, .mo files are committed, so that nothing has to be compiled on the way up.
"""

__all__ = ["language", "models", "selectors"]
