"""Native packages: who may install them does, anybody else gets the one line to type. Nothing is really installed."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from structures.project import browser, native
from structures.project.native import SetUpFailed
from tests.clones import ROOT, make_clone

NOBODY = 65534
PANGO_LINE = (
    "PDFs need the Pango libraries, and this user may not install them; type: sudo apt-get update && sudo apt-get install -y "
    "--no-install-recommends libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0"
)

# Runs manage.py as somebody without rights on a machine without Pango: the library loader is told to find nothing.
# What nobody may not be allowed to read, such as a Python in root's own folder, is loaded before the rights are dropped.
AS_NOBODY = """
import ctypes, importlib.metadata, os, sys
importlib.metadata.version("django")
import structures.project.interpreter, structures.project.run_tests
started = compile(open("manage.py").read(), "manage.py", "exec")
def nothing(name):
    raise OSError(name)
ctypes.CDLL = nothing
if os.geteuid() == 0:
    os.setgroups([])
    os.setgid({nobody})
    os.setuid({nobody})
sys.argv = ["manage.py", "{command}"]
exec(started, {{"__name__": "__main__", "__file__": "manage.py"}})
"""

WITHOUT_ENSUREPIP = """
import importlib.util, os, runpy, sys
find = importlib.util.find_spec
importlib.util.find_spec = lambda name, package=None: None if name == "ensurepip" else find(name, package)
os.geteuid = lambda: 1000
sys.argv = ["manage.py", "check"]
runpy.run_path("manage.py", run_name="__main__")
"""


def program(folder: Path, name: str, script: str) -> None:
    """Put a shell script on a fake PATH."""
    folder.mkdir(exist_ok=True)
    path = folder / name
    path.write_text(f"#!/bin/sh\n{script}\n")
    path.chmod(0o755)


@pytest.fixture
def bare_path(tmp_path, monkeypatch):
    """A PATH that holds only what the test puts there."""
    monkeypatch.setenv("PATH", str(tmp_path / "bin"))
    return tmp_path / "bin"


@pytest.fixture
def not_root(monkeypatch):
    monkeypatch.setattr(os, "geteuid", lambda: 1000)


@pytest.mark.parametrize("command", ["demo", "test"])
def test_neither_root_nor_sudo_gets_the_one_line_to_type_and_exit_code_3(command):
    ended = subprocess.run(
        [sys.executable, "-c", AS_NOBODY.format(nobody=NOBODY, command=command)],
        cwd=ROOT,
        env={"PATH": "/nowhere", "HOOPLEDGER_NO_VENV": "1", "PYTHONDONTWRITEBYTECODE": "1"},
        capture_output=True,
        text=True,
        timeout=60,
    )
    assert (ended.returncode, ended.stdout, ended.stderr) == (3, "", PANGO_LINE + "\n")


def test_a_sudo_that_asks_for_a_password_counts_as_none(bare_path, not_root):
    program(bare_path, "sudo", "exit 1")
    program(bare_path, "apt-get", "exit 0")
    with pytest.raises(SetUpFailed) as refused:
        native.ensure_pango(["libnowhere.so.0"])
    assert str(refused.value) == PANGO_LINE


def test_a_sudo_that_asks_nothing_installs(bare_path, not_root, tmp_path, capsys):
    log = tmp_path / "log"
    program(bare_path, "sudo", f'[ "$2" = true ] && exit 0\nprintf "%s\\n" "$*" >> {log}')
    program(bare_path, "apt-get", "exit 0")
    native.install(["one", "two"], "Tests need packages")
    assert log.read_text() == "-n apt-get -q update\n-n apt-get -q install -y --no-install-recommends one two\n"
    assert capsys.readouterr().err == "Tests need packages; installing one, two.\n"


def test_root_installs_without_sudo(bare_path, monkeypatch, tmp_path):
    monkeypatch.setattr(os, "geteuid", lambda: 0)
    log = tmp_path / "log"
    program(bare_path, "apt-get", f'echo "$DEBIAN_FRONTEND $@" >> {log}')
    native.install(["one"], "Tests need a package")
    assert log.read_text() == "noninteractive -q update\nnoninteractive -q install -y --no-install-recommends one\n"


def test_an_installation_that_fails_says_why_and_what_to_type(bare_path, monkeypatch):
    monkeypatch.setattr(os, "geteuid", lambda: 0)
    program(bare_path, "apt-get", 'echo "E: Unable to fetch some archives." >&2; exit 100')
    with pytest.raises(SetUpFailed) as refused:
        native.install(["one"], "Tests need a package")
    assert str(refused.value) == (
        "Tests need a package, and apt-get could not install them (E: Unable to fetch some archives); check the network, "
        "then type: sudo apt-get update && sudo apt-get install -y --no-install-recommends one"
    )


def test_a_system_without_apt_names_the_packages(bare_path, monkeypatch):
    monkeypatch.setattr(os, "geteuid", lambda: 0)
    with pytest.raises(SetUpFailed) as refused:
        native.install(["one", "two"], "Tests need packages")
    assert str(refused.value) == "Tests need packages, and this system has no apt-get: install one, two by its own means."


def test_libraries_that_load_need_nothing(bare_path):
    native.ensure_pango(["libc.so.6"])


def test_no_ensurepip_gets_the_line_for_it(tmp_path):
    # `ensurepip` is what Debian keeps in a package of its own.
    clone = make_clone(tmp_path)
    ended = subprocess.run(
        [sys.executable, "-c", WITHOUT_ENSUREPIP],
        cwd=clone.root,
        env={**clone.environment, "PATH": "/nowhere"},
        capture_output=True,
        text=True,
        timeout=60,
    )
    package = f"python{sys.version_info.major}.{sys.version_info.minor}-venv"
    assert (ended.returncode, ended.stderr) == (
        3,
        f"This Python can't make virtual environments ({package} is missing), and this user may not install them; "
        f"type: sudo apt-get update && sudo apt-get install -y --no-install-recommends {package}\n",
    )


def test_chromium_path_comes_first(tmp_path, monkeypatch):
    program(tmp_path, "mine", "echo Chromium 1")
    monkeypatch.setenv("CHROMIUM_PATH", str(tmp_path / "mine"))
    assert browser.find_chromium() == tmp_path / "mine"


def test_a_chromium_path_that_does_not_start_is_told_and_not_passed_over(tmp_path, monkeypatch):
    monkeypatch.setenv("CHROMIUM_PATH", str(tmp_path / "none"))
    with pytest.raises(SetUpFailed) as refused:
        browser.find_chromium()
    assert str(refused.value) == (
        f"CHROMIUM_PATH is '{tmp_path / 'none'}', which does not start: name the program file of a Chromium, or unset it."
    )


def test_a_stub_is_passed_over_for_a_browser_that_playwright_fetched(tmp_path, monkeypatch):
    program(tmp_path, "chromium", "echo 'install the snap' >&2; exit 1")
    fetched = tmp_path / "kept" / "chromium-1200" / "chrome-linux"
    fetched.mkdir(parents=True)
    monkeypatch.delenv("CHROMIUM_PATH", raising=False)
    monkeypatch.setenv("PLAYWRIGHT_BROWSERS_PATH", str(tmp_path / "kept"))
    monkeypatch.setattr(browser, "DEBIAN_CHROMIUM", tmp_path / "chromium")
    assert browser.find_chromium() is None
    program(fetched, "chrome", "echo Chromium 2")
    assert browser.find_chromium() == fetched / "chrome"


def test_without_a_browser_on_another_system_the_ways_to_one_are_named(monkeypatch):
    monkeypatch.setattr(browser, "find_chromium", lambda: None)
    monkeypatch.setattr(browser, "_system", lambda: "ubuntu")
    with pytest.raises(SetUpFailed) as refused:
        browser.ensure_chromium()
    assert str(refused.value) == (
        "Browser tests need a Chromium, and this system's package manager has none that starts: "
        "set CHROMIUM_PATH to one, or type: .venv/bin/playwright install chromium."
    )
