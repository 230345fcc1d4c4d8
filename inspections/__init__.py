"""Looking after what stands: walks round, storms, and what was found wrong."""
