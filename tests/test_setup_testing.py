"""`manage.py test`: what it sees to, what it hands over to pytest, and what the end of a run says without a browser."""

import os
import subprocess
import sys

import pytest

from tests.clones import ROOT, Clone, make_clone

NO_CHROMIUM = "CHROMIUM_PATH is '/nowhere', which does not start: name the program file of a Chromium, or unset it.\n"


@pytest.fixture(scope="module")
def clone(tmp_path_factory) -> Clone:
    """A clone that is set up, with a pytest that says what it was given and ends with 7."""
    folder = tmp_path_factory.mktemp("testing")
    browser = folder / "chromium"
    browser.write_text("#!/bin/sh\necho Chromium 1\n")
    browser.chmod(0o755)
    clone = make_clone(folder)
    clone.environment["CHROMIUM_PATH"] = str(browser)
    assert clone.start("check").returncode == 0
    return clone


def said(clone: Clone, *arguments: str) -> str:
    return f"pytest in {clone.root / '.venv'} given {list(arguments)} private\n"


def test_arguments_and_exit_code_are_passed_on(clone):
    ended = clone.start("test", "tests/test_x.py", "-k", "one or two", HOOPLEDGER_HOSTS="hoops.example")
    assert (ended.returncode, ended.stdout, ended.stderr) == (7, said(clone, "tests/test_x.py", "-k", "one or two"), "")


def test_the_whole_run_uses_both_cores_and_names_the_slow_ones(clone):
    assert clone.start("test").stdout == said(clone, "-n", "2", "--durations=20")


def test_without_a_browser_the_rest_runs_and_it_is_said(clone):
    ended = clone.start("test", "-x", CHROMIUM_PATH="/nowhere")
    assert (ended.returncode, ended.stdout, ended.stderr) == (7, said(clone, "-x"), NO_CHROMIUM)


def test_under_ci_a_missing_browser_fails_at_once(clone):
    ended = clone.start("test", CHROMIUM_PATH="/nowhere", CI="true")
    assert (ended.returncode, ended.stdout, ended.stderr) == (3, "", NO_CHROMIUM)


def test_no_browser_asks_for_none(clone):
    ended = clone.start("test", "--no-browser", CHROMIUM_PATH="/nowhere", CI="true")
    assert (ended.returncode, ended.stdout, ended.stderr) == (7, said(clone, "--no-browser"), "")


# --- The end of a run, with the real pytest and the real conftest on a tree of two tests -----------


@pytest.fixture
def two_tests(tmp_path):
    """A tree with our conftest, one test that needs a browser and one that does not."""
    folder = tmp_path / "tests"
    (folder / "browser").mkdir(parents=True)
    (folder / "conftest.py").write_text((ROOT / "tests" / "conftest.py").read_text())
    (folder / "test_plain.py").write_text("def test_plain():\n    pass\n")
    (folder / "browser" / "test_page.py").write_text("def test_page():\n    pass\n")

    def run(*arguments: str, **environment: str) -> subprocess.CompletedProcess:
        return subprocess.run(
            [sys.executable, "-m", "pytest", "-c", str(ROOT / ".pytest.ini"), "--rootdir", str(tmp_path), *arguments, str(folder)],
            cwd=ROOT,
            env={**os.environ, "CI": "", "CHROMIUM_PATH": "/nowhere", "PYTHONPATH": str(ROOT), **environment},
            capture_output=True,
            text=True,
            timeout=120,
        )

    return run


MISSED = "1 browser tests did NOT run: no Chromium was found. --no-browser leaves them out on purpose."


@pytest.mark.parametrize("workers", [(), ("-n", "1")])
def test_the_end_counts_the_browser_tests_that_did_not_run(two_tests, workers):
    ended = two_tests(*workers)
    assert MISSED in ended.stdout.splitlines()
    assert "1 passed, 1 skipped" in ended.stdout.splitlines()[-1]
    assert ended.returncode == 3


def test_left_out_on_purpose_they_are_not_missed(two_tests):
    ended = two_tests("--no-browser")
    assert "did NOT run" not in ended.stdout
    assert "1 passed, 1 deselected" in ended.stdout.splitlines()[-1]
    assert ended.returncode == 0


def test_under_ci_none_is_skipped(two_tests):
    ended = two_tests(CI="true")
    # This page needs no browser really, so it passes: what matters is that it was not skipped.
    assert "2 passed" in ended.stdout.splitlines()[-1]
    assert ended.returncode == 0
