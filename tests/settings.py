"""The embedded settings as the tests use them: nothing of this computer's own studio is read or touched.

Only DATABASE_URL is taken over, so that the same tests also run on PostgreSQL; Django then makes its own
test database beside the named one.
"""

import atexit
import os
import shutil
import tempfile
from pathlib import Path

OWN = ("SECRET_KEY", "SECRET_KEY_FALLBACKS", "SITE_ADDRESS", "ALLOWED_HOSTS", "MAIL_URL", "REDIS_URL")
CARDS = ("CARD_KEY", "CARD_SIGNING_SECRETS", "CARD_API", "CARD_PAGES")
for name in (*OWN, *CARDS, "SILVER_HOUR_MODE", "SILVER_HOUR_DEMO"):
    os.environ.pop(name, None)
os.environ["SILVER_HOUR_DATA"] = tempfile.mkdtemp(prefix="silver-hour-tests-")
atexit.register(shutil.rmtree, os.environ["SILVER_HOUR_DATA"], ignore_errors=True)

from config.settings import *  # noqa: E402, F403 - these are the site's settings with a few changes
from config.settings import DATA_DIR, DATABASES  # noqa: E402 - after the environment has been cleared

database = DATABASES["default"]
database["CONN_MAX_AGE"] = 0  # a connection kept by a thread would hold its test database open
if database["ENGINE"].endswith("sqlite3"):
    # A file, as in the studio: an in-memory database is locked in other ways when threads race for a place.
    database["TEST"] = {"NAME": str(Path(DATA_DIR) / "tests.sqlite3")}
    # No power cut is tested through this connection, and waiting for the disk would double the time.
    calm = database["OPTIONS"]["init_command"]
    database["OPTIONS"]["init_command"] = calm.replace("synchronous=FULL", "synchronous=OFF")

# The real one takes a tenth of a second for each sign-in, which is its purpose.
PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
EMAIL_BACKEND = "django.core.mail.backends.locmem.EmailBackend"
