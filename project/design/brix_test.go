package design

import (
	"strings"
	"testing"

	"costrel/unit"
)

// Sugar is written by the litre; degrees Brix are answered with their grams.
func TestBrixIsAnsweredInGrams(t *testing.T) {
	for _, c := range []struct{ drink, want string }{
		{"sugar: 11 °Brix", `"11 °Brix" is a share of the mass`},
		{"sugar: 11 °Brix", "114.6 g/L"}, // 0.11 of 1042.26 kg/m³, ICUMSA SPS-4
		{"sugar: 11Bx", "114.6 g/L"},
		{"sugar: 90 °Bx", "unknown unit"},
		{"carbonation: 11 °Brix", "unknown unit"},
	} {
		if _, err := Load("", minimal("csd-1500")+"drink:\n  "+c.drink+"\n"); err == nil || !strings.Contains(unit.Spell(err.Error(), unit.EU), c.want) {
			t.Errorf("%s: %v", c.drink, err)
		}
	}
	if _, err := Load("", minimal("csd-1500")+"brief:\n  per_year: 1.5\n"); err == nil || !strings.Contains(unit.Spell(err.Error(), unit.EU), `"1.5" is not a whole number`) {
		t.Error(err)
	}
}
