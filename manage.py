#!/usr/bin/env python3
"""The one command of the project: `demo`, `test`, `kit` and everything of Django's own."""

import os
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent
OLDEST = (3, 11)


def main() -> None:
    """Choose the Python, then run the command."""
    if sys.version_info < OLDEST:
        sys.exit(f"Hoopledger needs Python 3.11 or newer, and this one is {sys.version.split()[0]}: start manage.py with a newer one.")
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "structures.project.settings")
    prepare()
    # Django is imported only now, in the Python that has the right one.
    from django.core.management import execute_from_command_line

    execute_from_command_line(sys.argv)


def prepare() -> None:
    """Enter `.venv`; for `test` go on to pytest; tell in one sentence, with exit code 3, what can't be made ready."""
    from structures.project.environment import BadSetting
    from structures.project.interpreter import choose_interpreter
    from structures.project.native import SetUpFailed, ensure_pango
    from structures.project.run_tests import run_tests

    command = sys.argv[1] if len(sys.argv) > 1 else ""
    try:
        choose_interpreter(ROOT, sys.argv)
        if command == "test":
            run_tests(ROOT, sys.argv[2:])
        if command == "demo":
            ensure_pango()
    except (SetUpFailed, BadSetting) as failed:
        print(failed, file=sys.stderr)
        sys.exit(3)


if __name__ == "__main__":
    main()
