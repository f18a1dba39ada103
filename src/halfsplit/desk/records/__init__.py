"""The records of calls; the only place that touches the database. `store` is the way in, for pages and command line."""
