"""Facts of the trade that tests hold the code against, with where each is from and how sure it is."""

# Sides in inches: "19th Century Photographic Plate Sizes" and a camera museum's page print the same six sizes
# (confidence B: published secondary text). 4x5, 5x7 and 8x10 are their names (confidence C: arithmetic).
# Areas are these sides times 25.4 mm exactly, rounded to 0.01 cm2; other pages print other sides for the
# sixth, quarter and half plate, which is why the studio can edit them.
PLATE_SIDES_INCHES = {
    "Sixteenth": ("1.375", "1.625"),
    "Ninth": ("2", "2.5"),
    "Sixth": ("2.75", "3.25"),
    "Quarter": ("3.25", "4.25"),
    "4×5": ("4", "5"),
    "Half": ("4.25", "5.5"),
    "5×7": ("5", "7"),
    "Whole": ("6.5", "8.5"),
    "8×10": ("8", "10"),
}

# The handbook table of plate areas, in square centimetres (same sources and confidence).
PLATE_AREAS_CM2 = {
    "Sixteenth": "14.42",
    "Ninth": "32.26",
    "Sixth": "57.66",
    "Quarter": "89.11",
    "4×5": "129.03",
    "Half": "150.81",
    "5×7": "225.81",
    "Whole": "356.45",
    "8×10": "516.13",
}
