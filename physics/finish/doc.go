// Package finish holds the neck finishes of PET bottles: thread, seal
// surfaces, tamper bead, ledge and mass, as data cards under generic trade
// names, and what follows from their geometry.
//
// Lengths are from the drawing names of the trade: T thread, E root, I bore;
// the height runs from the seal surface to the top of the support ledge. The
// travel is the angle through which a closure turns from first engagement to
// seated; over a full turn the closure rises by the lead, pitch times starts.
//
// Standards are named only as references in notes. A card is a starting point
// for a calculation, not a drawing: buy the drawing before cutting steel. Many
// dimensions of the light necks are from memory; [Finish.LowConfidence] lists
// them.
package finish
