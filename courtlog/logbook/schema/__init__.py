"""What a book consists of: its tables, views and triggers, and how older books become today's."""
