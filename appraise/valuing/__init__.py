"""Valuing: from an item, its comparisons and the appraiser's tables to an opinion, every step to the cent.

`build_tables` once for a job, then `value_item` for each item and type of value, one item at a time, against a
`Ledger` (keeps nothing) or a `RecordingLedger` (keeps every figure with its operation and arguments). `job_rows` sorts
the rows of a job by item; what it gives goes into `value_inputs`.
"""

from appraise.valuing.job import JobRows, job_rows
from appraise.valuing.tables import JobTables, build_tables
from appraise.valuing.value import value_inputs, value_item

__all__ = ["JobRows", "JobTables", "build_tables", "job_rows", "value_inputs", "value_item"]
