"""Starts an installed dryfit in a real terminal, looks for the demo kits, and quits.

Run by the checks with the standard library alone: ``start_in_terminal.py PATH/TO/dryfit``.
"""

from __future__ import annotations

import os
import select
import struct
import subprocess
import sys
import time

SECONDS = 30


def main(dryfit: str) -> int:
    """Returns 0 when dryfit starts, shows a demo kit and ends by its key."""
    import fcntl
    import pty
    import termios

    version = subprocess.run([dryfit, "--version"], capture_output=True, text=True, check=True)
    checked = subprocess.run([dryfit, "check", "postcard"], capture_output=True, text=True)
    if checked.returncode:
        print(checked.stdout, checked.stderr)
        return 1
    pid, master = pty.fork()
    if pid == 0:
        os.execv(dryfit, [dryfit])
    fcntl.ioctl(master, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
    seen, asked, end = b"", False, time.monotonic() + SECONDS
    while time.monotonic() < end:
        ready, _, _ = select.select([master], [], [], 0.2)
        if ready:
            try:
                seen += os.read(master, 65536)
            except OSError:
                break
        if b"A Wet Weekend" in seen and not asked:
            asked = True
            os.write(master, b"q")
    else:
        os.kill(pid, 9)
    _, status = os.waitpid(pid, 0)
    good = asked and os.WIFEXITED(status) and os.WEXITSTATUS(status) == 0
    print(f"{version.stdout.strip()}: {'starts, shows its kits and ends' if good else 'FAILED'}")
    if not good:
        print(seen[-2000:].decode(errors="replace"))
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
