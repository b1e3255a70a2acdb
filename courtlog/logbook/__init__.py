"""The book: opening, migrations, one write door, look-ups. The only place that knows SQL."""
