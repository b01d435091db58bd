package sym

import (
	"flag"
	"os"
	"testing"

	_ "pgregory.net/rapid" // its flags
)

// Property tests draw the same cases every run; -rapid.seed=N draws others.
func TestMain(m *testing.M) {
	for name, value := range map[string]string{"rapid.seed": "20260101", "rapid.nofailfile": "true"} {
		if err := flag.Set(name, value); err != nil {
			panic(err)
		}
	}
	os.Exit(m.Run())
}
