"""`python -m plates.capacity FILE` answers one scenario file; `-` reads standard input. Bad input is exit 2."""

import json
import sys
from pathlib import Path

from plates.capacity.problem.values import CapacityValueError
from plates.capacity.scenario.answer import answer
from plates.capacity.scenario.reading import read


def _text(name: str) -> str:
    try:
        content = sys.stdin.buffer.read() if name == "-" else Path(name).read_bytes()
        return content.decode("utf-8")
    except (OSError, ValueError):
        raise CapacityValueError("file", "cannot be read as UTF-8 text") from None


def main(arguments: list[str]) -> int:
    try:
        if len(arguments) != 1:
            raise CapacityValueError("file", "must be one path, or - for standard input")
        found = answer(read(_text(arguments[0])))
    except CapacityValueError as error:
        sys.stderr.write(f"{error}\n")
        return 2
    sys.stdout.write(json.dumps(found) + "\n")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
