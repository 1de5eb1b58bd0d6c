"""The proof workbook: every figure of a report as a live formula on what was typed, with ours beside it."""
