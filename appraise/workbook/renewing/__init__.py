"""Next year's workbook from this year's: what is carried, renewed, or listed as not carried."""
