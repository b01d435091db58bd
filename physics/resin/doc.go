// Package resin holds what PET is made of and how it behaves when nothing
// flows: data cards of the bottle grades, crystallinity from density, the
// stiffness and strength of a stretched wall, heat content, and the relation
// of intrinsic viscosity to chain length.
//
// PET in a bottle is one chemistry in several states. The preform is
// amorphous (1335 kg/m³, 2.2 GPa); stretching orients it and makes a fifth to
// a quarter of it crystalline (1360 kg/m³, 3 to 5 GPa along the stretch); a
// hot mould takes crystallinity to 30 % and more. Nearly every number here
// depends on which state is meant, so the names say it.
//
// A card is a list of values with range, source and confidence. [Grades]
// lists the PET grades; [New] reads one, or a card whose values the user
// changed, into a [Grade]. HDPE, PP and glass stand in [Materials] for
// comparison.
package resin
