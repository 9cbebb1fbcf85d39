"""The hazard pictograms, drawn by us after their description in the Globally Harmonized System (United Nations, GHS,
annex 1): a black symbol on white inside a red square that stands on its point.

PURE: lines on a square of 100 units; the frame is in the template. The symbols are simple drawings of what the text
names, not copies of any picture file.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Stroke:
    """One path of a symbol: filled (`width` 0) or drawn as a line so wide, black or `white` over what lies beneath."""

    path: str
    width: int = 0
    white: bool = False


def _circle(x: float, y: float, radius: float) -> str:
    return (
        f"M{x - radius} {y}a{radius} {radius} 0 1 0 {2 * radius} 0a{radius} {radius} 0 1 0 {-2 * radius} 0z"
    )


_FLAME = (
    "M52 18C53 29 66 35 66 51C66 62 59 70 50 70C41 70 34 63 34 53C34 45 38 40 41 35"
    "C42 41 44 44 47 46C45 36 47 25 52 18z"
)
_FLAME_HEART = (
    "M51 44C52 51 58 54 58 60C58 65 55 68 50 68C45 68 42 65 42 60C42 57 43 55 45 52"
    "C46 55 47 56 49 57C48 52 49 47 51 44z"
)
_SMALL_FLAME = (
    "M51 16C52 25 63 29 63 41C63 48 58 54 50 54C42 54 37 48 37 42C37 36 40 32 42 28"
    "C43 33 45 35 47 36C45 29 47 22 51 16z"
)

SYMBOLS: dict[str, tuple[Stroke, ...]] = {
    # A bomb bursting: the ball, its cracks, and what flies off.
    "GHS01": (
        Stroke(_circle(47, 57, 13)),
        Stroke("M41 50L48 56L44 61L52 66", 2, white=True),
        Stroke(
            (
                "M58 46L68 34M61 52L76 46M62 60L77 62M52 42L54 27M42 43L36 30M34 50L23 45M33 60"
                "L22 64M38 69L31 78M56 69L62 78"
            ),
            3,
        ),
        Stroke(
            "M66 28L72 26L71 32zM44 24L48 20L49 26zM26 36L31 34L30 40zM74 52L80 52L77 57zM66 68L72 70L67 74z"
        ),
    ),
    # A flame on a bar.
    "GHS02": (Stroke(_FLAME), Stroke(_FLAME_HEART, white=True), Stroke("M32 74h36v5h-36z")),
    # A flame over a circle.
    "GHS03": (
        Stroke(_SMALL_FLAME),
        Stroke(
            (
                "M50 36C51 42 56 44 56 48C56 51 54 53 50 53C46 53 44 51 44 48C44 46 45 44 46 43"
                "C47 45 48 46 49 46C48 42 49 39 50 36z"
            ),
            white=True,
        ),
        Stroke(_circle(50, 68, 12), 5),
    ),
    # Two glasses that drip, one on a bar of metal and one on a hand, and both are eaten away.
    "GHS05": (
        Stroke("M26 38L46 30L48 35L28 43z"),
        Stroke("M74 38L54 30L52 35L72 43z"),
        Stroke(
            "M30 45l2 5a2.4 2.4 0 1 1-4 0zM70 45l2 5a2.4 2.4 0 1 1-4 0z"
            "M31 53l2 4a2 2 0 1 1-4 0zM69 53l2 4a2 2 0 1 1-4 0z"
        ),
        Stroke("M20 62h8l2 4l3-2l2 3l3-5h8v6h-26z"),
        Stroke("M54 68C54 62 58 60 63 60L66 64L69 61L72 64L75 61C80 61 82 64 80 66L66 70C60 72 54 72 54 68z"),
    ),
    # A skull over crossed bones.
    "GHS06": (
        Stroke("M33 58L67 74M67 58L33 74", 5),
        Stroke(
            "".join(
                _circle(x, y, 3)
                for x, y in ((32, 55), (30, 59), (68, 55), (70, 59), (32, 77), (30, 73), (68, 77), (70, 73))
            )
        ),
        Stroke(
            "M50 20C62 20 69 28 69 39C69 46 66 50 61 53L60 62L40 62L39 53C34 50 31 46 31 39"
            "C31 28 38 20 50 20z"
        ),
        Stroke(
            (
                f"{_circle(42, 41, 5.5)}{_circle(58, 41, 5.5)}M50 46L53 52L47 52zM45 56h2v6h-2z"
                f"M49 56h2v6h-2zM53 56h2v6h-2z"
            ),
            white=True,
        ),
    ),
    # An exclamation mark.
    "GHS07": (Stroke("M43 22h14l-3 36h-8z"), Stroke(_circle(50, 69, 6.5))),
    # Head and chest of a person, a star bursting in the chest.
    "GHS08": (
        Stroke(_circle(50, 27, 9)),
        Stroke(
            "M50 38C60 38 66 42 68 50L74 68L66 72L63 64L63 82L37 82L37 64L34 72L26 68L32 50"
            "C34 42 40 38 50 38z"
        ),
        Stroke("M50 42L53 53L64 50L56 58L64 66L53 63L50 74L47 63L36 66L44 58L36 50L47 53z", white=True),
    ),
    # A bare tree and a dead fish on the ground.
    "GHS09": (
        Stroke("M37 66L38 44L29 33M38 46L46 32M38 52L50 42M37 56L28 46M42 40L42 28M31 36L26 36", 4),
        Stroke("M20 66h34v4h-34z"),
        Stroke("M52 60C58 52 68 52 74 58L82 53L80 66L74 62C68 68 58 68 52 60z"),
        Stroke(f"{_circle(58, 58.5, 1.6)}", white=True),
        Stroke("M56 70C62 74 70 74 78 70", 3),
    ),
}


def symbol(code: str) -> tuple[Stroke, ...]:
    """The symbol of a pictogram, for example GHS02. Raises KeyError for a code that has none here."""
    return SYMBOLS[code]
