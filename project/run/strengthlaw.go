package run

import (
	"fmt"
	"math"

	"costrel/project/design"
)

// factorRange is what is known of a factor on a law of the wall, 95 %.
type factorRange struct {
	path, label, basis string
	low, high          float64
	fitted             bool
}

// left turns into what a fit to tests leaves of it: spread is the standard
// deviation of its logarithm, 0 for no fit.
func (q factorRange) left(spread float64) factorRange {
	if spread <= 0 {
		return q
	}
	q.fitted = true
	q.high = math.Exp(two95 * spread)
	q.low = 1 / q.high
	q.basis = fmt.Sprintf("- %.0f .. + %.0f %%, what the fit to the tests leaves", 100*(1-q.low), 100*(q.high-1))
	return q
}

func stiffnessLaw(d *design.Design) factorRange {
	return factorRange{path: "handling.modulus_factor", label: "Law of the stiffness of the stretched wall", basis: "- 35 %, the other law of stiffness; + 20 %; from memory", low: 0.65, high: 1.2}.left(d.Handling.ModulusSD)
}

func strengthLaw(d *design.Design) factorRange {
	return factorRange{path: "handling.strength_factor", label: "Law of the strength of the stretched wall", basis: "- 15 .. + 40 %: hoop of ‹150 to 250 MPa› where the law gives 178, from memory", low: 0.85, high: 1.4}.left(d.Handling.StrengthSD)
}

func creepLaw(d *design.Design) factorRange {
	return factorRange{path: "handling.creep_factor", label: "Creep law", basis: "none .. 3 times, from memory", low: 0, high: 3}.left(d.Handling.CreepSD)
}

// topLoadLeft is what a fit leaves of the top load factor; not fitted, the
// imperfections stand in its place.
func topLoadLeft(d *design.Design) factorRange {
	return factorRange{path: "handling.topload_factor", label: "Top load over the computed one, stiffness and all"}.left(d.Handling.TopLoadSD)
}

// fittedLaws tells whether any factor was fitted: the fit then holds laws and
// computed wall together.
func fittedLaws(d *design.Design) bool {
	return stiffnessLaw(d).fitted || strengthLaw(d).fitted || creepLaw(d).fitted
}

// lawsNote says where the laws of the stretched wall come from.
func lawsNote(d *design.Design) string {
	var fitted, memory []string
	for _, q := range []struct {
		name string
		of   factorRange
	}{{"stiffness", stiffnessLaw(d)}, {"strength", strengthLaw(d)}, {"creep", creepLaw(d)}} {
		if q.of.fitted {
			fitted = append(fitted, q.name)
		} else {
			memory = append(memory, q.name)
		}
	}
	const convenience = " of the stretched wall: fits of convenience, from memory; calibrate on burst, top load and thermal stability"
	switch {
	case fitted == nil:
		return listed(memory) + convenience
	case memory == nil:
		return listed(fitted) + " of the stretched wall are fitted to tests of the laboratory; the bands are what the fit leaves"
	}
	return listed(fitted) + " of the stretched wall fitted to tests of the laboratory; " + listed(memory) + convenience
}

// countedWall says what the band counts of the wall.
func countedWall(d *design.Design, w *Wall) string {
	if !fittedLaws(d) {
		return w.note()
	}
	return fmt.Sprintf("the fit to the tests holds laws and computed wall together: of the wall the bands count the tolerance of making, ± %.0f %%", 100*makingTolerance)
}

// listed joins words as in a sentence.
func listed(words []string) string {
	switch n := len(words); n {
	case 0:
		return ""
	case 1:
		return words[0]
	default:
		s := words[0]
		for _, w := range words[1 : n-1] {
			s += ", " + w
		}
		return s + " and " + words[n-1]
	}
}

// makingTolerance is how far the wall differs from production to production
// where a fit holds it together with the laws: a section of 15.5 g ± 0.4 g,
// common practice.
const makingTolerance = 0.03
