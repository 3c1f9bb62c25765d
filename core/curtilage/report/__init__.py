"""Words, tables and pages of a design. Nothing is computed while rendering; numbers are rounded here and nowhere else."""
