"""`python -m sonify` is `sonify`."""

from sonify.cli import main

main()
