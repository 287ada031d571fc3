"""`python -m archive`: the command `lemel`."""

from archive.cli import main

main()
