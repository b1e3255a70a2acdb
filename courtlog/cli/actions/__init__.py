"""What the commands do, each imported only by the command that asks for it."""
