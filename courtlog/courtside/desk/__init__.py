"""What the coach decides, key by key: written to the book first, then shown. Knows no screen."""
