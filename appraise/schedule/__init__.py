"""The schedule as a whole: totals, adequacy of cover, yearly revaluation, histories, track record, retention."""
