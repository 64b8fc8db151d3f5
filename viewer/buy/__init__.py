"""What to buy, on paper and for a spreadsheet: lists, and a cutting diagram."""
