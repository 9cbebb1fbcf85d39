"""Which tests share so much that one worker has to run them: a day played once, a page loaded once, and the races,
each of which keeps all processors busy.

pytest-xdist has marks for that, which pytest 9.2 no longer hands on to it: they are passed over without a word.
"""

from xdist.scheduler.loadscope import LoadScopeScheduling

RACES = "tests/race"
PAGES = "tests/browser/test_pages.py"
# Of a thousandth of a second each: one by one, handing them out would take longer than they do.
QUICK = (
    "tests/bookings/invoices/einvoice/",
    "tests/bookings/money/",
    "tests/plates/chemistry/",
)
WHOLE = frozenset(
    {
        "tests/bookings/management/test_serve.py",
        "tests/bookings/practice/test_studio.py",
        "tests/bookings/practice/test_rehearsal.py",
        "tests/browser/tent/test_red.py",
        "tests/plates/capacity/verify/test_mutants.py",
        "tests/plates/capacity/exact/test_second_modeller.py",
        "tests/plates/capacity/exact/test_admission.py",
        "tests/plates/finishing/forecast/test_outlook_played.py",
        "tests/plates/ledger/test_views_ledger_search.py",
        "tests/test_access.py",
        "tests/test_words.py",
    }
)


def place(nodeid):
    """What tests have in common that belong on one worker: their file, their folder, their page, or nothing."""
    file = nodeid.partition("::")[0]
    if file.startswith(f"{RACES}/"):
        return RACES
    if file in WHOLE or file.startswith(QUICK):
        return file
    return f"{file}[{nodeid.partition('[')[2]}" if file == PAGES else nodeid


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
