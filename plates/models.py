"""Where Django looks for the rows of this app: each feature keeps its own."""

from plates.bench import models as bench
from plates.finishing import models as finishing
from plates.store import models as store

__all__ = ["bench", "finishing", "store"]
