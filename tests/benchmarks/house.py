"""python -m tests.benchmarks.house [TREE]: how the code lies in its folders; of another checkout where TREE is given.

Prints lines and sizes of files and functions, modules at the roots of the apps, circles of imports, and in how many
folders the modules of one feature lie (by the names in FEATURES, which both houses use).
"""

import ast
import re
import sys
from collections import defaultdict
from pathlib import Path
from statistics import median, quantiles

APPS = ("bookings", "plates", "config")
# What a feature's modules are called, in the folders of layers (until November 2026) and in rooms.
FEATURES = {
    "waiting list": r"wait(?:ing|list)",
    "vouchers": r"voucher|redeem",
    "cards": r"card|gateway",
    "invoices": r"invoice|credit_note|kept_away|sealed",
    "walk-ups": r"line(?:_|\.|$)|walkups",
    "hand-over": r"handover|posting|pickup|promises",
    "dark tent": r"tent",
    "store room": r"store|batches|baths|supplies|recipes|shopping|waste",
}
FACES = ("models", "services", "selectors", "forms", "views")


def sources(tree: Path) -> dict[str, Path]:
    """Modules of the product by their dotted name, without migrations."""
    paths = (path for app in APPS for path in sorted((tree / app).rglob("*.py")))
    return {
        ".".join(path.relative_to(tree).with_suffix("").parts).removesuffix(".__init__"): path
        for path in paths
        if "migrations" not in path.parts and path.stat().st_size
    }


def imports(modules: dict[str, Path]) -> dict[str, set[str]]:
    found: dict[str, set[str]] = defaultdict(set)
    for name, path in modules.items():
        for node in ast.walk(ast.parse(path.read_text())):
            named = []
            if isinstance(node, ast.ImportFrom) and node.module:
                below = [f"{node.module}.{alias.name}" for alias in node.names]
                named = [each if each in modules else node.module for each in below]
            elif isinstance(node, ast.Import):
                named = [alias.name for alias in node.names]
            found[name] |= {each for each in named if each in modules and each != name}
    return found


def reached(start: str, edges: dict[str, set[str]]) -> set[str]:
    seen: set[str] = set()
    waiting = [start]
    while waiting:
        new = edges[waiting.pop()] - seen
        seen |= new
        waiting += new
    return seen


def spread(lengths: list[int]) -> str:
    return f"{median(lengths):.0f} / {quantiles(lengths, n=10)[-1]:.0f} / {max(lengths)}"


def lines_below(folder: Path) -> int:
    return sum(len(path.read_text().splitlines()) for path in folder.rglob("*.py"))


def main(tree: Path) -> None:
    modules = sources(tree)
    lengths = [len(path.read_text().splitlines()) for path in modules.values()]
    functions = [
        (node.end_lineno or node.lineno) - node.lineno + 1
        for path in modules.values()
        for node in ast.walk(ast.parse(path.read_text()))
        if isinstance(node, ast.FunctionDef)
    ]
    edges = imports(modules)
    rows = {
        "modules, lines": f"{len(modules)}, {sum(lengths)}",
        "file, median / 90 % / most": spread(lengths),
        "function, median / 90 % / most": spread(functions),
        "modules at the roots of the apps": sum(
            name.count(".") == 1 and path.name != "__init__.py" and not name.startswith("config")
            for name, path in modules.items()
        ),
        "modules in a circle": sum(name in reached(name, edges) for name in modules),
        "lines of migrations": sum(lines_below(tree / app / "migrations") for app in APPS[:2]),
        "lines of tests": lines_below(tree / "tests"),
    }
    for feature, pattern in FEATURES.items():
        mine = [path for name, path in modules.items() if re.search(pattern, name) and "capacity" not in name]
        # In a room the layers are its own: they count as one folder.
        folders = {
            path.parent.parent
            if path.parent.name in FACES and path.parents[1].name not in APPS
            else path.parent
            for path in mine
        }
        rows[f"folders of {feature}"] = f"{len(folders)} ({len(mine)} modules)"
    for title, said in rows.items():
        sys.stdout.write(f"{title:36} {said}\n")


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).resolve().parents[2])
