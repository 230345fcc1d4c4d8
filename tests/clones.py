"""Small clones of the project to be set up in tests: the real manage.py, and a wheel in place of the real packages.

The wheel is called Django and says who runs it, so nothing is fetched and every way to a wrong Django shows.
"""

import base64
import hashlib
import os
import shutil
import subprocess
import sys
import zipfile
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
BARE_PYTHON = getattr(sys, "_base_executable", sys.executable)

SAYS_WHO_RUNS = """
import os, sys

def execute_from_command_line(argv):
    import django
    print("django", django.__version__, "in", sys.prefix, "given", argv[1:])
"""

SAYS_WHO_TESTS = """
import os, sys
print("pytest in", sys.prefix, "given", sys.argv[1:], "public" if "HOOPLEDGER_HOSTS" in os.environ else "private")
sys.exit(7)
"""


@dataclass(frozen=True)
class Clone:
    """A folder with manage.py, and the environment that a start in it gets."""

    root: Path
    environment: dict[str, str]

    def start(self, *arguments: str, python: str = BARE_PYTHON, **environment: str) -> subprocess.CompletedProcess:
        """Start manage.py and wait for it."""
        return subprocess.run(
            [python, "manage.py", *arguments],
            cwd=self.root,
            env={**self.environment, **environment},
            capture_output=True,
            text=True,
            timeout=120,
        )

    def answer(self, *arguments: str) -> str:
        """Give what the command prints when it runs in `.venv` with the Django of the wheel."""
        return f"django 5.2.999 in {self.root / '.venv'} given {list(arguments)}\n"


def make_clone(folder: Path) -> Clone:
    """Copy the starting part of the project into `folder/clone`, with requirements that only the wheel meets."""
    root = folder / "clone"
    (root / "structures").mkdir(parents=True)
    shutil.copy(ROOT / "manage.py", root)
    shutil.copy(ROOT / "structures" / "__init__.py", root / "structures")
    shutil.copytree(ROOT / "structures" / "project", root / "structures" / "project", ignore=shutil.ignore_patterns("__pycache__"))
    wheels = folder / "wheels"
    wheels.mkdir()
    wheel = write_wheel(wheels, "5.2.999")
    digest = hashlib.sha256(wheel.read_bytes()).hexdigest()
    (root / "requirements.txt").write_text(f"django==5.2.999 --hash=sha256:{digest}\n")
    environment = {
        "PATH": os.environ["PATH"],
        "HOME": str(folder),
        "PIP_NO_INDEX": "1",
        "PIP_FIND_LINKS": str(wheels),
        "PIP_CONFIG_FILE": os.devnull,
    }
    return Clone(root, environment)


def write_wheel(folder: Path, version: str) -> Path:
    """Write a wheel by the wheel format's own rules: the package, and a dist-info of three files."""
    info = f"django-{version}.dist-info"
    files = {
        "django/__init__.py": f"__version__ = {version!r}\n",
        "django/core/__init__.py": "",
        "django/core/management.py": SAYS_WHO_RUNS,
        "pytest/__main__.py": SAYS_WHO_TESTS,
        f"{info}/METADATA": f"Metadata-Version: 2.1\nName: django\nVersion: {version}\n",
        f"{info}/WHEEL": "Wheel-Version: 1.0\nGenerator: tests\nRoot-Is-Purelib: true\nTag: py3-none-any\n",
    }
    lines = []
    for name, text in files.items():
        digest = base64.urlsafe_b64encode(hashlib.sha256(text.encode()).digest()).rstrip(b"=").decode()
        lines.append(f"{name},sha256={digest},{len(text.encode())}\n")
    files[f"{info}/RECORD"] = "".join([*lines, f"{info}/RECORD,,\n"])
    path = folder / f"django-{version}-py3-none-any.whl"
    with zipfile.ZipFile(path, "w") as wheel:
        for name, text in files.items():
            wheel.writestr(name, text)
    return path


def unpack_older_django(folder: Path) -> Path:
    """Unpack a Django 4.2 into a folder that PYTHONPATH can name."""
    folder.mkdir()
    with zipfile.ZipFile(write_wheel(folder, "4.2.999")) as wheel:
        wheel.extractall(folder)
    return folder
