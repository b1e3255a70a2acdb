"""`python -m courtlog` is `courtlog`."""

from courtlog.cli.entry import main

main()
