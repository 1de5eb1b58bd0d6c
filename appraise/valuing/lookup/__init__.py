"""The appraiser's tables as look-ups, built once for a job: premiums, rates, indexes, scales, model periods.

Each module gives its look-up and the findings about the table itself (topic TBL). A row that cannot be used is left
out with a finding; what is then looked up in vain says so where it is needed.
"""
