"""One module for each verb: it joins reading, dating, valuing, checking and writing. The day is an argument."""
