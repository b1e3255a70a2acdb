"""What differs from one system to another, and is said once: signs, shells, names of files."""
