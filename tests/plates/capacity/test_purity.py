"""The engine knows no Django, and loads its solver only where an exact answer is asked for."""

import subprocess
import sys
from pathlib import Path

import plates.capacity

ROOT = Path(plates.capacity.__file__).parents[2]


def run(program):
    return subprocess.run(
        [sys.executable, "-c", program], cwd=ROOT, capture_output=True, text=True, check=False, timeout=60
    )


def test_the_engine_is_imported_and_answers_without_django():
    done = run(
        "import sys; sys.modules['django'] = None\n"
        "from plates.capacity import Bench, Day, Sitting, Size, admit\n"
        "print(len(admit(Bench(), Day(0, 480, 555), [], Sitting(0, (Size('quarter'),))).plans))"
    )

    assert (done.stdout, done.stderr) == ("1\n", "")


def test_the_engine_loads_nothing_but_itself_and_the_standard_library():
    done = run(
        "import sys; before = set(sys.modules)\n"
        "import plates.capacity.scenario.answer, plates.capacity.__main__\n"
        "new = {name.partition('.')[0] for name in set(sys.modules) - before}\n"
        "print(sorted(new - set(sys.stdlib_module_names)))"
    )

    assert (done.stdout, done.stderr) == ("['plates']\n", "")


def test_the_exact_gate_loads_the_solver_and_answers_without_django():
    done = run(
        "import sys; sys.modules['django'] = None\n"
        "from plates.capacity import Bench, Day, Sitting, Size\n"
        "assert 'ortools' not in sys.modules\n"
        "from plates.capacity.exact.replan import replan\n"
        "assert 'ortools' in sys.modules\n"
        "print(len(replan(Bench(), Day(0, 480, 555), [], Sitting(0, (Size('quarter'),))).plans))"
    )

    assert (done.stdout, done.stderr) == ("1\n", "")
