"""Settings of the desk.

For now only what the test runner and the type checker need to start; the desk itself brings the rest.
"""

# No secret lies in the source: whoever serves the desk brings one, and an empty one refuses to sign anything.
SECRET_KEY = ""
INSTALLED_APPS: list[str] = []
DATABASES: dict[str, dict[str, str]] = {}
USE_TZ = True
