"""Heat: what a joint will do under its pads, and how a finished heat run stands against its limits.

Pure: numbers in, numbers out; no database, no clock, no network.

Where the model holds. The joint is a stack of thin plates on one plane grid, each lumped through its
thickness or cut into sub-layers, conducting in its plane, meeting its neighbour through half a layer on
either side and a contact. It holds while every layer is thin against the distances asked about (thickness
under a
third of the nearest pad edge), flat or gently curved (radius over ten thicknesses), in air that is still or
evenly
moved, below the temperature where a layer decomposes. A hollow profile is its near wall, its far wall, the
webs between and an even exchange across the cavity.

Where it does not hold. Heat of reaction of a curing adhesive, melting, boiling moisture, gaps that open as
the joint parts, a flame or hot air instead of pads, joints thicker than they are wide, curved stacks,
cooling by
blown air that changes with time. Zones outside are refused with the reason (`bayleaf.heat.scope`).

Convention of faces: a bare face loses c |dT|^n + emissivity sigma (T^4 - Ta^4), reckoned at the face itself,
which is reached from the outermost node through half that (sub-)layer's thickness.

The vehicle maker's instructions and the adhesive's data sheet come before every figure made here.
"""
