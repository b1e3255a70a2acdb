"""The sheet that a player takes home: its facts, and the same as text and as HTML."""
