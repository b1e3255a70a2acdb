"""`python -m courtlog` is `courtlog`."""

from courtlog.cli.door import main

main()
