"""What each suspect would show at each check in each setup."""
