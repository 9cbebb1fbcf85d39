"""Every printed recipe by its key, in the order of the work."""

from plates.chemistry.period_collodions import COLLODIONS
from plates.chemistry.period_solutions import SOLUTIONS
from plates.chemistry.period_varnishes import VARNISHES
from plates.chemistry.recipes import Recipe

PRINTED: dict[str, Recipe] = {each.key: each for each in (*COLLODIONS, *SOLUTIONS, *VARNISHES)}
