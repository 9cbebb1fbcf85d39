"""What tests read back: pages, letters, papers, by libraries that share no code with what made them."""
