"""The service call, one step after another, as pure functions over values."""
