"""Who may see the desk, and what a browser may do with its pages. Knows nothing of calls."""
