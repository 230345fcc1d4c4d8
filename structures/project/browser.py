"""Find a Chromium for the tests, or install one. Standard library only."""

import os
import subprocess
from pathlib import Path

from structures.project.native import SetUpFailed, install

DEBIAN_CHROMIUM = Path("/usr/bin/chromium")
OTHER_WAYS = "set CHROMIUM_PATH to one, or type: .venv/bin/playwright install chromium"


def find_chromium() -> Path | None:
    """Give a browser that answers: CHROMIUM_PATH, Debian's, or one that Playwright fetched before; None if there is none.

    Raises SetUpFailed when CHROMIUM_PATH names something that does not answer: whoever set it meant it.
    """
    given = os.environ.get("CHROMIUM_PATH", "").strip()
    if given:
        if not _answers(Path(given)):
            raise SetUpFailed(f"CHROMIUM_PATH is {given!r}, which does not start: name the program file of a Chromium, or unset it.")
        return Path(given)
    # On Ubuntu the file of this name is a stub that only says where the real one might be had.
    return next((path for path in (DEBIAN_CHROMIUM, *_fetched_by_playwright()) if _answers(path)), None)


def ensure_chromium() -> None:
    """See that there is a browser, installing Debian's where that is allowed. Raises SetUpFailed with what would do."""
    if find_chromium() is not None:
        return
    if _system() != "debian":
        raise SetUpFailed(f"Browser tests need a Chromium, and this system's package manager has none that starts: {OTHER_WAYS}.")
    install(["chromium"], "Browser tests need Chromium")
    if find_chromium() is None:
        raise SetUpFailed(f"Chromium was installed and does not start: {OTHER_WAYS}.")


def _fetched_by_playwright() -> list[Path]:
    kept = os.environ.get("PLAYWRIGHT_BROWSERS_PATH", "").strip() or Path.home() / ".cache" / "ms-playwright"
    return sorted(Path(kept).glob("chromium-*/chrome-linux*/chrome"), reverse=True)


def _answers(path: Path) -> bool:
    try:
        done = subprocess.run([path, "--version"], stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=60)
    except (OSError, subprocess.TimeoutExpired):
        return False
    return done.returncode == 0 and "Chrom" in done.stdout


def _system() -> str:
    try:
        lines = Path("/etc/os-release").read_text().splitlines()
    except OSError:
        return ""
    return dict(line.split("=", 1) for line in lines if "=" in line).get("ID", "").strip('"')
