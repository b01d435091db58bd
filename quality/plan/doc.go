// Package plan holds the usual qualification tests of bottles and closures
// with their numbers of pieces, and spreads the pieces over moulds. The
// numbers are defaults from common practice; every project edits them.
package plan
