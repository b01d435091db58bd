package answers_test

import (
	"encoding/json"
	"regexp"
	"strings"
	"testing"

	"costrel/unit"
	"costrel/web/api"
)

// swapped returns a system whose reader chose, for every quantity that the two sides
// of the ocean read in two units, the unit of the other side.
func swapped(t *testing.T, base unit.System) unit.System {
	t.Helper()
	other := unit.EU
	if base == unit.EU {
		other = unit.US
	}
	text := string(base)
	for _, p := range unit.Preferences() {
		if symbol := unit.Preferred(p.Kind, other); symbol != unit.Preferred(p.Kind, base) {
			text += "," + p.Key + "=" + symbol
		}
	}
	sys, err := unit.ParseSystem(text)
	if err != nil {
		t.Fatal(err)
	}
	return sys
}

// mass matches a mass of the size of a filled pack or a sack: in kg for one side, in g
// or lb for the other, though both read a preform in g. No unit was chosen for it.
var mass = regexp.MustCompile(`[ "](kg|lb)\b`)

// TestSwapped holds, for every example, that a reader of one side who chose every unit
// of the other reads, word for word, what a reader of the other side reads: no number,
// sentence, limit, axis or cell is shown by the side alone. What the side shows as it
// was written, a pressure in MPa or a carbonation in volumes, follows a choice.
func TestSwapped(t *testing.T) {
	s := serve(t, t.TempDir(), api.Options{})
	for f, text := range examples(t) {
		lines := func(sys unit.System) []string {
			side := map[string]string{"name": f, "text": text}
			raw, err := json.MarshalIndent([]json.RawMessage{
				ask(t, s, "/api/check", map[string]any{"name": f, "text": text, "units": sys}),
				ask(t, s, "/api/compare", map[string]any{"baseline": side, "variant": side, "units": sys}),
			}, "", " ")
			if err != nil {
				t.Fatal(err)
			}
			return strings.Split(strings.ReplaceAll(string(raw), `"units": "`+string(sys)+`"`, `"units"`), "\n")
		}
		for base, other := range map[unit.System]unit.System{unit.EU: unit.US, unit.US: unit.EU} {
			got, want, here := lines(swapped(t, base)), lines(other), lines(base)
			if len(got) != len(want) {
				t.Fatalf("%s: %d lines, want %d", f, len(got), len(want))
			}
			moved := 0
			for i := range got {
				written := strings.Contains(want[i], " MPa") && strings.Contains(got[i], " bar") || strings.Contains(want[i], "vol\"") && strings.Contains(got[i], "g/L\"")
				if got[i] != want[i] && !mass.MatchString(got[i]+want[i]) && !written {
					t.Errorf("%s, %s with all units of %s:\n%s\nwant\n%s", f, base, other, got[i], want[i])
				}
				if i < len(here) && here[i] != want[i] {
					moved++
				}
			}
			if moved < 300 {
				t.Errorf("%s: only %d lines differ between the sides: is the check blind?", f, moved)
			}
		}
	}
}
