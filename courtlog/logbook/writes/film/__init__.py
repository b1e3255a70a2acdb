"""Changes to films, one transaction each."""
