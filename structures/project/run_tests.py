"""What `manage.py test` does: see to native packages, then hand over to pytest. Standard library only."""

import os
import sys
from pathlib import Path

from structures.project.browser import ensure_chromium
from structures.project.environment import read_bool
from structures.project.native import SetUpFailed, ensure_pango, say
from structures.project.postgres import ensure_server

# The whole run, when nothing else was asked for: both cores, and what was slow.
WHOLE_RUN = ["-n", "2", "--durations=20"]
# A public installation's variables would turn the tests to HTTPS and to its database.
LEFT_OUT = ("HOOPLEDGER_HOSTS", "HOOPLEDGER_BEHIND_PROXY", "HOOPLEDGER_SQLITE_NAME", "HOOPLEDGER_MEDIA_NAME")


def run_tests(root: Path, arguments: list[str]) -> None:
    """Replace this process by pytest with these arguments, so that its exit code is ours.

    Raises SetUpFailed when PDFs can't be printed, and with CI=true also when there is no browser. Otherwise a missing
    browser is told here, the other tests run, and the end of the run counts those that did not.
    """
    ensure_pango()
    if "--no-browser" not in arguments:
        try:
            ensure_chromium()
        except SetUpFailed as failed:
            if read_bool("CI", default=False):
                raise
            say(str(failed))
    # A database server is too much to put on somebody's machine unasked; without one its tests are counted as not run.
    if read_bool("CI", default=False) and not arguments:
        ensure_server()
    environment = {name: value for name, value in os.environ.items() if name not in LEFT_OUT}
    os.chdir(root)
    os.execve(sys.executable, [sys.executable, "-m", "pytest", *(arguments or WHOLE_RUN)], environment)
