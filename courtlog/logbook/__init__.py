"""The book: opening, migrations, writers, look-ups. The only place that knows SQL."""
