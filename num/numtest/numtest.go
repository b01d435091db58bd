// Package numtest is what the tests of numbers share. Only test files import
// it.
package numtest

import (
	"flag"
	"math"
	"testing"

	_ "pgregory.net/rapid" // its flags
)

// Main runs the tests of a package: property tests draw the same cases every
// run and leave no files; -rapid.seed=N draws others. A package calls it in
// TestMain.
func Main(m *testing.M) {
	for name, value := range map[string]string{"rapid.seed": "20260101", "rapid.nofailfile": "true"} {
		if err := flag.Set(name, value); err != nil {
			panic(err)
		}
	}
	m.Run() // the caller's return hands the result on
}

// Near fails the test unless got is want within the fraction tol of want.
func Near(t testing.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol*math.Max(1e-300, math.Abs(want))) {
		t.Errorf("%s: %.15g, want %.15g (relative %.2g > %.2g)", what, got, want, (got-want)/want, tol)
	}
}

// Must returns v and panics on an error.
func Must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}
