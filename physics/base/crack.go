package base

import "fmt"

// Rank is the reading of a stress-crack index.
type Rank string

// The ranks, from the card of limits.
const (
	Lower Rank = "lower risk"   // below 0.7: rank behind others, still test
	Watch Rank = "test first"   // 0.7 to 1
	High  Rank = "crack likely" // from 1
)

// CrackIndex is stress over a threshold, with the range of the threshold. It
// ranks bases; it gives no life.
type CrackIndex struct {
	Value, Low, High float64
	Rank             Rank
	Label            string // always [Ranking]
}

// CrackIndexOf returns the stress-crack index of a tensile stress [Pa] in
// unoriented polyester: the stress over [CrackThreshold]. The stress is in
// 0..1e9 Pa: take the largest of gate and straps at the pressure of the hot
// store, or of the caustic bath. It knows neither agent, temperature, frozen
// stress nor viscosity. From memory, no published source.
func CrackIndexOf(stress float64) (CrackIndex, error) {
	if !(stress >= 0 && stress <= 1e9) {
		return CrackIndex{}, fmt.Errorf("base: stress crack: stress ‹%g Pa› outside ‹0..1e9 Pa›", stress)
	}
	t := CrackThreshold()
	i := CrackIndex{Value: stress / t.Value, Low: stress / t.High, High: stress / t.Low, Rank: Lower, Label: Ranking}
	switch {
	case i.Value >= datum("crack", "index.high").Value:
		i.Rank = High
	case i.Value >= datum("crack", "index.watch").Value:
		i.Rank = Watch
	}
	return i, nil
}
