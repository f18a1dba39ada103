"""Pages: a tap comes in, is read, becomes an entry, and the answer is shown. No arithmetic, no database, no script."""
