"""The demonstration jobs: text sources in one folder for each job, and the command that makes their workbooks.

Everything in them is invented: makers, models, houses, dealers, people, places, prices, rates, indexes, percents.
"""
