package run

import (
	"fmt"
	"math"

	"costrel/figure"
	"costrel/physics/hotfill"
	"costrel/physics/shell"
	"costrel/quality"
	"costrel/unit"
)

// vacuum is that of a cooled hot-filled pack; the zero value is none.
type vacuum struct {
	below float64 // ambient [Pa]
	note  string  // why it is not known
}

// vacuumShare is how far the vacuum of a cooled pack is taken to be known, by
// the bands of hotfill.vacuum of the examples: chosen for this project.
const vacuumShare = 0.2

// vacuumBasis says so.
func vacuumBasis() string {
	return fmt.Sprintf("± %.0f %% of the vacuum, chosen for this project", 100*vacuumShare)
}

// hotTests is the hot-filled pack with the panels of the vacuum test, where the
// design takes them from there.
func (t *strengthTests) hotTests() (*hotCase, error) {
	h, err := t.hotPack()
	if err == nil && t.d.HotFill.PanelSource == "computed" && t.panel != nil {
		h.pack.Panel.Compliance, h.pack.Panel.Curve = 0, t.panel
	}
	return h, err
}

// cold returns a top load with a hot-filled pack at a temperature in it: as it has
// cooled, or settled, days after filling. The platen then compresses the thin gas
// of its headspace, and the panels come out again. A pack that nitrogen leaves
// under pressure holds that.
func (t *strengthTests) cold(in shell.TopLoadInput, at unit.Temperature, settled bool) (shell.TopLoadInput, vacuum) {
	h, err := t.hotTests()
	var st hotfill.State
	if err == nil {
		h.store.Temperature = at
		if st, err = hotfill.Cool(h.pack, h.store); settled && err == nil {
			st, err = hotfill.Settle(h.pack, h.store, h.air())
		}
	}
	if err != nil {
		return in, vacuum{note: quality.EstimatePrefix + ": the vacuum of the cooled pack is left out: " + err.Error()}
	}
	if st.Headspace > 0 && st.Headspace < t.shape.Brimful/2 {
		in.Headspace = st.Headspace
	}
	in.Ambient = float64(h.store.Ambient)
	if st.Vacuum <= 0 {
		in.Gauge = -st.Vacuum
		return in, vacuum{}
	}
	in.Vacuum, in.Give = st.Vacuum, h.pack.Panel.Volume(st.Vacuum)/st.Vacuum
	return in, vacuum{below: st.Vacuum}
}

// pulledIn says that the vacuum of a hot-filled pack collapses the round wall that
// the design takes for its panels; nil where panels of its own stand in for it.
func (t *strengthTests) pulledIn(v vacuum, soft float64) error {
	if t.d.HotFill.PanelSource != "computed" {
		return nil
	}
	if err := t.collapsed(-v.below, soft); err != nil {
		return fmt.Errorf("%w; panels of the bottle stand in with hotfill.panel_source: design", err)
	}
	return nil
}

// pulls puts a vacuum behind a top load. It draws finish and base together
// before the platen does, by statics and whatever form the panels take: with
// Δp π r² at the place that gives way.
func (p *pushed) pulls(t *strengthTests, v vacuum) {
	r := p.radius(t)
	p.vacuum, p.pull = v, v.below*math.Pi*r*r
}

// radius is that of the wall where it gives way [m].
func (p *pushed) radius(t *strengthTests) float64 {
	if d, err := t.shape.Bottle.DiameterAt(math.Max(p.r.Place, 0)); err == nil && d > 0 {
		return d / 2
	}
	return t.d.Bottle.PanelDiameter / 2
}

func (v vacuum) inputs(radius float64) []figure.Input {
	return []figure.Input{
		computed("hotfill.panel_compliance", "Δp", "Pack: vacuum before the platen", v.below, unit.PressureChange),
		computed("bottle.profile", "r", "Radius where it gives way", radius, unit.Length),
	}
}
