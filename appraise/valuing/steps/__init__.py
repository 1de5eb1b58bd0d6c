"""The steps that bring one comparison to the subject, one small file for each rule, in the order of rule R0.

price basis · premium · implied hammer -> currency -> market level -> time -> condition · originality · model period ·
combine -> lump sums -> findings. A step takes the line and the price so far and gives the price after it; a step that
does not apply gives the price back and makes no figure.
"""
