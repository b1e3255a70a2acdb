"""What is printed or handed over. Draws what look-ups return; decides nothing."""
