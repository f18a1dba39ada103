"""What a page shows, worked out before any template runs: frozen values in plain words."""
