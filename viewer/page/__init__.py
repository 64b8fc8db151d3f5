"""The page: a roof in one HTML file that opens offline, and the viewer module that pages and apps share."""
