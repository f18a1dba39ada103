"""What templates may do with words."""
