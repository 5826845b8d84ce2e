"""What keeps maker and wearer safe, and the garment fit to wear: cautions, children's cords, care."""
