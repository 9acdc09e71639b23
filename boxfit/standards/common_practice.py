"""What a workshop does where nobody says otherwise. Every figure here: common practice, no source."""

from boxfit.bay import BoxRules

ONE_PERSON = 25.0
"""What one person lifts [kg]; heavier modules or boxes need lifting points (common practice, no source)."""

USUAL_BOX = BoxRules(
    material="aluminium-5754",  # common practice, no source: bends tight, welds without losing strength
    process="folded",  # common practice, no source
    shape="rectangular",  # common practice, no source
    thickness=2.5,  # [mm] common practice, no source
    bend_radius=2.5,  # [mm] inside, common practice, no source
    flange=22.0,  # [mm] common practice, no source
    lid_thickness=2.0,  # [mm] common practice, no source
    clearance=10.0,  # [mm] box to fixed body, common practice, no source
    liner=3.0,  # [mm] common practice, no source
    gap=4.0,  # [mm] module to liner, common practice, no source
    headroom=5.0,  # [mm] common practice, no source
    tiers=2,  # at most, common practice, no source
    boxes=1,  # at most in a bay, common practice, no source
)
"""What a [box] table means where it leaves a key out. [mm]"""
