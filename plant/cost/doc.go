// Package cost prices 1000 bottles line by line, from quantities that the
// rest of costrel computes and prices that stand in a data card and can be
// replaced one by one, and works out the payback of a change.
package cost
