"""The workfile: all that a report rests on, in one sealed zip file, and the check of such a file."""
