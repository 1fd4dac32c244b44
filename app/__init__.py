"""The saved style, the commands, the papers and the window. Only ``app.window`` knows Qt."""
