"""The screens that lie over the court: one file for each."""
