"""From what a person typed to records: forms, tables, headings, values of each kind, ids, the library."""
