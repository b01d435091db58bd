package impact

import (
	"testing"

	"costrel/cite/citetest"
)

func TestChecks(t *testing.T) {
	citetest.Rows(t, "impact.", Checks())
	citetest.Sharp(t, 0.02, Checks())
	keys := []string{"Joukowsky1900", "Korteweg1878", "WylieStreeter1993", "KaracIvankovic2009", "ASTMD2463", "DixonMood1948", "Brandau201610"}
	for _, c := range Cautions(10, 4e5) {
		keys = append(keys, c.Source)
	}
	citetest.Sources(t, keys...)
}

func TestCards(t *testing.T) {
	want := map[string][]string{
		"base":        {"petaloid", "hemisphere", "punt", "ribbed", "flat", "rigid"},
		"rate":        {"slope", "reference"},
		"temperature": {"modulus.0", "modulus.23", "modulus.40", "yield.0", "yield.23", "yield.40", "ductility.0", "ductility.23", "ductility.40"},
		"gate":        {"viscosity.reference", "viscosity.loss", "viscosity.least"},
		"index":       {"test", "likely"},
	}
	cards := Cards()
	if len(cards) != len(want) {
		t.Fatalf("%d cards, want %d", len(cards), len(want))
	}
	for _, c := range cards {
		if len(c.Data) != len(want[c.Name]) {
			t.Errorf("%s: %d data, want %d", c.Name, len(c.Data), len(want[c.Name]))
		}
		for _, k := range want[c.Name] {
			if _, ok := c.Get(k); !ok {
				t.Errorf("%s lacks %s", c.Name, k)
			}
		}
	}
	cards[0].Data[0].Value = 9
	if d, _ := BaseFactor("petaloid"); d.Value != 0.6 {
		t.Error("Cards hands out the package's own data")
	}
}
