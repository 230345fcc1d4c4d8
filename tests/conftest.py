"""The cast and the ground rules of every test."""

import logging
import os
from pathlib import Path

import pytest
from django.conf import settings
from django.test import TransactionTestCase

from structures.project.browser import find_chromium
from structures.project.environment import read_bool
from structures.project.native import SetUpFailed
from structures.project.postgres import find_server

BROWSER_TESTS = Path(__file__).parent / "browser"
BENCHMARKS = Path(__file__).parent / "bench"

# One thread for the reference libraries' algebra: on problems of three unknowns a second one only waits, and takes a core for it.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
# The hashed names of static files need a collection, which no test has made.
settings.STORAGES = {
    **settings.STORAGES,
    "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"},
}
settings.WHITENOISE_USE_FINDERS = True
settings.WHITENOISE_AUTOREFRESH = True
# A fast hasher: logging in is not what most tests are about.
settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]


def pytest_addoption(parser):
    parser.addoption("--no-browser", action="store_true", help="leave out the tests that drive a browser, and don't miss them")


def pytest_ignore_collect(collection_path, config):
    """Benchmarks print and prove nothing: they run only where they are named."""
    if collection_path == BENCHMARKS and not any("bench" in given for given in config.args):
        return True
    return None


def pytest_collection_modifyitems(config, items):
    """Leave browser tests out when that was asked for; without a browser skip them, which the end of the run counts."""
    browser = [item for item in items if BROWSER_TESTS in item.path.parents]
    for item in browser:
        item.add_marker("browser")
    if config.getoption("no_browser"):
        config.hook.pytest_deselected(items=browser)
        items[:] = [item for item in items if item not in browser]
    elif browser and not read_bool("CI", default=False) and not _browser_is_there():
        for item in browser:
            item.add_marker(pytest.mark.skip(reason="no browser"))
    if find_server() is None and not read_bool("CI", default=False):
        for item in items:
            if item.get_closest_marker("postgres"):
                item.add_marker(pytest.mark.skip(reason="no PostgreSQL server"))


def pytest_terminal_summary(terminalreporter):
    if count := _skipped(terminalreporter, "postgres"):
        terminalreporter.write_line(f"{count} tests on PostgreSQL did NOT run: no server was found (apt-get install postgresql).")
    if count := _skipped(terminalreporter, "browser"):
        terminalreporter.write_sep("=", "no browser", red=True)
        terminalreporter.write_line(f"{count} browser tests did NOT run: no Chromium was found. --no-browser leaves them out on purpose.")


def pytest_sessionfinish(session, exitstatus):
    reporter = session.config.pluginmanager.get_plugin("terminalreporter")
    if exitstatus == 0 and reporter and _skipped(reporter, "browser"):
        session.exitstatus = 3


def pytest_unconfigure(config):
    """Remove the database files of this process and of killed ones, whose next namesake would open them half written."""
    kept = settings.DATA / "tests"
    for path in kept.glob("*.sqlite3*"):
        number = path.name.split(".")[0]
        if number == str(os.getpid()) or not Path("/proc", number).exists():
            path.unlink(missing_ok=True)


def _skipped(reporter, mark: str) -> int:
    return sum(mark in report.keywords for report in reporter.stats.get("skipped", []))


def _browser_is_there() -> bool:
    try:
        return find_chromium() is not None
    except SetUpFailed:
        return False


_empty_the_tables = TransactionTestCase._fixture_teardown


def _empty_the_tables_without_rules(self):
    """Triggers would refuse to empty append-only tables, and rows would leak into the next test."""
    from structures.triggers import install_rules, lift_rules

    lift_rules()
    try:
        _empty_the_tables(self)
    finally:
        install_rules()


TransactionTestCase._fixture_teardown = _empty_the_tables_without_rules


@pytest.fixture(autouse=True)
def _media_of_its_own(tmp_path, settings):
    settings.MEDIA_ROOT = tmp_path / "media"


@pytest.fixture(autouse=True)
def _printing_without_a_word():
    """Fail on anything that the PDF library says: a skipped rule or a missing picture prints wrong and raises nothing."""
    said = []

    class Ear(logging.Handler):
        def emit(self, record):
            said.append(record.getMessage())

    ear = Ear()
    logging.getLogger("weasyprint").addHandler(ear)
    yield
    logging.getLogger("weasyprint").removeHandler(ear)
    assert said == []


@pytest.fixture
def person(db):
    """Make a person: `person("wes", "warehouse")`."""
    from django.contrib.auth import get_user_model

    def make(username: str, role: str, **fields):
        return get_user_model().objects.create_user(username=username, password="a long spoken word", role=role, **fields)

    return make


@pytest.fixture
def wes(person):
    """Wes works in the warehouse."""
    return person("wes", "warehouse")


@pytest.fixture
def sue(person):
    """Sue answers the telephone in support."""
    return person("sue", "support")


@pytest.fixture
def ada(person):
    """Ada is a grower."""
    return person("ada", "grower")


@pytest.fixture
def gil(person):
    """Gil is another grower, a stranger to all that is Ada's."""
    return person("gil", "grower")


@pytest.fixture
def olive(person):
    """Olive owns the firm."""
    return person("olive", "owner")


@pytest.fixture
def client_for():
    """Give a client signed in as a person: `client_for(wes)`; `client_for(None)` is anonymous."""
    from django.test import Client

    def sign_in(user=None) -> Client:
        client = Client()
        if user is not None:
            client.force_login(user)
        return client

    return sign_in
