"""What only a yearly reappraisal has."""
