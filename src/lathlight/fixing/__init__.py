"""How sheets, mouldings and flats are held: screws, pins, glue, brads, clamping, joining hardware."""
