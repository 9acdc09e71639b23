"""What every page of limits says besides: how it was reckoned, how far, and who decides."""

from boxfit.search.easing import MOST_KILOGRAMS, MOST_MOVED, MOST_SHARE, MOST_VOLTS
from boxfit.search.easing_rules import MOST_MORE, NARROWEST_FLANGE, THINNEST

ALWAYS = (
    "Each thing is eased by itself, all else as in the files; kWh and front share are those of a layout"
    " searched anew and judged. The least easing is the least the search found, not proven least.",
    "Boxes and modules alone are weighed here: what is fixed to boxes and link cables come on top, and with"
    " them layout and build may hold fewer modules.",
    "A limit of the plate or a target eased is for an inspector to allow; a clearance, a liner, a gap or"
    " sheet eased is for the workshop. A smaller survey tolerance must be measured, not written.",
    "What lies behind a wall, above a top or below a floor is not known here, nor what cutting there does to"
    " the body's strength and the car's papers. What is taken away is still weighed as before.",
    f"Eased at most: faces, openings {MOST_MOVED:g} mm; allowances to nothing, sheet to {THINNEST:g} mm, a"
    f" flange to {NARROWEST_FLANGE:g} mm; the plate's limits by {MOST_KILOGRAMS:g} kg, volts by"
    f" {MOST_VOLTS:g}, target and its tolerance by {MOST_SHARE:g}; {MOST_MORE} more tiers or boxes. An"
    " opening taken away means boxes made up inside the bay.",
    "A working aid, not an approval: local codes and licensed practice decide, and an engineer signs.",
)
