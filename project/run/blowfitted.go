package run

import (
	"fmt"
	"math"
	"strings"

	"costrel/figure"
	"costrel/project/design"
)

// unfittedPanel is how far a computed panel may be off before calibration, 95 %:
// typical in print, from memory.
const unfittedPanel = 0.10

// fittedBlow tells whether the blow was fitted to measured walls or weights near
// the process and the preform of the design.
func fittedBlow(d *design.Design) bool { return written(d) && FitMoved(d) == "" }

// written tells whether a fit stands in the design.
func written(d *design.Design) bool { return d.Blow.Residual > 0 || d.Blow.WeightLeft > 0 }

// computedPanel is how far the computed panel may be off, 95 %, and why.
func computedPanel(d *design.Design) (by float64, basis string) {
	if d.Blow.Residual > 0 && fittedBlow(d) {
		return two95 * d.Blow.Residual, fmt.Sprintf("what the fit to wall readings has left in the panel, root mean square %.2g %%", 100*d.Blow.Residual)
	}
	return unfittedPanel, "accuracy of a computed wall ± 10 % before calibration, typical in print, from memory"
}

// fitNote says why a fit that stands in the design does not count, and nothing
// where it does.
func fitNote(d *design.Design) string {
	if !written(d) {
		return ""
	}
	why := FitMoved(d)
	if why == "" {
		return ""
	}
	return "the fit of the blow does not count here, the bands are those of an unfitted blow: " + why + "; fit it anew with costrel calibrate"
}

// fittedMoves leaves of what the process does to the wall what a fit to measured
// walls has left: the fit holds temperatures, air and rod together, so that their
// ranges no longer count one by one. Figures of the blow itself were not measured
// and keep them.
func fittedMoves(d *design.Design, f *figure.Figure) {
	section := strings.HasPrefix(f.Key, "section.")
	if !section && !strings.HasPrefix(f.Key, "wall.panel.") && !strings.HasPrefix(f.Key, "preform.ratio.") {
		return
	}
	g := d.Blow.WeightLeft
	if !section && d.Blow.Residual == 0 || section && g == 0 || !fittedBlow(d) {
		return // nothing was measured there, or at another process
	}
	by, basis := computedPanel(d)
	half := by * math.Abs(f.Value)
	if section {
		half, basis = two95*g, fmt.Sprintf("what the fit has left of the section weights, root mean square %.2g g", 1e3*g)
	}
	f.Effects = []figure.Effect{{Path: "blow.wall_factor", Label: "What the fit leaves between the blow and what was measured", Low: -half, High: half, Basis: basis}}
}
