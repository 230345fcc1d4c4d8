"""`manage.py demo` as a person starts it: in a copy of the project, with the real server."""

import http.cookiejar
import os
import re
import shutil
import signal
import socket
import subprocess
import sys
import urllib.error
import urllib.parse
import urllib.request
from dataclasses import dataclass, field
from pathlib import Path

import pytest

from tests.layout import APPS, ROOT

ROLES = ("warehouse", "support", "grower", "owner")


@dataclass
class Copy:
    """A copy of the project with a `.data` of its own."""

    root: Path
    port: int
    running: list[subprocess.Popen] = field(default_factory=list)

    def environment(self, **more: str) -> dict[str, str]:
        plain = {name: value for name, value in os.environ.items() if not name.startswith(("HOOPLEDGER_", "DATABASE_URL", "DJANGO_"))}
        return {**plain, "HOOPLEDGER_NO_VENV": "1", **more}

    def refused(self, *arguments: str, **environment: str) -> tuple[int, str]:
        """Start a demo that should not start; give its exit code and what it says."""
        ended = subprocess.run(
            [sys.executable, "manage.py", "demo", *arguments],
            cwd=self.root,
            env=self.environment(**environment),
            capture_output=True,
            text=True,
            timeout=60,
        )
        assert ended.stdout == ""
        return ended.returncode, ended.stderr

    def start(self, *arguments: str) -> list[str]:
        """Start the demo and give what it says up to the last login."""
        process = subprocess.Popen(
            [sys.executable, "manage.py", "demo", "--port", str(self.port), *arguments],
            cwd=self.root,
            env=self.environment(),
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
        )
        self.running.append(process)
        lines = []
        for line in process.stdout:
            lines.append(line.rstrip("\n"))
            if line.startswith("  owner"):
                return lines
        raise AssertionError("\n".join(["The demo ended before it was ready.", *lines]))

    def stop(self) -> int:
        """Stop the demo as Ctrl-C does; give its exit code."""
        process = self.running.pop()
        process.send_signal(signal.SIGINT)
        process.stdout.close()
        return process.wait(timeout=30)

    def ask(self, code: str) -> str:
        """Run a line of Python on the demo's database; give what it prints."""
        return subprocess.run(
            [sys.executable, "manage.py", "shell", "-v", "0", "-c", code],
            cwd=self.root,
            env=self.environment(HOOPLEDGER_SQLITE_NAME="demo.sqlite3", HOOPLEDGER_MEDIA_NAME="demo-media"),
            capture_output=True,
            text=True,
            check=True,
            timeout=60,
        ).stdout


def free_port() -> int:
    with socket.socket() as asked:
        asked.bind(("127.0.0.1", 0))
        return asked.getsockname()[1]


@pytest.fixture(scope="module")
def copy(tmp_path_factory):
    root = tmp_path_factory.mktemp("demo") / "copy"
    for name in (*APPS, "templates"):
        shutil.copytree(ROOT / name, root / name, ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(ROOT / "manage.py", root)
    copy = Copy(root, free_port())
    yield copy
    for process in copy.running:
        process.kill()
        process.stdout.close()
        process.wait(timeout=30)


class Guest:
    """Somebody with a browser's cookies and no browser."""

    def __init__(self, copy: Copy) -> None:
        self.address = f"http://127.0.0.1:{copy.port}"
        self.opener = urllib.request.build_opener(urllib.request.HTTPCookieProcessor(http.cookiejar.CookieJar()))

    def get(self, path: str) -> tuple[int, str]:
        try:
            with self.opener.open(self.address + path, timeout=30) as answer:
                return answer.status, answer.read().decode()
        except urllib.error.HTTPError as refused:
            return refused.code, refused.read().decode()

    def sign_in(self, name: str) -> str:
        """Sign in by the form; give the address that this leads to."""
        _, form = self.get("/sign-in/")
        token = re.search(r'name="csrfmiddlewaretoken" value="([^"]+)"', form)[1]
        given = urllib.parse.urlencode({"username": name, "password": "hoops-demo", "csrfmiddlewaretoken": token})
        with self.opener.open(self.address + "/sign-in/", given.encode(), timeout=30) as answer:
            return answer.url


# How many rows there are of everything but events, of which adding what was missing leaves one more.
COUNTS = (
    "from structures.models import *; from inventory.models import *; from inspections.models import *\n"
    "from django.apps import apps\n"
    "print({model.__name__: model.objects.count() for app in ('structures', 'inventory', 'inspections')"
    " for model in apps.get_app_config(app).get_models() if model is not Event})"
)


def test_the_demo_from_first_start_to_a_fresh_one(copy):
    said = copy.start()
    last = said[-5:]
    assert last[0] == f"The demo is ready at http://127.0.0.1:{copy.port}/ (Ctrl-C stops it). The password of all is hoops-demo."
    assert [line.split()[0] for line in last[1:]] == list(ROLES)
    assert said[:2] == ["Setting up the demo's database.", "Collecting pictures, fonts and scripts."]

    for role in ROLES:
        guest = Guest(copy)
        # A grower is led on to a page of their own; nobody is led back to the form.
        assert "/sign-in/" not in guest.sign_in(role)
        assert guest.get("/")[0] == 200
    status, page = guest.get("/no-such-page/")
    assert status == 404
    assert "Traceback" not in page
    assert "DEBUG" not in page
    style = re.search(r'href="(/static/structures/base\.[0-9a-f]{12}\.css)"', guest.get("/")[1])
    assert guest.get(style[1])[0] == 200

    assert copy.refused("--port", str(copy.port)) == (
        2,
        f"Port {copy.port} is in use: choose another, for instance --port {copy.port + 1}.\n",
    )
    code, words = copy.refused("--port", str(free_port()), "--fresh")
    assert (code, words) == (2, "A demo is running on this data already: stop it first (Ctrl-C where it runs).\n")

    first = copy.ask(COUNTS)
    assert copy.stop() == 0
    change = "from structures.models import User; User.objects.filter(username='support').{}(first_name='Changed')"
    copy.ask(change.format("update"))
    copy.ask("from structures.models import Belonging; Belonging.objects.filter(user__username='grower2').delete()")
    copy.start()
    names = "from structures.models import User; print(*User.objects.filter(username='support').values_list('first_name', flat=True))"
    assert copy.ask(names) == "Changed\n"
    # What was missing is there again, and nothing stands twice.
    assert copy.ask(COUNTS) == first
    assert copy.stop() == 0

    assert copy.start("--fresh")[0] == "Throwing the demo's data away."
    assert copy.ask(names) != "Changed\n"
    assert copy.ask(COUNTS) == first
    assert copy.stop() == 0


@pytest.mark.parametrize(
    ("name", "environment"),
    [
        ("DATABASE_URL", {"DATABASE_URL": "postgres://127.0.0.1/real"}),
        ("HOOPLEDGER_HOSTS", {"HOOPLEDGER_HOSTS": "hoops.example", "HOOPLEDGER_SECRET_KEY": "k" * 60}),
    ],
)
def test_real_data_is_never_touched(copy, name, environment):
    assert copy.refused(**environment) == (2, f"{name} is set, and the demo never touches real data: unset {name} and start again.\n")


@pytest.mark.parametrize("given", ["0", "65536", "eighty"])
def test_an_odd_port_is_told(copy, given):
    code, words = copy.refused("--port", given)
    assert code == 2
    assert words.splitlines()[-1] == f"manage.py demo: error: argument --port: '{given}' is no port: give a number from 1 to 65535."
