"""manage.py in a fresh clone, before anything is installed. Each test sets up a small real `.venv` without a network."""

import os
import shutil
import signal
import subprocess
import sys
import time
from dataclasses import replace
from pathlib import Path

import pytest

from tests.clones import BARE_PYTHON, Clone, make_clone, unpack_older_django

BUILDS = "Making .venv.\nInstalling the packages of requirements.txt into .venv (once; about half a minute).\nReady.\n"


@pytest.fixture
def clone(tmp_path) -> Clone:
    return make_clone(tmp_path)


@pytest.fixture(scope="module")
def ready(tmp_path_factory) -> Clone:
    """A clone that was started once; tests that share it leave it ready."""
    clone = make_clone(tmp_path_factory.mktemp("ready"))
    first = clone.start("kit", "--json")
    assert (first.returncode, first.stdout, first.stderr) == (0, clone.answer("kit", "--json"), BUILDS)
    return clone


@pytest.fixture
def started(ready, tmp_path) -> Clone:
    """A clone that was started once, and may be changed: a copy of the ready one, which takes less time than a set-up."""
    return replace(ready, root=shutil.copytree(ready.root, tmp_path / "clone", symlinks=True))


def test_a_second_start_runs_no_pip_and_touches_no_network(ready, tmp_path):
    # Both Pythons load this file first: the outer one by PYTHONPATH, the inner one from its own packages.
    seen = tmp_path / "seen"
    watch = (
        "import sys\n"
        "def note(event, args):\n"
        "    if event.startswith(('subprocess.', 'os.system', 'os.fork', 'os.posix_spawn', 'os.exec', 'socket.')):\n"
        f"        open({str(seen)!r}, 'a').write(event + ' ' + str(args[0]) + '\\n')\n"
        "sys.addaudithook(note)\n"
    )
    (tmp_path / "sitecustomize.py").write_text(watch)
    inner = next((ready.root / ".venv" / "lib").glob("python3*/site-packages")) / "sitecustomize.py"
    inner.write_text(watch)
    second = ready.start("check", PYTHONPATH=str(tmp_path))
    inner.unlink()
    assert (second.returncode, second.stdout, second.stderr) == (0, ready.answer("check"), "")
    assert seen.read_text() == f"os.exec {ready.root / '.venv' / 'bin' / 'python'}\n"


def test_an_older_django_on_the_path_is_not_used(ready, tmp_path):
    older = unpack_older_django(tmp_path / "older")
    bare = ready.start("check", PYTHONPATH=str(older))
    inside = ready.start("check", python=str(ready.root / ".venv" / "bin" / "python"), PYTHONPATH=str(older))
    assert (bare.stdout, bare.stderr) == (ready.answer("check"), "")
    assert (inside.stdout, inside.stderr) == (ready.answer("check"), "")


def test_an_older_django_on_the_path_does_not_disturb_the_set_up(clone, tmp_path):
    older = unpack_older_django(tmp_path / "older")
    first = clone.start("check", PYTHONPATH=str(older))
    assert (first.stdout, first.stderr) == (clone.answer("check"), BUILDS)


def test_another_active_virtual_environment_is_left_alone(clone, tmp_path):
    other = tmp_path / "other"
    subprocess.run([BARE_PYTHON, "-m", "venv", "--without-pip", other], check=True)
    before = sorted(other.rglob("*"))
    first = clone.start(
        "check", python=str(other / "bin" / "python"), VIRTUAL_ENV=str(other), PATH=f"{other / 'bin'}:{os.environ['PATH']}", PIP_USER="1"
    )
    assert (first.stdout, first.stderr) == (clone.answer("check"), BUILDS)
    assert sorted(other.rglob("*")) == before
    # The new one stands on the system's Python and outlives the other.
    shutil.rmtree(other)
    assert clone.start("check").stdout == clone.answer("check")


def test_a_set_up_killed_half_way_is_made_anew(clone, tmp_path):
    started = _start_with_slow_pip(clone, tmp_path)
    _wait_for(clone.root / ".venv" / "pyvenv.cfg", started)
    os.killpg(started.pid, signal.SIGKILL)
    started.wait()
    assert not (clone.root / ".venv" / "hoopledger-stamp").exists()
    # Half a package that pip would take for a whole one.
    packages = next((clone.root / ".venv" / "lib").glob("python3*")) / "site-packages" / "django-5.2.999.dist-info"
    packages.mkdir(parents=True, exist_ok=True)
    (packages / "METADATA").write_text("Metadata-Version: 2.1\nName: django\nVersion: 5.2.999\n")
    second = clone.start("check")
    assert (second.returncode, second.stdout, second.stderr) == (0, clone.answer("check"), BUILDS)


def test_two_starts_at_once_build_it_once(clone):
    def start() -> subprocess.Popen:
        return subprocess.Popen([BARE_PYTHON, "manage.py", "check"], cwd=clone.root, env=clone.environment, stdout=-1, stderr=-1, text=True)

    starts = [start(), start()]
    ends = [one.communicate(timeout=120) for one in starts]
    assert [out for out, _ in ends] == [clone.answer("check")] * 2
    assert sorted(err for _, err in ends) == sorted([BUILDS, "Another start is setting up .venv; waiting for it.\n"])


def test_new_requirements_are_installed_at_the_next_start(started):
    requirements = started.root / "requirements.txt"
    requirements.write_text("# more to come\n" + requirements.read_text())
    second = started.start("check")
    assert (second.returncode, second.stdout, second.stderr) == (0, started.answer("check"), BUILDS.removeprefix("Making .venv.\n"))


def test_a_venv_of_another_python_is_made_anew(started):
    note = started.root / ".venv" / "pyvenv.cfg"
    stamp = started.root / ".venv" / "hoopledger-stamp"
    # As after an upgrade of the system: what `.venv` notes is not what its Python is.
    running = f"{sys.version_info.major}.{sys.version_info.minor}"
    note.write_text(note.read_text().replace(f"version = {running}.", "version = 3.2."))
    stamp.write_text(stamp.read_text().replace(running, "3.2", 1))
    second = started.start("check")
    assert (second.returncode, second.stdout, second.stderr) == (0, started.answer("check"), BUILDS)


def test_without_a_network_one_sentence_says_so(clone):
    closed = {"PIP_NO_INDEX": "0", "PIP_FIND_LINKS": "", "PIP_INDEX_URL": "http://127.0.0.1:9/simple", "PIP_RETRIES": "0"}
    failed = clone.start("check", **closed)
    assert (failed.returncode, failed.stdout) == (3, "")
    assert failed.stderr.splitlines()[2:] == [
        "The packages of requirements.txt could not be made ready (No matching distribution found for django==5.2.999): "
        "check the network and the disk, then start again; .data/set-up.log has it all."
    ]
    assert clone.start("check").stdout == clone.answer("check")


def test_the_variable_for_containers_takes_the_python_as_it_is(clone, tmp_path):
    bare = clone.start("check", HOOPLEDGER_NO_VENV="1")
    older = clone.start("check", HOOPLEDGER_NO_VENV="1", PYTHONPATH=str(unpack_older_django(tmp_path / "older")))
    right = clone.start("check", HOOPLEDGER_NO_VENV="1", PYTHONPATH=str(next((tmp_path / "wheels").iterdir())))
    assert (bare.returncode, bare.stderr) == (
        3,
        "HOOPLEDGER_NO_VENV is set and this Python has no Django: install requirements.txt, or unset it.\n",
    )
    assert (older.returncode, older.stderr) == (
        3,
        "HOOPLEDGER_NO_VENV is set and this Python has Django 4.2.999, not 5.2: install requirements.txt, or unset it.\n",
    )
    assert (right.returncode, right.stdout, right.stderr) == (0, f"django 5.2.999 in {sys.base_prefix} given ['check']\n", "")
    assert not (clone.root / ".venv").exists()


def test_an_odd_value_of_the_variable_names_itself(clone):
    odd = clone.start("check", HOOPLEDGER_NO_VENV="perhaps")
    assert (odd.returncode, odd.stderr) == (
        3,
        "HOOPLEDGER_NO_VENV is 'perhaps', which is neither yes nor no: set it to 1 or 0, or leave it out.\n",
    )


def _start_with_slow_pip(clone: Clone, folder: Path) -> subprocess.Popen:
    # pip reads a pipe that nobody fills, so that the kill meets the set-up half way however slow the test is.
    os.mkfifo(folder / "never-filled")
    return subprocess.Popen(
        [BARE_PYTHON, "manage.py", "check"],
        cwd=clone.root,
        env={**clone.environment, "PIP_CONSTRAINT": str(folder / "never-filled")},
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        start_new_session=True,
    )


def _wait_for(path: Path, process: subprocess.Popen) -> None:
    until = time.monotonic() + 60
    while not path.exists():
        assert process.poll() is None, "the set-up ended before it could be killed"
        assert time.monotonic() < until, f"{path} did not come"
        time.sleep(0.05)
