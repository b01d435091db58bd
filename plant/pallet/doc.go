// Package pallet computes what a pack bears and meets between palletiser and
// shop: the load of the stack above it, how many stand in a layer, and the
// energy of a drop.
package pallet
