"""Settings: one file, read once from the environment.

Naming HOOPLEDGER_HOSTS is what makes an installation public: from then on pages travel over HTTPS only,
the secret key must be given and debug is refused. Without it only this machine is answered.
"""

import os
from pathlib import Path

import dj_database_url
from csp.constants import NONE, SELF
from django.core.exceptions import ImproperlyConfigured

from structures.project.environment import BadSetting, read_bool, read_list, read_secret, read_text
from structures.project.secret import local_secret_key

ROOT = Path(__file__).resolve().parents[2]
DATA = ROOT / ".data"

try:
    HOSTS = read_list("HOOPLEDGER_HOSTS")
    DEBUG = read_bool("HOOPLEDGER_DEBUG", default=False)
    BEHIND_PROXY = read_bool("HOOPLEDGER_BEHIND_PROXY", default=False)
    SECRET_KEY = read_secret("HOOPLEDGER_SECRET_KEY", least=50)
except BadSetting as bad:
    raise ImproperlyConfigured(str(bad)) from None

PRODUCTION = bool(HOSTS)
if PRODUCTION and DEBUG:
    raise ImproperlyConfigured("HOOPLEDGER_DEBUG is on while HOOPLEDGER_HOSTS names public hosts: leave out one of the two.")
if PRODUCTION and not SECRET_KEY:
    raise ImproperlyConfigured("HOOPLEDGER_SECRET_KEY is missing: with HOOPLEDGER_HOSTS set, give a key of at least 50 random characters.")
if not SECRET_KEY:
    SECRET_KEY = local_secret_key(DATA / "secret-key")

ALLOWED_HOSTS = HOSTS or ["localhost", "127.0.0.1", "[::1]"]

INSTALLED_APPS = [
    "structures",
    "inventory",
    "inspections",
    "structures.apps.OwnersAdminConfig",
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "whitenoise.runserver_nostatic",
    "django.contrib.staticfiles",
    "django_filters",
    "django_tables2",
    "csp",
]

MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "csp.middleware.CSPMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "structures.middleware.plain_addresses",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
]

ROOT_URLCONF = "structures.project.urls"
WSGI_APPLICATION = "structures.project.wsgi.application"

TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [ROOT / "templates"],
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
            ],
        },
    },
]

# --- Data -------------------------------------------------------------------------------------------

# A file of its own lets `manage.py demo` stand beside real data; nothing else sets it.
SQLITE_FILE = DATA / read_text("HOOPLEDGER_SQLITE_NAME", "hoopledger.sqlite3")

SQLITE = {
    "ENGINE": "django.db.backends.sqlite3",
    "NAME": SQLITE_FILE,
    "OPTIONS": {
        # A deferred transaction takes its write lock late and then loses to "database is locked";
        # an immediate one waits its turn from the start.
        "transaction_mode": "IMMEDIATE",
        "timeout": 20,
        "init_command": ("PRAGMA journal_mode=WAL;PRAGMA synchronous=NORMAL;PRAGMA cache_size=-20000;PRAGMA mmap_size=134217728;"),
    },
    # A file, since an in-memory database is never in WAL mode and blocks a live server; named by process,
    # so that two runs of the tests in one tree never meet.
    "TEST": {"NAME": DATA / "tests" / f"{os.getpid()}.sqlite3"},
}

DATABASE_URL = read_text("DATABASE_URL")
DATABASES = {"default": dj_database_url.parse(DATABASE_URL, conn_max_age=60) if DATABASE_URL else SQLITE}
if not DATABASE_URL:
    (DATA / "tests").mkdir(parents=True, exist_ok=True)

DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

MEDIA_ROOT = DATA / read_text("HOOPLEDGER_MEDIA_NAME", "media")
STATIC_ROOT = DATA / "static"
STATIC_URL = "/static/"

STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage"},
    "staticfiles": {
        "BACKEND": (
            "django.contrib.staticfiles.storage.StaticFilesStorage" if DEBUG else "whitenoise.storage.CompressedManifestStaticFilesStorage"
        )
    },
}
WHITENOISE_USE_FINDERS = DEBUG
WHITENOISE_AUTOREFRESH = DEBUG

FILE_UPLOAD_HANDLERS = [
    "structures.uploads.Ceiling",
    "django.core.files.uploadhandler.MemoryFileUploadHandler",
    "django.core.files.uploadhandler.TemporaryFileUploadHandler",
]
# Photos are handed out by views alone, so nobody but the server reads the files.
FILE_UPLOAD_PERMISSIONS = 0o600
DATA_UPLOAD_MAX_NUMBER_FIELDS = 5000  # a walk round a long structure posts a few fields for each place

# --- People -----------------------------------------------------------------------------------------

AUTH_USER_MODEL = "structures.User"
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": "django.contrib.auth.password_validation.UserAttributeSimilarityValidator"},
    {"NAME": "django.contrib.auth.password_validation.MinimumLengthValidator", "OPTIONS": {"min_length": 10}},
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
]
LOGIN_URL = "structures:sign-in"
LOGIN_REDIRECT_URL = "/"
LOGOUT_REDIRECT_URL = "/"

# --- Safe ways --------------------------------------------------------------------------------------

CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": [SELF],
        "script-src": [SELF],
        "style-src": [SELF],
        # A photo is shown from the phone's own memory (blob:) before it is sent.
        "img-src": [SELF, "data:", "blob:"],
        "font-src": [SELF],
        "connect-src": [SELF],
        "object-src": [NONE],
        "base-uri": [SELF],
        "form-action": [SELF],
        "frame-ancestors": [NONE],
    },
}
X_FRAME_OPTIONS = "DENY"
SESSION_COOKIE_SECURE = PRODUCTION
CSRF_COOKIE_SECURE = PRODUCTION
SECURE_SSL_REDIRECT = PRODUCTION
SECURE_HSTS_SECONDS = 31_536_000 if PRODUCTION else 0
SECURE_HSTS_INCLUDE_SUBDOMAINS = PRODUCTION
SECURE_HSTS_PRELOAD = PRODUCTION
if BEHIND_PROXY:
    SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https")
    CSRF_TRUSTED_ORIGINS = [f"https://{host.lstrip('.')}" for host in HOSTS]

# --- Words and times --------------------------------------------------------------------------------

LANGUAGE_CODE = "en-us"
USE_I18N = False
USE_TZ = True
TIME_ZONE = "UTC"
DATE_FORMAT = "j M Y"
DATETIME_FORMAT = "j M Y, H:i"
TIME_FORMAT = "H:i"
# Templates ask the language for its formats, and ours are the same in every one.
FORMAT_MODULE_PATH = ["structures.project.formats"]

LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "handlers": {"console": {"class": "logging.StreamHandler"}},
    # Django's own default mails errors and prints them only in debug: here they go to standard error always.
    "loggers": {"django": {"handlers": ["console"], "level": "WARNING", "propagate": False}},
}
