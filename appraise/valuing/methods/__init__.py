"""Methods, one file for each way to a value; each names its value types in `VALUES` and is found by itself."""
