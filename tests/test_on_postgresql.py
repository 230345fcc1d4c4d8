"""What must hold on both databases, run once more on a PostgreSQL server of its own: triggers, ledger, keys, two at a time."""

import os
import pwd
import shutil
import socket
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest

from structures.project.postgres import find_server
from tests.layout import ROOT

HOLDS_ON_BOTH = (
    "tests/structures/test_triggers.py",
    "tests/structures/test_requests.py",
    "tests/structures/test_requests_at_once.py",
    "tests/structures/test_freeze_design.py",
    "tests/inventory/test_ledger.py",
    "tests/inventory/test_ledger_at_once.py",
    "tests/inventory/test_stock_guards.py",
    "tests/inventory/test_pick_at_once.py",
    "tests/inventory/test_order_line_through.py",
    "tests/inventory/test_find.py",
    "tests/inspections/test_observing.py",
)


def as_servant(command: list[str]) -> None:
    """Run a program of the server, which refuses to work as root, as the user that Debian made for it."""
    servant = pwd.getpwnam("postgres") if os.geteuid() == 0 else None
    given = {"user": servant.pw_uid, "group": servant.pw_gid, "extra_groups": []} if servant else {}
    subprocess.run(command, check=True, capture_output=True, cwd="/", timeout=120, **given)


@pytest.fixture
def address():
    """A server on a free port of this machine, thrown away afterwards; gives the DATABASE_URL that leads to it."""
    programs = find_server()
    assert programs is not None, "Tests on PostgreSQL need its server: apt-get install postgresql."
    folder = Path(tempfile.mkdtemp(prefix="hoopledger-"))
    if os.geteuid() == 0:
        shutil.chown(folder, "postgres", "postgres")
    with socket.socket() as asked:
        asked.bind(("127.0.0.1", 0))
        port = asked.getsockname()[1]
    data = str(folder / "data")
    control = [str(programs / "pg_ctl"), "-D", data, "-w", "-l", str(folder / "log")]
    as_servant([str(programs / "initdb"), "-D", data, "-A", "trust", "-U", "hoop", "--no-sync"])
    # Nothing here outlives the test, so nothing waits for the disk.
    as_servant([*control, "-o", f"-p {port} -h 127.0.0.1 -k {folder} -c fsync=off", "start"])
    yield f"postgres://hoop@127.0.0.1:{port}/postgres"
    as_servant([*control, "-m", "immediate", "stop"])
    shutil.rmtree(folder)


@pytest.mark.postgres
def test_what_must_hold_on_both_databases_holds_on_postgresql(address):
    ended = subprocess.run(
        [sys.executable, "-m", "pytest", "--no-browser", "-p", "no:cacheprovider", "-p", "no:xdist", "-q", *HOLDS_ON_BOTH],
        cwd=ROOT,
        env={**{name: value for name, value in os.environ.items() if not name.startswith("PYTEST_")}, "DATABASE_URL": address},
        capture_output=True,
        text=True,
        timeout=900,
    )
    assert ended.returncode == 0, ended.stdout[-5000:] + ended.stderr[-2000:]
