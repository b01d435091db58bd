package shell

import (
	"testing"

	"costrel/cite/citetest"
)

func TestChecks(t *testing.T) {
	citetest.Rows(t, "shell.", Checks())
}

func BenchmarkChecks(b *testing.B) {
	for b.Loop() {
		for _, c := range Checks() {
			c.Run()
		}
	}
}
