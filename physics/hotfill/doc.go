// Package hotfill computes what a pack closed hot does when it cools: the
// liquid contracts, the steam in the headspace condenses, the air cools, the
// bottle shrinks and its panels give way, and what is left is vacuum.
//
// [Cool] solves the balance in closed form. [Settle] lets the headspace gas
// dissolve as well, which deepens the vacuum. [State.Budget] splits the volume
// by cause. [Dose] sizes liquid nitrogen against the vacuum; [Lethality] counts
// pasteurisation units and F-values.
package hotfill
