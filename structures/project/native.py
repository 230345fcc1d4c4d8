"""The packages of the operating system that Python's own can't bring: Pango for PDFs, Chromium for the tests.

Standard library only: this runs before anything is installed.
"""

import ctypes
import os
import shlex
import shutil
import subprocess
import sys
from collections.abc import Iterable

PANGO_PACKAGES = ("libpango-1.0-0", "libpangoft2-1.0-0", "libharfbuzz-subset0")
PANGO_LIBRARIES = ("libpango-1.0.so.0", "libpangoft2-1.0.so.0", "libharfbuzz-subset.so.0")


class SetUpFailed(Exception):
    """The machine can't be made ready; the message is one sentence with what would do."""


def say(words: str) -> None:
    """Tell the person who started us, on standard error."""
    print(words, file=sys.stderr, flush=True)


def ensure_pango(libraries: Iterable[str] = PANGO_LIBRARIES) -> None:
    """See that PDFs can be printed. Loads the libraries; installs packages only when one is missing."""
    # Elsewhere the files bear other names, and WeasyPrint says itself what it misses.
    if sys.platform == "linux" and not all(_loads(library) for library in libraries):
        install(PANGO_PACKAGES, "PDFs need the Pango libraries")


def install(packages: Iterable[str], reason: str) -> None:
    """Install packages with apt as root or with a sudo that asks nothing; else raise SetUpFailed with the one line to type."""
    packages = list(packages)
    line = "sudo apt-get update && sudo apt-get install -y --no-install-recommends " + shlex.join(packages)
    rise = _way_to_root()
    if rise is None:
        raise SetUpFailed(f"{reason}, and this user may not install them; type: {line}")
    if shutil.which("apt-get") is None:
        raise SetUpFailed(f"{reason}, and this system has no apt-get: install {', '.join(packages)} by its own means.")
    say(f"{reason}; installing {', '.join(packages)}.")
    environment = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    for step in (["apt-get", "-q", "update"], ["apt-get", "-q", "install", "-y", "--no-install-recommends", *packages]):
        done = subprocess.run([*rise, *step], stdin=subprocess.DEVNULL, capture_output=True, text=True, env=environment)
        # An update that fails for one source of many may still do: only the installation decides.
        if done.returncode and "install" in step:
            last = (done.stderr.strip().splitlines() or ["no word"])[-1].rstrip(".")
            raise SetUpFailed(f"{reason}, and apt-get could not install them ({last}); check the network, then type: {line}")


def _way_to_root() -> list[str] | None:
    """Give what to put before a command so that it runs as root, or None when there is no way without a password."""
    if os.geteuid() == 0:
        return []
    sudo = shutil.which("sudo")
    if sudo and subprocess.run([sudo, "-n", "true"], stdin=subprocess.DEVNULL, capture_output=True).returncode == 0:
        return [sudo, "-n"]
    return None


def _loads(library: str) -> bool:
    try:
        ctypes.CDLL(library)
    except OSError:
        return False
    return True
