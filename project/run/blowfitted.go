package run

import (
	"fmt"
	"math"
	"strings"

	"costrel/figure"
	"costrel/physics/preform"
	"costrel/project/design"
)

// unfittedPanel is how far a computed panel may be off before calibration, 95 %:
// typical in print, from memory.
const unfittedPanel = 0.10

// massAlike is the share by which the preform may differ from the one that was
// fitted. Chosen for this project.
const massAlike = 0.01

// fittedBlow tells whether the blow was fitted to measured walls or weights of this
// preform.
func fittedBlow(d *design.Design) bool {
	if !(d.Blow.Residual > 0 && d.Blow.FitMass > 0) {
		return false
	}
	p, err := preform.New(preformSpec(d))
	if err != nil {
		return false
	}
	return math.Abs(p.Mass()/d.Blow.FitMass-1) < massAlike
}

// computedPanel is how far the computed panel may be off, 95 %, and why.
func computedPanel(d *design.Design) (by float64, basis string) {
	if fittedBlow(d) {
		return two95 * d.Blow.Residual, fmt.Sprintf("what the fit to measured walls has left in the panel, root mean square %.2g %%", 100*d.Blow.Residual)
	}
	return unfittedPanel, "accuracy of a computed wall ± 10 % before calibration, typical in print, from memory"
}

// fittedMoves leaves of what the process does to the wall what a fit to measured
// walls has left: the fit holds temperatures, air and rod together, so that their
// ranges no longer count one by one. Figures of the blow itself were not measured
// and keep them.
func fittedMoves(d *design.Design, f *figure.Figure) {
	section := strings.HasPrefix(f.Key, "section.")
	if !fittedBlow(d) || !section && !strings.HasPrefix(f.Key, "wall.") && !strings.HasPrefix(f.Key, "preform.ratio.") {
		return
	}
	by, basis := computedPanel(d)
	half := by * math.Abs(f.Value)
	if g := d.Blow.WeightLeft; section && g > 0 {
		half, basis = two95*g, fmt.Sprintf("what the fit has left of the section weights, root mean square %.2g g", 1e3*g)
	}
	f.Effects = []figure.Effect{{Path: "blow.wall_factor", Label: "What the fit leaves between the blow and what was measured", Low: -half, High: half, Basis: basis}}
}
