"""Gives every reader new texts, many of each: python -m tests.hostile [HOW_MANY] [WORD...]"""

import sys
import tempfile
from pathlib import Path

from hypothesis import HealthCheck, settings

from tests.hostile.in_studio import Studio
from tests.hostile.readers import ALL, try_texts


def main(count: int, words: list[str]) -> None:
    """Stops with the shortest text that something else comes of than reading or refusing."""
    how = settings(max_examples=count, deadline=None, suppress_health_check=list(HealthCheck))
    with tempfile.TemporaryDirectory() as place:
        studio = Studio(Path(place))
        for one in (*ALL, *studio.readers()):
            if not words or any(word in one.name for word in words):
                try_texts(one, how)
                print(f"{one.name}: {count} texts read or refused", flush=True)
        studio.close()


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 2000, sys.argv[2:])
