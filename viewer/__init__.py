"""Everything a person looks at: pictures, reports and the command line."""
