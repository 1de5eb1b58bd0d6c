"""What ours is measured against: plain library use and hand-made floors, one small script each."""
