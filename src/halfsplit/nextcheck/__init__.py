"""The worth of each possible next check, behind the hazard gate."""
