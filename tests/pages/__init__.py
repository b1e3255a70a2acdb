"""What every page must hold for whoever may come to a clinic."""
