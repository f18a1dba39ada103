"""Settings of the desk. Reading this file writes nothing: `start.prepare` makes the folder and its secrets first."""

import secrets

from halfsplit.desk.folder import ACCESS_KEY, DATABASE, SIGNING_SECRET, data_folder, read_secret

HOME = data_folder()
# Where no folder was prepared, as for tests and the type checker: one that nobody can guess and that is gone with us.
SECRET_KEY = read_secret(HOME, SIGNING_SECRET) or secrets.token_urlsafe(48)
HALFSPLIT_ACCESS_KEY = read_secret(HOME, ACCESS_KEY)

DEBUG = False
# Which names are ours is asked anew for every request, because a telephone's or a laptop's address changes while the
# desk runs: `guard.hosts` refuses every other name before any page is reached.
ALLOWED_HOSTS = ["*"]

INSTALLED_APPS = ["django.contrib.staticfiles", "halfsplit.desk.records", "halfsplit.desk.pages"]
MIDDLEWARE = [
    "halfsplit.desk.guard.headers.Headers",  # on top, so that style sheets carry them too
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "halfsplit.desk.guard.hosts.OwnNamesOnly",
    "halfsplit.desk.guard.key.KeyFromOtherMachines",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "halfsplit.desk.pages.failures.PlainSentences",
]
ROOT_URLCONF = "halfsplit.desk.pages.urls"
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "APP_DIRS": True,
        "OPTIONS": {"context_processors": ["halfsplit.desk.pages.style.versions"]},
    }
]

# Every answer rests on what was entered: it must be on the disk before it is acknowledged (FULL), and a page being
# read must not wait for one being written (WAL). A second program, such as the command line, waits up to 10 s.
DATABASES = {
    "default": {
        "ENGINE": "django.db.backends.sqlite3",
        "NAME": HOME / DATABASE,
        "CONN_MAX_AGE": None,
        "OPTIONS": {
            "timeout": 10,
            "transaction_mode": "IMMEDIATE",
            "init_command": "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL;",
        },
    }
}
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

STATIC_URL = "/static/"
WHITENOISE_USE_FINDERS = True  # straight from the package: nothing to collect on a technician's laptop
WHITENOISE_MAX_AGE = 86400  # addresses carry a version, see `pages.style`

CSRF_COOKIE_HTTPONLY = True
CSRF_FAILURE_VIEW = "halfsplit.desk.pages.failures.stale_form"
# Not `no-referrer`: with it browsers send `Origin: null` on every form, which the check against forged forms refuses.
SECURE_REFERRER_POLICY = "same-origin"
# Ignored with a complaint on the browser's console when the page comes by plain http, as it does on a home network.
SECURE_CROSS_ORIGIN_OPENER_POLICY = None
# Pages send short forms, and one of them a sheet: at most 256 kB, or three times that as a form writes it.
DATA_UPLOAD_MAX_MEMORY_SIZE = 1024 * 1024
DATA_UPLOAD_MAX_NUMBER_FIELDS = 100
DATA_UPLOAD_MAX_NUMBER_FILES = 1

USE_I18N = False
USE_TZ = True
TIME_ZONE = "UTC"  # as stored; `start.prepare` sees that pages show the clock on the wall

LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "handlers": {"stderr": {"class": "logging.StreamHandler"}, "nowhere": {"class": "logging.NullHandler"}},
    "root": {"handlers": ["stderr"], "level": "WARNING"},
    "loggers": {
        "django.request": {"level": "ERROR"},
        # Someone else's name for this machine is refused with a page; that is no mistake of ours.
        "django.security.DisallowedHost": {"handlers": ["nowhere"], "propagate": False},
    },
}
