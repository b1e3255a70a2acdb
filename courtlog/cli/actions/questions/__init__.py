"""What commands ask before they change something."""
