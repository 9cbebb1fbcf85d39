"""Every printed recipe by its key, in the order of the work."""

from plates.chemistry.recipes.period_collodions import COLLODIONS
from plates.chemistry.recipes.period_solutions import SOLUTIONS, VARNISHES
from plates.chemistry.recipes.scaling import Recipe

PRINTED: dict[str, Recipe] = {each.key: each for each in (*COLLODIONS, *SOLUTIONS, *VARNISHES)}
