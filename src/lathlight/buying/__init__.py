"""What is bought: the basket by shop section, prices and tax in decimal money, and the shelf of offcuts."""
