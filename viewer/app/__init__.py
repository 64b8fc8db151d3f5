"""The app: the roof's view with a form beside it, live, in a browser on this machine."""
