"""The catalogue of findings: one file a topic, each entry with code, severity, wording, what to do, why and rule."""
