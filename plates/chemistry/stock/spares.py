"""How many plates more than were promised a studio should be ready to pour, because some are spoilt.

Every plate is spoilt with the same chance, one made again too. The plates poured beyond `promised` until all are good
are then distributed as the negative binomial says (any textbook of statistics; held against SciPy in the tests):
so many more are spoilt before the last good one that C(promised + more - 1, more) ways share the chance. All is
counted in whole numbers, so that the answer is exact.
"""

from functools import lru_cache

from plates.chemistry.values import exact

MOST_SPOILT_PER_CENT = 95
MOST_PROMISED = 100_000


@lru_cache(maxsize=4096)
def spares(promised: int, spoilt_per_cent: int, sure_per_cent: int) -> int:
    """The least number of further plates that is enough in at least `sure_per_cent` of all such days.

    Raises ChemistryValueError for chances that are none: spoilt 0 to 95, sure 1 to 99 in a hundred.
    """
    exact("The plates promised", promised, least=0, most=MOST_PROMISED)
    exact("Plates spoilt in a hundred", spoilt_per_cent, least=0, most=MOST_SPOILT_PER_CENT)
    exact("Days in a hundred", sure_per_cent, least=1, most=99)
    if not promised or not spoilt_per_cent:
        return 0
    # Both sides are multiplied by 100 ** (promised + more + 1), so that nothing is rounded.
    ways, share = 1, (100 - spoilt_per_cent) ** promised
    reached, whole, more = share, 100**promised, 0
    while reached * 100 < sure_per_cent * whole:
        more += 1
        ways = ways * (promised + more - 1) // more
        share *= spoilt_per_cent
        reached, whole = reached * 100 + ways * share, whole * 100
    return more
