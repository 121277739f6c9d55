"""Before the bench and in the examination: who is ready, the papers of a practical examination, and the viva."""
