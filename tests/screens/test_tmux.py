"""The program in a real terminal multiplexer: it opens, shows a print, and ends well."""

import subprocess
import sys
import time
from pathlib import Path

from tests.tools import need

PATIENCE_S = 20.0


def test_it_opens_shows_a_print_and_ends_well(studio: Path, tmp_path: Path) -> None:
    tmux = [need("tmux"), "-L", f"provenance-{tmp_path.name}", "-f", "/dev/null"]
    done = tmp_path / "status"
    program = f"{sys.executable} -m provenance --studio {studio}"

    def told(*words: str) -> str:
        return subprocess.run([*tmux, *words], capture_output=True, check=True, text=True).stdout

    def until(text: str) -> None:
        ends = time.monotonic() + PATIENCE_S
        while text not in (shown := told("capture-pane", "-p", "-t", "screen")):
            assert time.monotonic() < ends, shown
            time.sleep(0.05)

    root = Path(__file__).parents[2]
    command = f"{program}; echo $? > {done}; sleep 60"
    told("new-session", "-d", "-s", "screen", "-x", "80", "-y", "24", "-c", str(root), command)
    try:
        until("1-6 places")
        told("send-keys", "-t", "screen", "Enter")
        until("7/25")
        told("send-keys", "-t", "screen", "Enter")
        until("what a certificate would say today")
        told("resize-window", "-t", "screen", "-x", "30", "-y", "8")
        until("16 shows more")
        told("resize-window", "-t", "screen", "-x", "120", "-y", "40")
        until("▀▀")
        told("send-keys", "-t", "screen", "q")
        ends = time.monotonic() + PATIENCE_S
        while not done.exists() or not done.read_text():
            assert time.monotonic() < ends, told("capture-pane", "-p", "-t", "screen")
            time.sleep(0.05)
        assert done.read_text().strip() == "0"
    finally:
        told("kill-server")
