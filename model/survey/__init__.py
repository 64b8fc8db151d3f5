"""A roof as the tape says it is: its true sizes, what no tape tells, and which reading is in doubt."""
