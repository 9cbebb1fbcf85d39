"""Which tests one worker runs one after another: those of a file, which share what is made once for it.

Two folders are dealt out test by test, as some of their files take half a minute. A page is loaded once for all that is
asked of it, and each of the races keeps all processors busy.

pytest-xdist has marks for that, which pytest 9.2 no longer hands on to it: they are passed over without a word.
"""

from xdist.scheduler.loadscope import LoadScopeScheduling

RACES = "tests/race"
PAGES = "tests/browser/test_pages.py"
ONE_BY_ONE = ("tests/browser/", "tests/plates/capacity/")
# Files of these folders whose tests share a day played once.
WHOLE = frozenset(
    {
        "tests/browser/tent/test_red.py",
        "tests/plates/capacity/test_exact_admission.py",
        "tests/plates/capacity/test_mutants.py",
        "tests/plates/capacity/test_second_modeller.py",
    }
)


def place(nodeid):
    """What tests have in common that belong on one worker: their folder, their page, their file, or nothing."""
    file = nodeid.partition("::")[0]
    if file.startswith(f"{RACES}/"):
        return RACES
    if file == PAGES:
        return f"{file}[{nodeid.partition('[')[2]}"
    return nodeid if file.startswith(ONE_BY_ONE) and file not in WHOLE else file


class Together(LoadScopeScheduling):
    def _split_scope(self, nodeid):
        return place(nodeid)

    def mark_test_complete(self, node, item_index, duration=0):
        """Forget what is done, too: it would be counted again after each test, thousands of times."""
        super().mark_test_complete(node, item_index, duration)
        work = self.assigned_work[node]
        scope = place(self.registered_collections[node][item_index])
        if all(work[scope].values()):
            del work[scope]
