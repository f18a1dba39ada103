"""The web application with its records; the only room that knows Django.

`start` is its door: `prepare` a data folder, `serve` the pages. `records.store` is what both faces write calls with.
"""
