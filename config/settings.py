"""Settings, read from the environment. With nothing set: the embedded default, SQLite, no broker, one machine.

Every variable is listed in README.md ("Settings"); a test holds the two together.
"""

from pathlib import Path
from urllib.parse import urlsplit

import django_stubs_ext
import environ
from csp.constants import NONE, SELF
from django.core.exceptions import ImproperlyConfigured

from config.databases import configured

django_stubs_ext.monkeypatch()  # lets forms and admin classes name the model they are about

BASE_DIR = Path(__file__).resolve().parent.parent
env = environ.Env()

# --- Which machine is this ------------------------------------------------------------------------
# "embedded" tries things out on one machine; "production" refuses to start half-configured.
MODE = env.str("SILVER_HOUR_MODE", default="embedded")
if MODE not in {"embedded", "production"}:
    raise ImproperlyConfigured(f"SILVER_HOUR_MODE is {MODE!r}: write embedded or production.")
PRODUCTION = MODE == "production"

DATA_DIR = Path(env.str("SILVER_HOUR_DATA", default=str(BASE_DIR / "data"))).absolute()
DEBUG = False
# The practice studio: demo sign-ins are shown and a practice card page takes pretend deposits.
DEMO = env.bool("SILVER_HOUR_DEMO", default=False)

EMBEDDED_SECRET = "embedded-only-secret-which-production-refuses-to-start-with"
SECRET_KEY = env.str("SECRET_KEY", default=EMBEDDED_SECRET)
SECRET_KEY_FALLBACKS = env.list("SECRET_KEY_FALLBACKS", default=[])
SITE_ADDRESS = env.str("SITE_ADDRESS", default="http://127.0.0.1:8000").rstrip("/")
ALLOWED_HOSTS = [urlsplit(SITE_ADDRESS).hostname or "127.0.0.1", *env.list("ALLOWED_HOSTS", default=[])]
if not PRODUCTION:
    ALLOWED_HOSTS += ["localhost", "127.0.0.1", "[::1]"]
if PRODUCTION and (SECRET_KEY == EMBEDDED_SECRET or len(SECRET_KEY) < 50):
    raise ImproperlyConfigured("SECRET_KEY must be set to 50 or more random characters in production.")
if PRODUCTION and DEMO:
    raise ImproperlyConfigured("SILVER_HOUR_DEMO takes pretend money: it cannot be on in production.")
if PRODUCTION and not SITE_ADDRESS.startswith("https://"):
    raise ImproperlyConfigured("SITE_ADDRESS must start with https:// in production.")

# --- What it is made of ---------------------------------------------------------------------------
INSTALLED_APPS = [
    "plates.apps.PlatesConfig",
    "bookings.apps.BookingsConfig",
    "django.contrib.admin",
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "django.contrib.staticfiles",
    "django.forms",  # its widgets' templates, which FORM_RENDERER below looks for among those of the apps
    "crispy_forms",
    "crispy_bootstrap5",
    "axes",
    "csp",
]
MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "csp.middleware.CSPMiddleware",
    "bookings.middleware.LanguageMiddleware",
    "bookings.middleware.SetUpMethodsMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "bookings.middleware.RefusalMiddleware",
    "axes.middleware.AxesMiddleware",
]
ROOT_URLCONF = "config.urls"
WSGI_APPLICATION = "config.wsgi.application"
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [BASE_DIR / "templates"],
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
                "bookings.studio.selectors.studio",
            ]
        },
    }
]
FORM_RENDERER = "django.forms.renderers.TemplatesSetting"
CRISPY_ALLOWED_TEMPLATE_PACKS = "bootstrap5"
CRISPY_TEMPLATE_PACK = "bootstrap5"
CRISPY_FAIL_SILENTLY = False

# --- Where the rows are -----------------------------------------------------------------------------
DATABASES = {"default": configured(env.str("DATABASE_URL", default=""), DATA_DIR)}
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

# --- Who may sign in ----------------------------------------------------------------------------------
AUTHENTICATION_BACKENDS = [
    "axes.backends.AxesStandaloneBackend",
    "django.contrib.auth.backends.ModelBackend",
]
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": "django.contrib.auth.password_validation.UserAttributeSimilarityValidator"},
    {"NAME": "django.contrib.auth.password_validation.MinimumLengthValidator", "OPTIONS": {"min_length": 12}},
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
]
AXES_FAILURE_LIMIT = 5
AXES_COOLOFF_TIME = 0.25  # hours
AXES_LOCKOUT_PARAMETERS = [["username", "ip_address"]]
AXES_LOCKOUT_TEMPLATE = "registration/locked_out.html"
LOGIN_URL = "login"
LOGIN_REDIRECT_URL = "studio:today"
LOGOUT_REDIRECT_URL = "home"

# --- Time, words, files -------------------------------------------------------------------------------
LANGUAGE_CODE = "en-gb"
# Those in which there are words: of any other only Django's own would be said in it. The studio's locale chooses.
LANGUAGES = [("en-gb", "English"), ("de", "Deutsch")]
TIME_ZONE = "UTC"  # instants are kept in UTC; each page shows the zone of its venue
USE_TZ = True
STATIC_URL = "static/"
STATICFILES_DIRS = [BASE_DIR / "static"]
# Embedded, files are served from where they lie; there is no folder to collect them in, or to be missing.
STATIC_ROOT = DATA_DIR / "static" if PRODUCTION else None
STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage"},
    # Pictures of plates show sitters: no address leads to this folder, only a view behind the studio's door.
    "pictures": {
        "BACKEND": "django.core.files.storage.FileSystemStorage",
        "OPTIONS": {"location": DATA_DIR / "pictures", "file_permissions_mode": 0o600},
    },
    "staticfiles": {
        "BACKEND": "whitenoise.storage.CompressedManifestStaticFilesStorage"
        if PRODUCTION
        else "django.contrib.staticfiles.storage.StaticFilesStorage"
    },
}
WHITENOISE_USE_FINDERS = not PRODUCTION
FIXTURE_DIRS = [BASE_DIR / "fixtures"]

# --- Letters out ----------------------------------------------------------------------------------------
EMAIL_TIMEOUT = 10
if mail_address := env.str("MAIL_URL", default=""):
    vars().update(env.email_url_config(mail_address))
else:
    # The embedded default writes each letter to a file that can be opened and read.
    EMAIL_BACKEND = "django.core.mail.backends.filebased.EmailBackend"
    EMAIL_FILE_PATH = DATA_DIR / "mail"

# --- The bell -------------------------------------------------------------------------------------------
# Without REDIS_URL there is no broker at all: `manage.py drain` looks at the rows by itself.
REDIS_URL = env.str("REDIS_URL", default="")
CELERY_BROKER_URL = REDIS_URL or "memory://"
CELERY_TASK_IGNORE_RESULT = True
CELERY_TIMEZONE = "UTC"
CELERY_BROKER_CONNECTION_RETRY_ON_STARTUP = True
# A broker that takes the call and never answers must not hold up the page that rings (seconds).
CELERY_BROKER_TRANSPORT_OPTIONS = {"socket_timeout": 3, "socket_connect_timeout": 2}
CELERY_BEAT_SCHEDULE = {"sweep-due-work": {"task": "bookings.tasks.drain_due_work", "schedule": 10.0}}

# --- Cards ----------------------------------------------------------------------------------------------
# Without CARD_KEY nobody is offered to pay by card online.
CARD_KEY = env.str("CARD_KEY", default="")
CARD_SIGNING_SECRETS = env.list("CARD_SIGNING_SECRETS", default=[])
CARD_API = env.str("CARD_API", default="").rstrip("/")
# Where the card service shows its pages: the only address outside that a form may lead to, from pages to pay.
CARD_PAGES = env.str("CARD_PAGES", default="https://checkout.stripe.com").rstrip("/")
if CARD_KEY and not 1 <= len(CARD_SIGNING_SECRETS) <= 2:
    raise ImproperlyConfigured(
        "CARD_KEY takes money, of which only signed messages tell: CARD_SIGNING_SECRETS must hold one secret, "
        "or two while they change."
    )
if PRODUCTION and not all(address.startswith("https://") for address in (CARD_API, CARD_PAGES) if address):
    raise ImproperlyConfigured("CARD_API and CARD_PAGES must start with https:// in production.")

# --- Locks on the doors ---------------------------------------------------------------------------------
CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": [NONE],
        "script-src": [SELF],
        "style-src": [SELF],
        "img-src": [SELF, "data:"],  # the form pack's stylesheet draws its check marks as data: pictures
        "font-src": [SELF],
        "connect-src": [SELF],
        "form-action": [SELF],
        "base-uri": [NONE],
        "frame-ancestors": [NONE],
        "object-src": [NONE],
    }
}
X_FRAME_OPTIONS = "DENY"
# Not "no-referrer": browsers then send "Origin: null" with a form, and the forgery check refuses it.
SECURE_REFERRER_POLICY = "same-origin"
SESSION_COOKIE_HTTPONLY = True
SESSION_COOKIE_AGE = 12 * 3600
CSRF_COOKIE_HTTPONLY = True
CSRF_TRUSTED_ORIGINS = [SITE_ADDRESS]
if PRODUCTION:
    SECURE_SSL_REDIRECT = True
    SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https")
    SECURE_HSTS_SECONDS = 31_536_000
    SECURE_HSTS_INCLUDE_SUBDOMAINS = True
    SECURE_HSTS_PRELOAD = True
    SESSION_COOKIE_SECURE = True
    CSRF_COOKIE_SECURE = True
    SESSION_COOKIE_NAME = "__Host-session"
    CSRF_COOKIE_NAME = "__Host-csrf"

LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"plain": {"format": "{asctime} {levelname} {name}: {message}", "style": "{"}},
    "handlers": {"console": {"class": "logging.StreamHandler", "formatter": "plain"}},
    "root": {"handlers": ["console"], "level": "WARNING"},
    "loggers": {
        "bookings": {"level": "INFO"},
        "plates": {"level": "INFO"},
        # It warns at each HEAD request, for which Django leaves the dropping of the body to the server.
        "gunicorn.http.wsgi": {"level": "ERROR"},
    },
}
