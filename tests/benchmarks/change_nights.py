"""python -m tests.benchmarks.change_nights [PYTEST ARGUMENTS]: the suite in the nights in which the clock is changed.

The whole machine is put there by `faketime` (the Debian package of that name), with the zone of this process set to one
that changes: an hour before each change of Europe/Lisbon in 2027, so that the tests run across it. What is only true on
some dates would break here. Without arguments everything runs, on all processors; only the browser itself keeps its own
clock. The machines that some tests need are started outside:
`python -m tests.machines python -m tests.benchmarks.change_nights`.
"""

import os
import shutil
import subprocess
import sys
from pathlib import Path

ZONE = "Europe/Lisbon"
# On the wall of that zone (tz database): forward at 01:00, back at 02:00.
NIGHTS = {"forward": "2027-03-28 00:58:00", "back": "2027-10-31 01:58:00"}
# Redis does not start under faketime (its allocator asks for the time before there is one).
OWN_MACHINES = "tests/test_machines.py::test_the_machines_end_with_the_command_they_were_started_for"
ALL = ["tests", "-n", "auto", "--deselect", OWN_MACHINES]
HERE = Path(__file__).parent


def main(arguments: list[str]) -> int:
    if shutil.which("faketime") is None:
        sys.stderr.write("faketime is not installed: apt-get install faketime\n")
        return 2
    codes = []
    for name, moment in NIGHTS.items():
        sys.stdout.write(f"== the night in which the clock goes {name}, from {moment} {ZONE}\n")
        sys.stdout.flush()
        # Monotonic clocks go on as they are: they measure waiting and know no date.
        surroundings = os.environ | {
            "TZ": ZONE,
            "FAKETIME_DONT_FAKE_MONOTONIC": "1",
            "FAKETIME_DONT_RESET": "1",  # else each process begins at that moment again
            "PYTHONPATH": str(HERE / "nights"),
        }
        command = ["faketime", "-f", f"@{moment}", sys.executable, "-m", "pytest", "-q", *(arguments or ALL)]
        codes.append(subprocess.run(command, env=surroundings, check=False).returncode)
    return max(codes)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
