"""python -m tests.bench.change_nights [PYTEST ARGUMENTS]: the suite in the nights in which the clock is changed.

The whole machine is put there by `faketime` (the Debian package of that name), with the zone of this process set to one
that changes: an hour before each change of Europe/Lisbon in 2027, so that the tests run across it. What is only true on
some dates would break here. Without arguments everything runs that needs no browser.
"""

import os
import shutil
import subprocess
import sys

ZONE = "Europe/Lisbon"
# On the wall of that zone (tz database): forward at 01:00, back at 02:00.
NIGHTS = {"forward": "2027-03-28 00:58:00", "back": "2027-10-31 01:58:00"}
ALL = ["tests", "-m", "not browser", "--ignore", "tests/race", "-n", "auto"]


def main(arguments: list[str]) -> int:
    if shutil.which("faketime") is None:
        sys.stderr.write("faketime is not installed: apt-get install faketime\n")
        return 2
    codes = []
    for name, moment in NIGHTS.items():
        sys.stdout.write(f"== the night in which the clock goes {name}, from {moment} {ZONE}\n")
        sys.stdout.flush()
        # Monotonic clocks go on as they are: they measure waiting and know no date.
        surroundings = os.environ | {"TZ": ZONE, "FAKETIME_DONT_FAKE_MONOTONIC": "1"}
        command = ["faketime", "-f", f"@{moment}", sys.executable, "-m", "pytest", "-q", *(arguments or ALL)]
        codes.append(subprocess.run(command, env=surroundings, check=False).returncode)
    return max(codes)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
