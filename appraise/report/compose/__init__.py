"""From a job and its results to the view: what is said, in which order, in which words."""
