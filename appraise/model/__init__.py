"""The frozen types that every other part shares: places, findings, money, months, figures and the ledger.

Nothing here reads a file, a clock or a language; nothing here knows a sheet or a report.
"""
