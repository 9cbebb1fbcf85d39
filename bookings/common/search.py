"""How many letters are looked for at most, as the field of the page says."""

LONGEST_WORDS = 100  # as the page's field says
