"""Find the programs of a PostgreSQL server for the tests that run on one. Standard library only."""

import shutil
from pathlib import Path

from structures.project.native import SetUpFailed, install

DEBIAN_SERVERS = Path("/usr/lib/postgresql")


def find_server() -> Path | None:
    """Give the folder with `initdb` and `pg_ctl`: the newest of Debian's, or the one on the path; None if there is none."""
    kept = sorted(DEBIAN_SERVERS.glob("*/bin/initdb"), key=lambda path: int(path.parts[-3]) if path.parts[-3].isdigit() else 0)
    found = shutil.which("initdb")
    candidates = [path.parent for path in reversed(kept)] + ([Path(found).resolve().parent] if found else [])
    return next((folder for folder in candidates if (folder / "pg_ctl").exists()), None)


def ensure_server() -> None:
    """See that there is a server, installing Debian's where that is allowed. Raises SetUpFailed with what would do."""
    if find_server() is None:
        install(["postgresql"], "Tests on PostgreSQL need its server")
        if find_server() is None:
            raise SetUpFailed("PostgreSQL was installed and its initdb is not in /usr/lib/postgresql: put it on the path.")
