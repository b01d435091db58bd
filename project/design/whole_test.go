package design

import (
	"strings"
	"testing"

	"costrel/unit"
)

// A whole number says what is wrong with it: the spelling, the size, or that it is none.
func TestWholeNumbers(t *testing.T) {
	for text, want := range map[string]string{
		"5e0":  `"5e0" is a whole number in another spelling: write 5`,
		"5.0":  `"5.0" is a whole number in another spelling: write 5`,
		"-2":   "-2 is outside the accepted range; expected ",
		"5.5":  `"5.5" is not a whole number`,
		"five": `"five" is not a whole number`,
	} {
		_, err := Load("", minimal("csd-1500")+"bottle:\n  base:\n    feet: "+text+"\n")
		if err == nil || !strings.Contains(unit.Spell(err.Error(), unit.EU), want) {
			t.Errorf("%s: %v", text, err)
		}
	}
}
