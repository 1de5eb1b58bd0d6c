"""One module per section template; each has a function `build(house: bytes) -> bytes`."""
