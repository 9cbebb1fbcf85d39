"""Published values that the chemistry is held against: trade-facts, sections 3 to 6, with how sure each is.

A: an official or primary text; B: a secondary text or one test; C: worked out from those; D: practice; E: from memory.
"""

# Aqueous silver nitrate at 20 °C: % w/w, g/mL, specific gravity 20/20, g/L, % w/v, grains to the US and to the imperial
# fluid ounce. 0, 1, 5, 10, 20 and 30 % are printed (CRC Handbook as reprinted, A/B), the others interpolated (C); the
# columns beside the density are worked out (C). "-" is not given.
DENSITY = (
    ("A", "0", "0.9982", "1.0000", "0", "0", "0", "0"),
    ("A", "1", "1.0070", "1.0088", "10.1", "1.01", "4.6", "4.4"),
    ("C", "2", "1.0153", "1.0171", "20.3", "2.03", "9.3", "8.9"),
    ("C", "3", "1.0240", "1.0258", "30.7", "3.07", "14.0", "13.5"),
    ("C", "4", "1.0328", "1.0346", "41.3", "4.13", "18.9", "18.1"),
    ("A", "5", "1.0417", "1.0436", "52.1", "5.21", "23.8", "22.8"),
    ("C", "6", "1.0507", "1.0526", "63.0", "6.30", "28.8", "27.6"),
    ("C", "7", "1.0599", "1.0618", "74.2", "7.42", "33.9", "32.5"),
    ("C", "8", "1.0692", "1.0711", "85.5", "8.55", "39.0", "37.5"),
    ("C", "9", "1.0786", "1.0806", "97.1", "9.71", "44.3", "42.6"),
    ("A", "10", "1.0882", "1.0902", "108.8", "10.88", "49.7", "47.7"),
    ("C", "12", "1.1078", "1.1098", "132.9", "13.29", "60.7", "58.3"),
    ("C", "14", "1.1282", "1.1302", "157.9", "15.79", "72.1", "69.3"),
    ("A", "20", "1.1942", "1.1963", "238.8", "23.88", "109.0", "104.7"),
    ("A", "30", "1.3204", "-", "396.1", "39.6", "-", "-"),
)

# g/L and specific gravity 20/20 (C).
ROUND_TARGETS = (
    ("60", "1.0501"), ("70", "1.0583"), ("80", "1.0666"), ("90", "1.0748"), ("100", "1.0829"), ("110", "1.0911"),
    ("120", "1.0993"),
)  # fmt: skip

# Grams or millilitres. NIST Handbook 44, appendix C (A); the imperial measures exact by definition (E).
UNITS = (
    ("A", "grain", "0.06479891"),
    ("A", "scruple", "1.2959782"),
    ("A", "drachm", "3.8879346"),
    ("A", "apothecaries_ounce", "31.1034768"),
    ("A", "avoirdupois_ounce", "28.349523125"),
    ("A", "avoirdupois_dram", "1.7718451953125"),
    ("A", "us_ounce", "29.5735295625"),
    ("A", "us_drachm", "3.6966911953125"),
    ("A", "us_pint", "473.176473"),
    ("E", "imperial_ounce", "28.4130625"),
    ("E", "imperial_drachm", "3.5516328125"),
    ("E", "imperial_pint", "568.26125"),
)

# For each cm² of plate: mL, or mg of silver nitrate. B: one published test; C: worked out; E: from memory.
CONSUMPTION = {
    "agno3_mg": ("B", "1.39"),
    "bath_ml": ("C", "0.014"),
    "film_agno3_mg": ("C", "0.12"),
    "collodion_ml": ("E", "0.03"),
    "developer_ml": ("C", "0.22"),
    "varnish_ml": ("E", "0.02"),
}
FIXER_CM2_A_LITRE = 10_000  # B

# Sizes in cm² and grams of silver nitrate that one plate takes at 9 % w/v: the published test (B).
SILVER_OF_A_PLATE = (("4×5", "129.03", "0.18"), ("5×7", "225.81", "0.31"), ("8×10", "516.13", "0.72"))
