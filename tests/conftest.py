"""The cast and the ground rules of every test."""

import pytest
from django.conf import settings

# The hashed names of static files need a collection, which no test has made.
settings.STORAGES = {
    **settings.STORAGES,
    "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"},
}
settings.WHITENOISE_USE_FINDERS = True
settings.WHITENOISE_AUTOREFRESH = True
# A fast hasher: logging in is not what most tests are about.
settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]


@pytest.fixture(autouse=True)
def _media_of_its_own(tmp_path, settings):
    settings.MEDIA_ROOT = tmp_path / "media"


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
