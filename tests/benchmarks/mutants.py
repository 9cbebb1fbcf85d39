"""python -m tests.benchmarks.mutants [--seed 1] [--each 8] [--only FILE.json] [--json FILE.json] [MODULE.py ...]

How many small faults the tests notice. Of each module (those of AREAS where none is named) `each` mutants are drawn by
the seed: a comparison or an operator turned, a constant moved by one, a condition negated, a call left out. Each is put
into a copy of the tree, and the tests run that import the module, then, if they pass, all of its room: a failure or a
run of more than LONGEST seconds has noticed it. Prints a row for each area and every mutant that nobody noticed.
`--json` keeps the survivors, `--only` tries those again.
"""

import argparse
import ast
import json
import random
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from copy import deepcopy
from dataclasses import asdict, dataclass
from pathlib import Path

from tests.benchmarks.mutation import mutants_of

ROOT = Path(__file__).resolve().parents[2]
LONGEST = 180  # seconds
AREAS = {
    "money": ["bookings/money"],
    "gaps, verify": ["plates/capacity/gaps", "plates/capacity/verify", "plates/capacity/refusals"],
    "risk, late": ["plates/capacity/risk", "plates/capacity/late"],
    "services of bookings": [
        "bookings/payments/services", "bookings/checkout/services", "bookings/changes/services",
        "bookings/vouchers/services", "bookings/invoices/services", "bookings/waitlist/services.py",
        "bookings/walkups/services", "bookings/handover/services", "bookings/day/services",
    ],
    "services of plates": ["plates/schedule/services", "plates/ledger/services", "plates/tent/services.py"],
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Mutant:
    """One fault: `number` counts the places of the module at which one can be made."""

    path: str
    number: int
    line: int
    told: str


def modules(places: list[str]) -> list[Path]:
    found = [ROOT / place for place in places]
    paths = (path for each in found for path in ([each] if each.is_file() else sorted(each.rglob("*.py"))))
    return [path for path in paths if path.stat().st_size]


def drawn(path: Path, number: int, seed: int) -> list[Mutant]:
    """`number` mutants of a module, the same for a seed and a text."""
    name = path.relative_to(ROOT).as_posix()
    places = list(mutants_of(ast.parse(path.read_text())))
    chance = random.Random(f"{seed} {name}")
    chosen = sorted(chance.sample(range(len(places)), min(number, len(places))))
    return [Mutant(name, each, places[each].line, places[each].told) for each in chosen]


def importers(name: str) -> list[str]:
    """The test files that import a module, or anything of it; those of its own room first."""
    dotted = name.removesuffix(".py").replace("/", ".").removesuffix(".__init__")
    parent, _, last = dotted.rpartition(".")
    home = f"tests/{'/'.join(name.split('/')[:2])}/"
    found = []
    for path in sorted((ROOT / "tests").rglob("test_*.py")):
        text = path.read_text()
        if "browser" in path.parts or "race" in path.parts:
            continue
        if f"from {dotted} import" in text or any(
            last in line for line in text.splitlines() if line.startswith(f"from {parent} import")
        ):
            found.append(path.relative_to(ROOT).as_posix())
    return sorted(found, key=lambda each: (not each.startswith(home), each))


def rounds(name: str) -> Iterator[list[str]]:
    """Which tests are asked, one lot after another while nobody has noticed."""
    near = importers(name)
    if near:
        yield near
    # The engine's room is a large one: there it is the folder that mirrors the module's.
    folder = Path("tests") / ("/".join(name.split("/")[: 3 if "capacity" in name else 2]))
    if (ROOT / folder).is_dir():
        yield [folder.as_posix()]


def passes(tree: Path, tests: list[str]) -> bool:
    command = [
        sys.executable,
        "-m",
        "pytest",
        "-x",
        "-q",
        "-p",
        "no:cacheprovider",
        "-m",
        "not browser",
        *tests,
    ]
    try:
        done = subprocess.run(
            command, cwd=tree, capture_output=True, timeout=LONGEST, check=False, stdin=subprocess.DEVNULL
        )
    except subprocess.TimeoutExpired:
        return False
    return done.returncode in (0, 5)  # 5: all were left out


def noticed(tree: Path, mutant: Mutant) -> bool:
    path = tree / mutant.path
    text = path.read_text()
    code = ast.parse(text)
    place = list(mutants_of(code))[mutant.number]
    try:
        path.write_text(ast.unparse(place.turned(deepcopy(code))))
        return any(not passes(tree, tests) for tests in rounds(mutant.path))
    finally:
        path.write_text(text)


def area_of(name: str) -> str:
    return next(
        (area for area, places in AREAS.items() if any(name.startswith(each) for each in places)), "others"
    )


def main() -> None:
    options = argparse.ArgumentParser()
    options.add_argument("modules", nargs="*")
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--each", type=int, default=8)
    options.add_argument("--only", type=Path)
    options.add_argument("--json", type=Path)
    asked = options.parse_args()
    if asked.only:
        chosen = [Mutant(**row) for row in json.loads(asked.only.read_text())]
    else:
        places = asked.modules or [place for each in AREAS.values() for place in each]
        chosen = [mutant for path in modules(places) for mutant in drawn(path, asked.each, asked.seed)]
    killed: dict[str, list[bool]] = {}
    survivors = []
    with tempfile.TemporaryDirectory() as folder:
        tree = Path(folder) / "tree"
        shutil.copytree(ROOT, tree, ignore=shutil.ignore_patterns(".git", ".venv", "data", ".*_cache"))
        for mutant in chosen:
            dead = noticed(tree, mutant)
            killed.setdefault(area_of(mutant.path), []).append(dead)
            if not dead:
                survivors.append(mutant)
                sys.stdout.write(f"not noticed: {mutant.path}:{mutant.line}  {mutant.told}\n")
                sys.stdout.flush()
    report(killed)
    if asked.json:
        asked.json.write_text(json.dumps([asdict(each) for each in survivors], indent=1))


def report(killed: dict[str, list[bool]]) -> None:
    everything = [dead for each in killed.values() for dead in each]
    for area, dead in [*killed.items(), ("all", everything)]:
        share = 100 * sum(dead) / len(dead) if dead else 0
        sys.stdout.write(f"{area:24} {sum(dead):4} of {len(dead):4}  {share:5.1f} %\n")


if __name__ == "__main__":
    main()
