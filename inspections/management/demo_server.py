"""The server of the demo: the product's real one, on this machine only."""

from __future__ import annotations

import socket
from collections.abc import Callable
from typing import Any

from django.core.wsgi import get_wsgi_application
from gunicorn.app.base import BaseApplication

ADDRESS = "127.0.0.1"


class CannotListen(Exception):
    """The port can't be had; the message is one sentence with what would do."""


def take_port(port: int) -> socket.socket:
    """Take a port of this machine before any work is done. Raises CannotListen when somebody has it or it can't be ours."""
    taken = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    # So that a demo stopped a moment ago does not keep the next one waiting.
    taken.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        taken.bind((ADDRESS, port))
        taken.listen()
    except OSError as error:
        taken.close()
        why = "may not be used by you" if isinstance(error, PermissionError) else "is in use"
        raise CannotListen(f"Port {port} {why}: choose another, for instance --port {other_port(port)}.") from error
    return taken


def other_port(port: int) -> int:
    """Name a port to try instead: the next one, or 8001 where there is no next or only root may have it."""
    return port + 1 if 1024 <= port < 65535 else 8001


class DemoServer(BaseApplication):
    """Gunicorn with two workers on a socket that is open already."""

    def __init__(self, listener: socket.socket, *, when_ready: Callable[[], None]) -> None:
        self.listener = listener
        self.when_ready = when_ready
        super().__init__()

    def load_config(self) -> None:
        """Set what the command line of gunicorn would set."""
        settings = {
            # Gunicorn closes the number it is given, so it gets one of its own.
            "bind": [f"fd://{self.listener.dup().detach()}"],
            "workers": 2,
            "threads": 4,
            "loglevel": "warning",
            "proc_name": "hoopledger-demo",
            "when_ready": lambda _: self.when_ready(),
        }
        for name, value in settings.items():
            self.cfg.set(name, value)

    def load(self) -> Any:
        """Give the application; every worker calls this once."""
        return get_wsgi_application()
