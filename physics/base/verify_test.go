package base

import (
	"testing"

	"costrel/cite/citetest"
)

func TestChecks(t *testing.T) {
	citetest.Rows(t, "base.", Checks())
	citetest.Sharp(t, 0.02, Checks())
	keys := []string{"Zagarola", "PlasticsNewsAIPMA2018", "DemirelDaver2009", "ISBTStressCrack", "PTIMethods", "Timoshenko1959", "Zoelly1915", "NASASP8032"}
	for _, c := range Cautions(5e5, true) {
		keys = append(keys, c.Source)
	}
	citetest.Sources(t, keys...)
}

func TestCards(t *testing.T) {
	want := map[string]int{"strap": 1, "crack": 4, "rule": 10, "snap": 2}
	cards := Cards()
	if len(cards) != len(want) {
		t.Fatalf("%d cards", len(cards))
	}
	for _, c := range cards {
		if len(c.Data) != want[c.Name] {
			t.Errorf("%s: %d data, want %d", c.Name, len(c.Data), want[c.Name])
		}
	}
	cards[0].Data[0].Value = 9
	if StrapFactor().Value != 2 {
		t.Error("Cards hands out the package's own data")
	}
	if d := CrackThreshold(); d.Low != 12e6 || d.High != 20e6 || d.Confidence != "low" {
		t.Errorf("%+v", d)
	}
}
