"""What a coach's laptop is given: courtlog to install and to start where there is no network."""
