"""`python -m workbooks_demo`."""

from workbooks_demo.make import main

main()
