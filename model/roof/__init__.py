"""The roof: faces, edges and corners, from a form's sizes or from faces."""
