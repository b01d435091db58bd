package unit

import "testing"

// TestComplianceFollowsPressure: a compliance is read per unit of the vacuum that
// it is multiplied with, where the reader chose one; a choice of its own parts from it.
func TestComplianceFollowsPressure(t *testing.T) {
	for text, want := range map[string]string{
		"us":                                "fl oz/psi",
		"us,pressure=bar":                   "mL/kPa",
		"us,pressure=kPa":                   "mL/kPa",
		"eu,pressure=mbar":                  "mL/mbar",
		"eu,pressure=psi":                   "fl oz/psi",
		"us,pressure=bar,compliance=mL/bar": "mL/bar",
	} {
		sys, err := ParseSystem(text)
		if err != nil {
			t.Errorf("%s: %v", text, err)
			continue
		}
		if got := Preferred(Compliance, sys); got != want {
			t.Errorf("%s: compliance in %s beside a vacuum in %s, want %s", text, got, Preferred(Vacuum, sys), want)
		}
	}
}
