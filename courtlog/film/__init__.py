"""Films of a clinic: the times and names of video files, and files that players of films read."""
