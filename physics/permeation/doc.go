// Package permeation computes what passes the wall and closure of a pack:
// carbon dioxide and water out, oxygen in.
//
// Steady: the conductance of a wall from its zones, layers in series, blends
// and crystals by Nielsen's rule, the exponential loss of a lumped pack, the
// steady ingress of oxygen and the loss of water. Materials come from a card,
// see [Materials]: carbon dioxide by dual-mode sorption ([DualMode]), the
// other gases by Henry's law.
package permeation
