"""The sheet kernel: a flat pattern with bend lines, cut, folded and thickened."""
