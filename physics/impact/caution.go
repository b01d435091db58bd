package impact

import (
	"fmt"

	"costrel/unit"
)

// Caution is a text to show with an answer, and its source.
type Caution struct {
	Text   string
	Source string // key in cite
}

// Cautions returns the cautions of a drop test with an energy [J] and a gauge
// pressure in the pack. They are for the people at the rig, and are no safety
// analysis.
func Cautions(energy float64, p unit.GaugePressure) []Caution {
	out := []Caution{{fmt.Sprintf("Drop test: the pack brings ‹%.2g J› to the floor. Fence the area, release from outside it, wear eye and foot protection; floor and splashed liquid are slippery.", energy), "CommonPractice"}}
	if p > 0 {
		out = append(out,
			Caution{"The pack is a charged vessel, more so when warm. It may tear and fly, and its closure may leave explosively: use a shield, keep faces out of the line of the closure.", "Willhoft1996"},
			Caution{"Treat a pack that survived as damaged: let the pressure off slowly, chilled, behind the shield; mark it \"not for consumption\".", "CommonPractice"})
	}
	return append(out, Caution{"A drop index is an engineering estimate that ranks designs. It replaces no drop test of this pack, cold and warm, upright and flat.", "CommonPractice"})
}
