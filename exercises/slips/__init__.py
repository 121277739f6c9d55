"""The catalogue of slips: what a slip is, and those that several kinds share."""
