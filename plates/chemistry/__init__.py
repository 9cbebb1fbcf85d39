"""PURE: solutions of the wet plate in exact fractions; no Django, no float, no clock.

`units`, `quantities` and `values` are the ground. `bath` is the silver bath: strength, density, titration, what
plates drag out, what brings it back, its book and its care. `recipes` are the printed ones, scaled and read in
other measures. `hazards` are substances by the tables of the law, cautions, cyanide and ether. `stock` is use by
area, shelf life, pools of bottles against days, spares, rates learned from stock-takes.

Rules
- Every figure names its source. Doses are exact from form to page.
- What is told is a `Sentence` with its facts apart, so that another language can say it.

Decisions
- 2026-11-26: a bath is a book, rounded to a thousand-millionth; a reading replaces what was reckoned, and a
  titration goes before a float. Exact fractions would double with every plate.
- 2026-11-26: a mixture is labelled as its undiluted ingredients: it errs to the strong side, and the label says so.
- 2026-11-26: cyanide is known by its name too, switched on by two words, and never away from the studio.
"""

__all__ = ["bath", "hazards", "quantities", "recipes", "sentences", "stock", "units", "values"]
