"""The web application with its records; the only room that knows Django."""
