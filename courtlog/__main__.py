"""`python -m courtlog` is `courtlog`."""

from courtlog.cli.start import main

main()
