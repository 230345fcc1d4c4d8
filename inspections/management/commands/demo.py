"""Start the whole product with invented data on this machine."""

from __future__ import annotations

import fcntl
import os
import shutil
import sys
from argparse import ArgumentTypeError
from io import TextIOWrapper
from typing import Any, NoReturn

from django.conf import settings
from django.core.management import call_command
from django.core.management.base import BaseCommand, CommandParser
from django.db import connections

import inspections.demo_data
import inventory.demo_data
import structures.demo_data
from inspections.management.demo_server import ADDRESS, CannotListen, DemoServer, take_port

# What the demo runs under. A person's own variables must not turn it to their data or their debug pages.
OWN_PLACE = {"HOOPLEDGER_SQLITE_NAME": "demo.sqlite3", "HOOPLEDGER_MEDIA_NAME": "demo-media", "HOOPLEDGER_DEBUG": "0"}
PASSWORD = "hoops-demo"
LOGINS = {
    "warehouse": "picks and ships",
    "support": "answers and sells",
    "grower": "walks round (Ada Quill, Quillmere Croft)",
    "owner": "sees and settles everything",
}


class Command(BaseCommand):
    """Set up the demo's own database, load what is missing and serve it until Ctrl-C."""

    help = (
        "Start the product with invented data on 127.0.0.1, in a database of its own (.data/demo.sqlite3). A second start adds "
        "what is missing and changes nothing that a person changed."
    )
    requires_system_checks: list[str] = []

    def add_arguments(self, parser: CommandParser) -> None:
        """Take --port and --fresh."""
        parser.add_argument("--port", type=_port, default=8000, help="the port to listen on (8000)")
        parser.add_argument("--fresh", action="store_true", help="throw the demo's data away and start over")

    def handle(self, *, port: int, fresh: bool, **options: Any) -> None:
        """Refuse first, then prepare, then serve."""
        self._refuse()
        if any(os.environ.get(name) != value for name, value in OWN_PLACE.items()):
            # Settings are read once, so the change of place is a new start of the same command.
            os.execve(sys.executable, [sys.executable, *sys.argv], {**os.environ, **OWN_PLACE})
        try:
            listener = take_port(port)
        except CannotListen as busy:
            self._end(str(busy))
        with self._alone():
            if fresh:
                self._throw_away()
            self._prepare()
            # A worker must not share a connection that the seeding opened.
            connections.close_all()
            DemoServer(listener, when_ready=lambda: self._welcome(port)).run()

    def _refuse(self) -> None:
        for name, given in (("DATABASE_URL", settings.DATABASE_URL), ("HOOPLEDGER_HOSTS", settings.PRODUCTION)):
            if given:
                self._end(f"{name} is set, and the demo never touches real data: unset {name} and start again.")

    def _alone(self) -> TextIOWrapper:
        """Hold the demo's lock, which the kernel takes back with the last process of this demo."""
        lock = (settings.DATA / "demo.lock").open("w")
        try:
            fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            self._end("A demo is running on this data already: stop it first (Ctrl-C where it runs).")
        return lock

    def _throw_away(self) -> None:
        self._say("Throwing the demo's data away.")
        for path in settings.DATA.glob("demo.sqlite3*"):
            path.unlink()
        shutil.rmtree(settings.MEDIA_ROOT, ignore_errors=True)

    def _prepare(self) -> None:
        self._say("Setting up the demo's database.")
        call_command("migrate", verbosity=0, interactive=False)
        self._say("Collecting pictures, fonts and scripts.")
        call_command("collectstatic", verbosity=0, interactive=False)
        for app in (structures, inventory, inspections):
            app.demo_data.load(self._say)

    def _welcome(self, port: int) -> None:
        self._say("")
        self._say(f"The demo is ready at http://{ADDRESS}:{port}/ (Ctrl-C stops it). The password of all is {PASSWORD}.")
        for name, does in LOGINS.items():
            self._say(f"  {name:<10} {does}")

    def _end(self, sentence: str) -> NoReturn:
        """End with one sentence and nothing before it, where Django's own error would put its class."""
        self.stderr.write(sentence)
        sys.exit(2)

    def _say(self, line: str) -> None:
        self.stdout.write(line)
        self.stdout.flush()


def _port(given: str) -> int:
    try:
        port = int(given)
    except ValueError:
        port = 0
    if not 1 <= port <= 65535:
        raise ArgumentTypeError(f"{given!r} is no port: give a number from 1 to 65535.")
    return port
