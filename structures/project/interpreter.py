"""Choose the Python that runs the product: the one in `.venv`, built when missing or stale.

Standard library only, since nothing else may be installed yet. Everything said here goes to standard error:
standard output belongs to the command.
"""

import fcntl
import hashlib
import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from importlib.metadata import PackageNotFoundError, version
from importlib.util import find_spec
from pathlib import Path

from structures.project.environment import read_bool
from structures.project.native import SetUpFailed, install, say

WANTED_DJANGO = "5.2"
# Counts the entries into `.venv`, so that one that leads elsewhere is met with a sentence and no endless loop.
ENTERED = "HOOPLEDGER_ENTERED"
# Any of these would send pip, or the Python in `.venv`, to packages of somebody else.
MISLEADING = ("PYTHONPATH", "PYTHONHOME", "VIRTUAL_ENV", "PIP_TARGET", "PIP_PREFIX", "PIP_USER", "PIP_REQUIRE_VIRTUALENV")


def choose_interpreter(root: Path, argv: list[str]) -> None:
    """Return when the running Python is the right one; else build `.venv` if need be and start `argv` again in it.

    With HOOPLEDGER_NO_VENV=1 (containers) the running Python is taken as it is, if it has the right Django.
    Raises SetUpFailed, with one sentence, when that can't be done.
    """
    if read_bool("HOOPLEDGER_NO_VENV", default=False):
        _check_django()
        return
    venv = root / ".venv"
    inside = Path(sys.prefix).resolve() == venv.resolve()
    entered = len(os.environ.pop(ENTERED, ""))
    if not is_ready(root, running_inside=inside):
        _build_once(root, running_inside=inside)
    elif inside and "PYTHONPATH" not in os.environ:  # which could put another Django before ours
        return
    # Twice is right when the system's Python moved under `.venv`: the first entry sees that, the second finds it mended.
    if entered == 2:
        raise SetUpFailed("The Python in .venv can't be entered: remove the folder .venv and start again.")
    python = str(_python_of(venv))
    os.execve(python, [python, *argv], {**_plain_environment(), ENTERED: "x" * (entered + 1)})


def is_ready(root: Path, *, running_inside: bool = False) -> bool:
    """Say whether `.venv` was finished for this requirements.txt and the Python that it holds; reads three small files."""
    venv = root / ".venv"
    held = _running_version() if running_inside else _version_held(venv)
    try:
        return _python_of(venv).exists() and _stamp(venv).read_text() == stamp_for(root, held)
    except OSError:
        return False


def stamp_for(root: Path, python_version: str) -> str:
    """Give the text that a `.venv` finished for this requirements.txt carries; the Python version is `3.11` and the like."""
    wanted = (root / "requirements.txt").read_bytes()
    return f"{python_version} {hashlib.sha256(wanted).hexdigest()}\n"


def _build_once(root: Path, *, running_inside: bool) -> None:
    try:
        with _lock(root / ".data" / "set-up.lock") as lock:
            # Somebody who held the lock before may have done it all.
            if not is_ready(root, running_inside=running_inside):
                _build(root, lock)
    except OSError as error:
        raise SetUpFailed(f"{error.filename or root} can't be written ({error.strerror}): start once as its owner.") from error


@contextmanager
def _lock(path: Path) -> Iterator[int]:
    """Hold the lock on `path`. The kernel lets go of it with its last holder, so a killed set-up blocks nobody."""
    path.parent.mkdir(exist_ok=True)
    with path.open("w") as stream:
        try:
            fcntl.flock(stream, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            say("Another start is setting up .venv; waiting for it.")
            fcntl.flock(stream, fcntl.LOCK_EX)
        yield stream.fileno()


def _build(root: Path, lock: int) -> None:
    venv = root / ".venv"
    if not _stamp(venv).exists() or not _works(venv):
        # Without a stamp it was killed half way, and pip would take half a package for a whole one.
        _make_empty(root, lock)
    # The stamp goes first and comes last, so that a kill between the two is seen.
    _stamp(venv).unlink(missing_ok=True)
    say("Installing the packages of requirements.txt into .venv (once; about half a minute).")
    command = [str(_python_of(venv)), "-I", "-m", "pip", "install", "--disable-pip-version-check", "--no-input", "--retries", "2"]
    _run([*command, "--require-hashes", "-r", str(root / "requirements.txt")], root, lock, "The packages of requirements.txt")
    finished = _stamp(venv).with_suffix(".new")
    finished.write_text(stamp_for(root, _version_held(venv)))
    finished.replace(_stamp(venv))
    say("Ready.")


def _make_empty(root: Path, lock: int) -> None:
    if find_spec("ensurepip") is None:
        package = f"python{_running_version()}-venv"
        install([package], f"This Python can't make virtual environments ({package} is missing)")
    say("Making .venv.")
    # The Python below any other virtual environment, which may be gone tomorrow.
    below = getattr(sys, "_base_executable", None) or sys.executable
    _run([below, "-I", "-m", "venv", "--clear", str(root / ".venv")], root, lock, "The folder .venv")


def _run(command: list[str], root: Path, lock: int, what: str) -> None:
    """Run one step of the set-up with its words kept in a file. The step shares the lock: an orphan must finish first."""
    log = root / ".data" / "set-up.log"
    with log.open("w") as stream:
        done = subprocess.run(
            command, stdin=subprocess.DEVNULL, stdout=stream, stderr=subprocess.STDOUT, env=_plain_environment(), pass_fds=[lock]
        )
    if done.returncode:
        words = [line.strip() for line in log.read_text().splitlines() if line.strip()]
        told = [line for line in words if line.startswith(("ERROR:", "Error:"))] or words or ["no word"]
        reason = told[-1].removeprefix("ERROR:").strip().rstrip(".:")
        raise SetUpFailed(
            f"{what} could not be made ready ({reason}): check the network and the disk, then start again; .data/set-up.log has it all."
        )


def _works(venv: Path) -> bool:
    probe = "import sys, pip; print('%d.%d' % sys.version_info[:2])"
    try:
        answer = subprocess.run(
            [str(_python_of(venv)), "-I", "-c", probe], stdin=subprocess.DEVNULL, capture_output=True, text=True, env=_plain_environment()
        )
    except OSError:
        return False
    return answer.returncode == 0 and answer.stdout.strip() == _version_held(venv)


def _version_held(venv: Path) -> str:
    """Read from its own note which Python `.venv` was made for; an empty text if there is none."""
    try:
        lines = (venv / "pyvenv.cfg").read_text().splitlines()
    except OSError:
        return ""
    notes = dict(line.replace(" ", "").split("=", 1) for line in lines if "=" in line)
    return ".".join(notes.get("version", "").split(".")[:2])


def _running_version() -> str:
    return f"{sys.version_info.major}.{sys.version_info.minor}"


def _check_django() -> None:
    try:
        found = version("django")
    except PackageNotFoundError:
        raise SetUpFailed("HOOPLEDGER_NO_VENV is set and this Python has no Django: install requirements.txt, or unset it.") from None
    if not found.startswith(WANTED_DJANGO + "."):
        raise SetUpFailed(
            f"HOOPLEDGER_NO_VENV is set and this Python has Django {found}, not {WANTED_DJANGO}: install requirements.txt, or unset it."
        )


def _plain_environment() -> dict[str, str]:
    return {name: value for name, value in os.environ.items() if name not in MISLEADING}


def _python_of(venv: Path) -> Path:
    return venv / "bin" / "python"


def _stamp(venv: Path) -> Path:
    return venv / "hoopledger-stamp"
