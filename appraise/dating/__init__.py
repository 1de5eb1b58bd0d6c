"""From statements of evidence to the window of manufacture of an item, with what set its ends and what disagrees.

The date sought is the month in which manufacture was completed. Everything is a set of whole months
(`appraise.model.months`); nothing here averages, and nothing is guessed from words that are not on the list.
"""
